#pragma once

#include "base/located_json.hpp"
#include "content/deck.hpp"

namespace content {

/// A question of a point, or an ask of a scenario (which also names its point).
[[nodiscard]] Question read_question(const base::Reader& reader, bool in_scenario);

// Shared by the readers of this folder; each notes what is wrong and gives a usable value.
[[nodiscard]] trade::EditionRange read_editions(const base::Reader& reader, std::string_view key);
[[nodiscard]] trade::Basis read_basis(const base::Reader& reader);
[[nodiscard]] Check read_check(const base::Reader& reader);
[[nodiscard]] Place place_of(const base::Reader& reader);

}  // namespace content
