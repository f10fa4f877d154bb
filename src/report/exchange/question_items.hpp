#pragma once

#include <string>
#include <vector>

#include "base/random.hpp"
#include "content/contents.hpp"
#include "content/deck.hpp"
#include "trade/edition.hpp"

namespace report {

// Questions of points as items of the open question-interchange standard QTI 2.1 (1EdTech, formerly IMS; written from
// memory of it, the standard's own schema has not been held against it), for a training centre that runs a learning
// platform. What we use of it: choiceInteraction (choose, choose-all), orderInteraction (order), textEntryInteraction
// (number), scored by the standard's own template match_correct, with the explanation and the named mistakes as
// modalFeedback. docs/formats/question-items.md shows one item.

/// What goes out.
struct ItemsFor {
    trade::Edition edition = trade::Edition::e2023;
    base::Seed seed = 0;              ///< of the order in which options stand
    std::vector<std::string> topics;  ///< empty: all
    bool unverified = false;          ///< true: statements not confirmed for the edition too, marked as such
};

/// One question as one XML document.
struct QuestionItem {
    std::string identifier;  ///< a name without colon and period, unique among the items
    std::string href;        ///< where the document belongs beside the manifest: "items/IDENTIFIER.xml"
    std::string xml;         ///< UTF-8, escaped, without characters that XML has no place for
    std::string question;    ///< ours: "gfci.kitchen#a"
    std::string title, topic, article, interaction;
    std::vector<std::string> tags;
    trade::Edition edition = trade::Edition::e2023;
    content::Stakes stakes = content::Stakes::inspection;
    bool unverified = false;
};

struct LeftOut {
    std::string question, why;
};

struct QuestionItems {
    trade::Edition edition = trade::Edition::e2023;
    std::vector<QuestionItem> items;  ///< in the order of the contents
    std::vector<LeftOut> left_out;    ///< questions that hold in the edition and still did not go out
};

/// The name that the manifest has to have inside a package.
inline constexpr const char* kManifestName = "imsmanifest.xml";

/// Every question of points that holds in the edition and whose form the standard has simply. The same contents and
/// seed give the same documents, to the letter.
/// Left out  recall and article (a machine elsewhere could not mark them as we do), computed questions, numbers that
///           are no plain decimals (1/0 AWG), and, unless asked for, statements not confirmed for the edition.
/// Scores    0 or 1: partial credit of choose-all and order is ours alone.
[[nodiscard]] QuestionItems question_items(const content::Contents& contents, const ItemsFor& what);

/// The manifest of a package that holds these items (IMS Content Packaging 1.1 with IEEE 1484.12.1 metadata): each with
/// title, topic, edition, stakes, article and tags.
[[nodiscard]] std::string items_manifest(const QuestionItems& items);

}  // namespace report
