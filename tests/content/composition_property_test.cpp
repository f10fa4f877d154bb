// Computed calls over many draws: each ask has one right answer, wrong ones that differ from it as shown, a story
// without gaps, a unit, and an article that its point has in the edition. GREENTAG_COMPOSITIONS=10000 in the
// environment draws as many of each call; without it a few, so that the suite stays quick (see docs/quality.md).
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <map>
#include <set>
#include <string_view>
#include <unordered_map>
#include <utility>

#include <doctest/doctest.h>

#include "base/text.hpp"
#include "content/shipped.hpp"
#include "trade/article.hpp"

namespace {

using content::Ask;
using content::Computed;
using content::Form;

/// Draws of each call, over all its editions.
std::uint64_t compositions() {
    const char* wanted = std::getenv("GREENTAG_COMPOSITIONS");
    return wanted == nullptr ? 8 : std::strtoull(wanted, nullptr, 10);
}

bool is_computed(const content::Scenario& scenario) {
    return std::ranges::any_of(scenario.asks, [](const auto& ask) { return ask.computed != nullptr; });
}

/// "314" of "314.16(B)(1)" and of "Article 314", "Chapter 9" of a chapter's table.
std::string article_number(const std::string& article) {
    constexpr std::string_view kArticle = "Article ";
    if (article.starts_with(kArticle)) return article.substr(kArticle.size());
    return article.substr(0, article.find_first_of(".(,"));
}

/// What is wrong with a text that a learner reads; empty when nothing is.
std::string fault_in_text(const std::string& text) {
    if (base::trim(text).empty()) return "says nothing";
    if (text.find_first_of("{}") != std::string::npos) return "has a slot that was not filled: " + text;
    const std::string low = base::lower(text);
    for (const char* bad : {"nan ", "inf ", "-0 "})
        if ((" " + low + " ").find(std::string{" "} + bad) != std::string::npos) return "holds no number: " + text;
    return {};
}

bool is_yes_or_no(const Computed& computed) {
    return computed.by == Computed::By::rules && computed.asked.size() == 1 && computed.value.empty();
}

std::string fault_in_options(const Ask& ask) {
    std::set<std::string> seen;
    std::ptrdiff_t right = 0;
    for (const auto& option : ask.options) {
        if (const auto fault = fault_in_text(option.text); !fault.empty()) return "an option " + fault;
        if (!seen.insert(base::lower(base::trim(option.text))).second) return "two options say " + option.text;
        right += option.right ? 1 : 0;
        if (!option.right && option.mistake.empty()) return "a wrong option without a mistake: " + option.text;
    }
    if (right != 1) return std::to_string(right) + " right options";
    const std::size_t least = is_yes_or_no(*ask.question.computed) ? 2 : 3;
    return ask.options.size() < least ? "only " + std::to_string(ask.options.size()) + " options" : "";
}

std::string fault_in_number(const Ask& ask) {
    const auto& question = ask.question;
    if (!std::isfinite(question.answer.value)) return "no number";
    if (question.answer.value < 0.0) return "a negative answer";
    if (question.wrong_numbers.empty()) return "no wrong number";
    std::set<std::string> seen = {base::to_text(question.answer)};
    for (const auto& wrong : question.wrong_numbers) {
        if (!std::isfinite(wrong.value)) return "a wrong number that is none";
        if (std::abs(wrong.value - question.answer.value) <= question.within)
            return "a wrong number that counts as right";
        if (!seen.insert(base::to_text({wrong.value, question.answer.unit})).second) return "two wrong numbers alike";
    }
    return {};
}

/// Rules on a kind of equipment, a feeder or a service leave the sizes to the general rules, so that the working may
/// stand elsewhere than the point. One pair of articles a line: of the point, of the working.
constexpr std::array<std::pair<std::string_view, std::string_view>, 10> kSizedElsewhere = {{
    {"100", "310"},  // what ampacity is, worked out
    {"110", "210"},  // a bad joint, told by its voltage drop
    {"210", "310"},  // a branch circuit's wire
    {"215", "240"},  // a feeder's and a service's devices
    {"230", "240"},
    {"230", "334"},  // where service cable inside is fastened
    {"422", "240"},  // appliances, vehicle supply and pools
    {"625", "240"},
    {"680", "240"},
    {"680", "300"},  // cover over a pool's run
}};

bool sized_elsewhere(const Ask& ask) {
    const std::string point = article_number(ask.version.article);
    return std::ranges::any_of(ask.question.articles, [&](const auto& one) {
        const std::string working = article_number(one);
        return std::ranges::any_of(kSizedElsewhere, [&](const auto& pair) {
            return pair == std::pair{std::string_view{point}, std::string_view{working}};
        });
    });
}

std::string fault_in_articles(const Ask& ask) {
    if (ask.version.article.empty()) return "no article in this edition";
    if (ask.question.computed->by == Computed::By::switching) return {};
    // Where nothing is required no rule applies, so there is none to name.
    if (ask.question.articles.empty())
        return ask.question.computed->by == Computed::By::rules ? "" : "the working names no article";
    const bool shared = std::ranges::any_of(ask.question.articles, [&](const auto& one) {
        return article_number(one) == article_number(ask.version.article);
    });
    if (shared || sized_elsewhere(ask)) return {};
    return "the point is about " + ask.version.article + ", the working about " +
           base::join(ask.question.articles, ", ");
}

std::string fault_in(const Ask& ask) {
    for (const auto* text : {&ask.story, &ask.question.text, &ask.question.why})
        if (const auto fault = fault_in_text(*text); !fault.empty()) return fault;
    if (ask.question.computed == nullptr) return {};
    const auto fault = ask.question.form == Form::number ? fault_in_number(ask) : fault_in_options(ask);
    return fault.empty() ? fault_in_articles(ask) : fault;
}

/// Everything that is asked, to the letter.
std::string letter_by_letter(const std::vector<Ask>& asks) {
    std::string all;
    for (const auto& ask : asks) all += ask.story + ask.question.text + ask.content + right_answer(ask) + "\n";
    return all;
}

/// The right answer as it reads, whatever letter it has got.
std::string right_words(const Ask& ask) {
    const auto right = std::ranges::find_if(ask.options, [](const auto& option) { return option.right; });
    return right == ask.options.end() ? right_answer(ask) : right->text;
}

/// Holds that whoever reads the same is asked for the same: an answer that hangs on more than is told would be a guess.
class Readings {
public:
    /// What is wrong with the answer of the last ask of those read so far; empty when nothing is.
    std::string fault_in(const std::string& where, const std::string& read, const Ask& ask) {
        const std::string right = right_words(ask);
        const auto [held, fresh] = answers_.emplace(where + "\n" + read, right);
        if (fresh || held->second == right) return {};
        return "the same words, but once '" + held->second + "' and once '" + right + "' is right";
    }

private:
    std::unordered_map<std::string, std::string> answers_;
};

/// A symptom may fit several faults; its options tell them apart.
bool is_symptom(const Ask& ask) {
    const auto& computed = ask.question.computed;
    return computed && computed->by == Computed::By::switching && computed->value == "fault";
}

/// Faults over all draws, each kind told once with a draw that shows it.
class Account {
public:
    void add(const std::string& where, const std::string& fault, base::Seed seed) {
        if (!fault.empty())
            faults_.emplace(where + ": " + fault.substr(0, fault.find(':')),
                            where + ", seed " + std::to_string(seed) + ": " + fault);
    }
    void tell() const {
        for (const auto& [kind, example] : faults_) FAIL_CHECK(example);
    }

private:
    std::map<std::string, std::string> faults_;
};

}  // namespace

