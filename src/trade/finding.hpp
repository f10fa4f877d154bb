#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/quantity.hpp"

namespace trade {

/// What a calculator says of the facts it was given.
struct Finding {
    std::optional<base::Quantity> answer;  ///< empty exactly when `unknown` is not
    std::vector<std::string> steps;        ///< the working, in the order a person would do it
    std::vector<std::string> articles;     ///< the references that govern, for the edition
    std::vector<std::string> unknown;      ///< facts to ask for, by the name the facts use
};

}  // namespace trade
