#pragma once

#include <functional>

#include "base/instant.hpp"
#include "content/library.hpp"
#include "practice/crew_log.hpp"
#include "store/store.hpp"

namespace cli {

/// The whole answer log, by number. `also` sees every answer, for what else is wanted of the same reading.
[[nodiscard]] practice::CrewLogReader read_crew_log(const content::Library& library, store::Store& store,
                                                    base::Instant now,
                                                    const std::function<void(const store::AnswerRecord&)>& also = {});

}  // namespace cli
