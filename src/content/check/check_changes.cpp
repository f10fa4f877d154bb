#include <algorithm>
#include <map>
#include <string>
#include <utility>

#include "content/check/check.hpp"
#include "content/differences.hpp"

namespace content {
namespace {

using Key = std::pair<Differs, std::string>;  ///< what it is, and its id

std::string named(const Key& key) {
    const char* kind = key.first == Differs::rule ? "rule '" : key.first == Differs::table ? "table '" : "point '";
    return kind + key.second + "'";
}

std::string step_text(trade::Edition from, trade::Edition to) {
    return trade::to_text(from) + " to " + trade::to_text(to);
}

/// Holds the list of one step between editions against what the rules, tables and points really are.
class Step {
public:
    Step(const Contents& contents, trade::Edition from, trade::Edition to, base::Faults& faults)
        : contents_{&contents}, from_{from}, to_{to}, faults_{&faults} {
        for (const auto& change : contents.changes) {
            if (change.from != from || change.to != to) continue;
            const Key key{change.of, change.id};
            if (!declared_.emplace(key, &change).second)
                note(faults, change.place, named(key) + " stands twice in the changes from " + step_text(from, to),
                     "keep one of the two");
        }
    }

    void check(const TradeData& data, bool of_points) {
        for (const auto& one : differences(*contents_, data, {from_, "", ""}, {to_, "", ""}))
            if (one.kind != Differs::point || (of_points && !is_open(one))) see(one);
        for (const auto& [key, change] : declared_)
            note(*faults_, change->place,
                 named(key) + " is declared " + change->change + " from " + step_text(from_, to_) +
                     ", but nothing about it differs",
                 "remove it, or correct the versions");
    }

private:
    /// What a point says that is not confirmed for one of the two editions is no known difference; it may be declared.
    [[nodiscard]] bool is_open(const Difference& one) {
        const Point* point = contents_->point({one.id});
        const auto unverified = [&](trade::Edition edition) {
            const auto* version = point == nullptr ? nullptr : point->version(edition);
            return version != nullptr && version->unverified;
        };
        if (!unverified(from_) && !unverified(to_)) return false;
        declared_.erase({Differs::point, one.id});
        return true;
    }

    void see(const Difference& one) {
        const Key key{one.kind, one.id};
        const auto found = declared_.find(key);
        if (found == declared_.end()) {
            const Place place = place_of(one);
            if (!place.file.empty() && !keeps_lists(place.file)) return;
            note(*faults_, place,
                 named(key) + " is " + std::string{to_text(one.change)} + " from " + step_text(from_, to_) +
                     ", and no change list says so",
                 "declare it in decks/changes, with its basis");
            return;
        }
        if (found->second->change != to_text(one.change))
            note(*faults_, found->second->place,
                 named(key) + " is declared " + found->second->change + ", but it is " +
                     std::string{to_text(one.change)},
                 "correct the kind of change, or the versions");
        declared_.erase(found);
    }

    [[nodiscard]] std::uint32_t root_of(const std::string& file) const {
        for (const auto& source : contents_->files)
            if (source.path == file) return source.root;
        return 0;
    }
    /// A shop's own content need keep no change lists, whatever it is laid over.
    [[nodiscard]] bool keeps_lists(const std::string& file) const {
        return std::any_of(contents_->changes.begin(), contents_->changes.end(),
                           [&](const DeclaredChange& change) { return root_of(change.place.file) == root_of(file); });
    }

    [[nodiscard]] Place place_of(const Difference& one) const {
        const auto rule = std::find_if(contents_->rules.begin(), contents_->rules.end(),
                                       [&](const trade::Rule& r) { return r.id == one.id; });
        if (const Point* point = contents_->point({one.id}); one.kind == Differs::point && point != nullptr)
            return point->place;
        if (one.kind != Differs::rule || rule == contents_->rules.end()) return {};
        return {rule->spot.file, rule->spot.pointer, rule->spot.line, 0, 0};
    }

    const Contents* contents_;
    trade::Edition from_, to_;
    base::Faults* faults_;
    std::map<Key, const DeclaredChange*> declared_;
};

}  // namespace

void check_changes(const Contents& contents, const TradeData& data, base::Faults& faults) {
    // A shop's own content, and that of a test, need keep no change lists, or none of points.
    if (contents.changes.empty()) return;
    const bool of_points = std::any_of(contents.changes.begin(), contents.changes.end(),
                                       [](const DeclaredChange& change) { return change.of == Differs::point; });
    for (std::size_t i = 1; i < trade::kEditions.size(); ++i)
        Step{contents, trade::kEditions[i - 1], trade::kEditions[i], faults}.check(data, of_points);
}

}  // namespace content
