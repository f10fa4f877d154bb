#include "report/coverage_text.hpp"

#include <nlohmann/json.hpp>

#include "base/text.hpp"
#include "content/deck.hpp"
#include "report/rounded.hpp"
#include "report/style.hpp"

namespace report {
namespace {

using nlohmann::ordered_json;
using practice::CoverageRow;
using practice::SectionCoverage;

std::string form_name(std::size_t form) {
    return form == practice::kCallForm ? "in calls" : std::string{content::to_text(static_cast<content::Form>(form))};
}

std::string stakes_name(std::size_t stakes) {
    return std::string{content::to_text(static_cast<content::Stakes>(stakes))};
}

std::string row_of(const std::vector<std::string>& cells) {
    return "| " + base::join(cells, " | ") + " |\n";
}

std::string ruler(std::size_t columns) {
    std::string line = "|---|";
    for (std::size_t n = 1; n < columns; ++n) line += "---:|";
    return line + "\n";
}

/// "12", or "12 (3 unverified)".
std::string edition_cell(std::size_t points, std::size_t verified) {
    return std::to_string(points) +
           (points > verified ? " (" + std::to_string(points - verified) + " unverified)" : "");
}

std::string rows_page(const std::string& name, const std::vector<CoverageRow>& rows) {
    std::vector<std::string> head = {name, "points"};
    for (const auto edition : trade::kEditions) head.emplace_back(trade::to_text(edition));
    for (std::size_t n = 0; n < CoverageRow{}.by_stakes.size(); ++n) head.push_back(stakes_name(n));
    head.emplace_back("questions");
    for (std::size_t n = 0; n < CoverageRow{}.by_form.size(); ++n) head.push_back(form_name(n));
    head.emplace_back("situations");
    std::string page = row_of(head) + ruler(head.size());
    for (const auto& row : rows) {
        std::vector<std::string> cells = {row.name, std::to_string(row.points)};
        for (std::size_t n = 0; n < row.in_edition.size(); ++n)
            cells.push_back(edition_cell(row.in_edition.at(n), row.verified.at(n)));
        for (const auto count : row.by_stakes) cells.push_back(std::to_string(count));
        cells.push_back(std::to_string(row.questions()));
        for (const auto count : row.by_form) cells.push_back(std::to_string(count));
        cells.push_back(std::to_string(row.situations));
        page += row_of(cells);
    }
    return page;
}

std::string section_cell(const SectionCoverage& section, std::size_t edition) {
    const std::string counts =
        std::to_string(section.verified.at(edition)) + " / " + std::to_string(section.questions.at(edition));
    if (section.verified.at(edition) == 0) return "**none**";
    return section.thin(edition) ? "**" + counts + "**" : counts;
}

std::string sections_page(const std::vector<SectionCoverage>& sections) {
    std::string page;
    std::string last;
    for (const auto& section : sections) {
        if (section.outline != last) {
            std::vector<std::string> head = {section.outline, "asks"};
            for (const auto edition : trade::kEditions) head.emplace_back(trade::to_text(edition));
            page += (last.empty() ? "" : "\n") + row_of(head) + ruler(head.size());
            last = section.outline;
        }
        std::vector<std::string> cells = {
            section.section + (section.uncovered.empty() ? "" : " (" + section.uncovered + ")"),
            std::to_string(section.asked)};
        for (std::size_t n = 0; n < section.verified.size(); ++n) cells.push_back(section_cell(section, n));
        page += row_of(cells);
    }
    return page;
}

ordered_json row_json(const CoverageRow& row) {
    ordered_json forms;
    for (std::size_t n = 0; n < row.by_form.size(); ++n) forms[form_name(n)] = row.by_form.at(n);
    ordered_json stakes;
    for (std::size_t n = 0; n < row.by_stakes.size(); ++n) stakes[stakes_name(n)] = row.by_stakes.at(n);
    ordered_json editions;
    for (std::size_t n = 0; n < row.in_edition.size(); ++n)
        editions[std::string{trade::to_text(trade::kEditions.at(n))}] = {{"points", row.in_edition.at(n)},
                                                                         {"verified", row.verified.at(n)}};
    return {{"name", row.name},
            {"points", row.points},
            {"editions", editions},
            {"stakes", stakes},
            {"questions", row.questions()},
            {"forms", forms},
            {"situations", row.situations}};
}

ordered_json section_json(const SectionCoverage& section) {
    ordered_json editions;
    for (std::size_t n = 0; n < section.verified.size(); ++n)
        editions[std::string{trade::to_text(trade::kEditions.at(n))}] = {
            {"points", section.verified.at(n)}, {"questions", section.questions.at(n)}, {"thin", section.thin(n)}};
    return {{"outline", section.outline},
            {"section", section.section},
            {"asks", section.asked},
            {"uncovered", section.uncovered},
            {"editions", editions}};
}

std::string share(std::size_t part, std::size_t whole) {
    return whole == 0
               ? std::to_string(part)
               : std::to_string(part) + " of " + std::to_string(whole) + " (" +
                     base::number_text(rounded<1>(100.0 * static_cast<double>(part) / static_cast<double>(whole)), 1) +
                     " %)";
}

std::string totals_page(const practice::Coverage& coverage) {
    const auto& all = coverage.all;
    const std::size_t written = all.questions() - all.by_form.back();
    const auto lookups = all.by_form.at(static_cast<std::size_t>(content::Form::article));
    const auto& readings = coverage.readings;
    std::string page = counted(all.points, "point") + ", " + counted(written, "question") + ", " +
                       counted(coverage.calls.calls, "service call") + " with " + counted(all.by_form.back(), "ask") +
                       ".\n\n";
    page += "- Look-ups of an article: " + share(lookups, written) + " of the questions\n" +
            "- Situations with facts to weigh: " + share(all.situations, written) +
            " of the questions, and every ask of a call\n" + "- Calls with answers worked out as they are posed: " +
            share(coverage.calls.computed, coverage.calls.calls) + "\n";
    if (readings.first_answers == 0) return page;
    return page + "- Answered by a second reader as they stand: " + share(readings.read, readings.questions) +
           ", changed since: " + std::to_string(readings.changed) +
           "\n- First answers of second readers that differed from ours: " +
           share(readings.differed, readings.first_answers) + "\n";
}

std::string holes_page(const std::vector<std::string>& holes) {
    std::string page = "## Holes\nWhat a learner of a topic never meets.\n\n";
    for (const auto& hole : holes) page += "- " + hole + "\n";
    return holes.empty() ? page + "None.\n" : page;
}

ordered_json totals_json(const practice::Coverage& coverage) {
    const auto& readings = coverage.readings;
    auto out = row_json(coverage.all);
    out["calls"] = coverage.calls.calls;
    out["computed_calls"] = coverage.calls.computed;
    out["readings"] = {{"questions", readings.questions},
                       {"read", readings.read},
                       {"changed", readings.changed},
                       {"first_answers", readings.first_answers},
                       {"differed", readings.differed}};
    return out;
}

}  // namespace

std::string coverage_page(const practice::Coverage& coverage) {
    return "# What the library covers\n\nWritten by `greentag library coverage`; tests hold it against the "
           "content.\n\n" +
           totals_page(coverage) +
           "\n## By topic\nPoints by edition and by stakes; questions by form, asks of service calls last.\n\n" +
           rows_page("topic", coverage.topics) +
           "\n## By article\nA point stands under the article that governs it in the newest edition that has it.\n\n" +
           rows_page("article", coverage.articles) +
           "\n## Against the exam outlines\nVerified points, and questions on them, by edition. Bold: fewer questions "
           "than an exam at full length asks of the section, or no point at all.\n\n" +
           sections_page(coverage.sections) + "\n" + holes_page(coverage.holes);
}

ordered_json coverage_json(const practice::Coverage& coverage) {
    ordered_json out = {{"ok", true}, {"all", totals_json(coverage)}, {"holes", coverage.holes}};
    out["topics"] = ordered_json::array();
    for (const auto& row : coverage.topics) out["topics"].push_back(row_json(row));
    out["articles"] = ordered_json::array();
    for (const auto& row : coverage.articles) out["articles"].push_back(row_json(row));
    out["sections"] = ordered_json::array();
    for (const auto& section : coverage.sections) out["sections"].push_back(section_json(section));
    return out;
}

}  // namespace report
