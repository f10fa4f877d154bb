// A computed call tells whoever is asked everything that its answer hangs on. Tried out, since a fact may be told in
// other words than its own: one fact of a draw gets another value; when nothing that is read changes, neither may the
// answer.
#include <algorithm>
#include <optional>
#include <set>
#include <string>
#include <utility>

#include "content/check/check.hpp"
#include "content/compose.hpp"
#include "content/computed/computing.hpp"

namespace content {
namespace {

constexpr int kDraws = 12;
constexpr int kAttempts = 40 * kDraws;
constexpr int kOthers = 4;  // values tried in place of a drawn one

class Telling {
public:
    Telling(const Contents& contents, const TradeData& data, const Scenario& scenario, base::Faults& faults)
        : contents_{&contents}, data_{&data}, scenario_{&scenario}, faults_{&faults} {}

    void run() {
        int draws = 0;
        for (int attempt = 0; attempt < kAttempts && draws < kDraws; ++attempt) {
            const auto facts = draw_facts(*scenario_, 1, attempt);
            if (!facts || !draw_counts(*scenario_, *facts)) continue;
            ++draws;
            for (int other = 1; other <= kOthers; ++other)
                if (const auto drawn = draw_facts(*scenario_, 1, attempt + other * kAttempts)) vary(*facts, *drawn);
        }
    }

private:
    void vary(const FactTexts& facts, const FactTexts& other) {
        for (const auto& fact : scenario_->facts) {
            if (!fact.is.empty() || facts.at(fact.name) == other.at(fact.name)) continue;
            const auto changed = with_fact(*scenario_, facts, fact.name, other.at(fact.name));
            if (!changed || !draw_counts(*scenario_, *changed)) continue;
            std::string before = filled(scenario_->story, facts);
            std::string after = filled(scenario_->story, *changed);
            for (const auto& ask : scenario_->asks) {
                // Later asks go on from what earlier ones have told.
                before += filled(ask.text, facts);
                after += filled(ask.text, *changed);
                if (before != after) break;
                if (ask.computed) compare(ask, facts, *changed, fact.name);
            }
        }
    }

    void compare(const Question& ask, const FactTexts& facts, const FactTexts& changed, const std::string& name) {
        const auto edition = edition_for(ask);
        if (!edition || told_.contains({ask.id, name})) return;
        const auto& slots = ask.computed->facts;
        if (std::ranges::all_of(slots,
                                [&](const auto& s) { return filled(s.second, facts) == filled(s.second, changed); }))
            return;
        const Under under{*edition, "", ""};
        const auto one = answered(ask, facts, *data_, under);
        const auto two = answered(ask, changed, *data_, under);
        // Wrong answers may hang on what they like. What the working tells may be part of this question or of one
        // before.
        if (!one || !two || right_of(*one) == right_of(*two)) return;
        if (read_until(ask, facts, under) != read_until(ask, changed, under)) return;
        told_.insert({ask.id, name});
        note(*faults_, ask.place,
             scenario_->id + "#" + ask.id + ": the answer hangs on the fact '" + name +
                 "', but neither story nor question tells it",
             "tell it, or make it follow from what is told with \"only\" or \"is\"");
    }

    /// All that is read from the story to this ask, with what the working fills in.
    [[nodiscard]] std::string read_until(const Question& last, const FactTexts& facts, const Under& under) const {
        std::string all = filled(scenario_->story, facts);
        for (const auto& ask : scenario_->asks) {
            const auto worked =
                ask.computed ? answered(ask, facts, *data_, under) : base::Checked<Question>{base::refuse("", "")};
            all += worked ? worked->text : filled(ask.text, facts);
            if (&ask == &last) break;
        }
        return all;
    }

    /// A symptom may fit several faults, told apart by the options: then none of them is untold.
    [[nodiscard]] static std::string right_of(const Question& question) {
        if (question.computed->by == Computed::By::switching && question.computed->value == "fault") return {};
        return question.form == Form::number ? base::to_text(question.answer) : question.right.front();
    }

    [[nodiscard]] std::optional<trade::Edition> edition_for(const Question& ask) const {
        const Point* point = contents_->point(ask.point);
        if (point == nullptr) return std::nullopt;
        for (const auto edition : trade::editions_in(scenario_->editions))
            if (holds_in(ask, *point, edition)) return edition;
        return std::nullopt;
    }

    /// Slots that only the working fills stay as they are.
    [[nodiscard]] static std::string filled(const std::string& text, const FactTexts& facts) {
        const auto done = fill(text, facts);
        return done ? *done : text;
    }

    const Contents* contents_;
    const TradeData* data_;
    const Scenario* scenario_;
    base::Faults* faults_;
    std::set<std::pair<std::string, std::string>> told_;  ///< ask and fact
};

}  // namespace

void check_told(const Contents& contents, const TradeData& data, base::Faults& faults) {
    for (const auto& family : contents.families)
        for (const auto& scenario : family.scenarios)
            if (std::ranges::any_of(scenario.asks, [](const Question& ask) { return ask.computed != nullptr; }))
                Telling{contents, data, scenario, faults}.run();
}

}  // namespace content
