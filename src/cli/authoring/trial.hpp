#pragma once

#include <map>
#include <string>

#include "base/fault.hpp"
#include "cli/context.hpp"

namespace cli {

/// The folder of a shop's own content: --into, or "library" in the data home, which every verb lays over the shipped.
[[nodiscard]] std::string own_library(const Context& context);

/// The file of a deck in such a folder.
[[nodiscard]] std::string deck_path(const std::string& library, const std::string& deck);

/// What `library check` would find in a folder of own content if decks took their place there: tried out on a copy, so
/// that nothing is written when there are faults. Of other decks only errors are told.
/// Takes   decks: text by name of the deck.
/// Gives   faults and warnings; `file` is the deck's own path.
/// Throws Failure when the folder cannot be written.
[[nodiscard]] base::Faults try_decks(const Context& context, const std::string& library,
                                     const std::map<std::string, std::string>& decks);

/// Writes the decks to their places, each whole or not at all; makes the folder.
void write_decks(const std::string& library, const std::map<std::string, std::string>& decks);

}  // namespace cli
