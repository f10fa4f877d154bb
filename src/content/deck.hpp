#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/ids.hpp"
#include "base/quantity.hpp"
#include "content/computed/compute.hpp"
#include "trade/edition.hpp"
#include "trade/facts.hpp"
#include "trade/rules/rule.hpp"
#include "trade/table.hpp"

namespace content {

/// What happens to people or work when a point is not known.
enum class Stakes : std::uint8_t { shock, fire, inspection, paperwork };
/// The way a question is put and answered.
enum class Form : std::uint8_t { choose, choose_all, number, article, order, recall };

[[nodiscard]] std::string_view to_text(Stakes stakes);
[[nodiscard]] std::string_view to_text(Form form);
[[nodiscard]] std::optional<Stakes> parse_stakes(std::string_view text);
[[nodiscard]] std::optional<Form> parse_form(std::string_view text);

/// Where in the content files something stands, for findings that come after reading.
struct Place {
    std::string file, pointer;
    int line = 0;
    std::size_t begin = 0, end = 0;  ///< bytes of the file, for values that are objects
};

/// A point as one run of editions has it.
struct Version {
    trade::EditionRange editions;
    std::string article;  ///< the governing reference, such as "210.8(A)(2)"
    std::string says;     ///< the rule in our words
    trade::Basis basis;
    bool unverified = false;  ///< not confirmed for these editions: told to the learner, kept out of exams
};

struct Gap {
    trade::EditionRange editions;
    std::string why;
};

struct Wrong {
    std::string text, mistake;
};
struct WrongNumber {
    double value = 0.0;
    std::string mistake;
};
struct WrongArticle {
    std::string article, mistake;
};
/// Steps counted from 1 in the right order: `before` belongs before `after`.
struct WrongOrder {
    int before = 0, after = 0;
    std::string mistake;
};
/// Something a free answer has to say, found by any of its words.
struct Idea {
    std::string idea;
    std::vector<std::string> words;
};
struct WrongWords {
    std::vector<std::string> words;
    std::string mistake;
};

/// How a number is worked out again when the library is checked.
struct Check {
    std::string table, column;  ///< a table row, or
    std::map<std::string, std::string> row;
    std::string sum;         ///< a sum over numbers the question tells, such as "120 / 40", or
    std::string calculator;  ///< a calculator with facts
    trade::Facts facts;
    std::string value;  ///< which of the calculator's values; empty: its answer
};

/// One authored way of asking a point. Which members are used follows from the form.
struct Question {
    std::string id;  ///< unique within its point or scenario
    Form form = Form::choose;
    std::optional<trade::EditionRange> editions;  ///< where the answer holds; empty: wherever the point does
    std::string text, why;
    bool situation = false;  ///< puts the learner in a situation with facts to weigh
    std::optional<trade::Basis> basis;
    base::PointId point;
    Place place;

    std::vector<std::string> right;  ///< choose: one; choose_all: all; order: the steps; recall: a full answer
    std::vector<Wrong> wrong;
    base::Quantity answer;  ///< number
    double within = 0.0;    ///< number: how far off still counts as right
    std::vector<WrongNumber> wrong_numbers;
    std::optional<Check> check;
    std::vector<Check> worked;  ///< numbers on the way to the answer, as the explanation tells them
    std::string enough;         ///< article: the shortest reference that is fully right; empty: all of it
    std::vector<WrongArticle> wrong_articles;
    std::vector<WrongOrder> wrong_orders;
    std::vector<Idea> ideas;
    std::vector<WrongWords> wrong_words;
    std::shared_ptr<const Computed> computed;  ///< right and wrong answers are worked out when the ask is posed
    std::vector<std::string> articles;         ///< that the working came by, once worked out
};

/// One thing an electrician must know; the unit of memory.
struct Point {
    base::PointId id;
    std::string title, deck, topic;
    Stakes stakes = Stakes::inspection;
    std::vector<std::string> tags;
    std::vector<base::PointId> needs;
    std::string caution;  ///< empty: the usual one of its stakes
    std::vector<Version> versions;
    std::vector<Gap> gaps;
    std::vector<Question> questions;
    Place place;

    /// The version for an edition; null in a gap.
    [[nodiscard]] const Version* version(trade::Edition edition) const;
};

/// True when the question may be asked of someone under this edition.
[[nodiscard]] bool holds_in(const Question& question, const Point& point, trade::Edition edition);

/// What differs between editions: a rule of the engine, a table, or what a point says.
enum class Differs : std::uint8_t { point, rule, table };

/// What a change list says of one rule, table or point from one edition to the next.
struct DeclaredChange {
    trade::Edition from = trade::Edition::e2017, to = trade::Edition::e2020;
    Differs of = Differs::rule;
    std::string id;
    std::string change;  ///< "new", "gone", "changed" or "moved"
    std::string says;    ///< what is different on the job; may be empty for "moved"
    trade::Basis basis;
    bool unverified = false;
    Place place;
};

/// What came of somebody answering a question who saw only the question and the edition.
struct Reading {
    std::string question;  ///< "box.accessible#a", or "call.crawl-space#b"
    trade::Edition edition = trade::Edition::e2023;
    std::string content;  ///< of what was read; another one now means that it has changed since
    std::string reader;
    bool agreed_first = true;  ///< false: the first answer differed from ours
    std::string settled;       ///< how a difference was settled
    Place place;
};

using Mistakes = std::map<std::string, std::string>;

struct Deck {
    std::string name, title, topic;
    Mistakes mistakes;
    Place mistakes_place;
    std::vector<Point> points;
    Place place;
    bool overlaid = false;  ///< some of its points have given way to others of a later root
};

/// A fact of a story: fixed when there is one choice, else drawn by seed from choices or from a range in steps; or
/// worked out from facts before it.
struct Fact {
    std::string name;
    std::vector<std::string> choices;
    double from = 0.0, to = 0.0, step = 0.0;  ///< a range when step is over 0
    std::string is;                           ///< text with slots
};

/// A service call: a story and the asks that follow from it.
struct Scenario {
    std::string id, title, family;
    std::vector<std::string> tags;
    trade::EditionRange editions;
    std::string story;
    std::vector<Fact> facts;
    std::vector<std::string> only;  ///< sums that must hold (be other than 0) for a draw to count
    std::vector<Question> asks;     ///< each names its point
    Place place;
};

struct ScenarioFamily {
    std::string name, title;
    Mistakes mistakes;
    Place mistakes_place;
    std::vector<Scenario> scenarios;
    Place place;
    bool overlaid = false;
};

/// Which edition is in force from which day.
struct Adoption {
    trade::Edition edition = trade::Edition::e2023;
    base::Instant from{};
};
struct Jurisdiction {
    std::string id, name, note;
    trade::Basis basis;
    std::vector<Adoption> adoptions;
    std::vector<trade::Amendment> amendments;
    Place place;

    /// The edition in force on a day; nothing before the first adoption.
    [[nodiscard]] std::optional<trade::Edition> edition_on(base::Instant day) const;
};

}  // namespace content
