#include "report/shop/progress_text.hpp"

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "report/exam/readiness_text.hpp"
#include "report/look_up_text.hpp"
#include "report/panel.hpp"
#include "report/shop/progress_words.hpp"
#include "report/table.hpp"

namespace report {
namespace {

using Lines = std::vector<std::string>;

constexpr std::size_t kMostCorrections = 10, kMostWeeks = 8, kMostTopics = 8, kMostSamples = 8;
constexpr std::size_t kMostArticles = 8;
constexpr std::size_t kNameWidth = 16, kCrewName = 22, kBar = 30;

void heading(Lines& lines, const Page& page, const std::string& words) {
    lines.emplace_back();
    add(lines, page, words, 0, Ink::bold);
}

Ink tag_ink(const practice::Progress& progress) {
    if (progress.answers == 0) return Ink::plain;
    return progress.corrections.empty() ? Ink::good : Ink::bad;
}

void add_panel(Lines& lines, const practice::Progress& progress, const Page& page) {
    std::vector<practice::TopicStanding> topics;
    for (const auto& topic : progress.topics) topics.push_back(topic.standing);
    lines.emplace_back();
    for (auto& line : panel_directory(topics, page)) lines.push_back(std::move(line));
    add(lines, page, circuit_legend(), 0, Ink::faint);
}

void add_points(Lines& lines, const std::vector<practice::OpenCorrection>& points, const Page& page) {
    for (std::size_t n = 0; n < std::min(points.size(), kMostCorrections); ++n)
        add_hanging(lines, page, "  - ", points[n].title + " (" + correction_words(points[n]) + ")",
                    points[n].tripped() ? Ink::bad : Ink::plain);
    if (points.size() > kMostCorrections) add(lines, page, more_words(points.size() - kMostCorrections), 4);
}

void add_corrections(Lines& lines, const practice::Progress& progress, const Page& page) {
    if (progress.corrections.empty()) return;
    heading(lines, page, "Corrections open");
    add_points(lines, progress.corrections, page);
}

void add_forecast(Lines& lines, const practice::Progress& progress, const Page& page) {
    if (progress.met == 0) return;
    heading(lines, page, "If nothing is studied: recall of the points met, and how many are due");
    for (std::size_t n = 0; n < progress.forecast.size(); ++n) {
        const auto& day = progress.forecast[n];
        std::string cells = right_set(percent(day.recall), 6) + right_set(std::to_string(day.due), 6) + " due";
        if (progress.shock_met > 0) cells += "   shock stakes " + percent(progress.shock_forecast[n].recall);
        add_row(lines, page, "  " + ahead_words(day.days), kNameWidth, cells);
    }
}

void add_history(Lines& lines, const practice::Progress& progress, const Page& page) {
    if (progress.history.size() < 2) return;
    heading(lines, page, "Mean recall over time, of the points met by then");
    const std::size_t from = progress.history.size() - std::min(progress.history.size(), kMostSamples);
    for (std::size_t n = from; n < progress.history.size(); ++n) {
        const auto& sample = progress.history[n];
        add_row(lines, page, "  " + base::date_text(sample.at), kNameWidth,
                right_set(load_words(sample.recall, sample.met), 6) + "  of " + counted(sample.met, "point"));
    }
}

void add_weeks(Lines& lines, const practice::Progress& progress, const Page& page) {
    const auto& weeks = progress.weeks;
    if (weeks.empty()) return;
    heading(lines, page, "Answers a week, from Monday");
    const std::size_t from = weeks.size() - std::min(weeks.size(), kMostWeeks);
    std::size_t most = 1;
    for (std::size_t n = from; n < weeks.size(); ++n) most = std::max(most, weeks[n].answers);
    for (std::size_t n = from; n < weeks.size(); ++n) {
        const auto bar = static_cast<std::size_t>(
            std::lround(static_cast<double>(kBar * weeks[n].answers) / static_cast<double>(most)));
        std::string cells = right_set(std::to_string(weeks[n].answers), 6);
        if (kNameWidth + 8 + kBar <= page.width && bar > 0) cells += "  " + std::string(bar, '#');
        add_row(lines, page, "  " + base::date_text(weeks[n].monday), kNameWidth, cells);
    }
}

void add_sure(Lines& lines, const practice::Progress& progress, const Page& page) {
    if (progress.answers == 0) return;
    heading(lines, page, "How far sure can be trusted");
    for (const auto sure : {memory::Sure::sure, memory::Sure::fairly, memory::Sure::guess}) {
        const auto& tally = progress.sure.at(static_cast<std::size_t>(sure));
        const std::string right =
            tally.answers == 0 ? "-" : percent(static_cast<double>(tally.right) / static_cast<double>(tally.answers));
        add_row(lines, page, "  " + std::string{memory::to_text(sure)}, kNameWidth,
                right_set(right, 6) + " right of " + counted(tally.answers, "answer"));
    }
    add(lines, page, calibration_words(progress), 2);
}

void add_times(Lines& lines, const practice::Progress& progress, const Page& page) {
    if (progress.times.empty()) return;
    heading(lines, page, "Seconds to answer, median, and the middle half");
    for (const auto& time : progress.times)
        add_row(lines, page, "  " + time.form, kNameWidth,
                right_set(base::number_text(time.median, 1), 6) + "  (" + base::number_text(time.low, 1) + " to " +
                    base::number_text(time.high, 1) + ", " + counted(time.answers, "answer") + ")");
}

void add_needs(Lines& lines, const practice::CrewProgress& crew, const Page& page) {
    add(lines, page, "Needs you today, " + base::date_text(crew.now), 0, Ink::bold);
    if (crew.needs.empty()) add(lines, page, "Nothing needs you today.", 2, Ink::good);
    for (std::size_t n = 0; n < crew.needs.size(); ++n) {
        const auto& need = crew.needs[n];
        const auto& member = crew.members[need.member];
        const bool hurts = need.kind == practice::NeedKind::shock || need.kind == practice::NeedKind::fire;
        add_hanging(lines, page, right_set(std::to_string(n + 1), 3) + ". ",
                    member.learner.name + ": " + need_words(need, member) + ". " + need_step(need.kind),
                    hurts ? Ink::bad : Ink::warn);
        const std::size_t shown = std::min(need.points.size(), kMostNeedPoints);
        for (std::size_t k = 0; k < shown; ++k)
            add_hanging(lines, page, "     - ",
                        need.points[k].title + " (" + std::string{practice::to_text(need.points[k].state)} + ")");
        if (shown < need.points.size()) add(lines, page, more_words(need.points.size() - shown), 7);
    }
}

std::string crew_cells(const practice::Member& member) {
    const auto& own = member.progress;
    const auto cell = [](std::size_t count, std::size_t width) { return right_set(std::to_string(count), width); };
    const double later = own.forecast.empty() ? 0 : own.forecast[3].recall;
    return cell(own.met, 5) + right_set(load_words(own.recall_now(), own.met), 7) +
           right_set(load_words(later, own.met), 8) + cell(own.due, 5) + cell(own.tripped, 8) +
           cell(own.corrections.size(), 6) + "  " + last_words(member);
}

void add_crew_table(Lines& lines, const practice::CrewProgress& crew, const Page& page) {
    heading(lines, page, "Crew");
    const std::string head = "  met recall in 30 d  due tripped  open  last study";
    const bool wide = page.width >= kCrewName + 54;
    if (wide) add_row(lines, page, "", kCrewName, head, Ink::bold);
    for (const auto& member : crew.members) {
        const auto& own = member.progress;
        if (wide) {
            const std::string name = base::wrap(member.learner.name, kCrewName - 2).front();
            lines.push_back(padded(name, kCrewName) + crew_cells(member));
        } else {
            add_hanging(lines, page, "  ",
                        member.learner.name + ": " + std::to_string(own.met) + " met, recall " +
                            load_words(own.recall_now(), own.met) + ", " + std::to_string(own.due) + " due, " +
                            std::to_string(own.tripped) + " tripped, " + counted(own.corrections.size(), "correction") +
                            " open, last study " + last_words(member));
        }
        if (member.exam_in) add(lines, page, "exam " + exam_words(member), 4);
    }
    if (crew.members.empty()) add(lines, page, "Nobody studies here yet.", 2);
}

void add_crew_topics(Lines& lines, const practice::CrewProgress& crew, const Page& page) {
    std::size_t shown = 0;
    for (const auto& topic : crew.topics) {
        if (topic.begun == 0 || shown == kMostTopics) break;
        if (shown++ == 0) heading(lines, page, "Weakest topics, and who is strong there");
        add_hanging(lines, page, "  " + padded(percent(topic.recall), 6),
                    topic.topic + ", " + counted(topic.begun, "learner") + ": " + ends_words(topic, crew.members));
    }
}

}  // namespace

std::vector<std::string> progress_text(const LearnerPage& of, const Page& page) {
    Lines lines;
    const auto& progress = of.progress;
    add(lines, page, of.learner.name + ", " + base::date_text(of.now), 0, Ink::bold);
    add(lines, page, tag_words(progress), 0, tag_ink(progress));
    add(lines, page, overview(progress));
    add_panel(lines, progress, page);
    add_corrections(lines, progress, page);
    add_forecast(lines, progress, page);
    add_history(lines, progress, page);
    add_weeks(lines, progress, page);
    add_sure(lines, progress, page);
    add_times(lines, progress, page);
    if (!of.look_ups.empty()) heading(lines, page, "Time to find a place in the book, slowest article first");
    for (auto& line : look_up_lines(of.look_ups, kMostArticles, page)) lines.push_back(std::move(line));
    if (of.readiness != nullptr) {
        lines.emplace_back();
        for (auto& line : readiness_text(*of.readiness, page)) lines.push_back(std::move(line));
    }
    return lines;
}

std::vector<std::string> crew_progress_text(const practice::CrewProgress& crew, const Page& page) {
    Lines lines;
    add_needs(lines, crew, page);
    add_crew_table(lines, crew, page);
    add_crew_topics(lines, crew, page);
    return lines;
}

}  // namespace report
