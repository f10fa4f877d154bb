#pragma once

#include <map>
#include <string>

#include <nlohmann/json.hpp>

namespace cli {

/// The deck of that name in a folder of own content; null when there is none yet.
/// Throws Failure (bad_data) when it cannot be read.
[[nodiscard]] nlohmann::ordered_json own_deck(const std::string& library, const std::string& deck);

/// Puts a deck's points into another: one with the same id takes the place of the old, others come last; mistakes are
/// put together, newer lines for older. `into` may be null.
/// Gives   where each point of `from` now stands, by its place there.
std::map<std::size_t, std::size_t> put_into(nlohmann::ordered_json& into, const nlohmann::ordered_json& from);

}  // namespace cli
