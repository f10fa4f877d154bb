#include "report/shop/progress_charts.hpp"

#include <algorithm>

#include "memory/items/interval.hpp"
#include "report/chart/interval_plot.hpp"
#include "report/chart/line_plot.hpp"
#include "report/style.hpp"
#include "report/table.hpp"

namespace report {
namespace {

using chart::Unit;

constexpr std::size_t kMostWeeks = 26;
constexpr double kErrors = 1.96;  // standard errors of a 95 % interval
constexpr double kLineWidth = 200, kLineHeight = 44, kLineMargin = 6;

/// In what the time before now is counted, and how many days one is.
struct Count {
    std::string noun;
    double days = 1;
};

Count count_for(double step) {
    if (step < 7) return {"days", 1};
    if (step < 30) return {"weeks", 7};
    return step < 365 ? Count{"months", 365.25 / 12} : Count{"years", 365.25};
}

std::string since_words(const practice::RecallSample& first, const practice::RecallSample& last) {
    return "From " + percent(first.recall) + " on " + base::date_text(first.at) + " to " + percent(last.recall) +
           " now.";
}

const practice::RecallSample* first_met(const std::vector<practice::RecallSample>& history) {
    const auto found = std::find_if(history.begin(), history.end(), [](const auto& one) { return one.met > 0; });
    return found == history.end() ? nullptr : &*found;
}

void draw_week(chart::Frame& frame, const practice::WeekAnswers& week, double place) {
    const double left = frame.x(place - 0.4), right = frame.x(place + 0.4);
    const double base = frame.y(0);
    const double top = frame.y(static_cast<double>(week.answers));
    const double middle = frame.y(static_cast<double>(week.right));
    if (week.right > 0) frame.shapes().rect({left, middle}, right - left, base - middle, "full");
    if (week.answers > week.right) frame.shapes().rect({left, top}, right - left, middle - top, "open");
}

void say_weeks(chart::Frame& frame, const std::vector<practice::WeekAnswers>& weeks, std::size_t from) {
    std::string sentence = "Week by week, from Monday:";
    for (std::size_t n = from; n < weeks.size(); ++n)
        sentence += (n == from ? " " : "; ") + base::date_text(weeks[n].monday) + ": " +
                    counted(weeks[n].answers, "answer") + ", " + std::to_string(weeks[n].right) + " right";
    frame.say(sentence + ".");
}

chart::LineSeries forecast_line(const std::string& name, const std::vector<practice::ForecastDay>& forecast) {
    chart::LineSeries line{name, {}};
    for (const auto& day : forecast) line.points.push_back({static_cast<double>(day.days), day.recall, 0, 0});
    return line;
}

}  // namespace

std::string history_svg(const practice::Progress& progress) {
    const auto count = count_for(progress.step_days);
    const chart::Words words{"progress-history", "Mean recall, all points met",
                             "Chance of a right answer, mean over the points met by then. New points pull it down at "
                             "first."};
    const std::string since =
        progress.history.empty() ? std::string{} : " since " + base::date_text(progress.history.front().at);
    chart::LineSeries line{"mean recall of the points met by then", {}};
    for (const auto& sample : progress.history)
        if (sample.met > 0)
            line.points.push_back(
                {base::days_between(progress.history.front().at, sample.at) / count.days, sample.recall, 0, 0});
    const chart::LineAxes axes{{0, 0, count.noun + since, Unit::plain, false, true, true},
                               {0, 1, "recall", Unit::percent, false, true, false}};
    return chart::line_plot(words, {line}, axes);
}

std::string topic_line_svg(const practice::TopicProgress& topic, const std::string& id) {
    const auto* first = first_met(topic.history);
    chart::Shapes shapes;
    const auto y = [](double recall) { return kLineMargin + (1 - recall) * (kLineHeight - 2 * kLineMargin); };
    for (const double grid : {0.0, 0.5, 1.0})
        shapes.line({kLineMargin, y(grid)}, {kLineWidth - kLineMargin, y(grid)}, "grid");
    std::vector<chart::Spot> spots;
    const double steps = std::max(1.0, static_cast<double>(topic.history.size()) - 1);
    for (std::size_t n = 0; n < topic.history.size(); ++n)
        if (topic.history[n].met > 0)
            spots.push_back({kLineMargin + static_cast<double>(n) / steps * (kLineWidth - 2 * kLineMargin),
                             y(topic.history[n].recall)});
    if (topic.history.size() == 1 && !spots.empty()) spots.front().x = kLineWidth - kLineMargin;
    if (spots.size() > 1) shapes.path(spots, "l0");
    if (!spots.empty()) shapes.marker(spots.back(), 0);
    const std::string about = first == nullptr ? "Not begun." : since_words(*first, topic.history.back());
    const std::string name = chart::id_text(id);
    return "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"chart line\" viewBox=\"0 0 " + chart::number(kLineWidth) +
           " " + chart::number(kLineHeight) + "\" role=\"img\" aria-labelledby=\"" + name + "-title " + name +
           "-desc\">\n<title id=\"" + name + "-title\">Recall over time: " + chart::escaped(topic.standing.topic) +
           "</title>\n<desc id=\"" + name + "-desc\">" + chart::escaped(about) + "</desc>\n" + shapes.markup() +
           "</svg>\n";
}

std::string forecast_svg(const practice::Progress& progress) {
    const chart::Words words{"progress-forecast", "What is left if nothing is studied",
                             "Mean chance of a right answer over the points met until now, by days from today."};
    std::vector<chart::LineSeries> lines;
    if (progress.met > 0) lines.push_back(forecast_line("all points met", progress.forecast));
    if (progress.shock_met > 0) lines.push_back(forecast_line("points of shock stakes", progress.shock_forecast));
    const chart::LineAxes axes{{0, 90, "days from today", Unit::plain, false, true, true},
                               {0, 1, "recall", Unit::percent, false, true, false}};
    return chart::line_plot(words, lines, axes);
}

std::string weeks_svg(const practice::Progress& progress) {
    const auto& weeks = progress.weeks;
    const std::size_t from = weeks.size() - std::min(weeks.size(), kMostWeeks);
    std::size_t most = 1;
    for (std::size_t n = from; n < weeks.size(); ++n) most = std::max(most, weeks[n].answers);
    const double shown = std::max<double>(8, static_cast<double>(weeks.size() - from));
    const std::string across = weeks.empty() ? "week" : "week; week 1 began " + base::date_text(weeks[from].monday);
    chart::Frame frame{
        {"progress-weeks", "Right and wrong, week by week", "Each bar is one week; the last is this one, so far."},
        {360, 160},
        {0.5, shown + 0.5, across, Unit::plain, false, true, true},
        {0, static_cast<double>(most), "answers", Unit::plain, true, true, true}};
    if (weeks.empty()) {
        frame.say_empty("Nothing to show yet.");
        return frame.svg();
    }
    for (std::size_t n = from; n < weeks.size(); ++n) draw_week(frame, weeks[n], static_cast<double>(n - from + 1));
    frame.key_box("full", "right");
    frame.key_box("open", "wrong");
    say_weeks(frame, weeks, from);
    return frame.svg();
}

std::string sure_svg(const practice::Progress& progress) {
    const chart::Words words{"progress-sure", "Share right, by how sure",
                             "With the interval that holds the true share in 95 of 100 cases."};
    std::vector<chart::IntervalRow> rows;
    for (const auto sure : {memory::Sure::sure, memory::Sure::fairly, memory::Sure::guess}) {
        const auto& tally = progress.sure.at(static_cast<std::size_t>(sure));
        if (tally.answers == 0) continue;
        const auto share =
            memory::share_interval(static_cast<double>(tally.right), static_cast<double>(tally.answers), kErrors);
        rows.push_back({std::string{memory::to_text(sure)}, share.estimate, share.low, share.high,
                        counted(tally.answers, "answer"), 0});
    }
    return chart::interval_plot(words, rows, "share right", Unit::percent);
}

std::string times_svg(const practice::Progress& progress) {
    const chart::Words words{"progress-times", "Seconds to answer, by form",
                             "The median, and between which values the middle half of the answers lie."};
    std::vector<chart::IntervalRow> rows;
    for (const auto& time : progress.times)
        rows.push_back({time.form, time.median, time.low, time.high, counted(time.answers, "answer"), 0});
    return chart::interval_plot(words, rows, "seconds");
}

}  // namespace report
