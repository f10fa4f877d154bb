#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "content/check/check.hpp"
#include "content/compose.hpp"
#include "content/computed/computing.hpp"

namespace content {
namespace {

/// Enough draws to meet each choice of a story's facts, few enough to check a whole library quickly; those that "only"
/// turns away come on top.
constexpr int kDraws = 60;
constexpr int kAttempts = 40 * kDraws;

/// How one wrong path of a computed ask has fared over the draws.
struct Path {
    bool worked = false;    ///< it has led to some answer
    bool differed = false;  ///< to another than the right one
    std::string error;      ///< why it led nowhere, the last time
};

std::string first_of(const base::Faults& faults) {
    return faults.front().what + (faults.front().mend.empty() ? "" : "; " + faults.front().mend);
}

/// Draws one scenario under every edition it holds in, and keeps account of its computed asks.
class Trial {
public:
    Trial(const Contents& contents, const TradeData& data, const Scenario& scenario, base::Faults& faults)
        : contents_{&contents}, data_{&data}, scenario_{&scenario}, faults_{&faults}, paths_(scenario.asks.size()) {
        for (std::size_t i = 0; i < scenario.asks.size(); ++i)
            if (scenario.asks[i].computed) paths_[i].resize(scenario.asks[i].computed->paths.size());
    }

    void run() {
        for (const auto edition : trade::editions_in(scenario_->editions)) draw_under(edition);
        for (std::size_t i = 0; i < paths_.size(); ++i) tell_paths(i);
    }

private:
    [[nodiscard]] bool holds_under(const Question& ask, trade::Edition edition) const {
        const Point* point = contents_->point(ask.point);
        return ask.computed && point != nullptr && holds_in(ask, *point, edition);
    }

    void draw_under(trade::Edition edition) {
        std::optional<std::string> error;
        bool composed = false;
        int draws = 0;
        for (int attempt = 0; attempt < kAttempts && draws < kDraws; ++attempt) {
            if (composed && all_differed(edition)) return;
            const auto facts = draw_facts(*scenario_, 1, attempt);
            if (!facts) {
                error = first_of(facts.error());
                continue;
            }
            if (!draw_counts(*scenario_, *facts)) continue;
            ++draws;
            if (!composed) {
                error = try_asks(edition, *facts);
                composed = !error;
            }
            try_paths(edition, *facts);
        }
        if (!composed)
            note(*faults_, scenario_->place,
                 "'" + scenario_->id + "' cannot be drawn under " + trade::to_text(edition) + ": " +
                     error.value_or("no draw meets \"only\""),
                 "correct the facts or narrow the editions");
    }

    /// Works every computed ask out for one draw; the first error, if there is one.
    [[nodiscard]] std::optional<std::string> try_asks(trade::Edition edition, const FactTexts& facts) const {
        for (const Question& ask : scenario_->asks) {
            if (!holds_under(ask, edition)) continue;
            const auto done = answered(ask, facts, *data_, {edition, "", ""});
            if (!done) return "#" + ask.id + ": " + first_of(done.error());
        }
        return std::nullopt;
    }

    /// Follows the wrong paths that have not led to another answer yet.
    void try_paths(trade::Edition edition, const FactTexts& facts) {
        for (std::size_t i = 0; i < paths_.size(); ++i)
            if (holds_under(scenario_->asks[i], edition) && !all_differed(i))
                try_paths(paths_[i], *scenario_->asks[i].computed, {edition, "", ""}, facts);
    }

    void try_paths(std::vector<Path>& paths, const Computed& computed, const Under& under, const FactTexts& facts) {
        const auto right = work(computed, nullptr, facts, *data_, under);
        if (!right) return;
        for (std::size_t at = 0; at < paths.size(); ++at) {
            Path& path = paths[at];
            if (path.differed) continue;
            const auto other = work_wrongly(computed, computed.paths[at], facts, *right, *data_, under);
            path.worked = path.worked || other.has_value();
            path.differed = other && trade::to_text(other->value) != trade::to_text(right->value);
            if (!other) path.error = first_of(other.error());
        }
    }

    [[nodiscard]] bool all_differed(std::size_t ask) const {
        return std::ranges::all_of(paths_[ask], [](const Path& path) { return path.differed; });
    }

    [[nodiscard]] bool all_differed(trade::Edition edition) const {
        for (std::size_t i = 0; i < paths_.size(); ++i)
            if (holds_under(scenario_->asks[i], edition) && !all_differed(i)) return false;
        return true;
    }

    void tell_paths(std::size_t i) const {
        const Question& ask = scenario_->asks[i];
        for (std::size_t at = 0; at < paths_[i].size(); ++at) {
            const Path& path = paths_[i][at];
            const std::string which =
                scenario_->id + "#" + ask.id + ": the mistake '" + ask.computed->paths[at].mistake + "'";
            if (!path.worked)
                note(*faults_, ask.place, which + " leads nowhere: " + path.error, "correct it or leave it out");
            else if (!path.differed)
                note(*faults_, ask.place, which + " never leads to another answer than the right one",
                     "give it other facts or leave it out");
        }
    }

    const Contents* contents_;
    const TradeData* data_;
    const Scenario* scenario_;
    base::Faults* faults_;
    std::vector<std::vector<Path>> paths_;
};

}  // namespace

void check_computed(const Contents& contents, const TradeData& data, base::Faults& faults) {
    for (const auto& family : contents.families)
        for (const auto& scenario : family.scenarios)
            if (std::ranges::any_of(scenario.asks, [](const Question& ask) { return ask.computed != nullptr; }))
                Trial{contents, data, scenario, faults}.run();
}

}  // namespace content
