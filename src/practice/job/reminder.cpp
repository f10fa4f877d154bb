#include "practice/job/reminder.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "content/compose.hpp"

namespace practice {
namespace {

using content::Question;
using content::Stakes;

// One page at 11 points: the longest sheets of the shipped jobs were printed from a browser, with its widest font.
constexpr std::size_t kRulesRoom = 1600, kMistakesRoom = 540, kCautionsRoom = 560;
constexpr std::size_t kLineEnds = 50, kUnverifiedNote = 50;  // what a rule takes beside its words
constexpr std::size_t kLeastRules = 3, kMostCautions = 3, kMostMistakes = 6;

/// Adds a line unless it is there already; whether it may be added is the caller's to know.
bool add_once(std::vector<std::string>& lines, std::set<std::string>& seen, const std::string& line) {
    if (line.empty() || !seen.insert(line).second) return false;
    lines.push_back(line);
    return true;
}

/// The usual caution stands first wherever somebody can be hurt; then what is special about these points.
std::vector<std::string> cautions_of(const std::vector<JobPoint>& points) {
    std::vector<std::string> cautions;
    std::set<std::string> seen;
    std::size_t room = kCautionsRoom;
    const auto add = [&](std::string caution) {
        if (!caution.empty() && caution.front() >= 'a' && caution.front() <= 'z')
            caution.front() = static_cast<char>(caution.front() - 'a' + 'A');
        if (cautions.size() >= kMostCautions || (!cautions.empty() && caution.size() > room)) return;
        if (add_once(cautions, seen, caution)) room -= std::min(room, caution.size());
    };
    for (const auto& found : points) add(content::usual_caution(found.point->stakes));
    for (const auto stakes : {Stakes::shock, Stakes::fire, Stakes::inspection, Stakes::paperwork})
        for (const auto& found : points)
            if (found.point->stakes == stakes) add(found.point->caution);
    return cautions;
}

std::vector<ReminderRule> rules_of(const std::vector<JobPoint>& points) {
    std::vector<ReminderRule> rules;
    std::size_t room = kRulesRoom;
    for (const auto& found : points) {
        const auto& version = *found.version;
        const std::size_t needs = version.says.size() + found.point->title.size() + version.article.size() + kLineEnds +
                                  (version.unverified ? kUnverifiedNote : 0);
        if (needs > room && rules.size() >= kLeastRules) continue;
        room -= std::min(room, needs);
        rules.push_back({found.point->id, found.point->title, version.article, version.says, found.point->stakes,
                         version.unverified, version.basis.kind == trade::Basis::Kind::practice});
    }
    return rules;
}

std::vector<std::string> mistake_ids(const Question& question) {
    std::vector<std::string> ids;
    for (const auto& wrong : question.wrong) ids.push_back(wrong.mistake);
    for (const auto& wrong : question.wrong_numbers) ids.push_back(wrong.mistake);
    for (const auto& wrong : question.wrong_orders) ids.push_back(wrong.mistake);
    for (const auto& wrong : question.wrong_words) ids.push_back(wrong.mistake);
    return ids;
}

/// The lines of a point's mistakes, those that most of its questions name first.
std::vector<std::string> mistake_lines(const JobSource& source, const content::Point& point, trade::Edition edition) {
    std::vector<std::pair<std::string, int>> counted;
    for (const auto& question : point.questions) {
        if (!content::holds_in(question, point, edition)) continue;
        for (const auto& id : mistake_ids(question)) {
            const auto at = std::find_if(counted.begin(), counted.end(), [&](const auto& c) { return c.first == id; });
            if (at == counted.end())
                counted.emplace_back(id, 1);
            else
                ++at->second;
        }
    }
    std::stable_sort(counted.begin(), counted.end(), [](const auto& a, const auto& b) { return a.second > b.second; });
    std::vector<std::string> lines;
    for (const auto& [id, count] : counted) lines.push_back(source.mistake(point, id));
    return lines;
}

std::vector<std::string> mistakes_of(const JobSource& source, const std::vector<JobPoint>& points,
                                     trade::Edition edition) {
    std::vector<std::vector<std::string>> lines;
    lines.reserve(points.size());
    for (const auto& found : points) lines.push_back(mistake_lines(source, *found.point, edition));
    std::vector<std::string> mistakes;
    std::set<std::string> seen;
    std::size_t room = kMistakesRoom;
    // The first mistake of every point before the second of any.
    for (std::size_t turn = 0; turn < 2; ++turn)
        for (const auto& of_point : lines) {
            if (turn >= of_point.size() || of_point[turn].size() > room || mistakes.size() >= kMostMistakes) continue;
            if (add_once(mistakes, seen, of_point[turn])) room -= of_point[turn].size();
        }
    return mistakes;
}

}  // namespace

Reminder reminder_of(const JobSource& source, const std::vector<JobPoint>& points, trade::Edition edition) {
    return {cautions_of(points), rules_of(points), mistakes_of(source, points, edition)};
}

std::vector<const content::Point*> drill_of(const std::vector<JobPoint>& points, trade::Edition edition,
                                            std::chrono::seconds time, base::Seed seed) {
    base::Random random{base::derive_seed(seed, "job drill")};
    // Weighted draw without putting back: the largest of u^(1/w), u uniform (Efraimidis and Spirakis, 2006).
    std::vector<std::pair<double, const content::Point*>> drawn;
    for (const auto& found : points) {
        const double key = std::log(1.0 - random.unit()) / found.weight;
        if (!content::questions_for(*found.point, edition).empty()) drawn.emplace_back(key, found.point);
    }
    std::stable_sort(drawn.begin(), drawn.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
    const auto asks = static_cast<std::size_t>(std::max<std::chrono::seconds::rep>(0, time / kDrillAsk));
    std::vector<const content::Point*> drill;
    for (const auto& [key, point] : drawn)
        if (drill.size() < asks) drill.push_back(point);
    return drill;
}

}  // namespace practice
