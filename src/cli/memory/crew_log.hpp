#pragma once

#include "base/instant.hpp"
#include "content/library.hpp"
#include "practice/crew_log.hpp"
#include "store/store.hpp"

namespace cli {

/// The whole answer log, by number.
[[nodiscard]] practice::CrewLogReader read_crew_log(const content::Library& library, store::Store& store,
                                                    base::Instant now);

}  // namespace cli
