#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "memory/state.hpp"

namespace store::sqlite {

/// A learner's states in order of point.
using StateList = std::vector<std::pair<std::string, memory::RecallState>>;

/// The states of one learner as one value. A start reads all of them and never some: as rows they cost ten times as
/// much. Doubles are kept bit by bit. docs/formats/store.md gives the layout.
[[nodiscard]] std::string pack(const StateList& states);

/// Nothing when the bytes are cut short or were written by another version.
[[nodiscard]] std::optional<StateList> unpack(std::string_view bytes);

}  // namespace store::sqlite
