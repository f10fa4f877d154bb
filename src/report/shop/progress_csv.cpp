#include "report/shop/progress_csv.hpp"

#include <algorithm>

#include "base/csv.hpp"
#include "content/look_up.hpp"
#include "report/chart/svg.hpp"
#include "report/panel.hpp"

namespace report {
namespace {

using Cells = std::vector<std::string>;

constexpr int kShare = 4;
constexpr std::size_t kMonthAhead = 3;  // of practice::kForecastDays
static_assert(practice::kForecastDays[kMonthAhead] == 30);

std::string share_cell(double share, bool known) {
    return known ? chart::number(share, kShare) : std::string{};
}

std::string date_cell(const std::optional<base::Instant>& when) {
    return when ? base::date_text(*when) : std::string{};
}

double month_ahead(const std::vector<practice::ForecastDay>& forecast) {
    return forecast.size() > kMonthAhead ? forecast[kMonthAhead].recall : 0;
}

std::string topics_head() {
    return base::csv_line(
        {"learner", "topic", "points", "met", "due", "tripped", "state", "recall_now", "recall_in_30_days"});
}

std::string topic_lines(const std::string& name, const practice::Progress& progress) {
    std::string text;
    for (const auto& topic : progress.topics) {
        const auto& own = topic.standing;
        const bool begun = own.met > 0;
        text += base::csv_line({name, own.topic, std::to_string(own.points), std::to_string(own.met),
                                std::to_string(own.due), std::to_string(own.urgent), circuit_state(own),
                                share_cell(own.recall, begun), share_cell(month_ahead(topic.forecast), begun)});
    }
    return text;
}

}  // namespace

AnswersCsv::AnswersCsv(const content::Index& index, const std::vector<store::Learner>& learners)
    : index_{&index},
      learners_{&learners},
      text_{base::csv_line({"asked_at", "learner", "point", "topic", "stakes", "question", "content", "setting",
                            "edition", "jurisdiction", "right", "mark", "sure", "seconds", "given"})} {}

void AnswersCsv::add(const store::AnswerRecord& record) {
    const auto who = std::find_if(learners_->begin(), learners_->end(),
                                  [&](const store::Learner& one) { return one.id == record.learner; });
    if (who == learners_->end()) return;
    const auto& points = index_->points;
    const auto point = content::looked_up(record.point).value_or(record.point);
    const auto at = std::lower_bound(points.begin(), points.end(), point,
                                     [](const auto& entry, const auto& id) { return entry.id < id; });
    const bool known = at != points.end() && at->id == point;
    text_ +=
        base::csv_line({base::to_text(record.asked_at), who->name, record.point.text, known ? at->topic : "",
                        known ? std::string{content::to_text(at->stakes)} : "", record.question.text, record.content,
                        std::string{store::to_text(record.setting)}, std::to_string(record.edition),
                        record.jurisdiction, record.mark >= memory::kRecalledFrom ? "1" : "0",
                        chart::number(record.mark, kShare), std::string{memory::to_text(record.sure)},
                        chart::number(static_cast<double>(record.took_ms) / 1000, 3), record.given});
}

std::string topics_csv(const LearnerPage& of) {
    return topics_head() + topic_lines(of.learner.name, of.progress);
}

std::string topics_csv(const practice::CrewProgress& crew) {
    std::string text = topics_head();
    for (const auto& member : crew.members) text += topic_lines(member.learner.name, member.progress);
    return text;
}

std::string crew_csv(const practice::CrewProgress& crew) {
    std::string text =
        base::csv_line({"learner", "first", "last", "days_idle", "answers", "right", "days_studied", "minutes",
                        "points", "met", "due", "tripped", "corrections", "recall_now", "recall_in_30_days",
                        "sure_answers", "sure_right", "exam_in_days", "chance_to_pass"});
    for (const auto& member : crew.members) {
        const auto& own = member.progress;
        const auto& sure = own.sure.at(static_cast<std::size_t>(memory::Sure::sure));
        const bool begun = own.met > 0;
        text +=
            base::csv_line({member.learner.name, date_cell(own.first), date_cell(own.last), std::to_string(member.idle),
                            std::to_string(own.answers), std::to_string(own.right), std::to_string(own.days_studied),
                            chart::number(own.minutes, 1), std::to_string(own.points), std::to_string(own.met),
                            std::to_string(own.due), std::to_string(own.tripped),
                            std::to_string(own.corrections.size()), share_cell(own.recall_now(), begun),
                            share_cell(month_ahead(own.forecast), begun), std::to_string(sure.answers),
                            std::to_string(sure.right), member.exam_in ? std::to_string(*member.exam_in) : "",
                            share_cell(member.pass.value_or(0), !!member.pass)});
    }
    return text;
}

}  // namespace report
