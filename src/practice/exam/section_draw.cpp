#include "practice/exam/section_draw.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>
#include <optional>

namespace practice {
namespace {

/// The questions of one point: a run of the sorted candidates.
struct Group {
    std::size_t begin = 0, end = 0;
    double mean = 0.0;

    [[nodiscard]] std::size_t size() const { return end - begin; }
};

void sort_by_point(std::vector<Candidate>& candidates) {
    std::sort(candidates.begin(), candidates.end(), [](const Candidate& a, const Candidate& b) {
        return a.point != b.point ? a.point < b.point : a.id < b.id;
    });
}

/// Takes candidates sorted by point; gives their points from hardest to easiest, equals in order of id.
std::vector<Group> groups_of(const std::vector<Candidate>& sorted) {
    std::vector<Group> groups;
    for (std::size_t i = 0; i < sorted.size(); ++i) {
        if (i == 0 || sorted[i].point != sorted[i - 1].point) groups.push_back({i, i, 0.0});
        groups.back().end = i + 1;
        groups.back().mean += sorted[i].chance;
    }
    for (auto& group : groups) group.mean /= static_cast<double>(group.size());
    std::stable_sort(groups.begin(), groups.end(), [](const Group& a, const Group& b) { return a.mean < b.mean; });
    return groups;
}

/// Questions that every point gives (as far as it has them), and how many points give one more.
struct Share {
    std::size_t each = 0, more = 0;

    [[nodiscard]] std::size_t sure_of(const Group& group) const { return std::min(each, group.size()); }
    [[nodiscard]] bool may_give_more(const Group& group) const { return group.size() > each; }
};

Share share_of(const std::vector<Group>& groups, std::size_t asked) {
    const auto given_at = [&](std::size_t each) {
        return std::accumulate(groups.begin(), groups.end(), std::size_t{0},
                               [&](std::size_t sum, const Group& group) { return sum + std::min(each, group.size()); });
    };
    Share share;
    while (given_at(share.each + 1) <= asked && given_at(share.each) < asked) ++share.each;
    share.more = asked - given_at(share.each);
    return share;
}

double target_of(const std::vector<Group>& groups, const Share& share) {
    double sum = 0.0, extra = 0.0;
    std::size_t open = 0;
    for (const auto& group : groups) {
        sum += static_cast<double>(share.sure_of(group)) * group.mean;
        if (!share.may_give_more(group)) continue;
        extra += group.mean;
        ++open;
    }
    return open == 0 ? sum : sum + static_cast<double>(share.more) * extra / static_cast<double>(open);
}

/// Ordered pivotal sampling of `wanted` out of `units`, all with the same chance: unit after unit meets the one that is
/// still undecided, and the two settle between them who takes the probability of both. In whole numbers, so exact.
std::vector<std::size_t> pivotal(std::size_t units, std::size_t wanted, base::Random& random) {
    std::vector<std::size_t> drawn;
    if (wanted == 0) return drawn;
    std::size_t open = 0;
    std::uint64_t weight = 0;  // of the undecided one, in parts of `units`
    for (std::size_t next = 0; next < units; ++next) {
        const std::uint64_t both = weight + wanted;
        if (both < units) {
            if (random.below(both) >= weight) open = next;
            weight = both;
            continue;
        }
        // One of them is drawn for certain; the other keeps what is over. Who has more is drawn the more likely.
        const std::uint64_t left = both - units;
        const std::uint64_t room = 2 * units - both;
        const bool open_drawn = random.below(room) < units - wanted;
        drawn.push_back(open_drawn ? open : next);
        if (open_drawn) open = next;
        weight = left;
    }
    return drawn;
}

/// One section while it is being put together. Positions are those of the sorted candidates.
class Draw {
public:
    Draw(const std::vector<Candidate>& sorted, std::size_t asked, base::Seed seed)
        : all_{&sorted},
          groups_{groups_of(sorted)},
          share_{share_of(groups_, asked)},
          gives_more_(groups_.size(), false),
          taken_(sorted.size(), false),
          group_of_(sorted.size(), 0),
          random_{seed} {
        for (std::size_t g = 0; g < groups_.size(); ++g)
            for (std::size_t i = groups_[g].begin; i < groups_[g].end; ++i) group_of_[i] = g;
    }

