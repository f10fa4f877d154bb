// What of the jobs leads nowhere: facts that the vocabulary does not have or does not take, tags, topics and references
// that no point has.

#include <algorithm>

#include "content/check/check.hpp"
#include "trade/article.hpp"

namespace content {
namespace {

void check_facts(const Job& job, const trade::Vocabulary& vocabulary, base::Faults& faults) {
    for (const auto& one : job.facts) {
        trade::CaseFacts facts{vocabulary};
        for (const auto& [name, value] : one) {
            const auto set = facts.set(name, std::string_view{value});
            if (set) continue;
            for (const auto& fault : set.error())
                faults.push_back(
                    {job.place.file, job.place.pointer + "/facts", job.place.line, fault.what, fault.mend, false});
        }
        for (const auto& finding : facts.draw_conclusions())
            faults.push_back({job.place.file, job.place.pointer + "/facts", job.place.line, finding,
                              "let the facts of a case agree", false});
    }
}

bool any_point(const Contents& contents, const auto& test) {
    return std::any_of(contents.decks.begin(), contents.decks.end(),
                       [&](const Deck& deck) { return std::any_of(deck.points.begin(), deck.points.end(), test); });
}

bool has_reference(const Point& point, const trade::Article& wanted) {
    return std::any_of(point.versions.begin(), point.versions.end(), [&](const Version& version) {
        const auto given = trade::parse_article(version.article);
        if (!given) return false;
        const auto match = trade::compare(*given, wanted);
        return match == trade::ArticleMatch::exact || match == trade::ArticleMatch::deeper ||
               match == trade::ArticleMatch::shorter;
    });
}

}  // namespace

void check_jobs(const Contents& contents, base::Faults& faults) {
    for (const auto& job : contents.jobs) {
        check_facts(job, *contents.vocabulary, faults);
        for (const auto& tag : job.tags)
            if (!any_point(contents, [&](const Point& p) {
                    return std::find(p.tags.begin(), p.tags.end(), tag) != p.tags.end();
                }))
                note(faults, job.place, "no point has the tag '" + tag + "'",
                     "name a tag that 'greentag library list' shows");
        for (const auto& topic : job.topics)
            if (!any_point(contents, [&](const Point& p) { return p.topic == topic; }))
                note(faults, job.place, "no point is of the topic '" + topic + "'",
                     "name a topic that 'greentag library list' shows");
        for (const auto& article : job.articles) {
            const auto wanted = trade::parse_article(article);
            if (wanted && !any_point(contents, [&](const Point& p) { return has_reference(p, *wanted); }))
                note(faults, job.place, "no point is about " + article,
                     "name a reference that a point has, in any edition");
        }
    }
}

}  // namespace content
