#include <algorithm>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "base/text.hpp"
#include "content/check/check.hpp"
#include "content/outline.hpp"

namespace content {
namespace {

/// Topics and tags that the decks have.
struct Names {
    std::set<std::string> topics, tags;
};

Names names_in(const Contents& contents) {
    Names names;
    for (const auto& deck : contents.decks)
        for (const auto& point : deck.points) {
            names.topics.insert(point.topic);
            names.tags.insert(point.tags.begin(), point.tags.end());
        }
    return names;
}

/// The points of every edition, and the years to call them by.
struct Year {
    std::string text;
    std::vector<PointTraits> points;
};

std::vector<Year> years_of(const Contents& contents) {
    std::vector<Year> years;
    for (const auto edition : trade::kEditions)
        years.push_back({trade::to_text(edition), traits_in(contents, edition)});
    return years;
}

bool is_good_id(const std::string& id) {
    static constexpr std::string_view kSigns = "abcdefghijklmnopqrstuvwxyz0123456789.-";
    return !id.empty() && id.find_first_not_of(kSigns) == std::string::npos && id.front() >= 'a' && id.front() <= 'z';
}

void check_ids(const Outline& outline, base::Faults& faults) {
    const auto see = [&](const std::string& id, const Place& place, const char* of) {
        if (!is_good_id(id))
            note(faults, place, "'" + id + "' is no good id for " + of,
                 "write small letters, digits, dashes and dots, a letter first: residential-wireman");
    };
    see(outline.id, outline.place, "an outline");
    std::set<std::string> seen;
    for (const auto& section : outline.sections) {
        see(section.id, section.place, "a section");
        if (!seen.insert(section.id).second)
            note(faults, section.place, "the section '" + section.id + "' stands twice in '" + outline.id + "'",
                 "give one of the two another id");
    }
}

void check_sums(const Outline& outline, base::Faults& faults) {
    if (outline.sections.empty() || possible_totals(outline)) return;
    QuestionCount sum;
    for (const auto& section : outline.sections) {
        sum.least += section.questions.least;
        sum.most += section.questions.most;
    }
    note(faults, outline.place,
         "the sections of '" + outline.id + "' come to " + to_text(sum) + " questions, but the exam has " +
             to_text(outline.questions),
         "let the ranges of the sections reach the exam's number of questions");
}

void check_known(const OutlineSection& section, const std::string& kind, const std::vector<std::string>& used,
                 const std::set<std::string>& known, base::Faults& faults) {
    // A section without points names what its points will have; nothing of that is in a deck yet.
    if (!section.uncovered.empty()) return;
    for (const auto& one : used) {
        if (known.contains(one)) continue;
        const auto near = base::nearest(one, {known.begin(), known.end()});
        note(faults, section.place, "no point has the " + kind + " '" + one + "'",
             near ? "did you mean '" + *near + "'?" : "'greentag library list' shows topics and tags");
    }
}

/// True when earlier sections have taken all that this one would claim, and there was something.
bool is_shadowed(const OutlineSection& section, const std::vector<Year>& years) {
    return std::any_of(years.begin(), years.end(), [&](const Year& year) {
        return std::any_of(year.points.begin(), year.points.end(),
                           [&](const PointTraits& point) { return claims(section, point); });
    });
}

/// `without`: the editions in which the section has no point.
void check_cover(const OutlineSection& section, const std::vector<std::string>& without, const std::vector<Year>& years,
                 base::Faults& faults) {
    if (!section.uncovered.empty()) {
        if (without.empty())
            note(faults, section.place,
                 "the section '" + section.id + "' is declared uncovered, but has points in every edition",
                 "remove \"uncovered\"");
        return;
    }
    // One that goes by nothing has been told on reading.
    const bool goes_by_nothing = section.topics.empty() && section.tags.empty() && section.articles.empty();
    if (without.empty() || section.questions.most == 0 || goes_by_nothing) return;
    if (without.size() == years.size() && is_shadowed(section, years)) {
        note(faults, section.place, "every point of the section '" + section.id + "' falls to an earlier section",
             "put it before the broader section, or narrow that one");
        return;
    }
    note(faults, section.place,
         "the section '" + section.id + "' asks questions but has no point under " + base::join(without, ", "),
         "widen its topics, tags or articles, or say under \"uncovered\" why there are none");
}

}  // namespace

void check_outlines(const Contents& contents, base::Faults& faults) {
    // Mapping all points anew is for nothing where no outline wants it.
    if (contents.outlines.empty()) return;
    const Names names = names_in(contents);
    const std::vector<Year> years = years_of(contents);
    for (const auto& outline : contents.outlines) {
        check_ids(outline, faults);
        check_sums(outline, faults);
        std::vector<std::vector<std::string>> without(outline.sections.size());
        for (const auto& year : years) {
            const auto map = map_points(outline, year.points);
            for (std::size_t i = 0; i < without.size(); ++i)
                if (map.sections[i].empty()) without[i].push_back(year.text);
        }
        for (std::size_t i = 0; i < without.size(); ++i) {
            const auto& section = outline.sections[i];
            check_known(section, "topic", section.topics, names.topics, faults);
            check_known(section, "tag", section.tags, names.tags, faults);
            check_cover(section, without[i], years, faults);
        }
    }
}

}  // namespace content
