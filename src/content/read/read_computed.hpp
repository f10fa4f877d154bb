#pragma once

#include "base/located_json.hpp"
#include "content/deck.hpp"

namespace content {

/// The members of an ask whose answer is worked out: "compute", "mistakes", "says", "phrases", "places", "within".
void read_computed(const base::Reader& reader, Question& question);

}  // namespace content
