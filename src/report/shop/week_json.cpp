#include "report/shop/week_json.hpp"

#include <cmath>

#include <nlohmann/json.hpp>

#include "base/instant.hpp"
#include "base/located_json.hpp"

namespace report {
namespace {

using base::Reader;
using nlohmann::ordered_json;
using std::chrono::sys_days;

constexpr std::string_view kFormat = "greentag-week-plan/1";
constexpr int kMostNumber = 100'000;

ordered_json points_json(const std::vector<practice::PlannedPoint>& points) {
    ordered_json list = ordered_json::array();
    for (const auto& point : points) {
        ordered_json one = {{"point", point.id.text},
                            {"title", point.title},
                            {"article", point.article},
                            {"stakes", content::to_text(point.stakes)}};
        if (point.unverified) one["unverified"] = true;
        list.push_back(std::move(one));
    }
    return list;
}

sys_days read_day(const Reader& owner, const char* key) {
    const auto instant = base::parse_instant(owner.text(key));
    if (instant && owner.text(key).size() == 10) return std::chrono::floor<std::chrono::days>(*instant);
    if (owner.has_text(key)) owner.member(key).fault("this is no day", "write year, month and day: 2026-03-02");
    return {};
}

int read_whole(const Reader& reader, double value) {
    if (std::floor(value) == value && value >= 0 && value <= kMostNumber) return static_cast<int>(value);
    reader.fault("this is no whole number from 0 to " + std::to_string(kMostNumber), "write one, without decimals");
    return 0;
}

std::vector<int> read_articles(const Reader& owner, const char* key) {
    std::vector<int> articles;
    for (const auto& item : owner.items(key)) articles.push_back(read_whole(item, item.as_number()));
    return articles;
}

double read_weight(const Reader& owner) {
    const double weight = owner.number("weight");
    if (weight >= 0) return weight;
    owner.member("weight").fault("a weight is never under 0", "take the number the plan was written with");
    return 0;
}

std::vector<practice::PlannedPoint> read_points(const Reader& owner) {
    std::vector<practice::PlannedPoint> points;
    for (const auto& item : owner.items("points")) {
        item.only({"point", "title", "article", "stakes", "unverified"});
        practice::PlannedPoint one;
        one.id.text = item.text("point");
        one.title = item.text("title");
        one.article = item.text("article");
        one.unverified = item.flag_or("unverified", false);
        if (const auto stakes = content::parse_stakes(item.text("stakes")))
            one.stakes = *stakes;
        else if (item.has_text("stakes"))
            item.member("stakes").fault("there are no such stakes", "write shock, fire, inspection or paperwork");
        points.push_back(std::move(one));
    }
    return points;
}

practice::PlannedWeek read_week(const Reader& item) {
    item.only({"number", "day", "off", "holiday", "title", "articles", "why", "pin", "again", "weight", "points"});
    practice::PlannedWeek week;
    week.number = read_whole(item, item.number("number"));
    week.day = read_day(item, "day");
    week.off = item.flag_or("off", false);
    week.holiday = item.text_or("holiday", "");
    if (week.off) return week;
    week.title = item.text("title");
    week.articles = read_articles(item, "articles");
    if (const auto why = practice::parse_why_week(item.text("why")))
        week.why = *why;
    else if (item.has_text("why"))
        item.member("why").fault("there is no such reason", "write pinned, weak, stakes, outline or turn");
    week.pin = item.text_or("pin", "");
    week.again = item.flag_or("again", false);
    week.weight = read_weight(item);
    week.points = read_points(item);
    return week;
}

practice::WeekPlan read_plan(const Reader& document) {
    document.only({"format", "as_of", "points", "in_weeks", "weeks", "left_over", "without_week"});
    if (document.text("format") != kFormat && document.has_text("format"))
        document.member("format").fault("this is no plan of weeks that can be read here",
                                        "give a file whose format is " + std::string{kFormat});
    practice::WeekPlan plan;
    plan.as_of = read_day(document, "as_of");
    plan.points = static_cast<std::size_t>(read_whole(document, document.number("points")));
    plan.in_weeks = static_cast<std::size_t>(read_whole(document, document.number("in_weeks")));
    for (const auto& item : document.items("weeks")) {
        plan.weeks.push_back(read_week(item));
        const auto count = plan.weeks.size();
        if (count > 1 && plan.weeks[count - 1].day <= plan.weeks[count - 2].day)
            item.fault("this week does not come after the one before it", "put the weeks in the order of their days");
    }
    for (const auto& item : document.items("left_over")) {
        item.only({"title", "weight", "points"});
        plan.left_over.push_back({item.text("title"), read_points(item), read_weight(item)});
    }
    plan.without_week = read_articles(document, "without_week");
    return plan;
}

}  // namespace

ordered_json week_json(const practice::PlannedWeek& week) {
    ordered_json out = {{"number", week.number}, {"day", base::date_text(base::Instant{week.day})}};
    if (week.off) {
        out["off"] = true;
        if (!week.holiday.empty()) out["holiday"] = week.holiday;
        return out;
    }
    out["title"] = week.title;
    out["articles"] = week.articles;
    out["why"] = practice::to_text(week.why);
    if (!week.pin.empty()) out["pin"] = week.pin;
    if (week.again) out["again"] = true;
    // Not rounded: later plans compare with it.
    out["weight"] = week.weight;
    out["points"] = points_json(week.points);
    return out;
}

ordered_json week_plan_json(const practice::WeekPlan& plan) {
    ordered_json weeks = ordered_json::array();
    for (const auto& week : plan.weeks) weeks.push_back(week_json(week));
    ordered_json left = ordered_json::array();
    for (const auto& one : plan.left_over)
        left.push_back({{"title", one.title}, {"weight", one.weight}, {"points", points_json(one.points)}});
    return {{"format", kFormat},
            {"as_of", base::date_text(base::Instant{plan.as_of})},
            {"points", plan.points},
            {"in_weeks", plan.in_weeks},
            {"weeks", weeks},
            {"left_over", left},
            {"without_week", plan.without_week}};
}

ordered_json week_talk_json(const practice::WeekTalk& talk) {
    ordered_json points = ordered_json::array();
    for (const auto& point : talk.points) {
        ordered_json one = {{"point", point.point.text}, {"article", point.article}, {"says", point.says}};
        if (point.unverified) one["unverified"] = true;
        points.push_back(std::move(one));
    }
    return {{"title", talk.title},
            {"say", points},
            {"mistake", talk.mistake},
            {"caution", talk.caution},
            {"words", talk.words}};
}

base::Checked<practice::WeekPlan> read_week_plan(std::string_view text, const std::string& file) {
    const auto located = base::parse_located(text, file);
    if (!located) return tl::unexpected(located.error());
    base::Faults faults;
    auto plan = read_plan(Reader{*located, file, "", faults});
    if (base::any_errors(faults)) return tl::unexpected(std::move(faults));
    return plan;
}

}  // namespace report
