#pragma once

#include <cstddef>
#include <string>

#include "content/deck.hpp"
#include "memory/features.hpp"
#include "practice/crew_log.hpp"

namespace report {

/// A shared parameter of the recall model for people: forms by what they are called in the content.
[[nodiscard]] inline std::string parameter_name(std::size_t number) {
    constexpr std::size_t kFirstForm = memory::kActivationFeatures + memory::kDecayFeatures;
    if (number < kFirstForm) return std::string{memory::shared_parameters()[number].name};
    const std::size_t form = number - kFirstForm;
    if (form == practice::kCallForm) return "form: call";
    return "form: " + std::string{content::to_text(static_cast<content::Form>(form))};
}

}  // namespace report