    std::vector<Candidate> made() {
        choose_points();
        for (std::size_t g = 0; g < groups_.size(); ++g) take_from(g);
        while (exchange_one()) {
        }
        random_.shuffle(drawn_);
        std::vector<Candidate> section;
        section.reserve(drawn_.size());
        for (const auto i : drawn_) section.push_back((*all_)[i]);
        return section;
    }

private:
    struct Exchange {
        std::size_t slot = 0, to = 0;
    };

    void choose_points() {
        std::vector<std::size_t> open;
        for (std::size_t g = 0; g < groups_.size(); ++g)
            if (share_.may_give_more(groups_[g])) open.push_back(g);
        for (const auto n : pivotal(open.size(), share_.more, random_)) gives_more_[open[n]] = true;
    }

    void take_from(std::size_t g) {
        const Group& group = groups_[g];
        std::vector<std::size_t> questions(group.size());
        std::iota(questions.begin(), questions.end(), group.begin);
        random_.shuffle(questions);
        questions.resize(share_.sure_of(group) + (gives_more_[g] ? 1 : 0));
        for (const auto i : questions) {
            taken_[i] = true;
            drawn_.push_back(i);
        }
    }

    [[nodiscard]] double off_target() const {
        double sum = 0.0;
        for (const auto i : drawn_) sum += (*all_)[i].chance;
        return sum - target_of(groups_, share_);
    }

    /// Within a point any question may stand for another; a point that gives one more may pass that on to one that
    /// does not.
    [[nodiscard]] bool may_stand_for(std::size_t to, std::size_t from) const {
        if (taken_[to]) return false;
        const auto old_group = group_of_[from];
        const auto new_group = group_of_[to];
        if (old_group == new_group) return true;
        return gives_more_[old_group] && !gives_more_[new_group] && share_.may_give_more(groups_[new_group]);
    }

    /// One of the exchanges that reach the band, each as likely; else the one that comes nearest, if it comes nearer.
    std::optional<Exchange> find_exchange(double off) {
        std::optional<Exchange> reaching, nearest;
        std::uint64_t reach = 0;
        double least = std::abs(off);
        for (std::size_t slot = 0; slot < drawn_.size(); ++slot)
            for (std::size_t to = 0; to < all_->size(); ++to) {
                const double then = std::abs(off + (*all_)[to].chance - (*all_)[drawn_[slot]].chance);
                if (then > kScoreBand && then >= least) continue;
                if (!may_stand_for(to, drawn_[slot])) continue;
                if (then <= kScoreBand) {
                    if (random_.below(++reach) == 0) reaching = Exchange{slot, to};
                } else {
                    least = then;
                    nearest = Exchange{slot, to};
                }
            }
        return reaching ? reaching : nearest;
    }

    bool exchange_one() {
        const double off = off_target();
        if (std::abs(off) <= kScoreBand) return false;
        const auto found = find_exchange(off);
        if (!found) return false;
        const auto from = drawn_[found->slot];
        taken_[from] = false;
        taken_[found->to] = true;
        drawn_[found->slot] = found->to;
        if (group_of_[from] != group_of_[found->to]) {
            gives_more_[group_of_[from]] = false;
            gives_more_[group_of_[found->to]] = true;
        }
        return true;
    }

    const std::vector<Candidate>* all_;
    std::vector<Group> groups_;
    Share share_;
    std::vector<bool> gives_more_, taken_;
    std::vector<std::size_t> group_of_, drawn_;
    base::Random random_;
};

}  // namespace

double target_score(const std::vector<Candidate>& candidates, std::size_t asked) {
    auto sorted = candidates;
    sort_by_point(sorted);
    const auto groups = groups_of(sorted);
    return target_of(groups, share_of(groups, std::min(asked, sorted.size())));
}

double expected_score(const std::vector<Candidate>& drawn) {
    return std::accumulate(drawn.begin(), drawn.end(), 0.0,
                           [](double sum, const Candidate& one) { return sum + one.chance; });
}

std::vector<Candidate> draw_section(std::vector<Candidate> candidates, std::size_t asked, base::Seed seed) {
    sort_by_point(candidates);
    return Draw{candidates, std::min(asked, candidates.size()), seed}.made();
}

}  // namespace practice
