#pragma once

#include <string>

#include <nlohmann/json.hpp>

#include "cli/authoring/interview.hpp"

namespace cli {

/// Asks for one question of a point, form by form.
/// Takes   deck: whose mistakes may be named again; new ones are added to it. id: of the question. before: the same
///         question as it was given and did not stand, whose parts an empty reply keeps; else null.
/// Gives   the question as a deck has it.
/// Throws Failure as Interview does.
[[nodiscard]] nlohmann::ordered_json ask_question(Interview& interview, nlohmann::ordered_json& deck,
                                                  const std::string& id, const nlohmann::ordered_json& before);

/// Asks what a statement rests on.
[[nodiscard]] nlohmann::ordered_json basis_of(Interview& interview);

}  // namespace cli
