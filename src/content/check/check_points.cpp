#include <algorithm>
#include <map>
#include <set>

#include "base/text.hpp"
#include "content/check/check.hpp"
#include "trade/edition.hpp"

namespace content {
namespace {

using trade::Edition;

void check_coverage(const Point& point, base::Faults& faults) {
    for (const Edition edition : trade::kEditions) {
        const auto holds = [edition](const auto& item) { return item.editions.contains(edition); };
        const auto versions = std::count_if(point.versions.begin(), point.versions.end(), holds);
        const auto gaps = std::count_if(point.gaps.begin(), point.gaps.end(), holds);
        const std::string year = trade::to_text(edition);
        if (versions > 1) note(faults, point.place, "'" + point.id.text + "' has two versions for " + year, "keep one");
        if (versions > 0 && gaps > 0)
            note(faults, point.place, "'" + point.id.text + "' calls " + year + " a gap but has a version for it",
                 "remove one of the two");
        if (versions == 0 && gaps == 0)
            note(faults, point.place, "'" + point.id.text + "' says nothing for " + year,
                 "add a version, or declare the gap under \"gaps\" and say why");
        const bool asked = std::any_of(point.questions.begin(), point.questions.end(),
                                       [&](const Question& q) { return holds_in(q, point, edition); });
        if (versions > 0 && !asked)
            note(faults, point.place, "no question of '" + point.id.text + "' can be asked under " + year,
                 "add one, or widen the editions of one");
    }
}

void check_needs(const Contents& contents, const Point& point, base::Faults& faults) {
    for (const auto& need : point.needs) {
        if (need == point.id)
            note(faults, point.place, "'" + need.text + "' needs itself", "remove it from \"needs\"");
        else if (contents.point(need) == nullptr)
            note(faults, point.place, "'" + point.id.text + "' needs '" + need.text + "', which is not in the library",
                 "correct the id or remove it");
    }
}

using Needs = std::map<std::string, const Point*>;

/// Walks the needs below a point; true when the walk comes back to a point that it is still inside.
bool in_cycle(const std::string& id, const Needs& points, std::set<std::string>& inside, std::set<std::string>& done) {
    if (done.contains(id)) return false;
    if (!inside.insert(id).second) return true;
    const auto found = points.find(id);
    const bool cycle = found != points.end() &&
                       std::any_of(found->second->needs.begin(), found->second->needs.end(),
                                   [&](const auto& need) { return in_cycle(need.text, points, inside, done); });
    inside.erase(id);
    done.insert(id);
    return cycle;
}

void check_cycles(const Contents& contents, base::Faults& faults) {
    Needs points;
    for (const auto& deck : contents.decks)
        for (const auto& point : deck.points) points[point.id.text] = &point;
    std::set<std::string> done;
    for (const auto& [id, point] : points) {
        std::set<std::string> inside;
        if (in_cycle(id, points, inside, done))
            note(faults, point->place, "'" + id + "' needs itself by way of others", "break the circle of \"needs\"");
    }
}

void check_names(const Deck& deck, base::Faults& faults) {
    static constexpr std::string_view kIdSigns = "abcdefghijklmnopqrstuvwxyz0123456789.-";
    for (const auto& point : deck.points) {
        const auto& id = point.id.text;
        if (id.find('.') == std::string::npos || id.find_first_not_of(kIdSigns) != std::string::npos)
            note(faults, point.place, "'" + id + "' is no good id for a point",
                 "write small letters, digits and dashes, with a dot between family and name: box.accessible");
        if (point.title.empty() || point.versions.empty() || point.questions.empty())
            note(faults, point.place, "'" + id + "' lacks a title, a version or a question", "add what is missing");
    }
}

}  // namespace

void check_points(const Contents& contents, base::Faults& faults) {
    for (const auto& deck : contents.decks) {
        check_names(deck, faults);
        for (const auto& point : deck.points) {
            check_coverage(point, faults);
            check_needs(contents, point, faults);
        }
    }
    check_cycles(contents, faults);
}

}  // namespace content