TEST_CASE("composition: property: every draw of every computed call can be asked, and has one right answer") {
    const auto& library = shipped::library();
    Account account;
    std::size_t calls = 0;
    for (const auto& entry : library.index().scenarios) {
        const auto& scenario = library.scenario(entry);
        if (!is_computed(scenario)) continue;
        ++calls;
        const auto editions = trade::editions_in(scenario.editions);
        std::map<std::string, base::Unit> units;
        Readings readings;
        for (base::Seed seed = 0; seed < compositions(); ++seed) {
            const auto edition = editions[seed % editions.size()];
            const std::string where = scenario.id + " under " + trade::to_text(edition);
            const auto asks = content::compose_scenario(library, entry, edition, seed);
            if (asks.size() < 3) account.add(where, "only " + std::to_string(asks.size()) + " asks", seed);
            std::string read = asks.empty() ? "" : asks.front().story;
            for (const auto& ask : asks) {
                account.add(where + "#" + ask.question.id, fault_in(ask), seed);
                read += "\n" + ask.question.text;
                if (ask.question.computed && !is_symptom(ask))
                    account.add(where + "#" + ask.question.id, readings.fault_in(where, read, ask), seed);
                if (ask.question.form != Form::number) continue;
                const auto [unit, fresh] = units.emplace(ask.question.id, ask.question.answer.unit);
                if (unit->second != ask.question.answer.unit)
                    account.add(where + "#" + ask.question.id, "now in one unit, now in another", seed);
            }
        }
    }
    CHECK(calls >= 40);
    account.tell();
}

TEST_CASE("composition: property: the same seed gives the same call, another seed another") {
    const auto& library = shipped::library();
    for (const auto& entry : library.index().scenarios) {
        const auto& scenario = library.scenario(entry);
        if (!is_computed(scenario)) continue;
        const auto edition = trade::editions_in(scenario.editions).back();
        std::set<std::string> seen;
        for (base::Seed seed = 1; seed <= 5; ++seed) {
            const auto once = letter_by_letter(content::compose_scenario(library, entry, edition, seed));
            CHECK(once == letter_by_letter(content::compose_scenario(library, entry, edition, seed)));
            seen.insert(once);
        }
        CHECK_MESSAGE(seen.size() >= 2, scenario.id, " hardly varies: ", seen.size(), " of 5 draws differ");
    }
}
