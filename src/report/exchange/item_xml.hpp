#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/random.hpp"
#include "content/ask.hpp"
#include "content/deck.hpp"
#include "trade/edition.hpp"

namespace report {

/// Everything that one item says.
struct ItemSource {
    std::string identifier;
    const content::Point* point = nullptr;
    const content::Version* version = nullptr;
    const content::Question* question = nullptr;
    const content::Mistakes* mistakes = nullptr;  ///< of the deck
    trade::Edition edition = trade::Edition::e2023;
    base::Seed seed = 0;
};

/// The interaction of the standard that a form is put as; empty where there is none that is simple.
[[nodiscard]] std::string_view interaction_of(content::Form form);

/// The options of a choice or the steps of an order as the item shows them; their identifiers are A, B, C, ...
[[nodiscard]] std::vector<content::Option> item_options(const content::Question& question, base::Seed seed);

/// The item as an XML document. Needs a question whose form has an interaction.
[[nodiscard]] std::string item_xml(const ItemSource& source);

}  // namespace report
