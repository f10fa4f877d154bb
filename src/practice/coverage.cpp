#include "practice/coverage.hpp"

#include <algorithm>
#include <map>
#include <numeric>
#include <ranges>

#include "base/text.hpp"
#include "content/reading.hpp"
#include "practice/exam_parts.hpp"

namespace practice {
namespace {

using content::Point;

std::string article_of(const Point& point) {
    for (const auto edition : std::views::reverse(trade::kEditions))
        if (const auto* version = point.version(edition))
            if (const auto article = trade::parse_article(version->article))
                return (article->article < 100 ? "0" : "") + std::to_string(article->article);
    return "other";
}

void add_point(CoverageRow& row, const Point& point) {
    ++row.points;
    ++row.by_stakes.at(static_cast<std::size_t>(point.stakes));
    for (std::size_t n = 0; n < trade::kEditions.size(); ++n) {
        const auto* version = point.version(trade::kEditions.at(n));
        row.in_edition.at(n) += version == nullptr ? 0 : 1;
        row.verified.at(n) += version == nullptr || version->unverified ? 0 : 1;
    }
    for (const auto& question : point.questions) {
        ++row.by_form.at(static_cast<std::size_t>(question.form));
        row.situations += question.situation ? 1 : 0;
    }
}

using Rows = std::map<std::string, CoverageRow>;

std::vector<CoverageRow> list_of(Rows& rows) {
    std::vector<CoverageRow> list;
    for (auto& [name, row] : rows) {
        row.name = name.front() == '0' ? name.substr(1) : name;
        list.push_back(std::move(row));
    }
    return list;
}

/// Questions of each point under an edition, and the asks of calls on it.
std::map<base::PointId, std::size_t> questions_under(const content::Contents& contents, trade::Edition edition) {
    std::map<base::PointId, std::size_t> counts;
    for (const auto& deck : contents.decks)
        for (const auto& point : deck.points)
            for (const auto& question : point.questions)
                if (content::holds_in(question, point, edition)) ++counts[point.id];
    for (const auto& family : contents.families)
        for (const auto& scenario : family.scenarios)
            if (scenario.editions.contains(edition))
                for (const auto& ask : scenario.asks) ++counts[ask.point];
    return counts;
}

void add_sections(const content::Contents& contents, std::vector<SectionCoverage>& sections) {
    for (const auto& outline : contents.outlines) {
        const std::size_t first = sections.size();
        for (std::size_t e = 0; e < trade::kEditions.size(); ++e) {
            const auto edition = trade::kEditions.at(e);
            const auto parts = parts_of(outline, content::traits_in(contents, edition));
            const auto counts = questions_under(contents, edition);
            if (e == 0)
                for (const auto& part : parts)
                    sections.push_back({outline.id, part.section->title, part.asked, {}, {}, part.section->uncovered});
            for (std::size_t n = 0; n < parts.size(); ++n) {
                auto& section = sections[first + n];
                section.verified.at(e) = parts[n].points.size();
                for (const auto& id : parts[n].points)
                    if (const auto found = counts.find(id); found != counts.end())
                        section.questions.at(e) += found->second;
            }
        }
    }
}

CallCoverage calls_of(const content::Contents& contents) {
    CallCoverage calls;
    for (const auto& family : contents.families)
        for (const auto& scenario : family.scenarios) {
            ++calls.calls;
            calls.computed +=
                std::ranges::any_of(scenario.asks, [](const auto& ask) { return ask.computed != nullptr; });
        }
    return calls;
}

ReadingCoverage readings_of(const content::Contents& contents) {
    using State = content::ReadingBook::State;
    ReadingCoverage readings;
    const content::ReadingBook book{contents};
    for (const auto& one : content::to_read(contents)) {
        ++readings.questions;
        readings.read += book.state(one) == State::read ? 1 : 0;
        readings.changed += book.state(one) == State::changed ? 1 : 0;
    }
    readings.first_answers = contents.readings.size();
    for (const auto& reading : contents.readings) readings.differed += reading.agreed_first ? 0 : 1;
    return readings;
}

/// What a learner of a topic never meets: a form of question, a service call, an edition whose rules are confirmed.
std::vector<std::string> holes_of(const std::vector<CoverageRow>& topics) {
    std::vector<std::string> holes;
    for (const auto& row : topics) {
        std::vector<std::string> lacking;
        for (std::size_t form = 0; form < kCallForm; ++form)
            if (row.by_form.at(form) == 0)
                lacking.push_back("no " + std::string{content::to_text(static_cast<content::Form>(form))} +
                                  " question");
        if (row.by_form.back() == 0) lacking.emplace_back("no service call");
        for (std::size_t n = 0; n < trade::kEditions.size(); ++n)
            if (row.verified.at(n) == 0)
                lacking.push_back("nothing confirmed for " + trade::to_text(trade::kEditions.at(n)));
        if (!lacking.empty()) holes.push_back(row.name + ": " + base::join(lacking, ", "));
    }
    return holes;
}

}  // namespace

std::size_t CoverageRow::questions() const {
    return std::accumulate(by_form.begin(), by_form.end(), std::size_t{0});
}

Coverage coverage_of(const content::Contents& contents) {
    Rows topics;
    Rows articles;
    CoverageRow all;
    std::map<base::PointId, const Point*> by_id;
    for (const auto& deck : contents.decks)
        for (const auto& point : deck.points) {
            by_id[point.id] = &point;
            add_point(topics[point.topic], point);
            add_point(all, point);
            add_point(articles[article_of(point)], point);
        }
    for (const auto& family : contents.families)
        for (const auto& scenario : family.scenarios)
            for (const auto& ask : scenario.asks)
                if (const auto found = by_id.find(ask.point); found != by_id.end()) {
                    ++topics[found->second->topic].by_form.back();
                    ++all.by_form.back();
                    ++articles[article_of(*found->second)].by_form.back();
                }
    all.name = "all";
    Coverage coverage{list_of(topics), list_of(articles), {}, all, calls_of(contents), readings_of(contents), {}};
    coverage.holes = holes_of(coverage.topics);
    add_sections(contents, coverage.sections);
    return coverage;
}

}  // namespace practice
