#include <algorithm>
#include <optional>
#include <unordered_map>
#include <unordered_set>

#include "base/random.hpp"
#include "base/text.hpp"
#include "content/check/check.hpp"

namespace content {
namespace {

// Two texts that share this part of their three-word runs read as the same text twice.
constexpr double kTooAlike = 0.6;
// By chance the right option of four is the longest in a quarter of cases; beyond this, length gives it away.
constexpr double kMostLongest = 0.45;
constexpr int kEnoughToJudge = 10;

/// A text with its three-word runs.
struct Shingled {
    std::string name;
    std::string owner;  ///< whose texts may be alike; empty: nobody's
    std::optional<trade::EditionRange> editions;
    Place place;
    std::unordered_set<std::uint64_t> runs;
};

std::unordered_set<std::uint64_t> runs_of(const std::string& text) {
    const auto words = base::words(text);
    std::unordered_set<std::uint64_t> runs;
    const std::size_t length = std::min<std::size_t>(3, words.size());
    for (std::size_t i = 0; i + length <= words.size() && length > 0; ++i) {
        std::string run;
        for (std::size_t j = 0; j < length; ++j) run += words[i + j] + ' ';
        runs.insert(base::stable_hash(run));
    }
    return runs;
}

std::vector<Shingled> all_questions(const Contents& contents) {
    std::vector<Shingled> all;
    const auto add = [&](const std::string& owner, const Question& q) {
        all.push_back({owner + "#" + q.id, {}, q.editions, q.place, runs_of(q.text)});
    };
    for (const auto& deck : contents.decks)
        for (const auto& point : deck.points)
            for (const auto& q : point.questions) add(point.id.text, q);
    for (const auto& family : contents.families)
        for (const auto& scenario : family.scenarios)
            for (const auto& q : scenario.asks) add(scenario.id, q);
    return all;
}

/// What a point says in each edition, and why its questions are answered as they are.
std::vector<Shingled> all_explanations(const Contents& contents) {
    std::vector<Shingled> all;
    for (const auto& deck : contents.decks)
        for (const auto& point : deck.points) {
            const std::string& id = point.id.text;
            for (const auto& version : point.versions)
                all.push_back({id, id, std::nullopt, point.place, runs_of(version.says)});
            for (const auto& q : point.questions)
                if (!q.why.empty()) all.push_back({id + "#" + q.id, id, std::nullopt, q.place, runs_of(q.why)});
        }
    return all;
}

/// Questions for different editions may be worded alike on purpose: their answers differ. So may what one point says.
bool meant_to_be_alike(const Shingled& a, const Shingled& b) {
    if (!a.owner.empty() && a.owner == b.owner) return true;
    if (!a.editions || !b.editions) return false;
    return a.editions->last < b.editions->first || b.editions->last < a.editions->first;
}

void check_alike(const std::vector<Shingled>& all, const std::string& mend, base::Faults& faults) {
    std::unordered_map<std::uint64_t, std::vector<std::size_t>> holders;
    for (std::size_t i = 0; i < all.size(); ++i) {
        std::unordered_map<std::size_t, std::size_t> shared;
        for (const auto run : all[i].runs) {
            for (const auto other : holders[run]) ++shared[other];
            holders[run].push_back(i);
        }
        // The first it is like is enough to mend it by.
        std::optional<std::size_t> like;
        for (const auto& [other, count] : shared) {
            const auto either = static_cast<double>(all[i].runs.size() + all[other].runs.size() - count);
            if (static_cast<double>(count) / either <= kTooAlike || meant_to_be_alike(all[i], all[other])) continue;
            like = std::min(like.value_or(other), other);
        }
        if (like) note(faults, all[i].place, all[i].name + " reads almost like " + all[*like].name, mend);
    }
}

bool right_is_longest(const Question& question) {
    const std::size_t right = base::display_width(question.right.front());
    return std::all_of(question.wrong.begin(), question.wrong.end(),
                       [right](const Wrong& w) { return base::display_width(w.text) < right; });
}

void check_lengths(const Deck& deck, base::Faults& faults) {
    int chosen = 0;
    int longest = 0;
    for (const auto& point : deck.points)
        for (const auto& q : point.questions) {
            if (q.form != Form::choose || q.right.empty()) continue;
            ++chosen;
            longest += right_is_longest(q) ? 1 : 0;
        }
    if (chosen >= kEnoughToJudge && longest > kMostLongest * chosen)
        note(faults, deck.place,
             "in deck '" + deck.name + "' the right option is the longest in " + std::to_string(longest) + " of " +
                 std::to_string(chosen) + " choose questions",
             "a learner can guess by length: shorten right options or fill out wrong ones");
}

}  // namespace

void check_likeness(const Contents& contents, base::Faults& faults) {
    check_alike(all_questions(contents), "ask it another way, or remove one", faults);
    check_alike(all_explanations(contents), "explain it in other words, or let one point carry it", faults);
    for (const auto& deck : contents.decks) check_lengths(deck, faults);
}

}  // namespace content
