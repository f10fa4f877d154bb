#include "report/shop/progress_words.hpp"

#include <cmath>

#include "report/chart/svg.hpp"
#include "report/style.hpp"
#include "report/table.hpp"

namespace report {
namespace {

using practice::NeedKind;

constexpr std::size_t kFewSure = 20;

std::string many(std::size_t count, const std::string& noun) {
    return chart::grouped(static_cast<double>(count)) + " " + noun + (count == 1 ? "" : "s");
}

std::string days_text(int days) {
    return counted(static_cast<std::size_t>(days), "day");
}

double share(std::size_t part, std::size_t whole) {
    return whole == 0 ? 0 : static_cast<double>(part) / static_cast<double>(whole);
}

}  // namespace

std::string overview(const practice::Progress& progress) {
    const std::string met = chart::grouped(static_cast<double>(progress.met)) + " of " +
                            many(progress.points, "point") + " met, " + std::to_string(progress.due) + " due, " +
                            std::to_string(progress.tripped) + " tripped.";
    if (!progress.first) return "Nothing answered yet. " + met;
    return many(progress.answers, "answer") + " on " + many(progress.days_studied, "day") + " since " +
           base::date_text(*progress.first) + ", the last on " + base::date_text(*progress.last) + "; " +
           percent(share(progress.right, progress.answers)) + " right. " + met;
}

std::string tag_words(const practice::Progress& progress) {
    if (progress.answers == 0) return "No tag yet: nothing answered";
    const std::size_t open = progress.corrections.size();
    if (open == 0) return "Green tag: no corrections open";
    return "Red tag: " + many(open, "correction") + " open" +
           (progress.tripped > 0 ? ", " + std::to_string(progress.tripped) + " tripped" : "");
}

std::string correction_words(const practice::OpenCorrection& one) {
    return std::string{content::to_text(one.stakes)} + " stakes, " + std::string{practice::to_text(one.state)} +
           ", last answered " + base::date_text(one.last);
}

std::string calibration_words(const practice::Progress& progress) {
    const auto& sure = progress.sure.at(static_cast<std::size_t>(memory::Sure::sure));
    if (sure.answers < kFewSure)
        return "Only " + many(sure.answers, "answer") + " given as sure: too few to tell how far sure can be trusted.";
    const std::size_t wrong = sure.answers - sure.right;
    return "Of " + many(sure.answers, "answer") + " given as sure, " + percent(share(sure.right, sure.answers)) +
           " were right and " + std::to_string(wrong) + (wrong == 1 ? " was" : " were") + " sure and wrong.";
}

std::string ahead_words(int days) {
    if (days == 0) return "today";
    if (days == 1) return "tomorrow";
    return "in " + days_text(days);
}

std::string need_words(const practice::Need& need, const practice::Member& member) {
    switch (need.kind) {
        case NeedKind::shock:
        case NeedKind::fire:
            return "sure and wrong on " + many(need.points.size(), "point") + " of " +
                   std::string{practice::to_text(need.kind)} + " stakes";
        case NeedKind::overdue:
            return member.progress.answers == 0 ? "not begun, " + days_text(need.days) + " since joining"
                                                : "no study for " + days_text(need.days);
        case NeedKind::exam:
            return "exam " + ahead_words(need.days) + "; chance to pass " +
                   (member.pass ? chance_words(*member.pass) : "not worked out");
    }
    return {};
}

std::string need_step(NeedKind kind) {
    switch (kind) {
        case NeedKind::shock:
        case NeedKind::fire:
            return "Talk it through before the next job that touches it.";
        case NeedKind::overdue:
            return "Ask what is in the way, and set a time.";
        case NeedKind::exam:
            return "Look at the weakest parts together, or at another date.";
    }
    return {};
}

std::string exam_words(const practice::Member& member) {
    if (!member.exam_in) return "none set";
    return ahead_words(*member.exam_in) + (member.pass ? ", " + chance_words(*member.pass) + " to pass" : "");
}

std::string last_words(const practice::Member& member) {
    if (member.progress.answers == 0) return "not begun";
    return member.idle == 0 ? "today" : days_text(member.idle) + " ago";
}

std::string circuit_legend() {
    return "Load: how many points in a hundred of those met would be right if asked now. Closed: all met points hold. "
           "Due: some have worn down. Tripped: sure and wrong, not yet proved on two later days. Spare: not begun.";
}

std::string load_words(double recall, std::size_t met) {
    return met == 0 ? "-" : percent(recall);
}

std::string more_words(std::size_t left) {
    return "and " + std::to_string(left) + " more";
}

std::string ends_words(const practice::CrewTopic& topic, const std::vector<practice::Member>& members) {
    const std::string& weakest = members.at(topic.weakest).learner.name;
    if (topic.begun < 2) return "only " + weakest + " has begun";
    return "weakest " + weakest + ", strongest " + members.at(topic.strongest).learner.name;
}

std::string chance_words(double chance) {
    const long rounded = std::lround(100 * chance);
    if (rounded <= 0) return "under 1 %";
    return rounded >= 100 ? "over 99 %" : std::to_string(rounded) + " %";
}

}  // namespace report
