#include "practice/shop/week_slots.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "base/instant.hpp"

namespace practice {
namespace {

using std::chrono::days;
using std::chrono::sys_days;

constexpr int kMostWeeks = 520;

std::string day_text(sys_days day) {
    return base::date_text(base::Instant{day});
}

const Holiday* holiday_on(const std::vector<Holiday>& holidays, sys_days day) {
    const auto found = std::find_if(holidays.begin(), holidays.end(),
                                    [day](const Holiday& one) { return one.from <= day && day <= one.to; });
    return found == holidays.end() ? nullptr : &*found;
}

void add_fault(base::Faults& faults, std::string what, std::string mend) {
    faults.push_back({"", "", 0, std::move(what), std::move(mend), false});
}

void add_range_faults(base::Faults& faults, const WeekPlanFor& what) {
    if (what.weeks < 1 || what.weeks > kMostWeeks)
        add_fault(faults, std::to_string(what.weeks) + " is no number of weeks to plan",
                  "give a number from 1 to " + std::to_string(kMostWeeks));
    if (!what.meets.ok()) add_fault(faults, "there is no such weekday to meet on", "give one from Sunday to Saturday");
    for (const auto& holiday : what.holidays)
        if (holiday.to < holiday.from)
            add_fault(
                faults,
                "the holiday from " + day_text(holiday.from) + " to " + day_text(holiday.to) + " ends before it starts",
                "put the earlier day first");
    std::set<base::PointId> bad;  // sorted, so that the faults come in the same order every time
    for (const auto& [id, weakness] : what.weakness)
        if (!(weakness >= 0 && weakness <= 1)) bad.insert(id);
    for (const auto& id : bad)
        add_fault(faults, "the weakness of " + id.text + " is not between 0 and 1",
                  "give 0 for a point everybody knows, 1 for one nobody does");
}

/// How a pin is named in a fault.
std::string pin_text(const WeekPin& pin) {
    return "the pin of " + pin.article + " on " + day_text(pin.day);
}

bool agrees_with_past(const WeekSlot& slot, const WeekPin& pin, const trade::Article& reference) {
    const auto& before = *slot.before;
    if (before.off) return false;
    return before.pin == pin.article ||
           std::any_of(before.points.begin(), before.points.end(), [&reference](const PlannedPoint& point) {
               const auto own = trade::parse_article(point.article);
               const auto match = own ? trade::compare(*own, reference) : trade::ArticleMatch::apart;
               return match == trade::ArticleMatch::exact || match == trade::ArticleMatch::deeper;
           });
}

void add_article_faults(base::Faults& faults, const std::vector<Portion>& portions, const WeekPin& pin) {
    const auto reference = trade::parse_article(pin.article);
    if (!reference)
        add_fault(faults, pin_text(pin) + " names no article", "write an article or a section, such as 250 or 210.8");
    else if (std::none_of(portions.begin(), portions.end(),
                          [&](const Portion& portion) { return stands_under(portion, *reference); }))
        add_fault(faults, pin_text(pin) + ": no point of the plan stands under " + trade::to_text(*reference),
                  "pin an article that has points in this edition, and in the outline if there is one");
}

void add_slot_faults(base::Faults& faults, const WeekSlot& slot, const WeekPin& pin) {
    const auto reference = trade::parse_article(pin.article);
    if (slot.passed && slot.before != nullptr) {
        if (reference && !agrees_with_past(slot, pin, *reference))
            add_fault(faults,
                      pin_text(pin) + " comes too late: that week has passed with " +
                          (slot.before->off ? "no meeting" : "'" + slot.before->title + "'"),
                      "take the pin away, or pin a week to come");
        return;
    }
    if (slot.holiday != nullptr)
        add_fault(faults,
                  pin_text(pin) + " falls on a holiday" +
                      (slot.holiday->name.empty() ? "" : " (" + slot.holiday->name + ")") + ": nobody meets on " +
                      day_text(slot.day),
                  "pin another week, or take the day out of the holidays");
}

void add_pin_faults(base::Faults& faults, const std::vector<Portion>& portions, const WeekPlanFor& what) {
    const auto slots = week_slots(what);
    std::map<sys_days, const WeekSlot*> by_week;
    for (const auto& slot : slots) by_week[monday_of(slot.day)] = &slot;
    std::map<sys_days, const WeekPin*> first;
    for (const auto& pin : what.pins) {
        add_article_faults(faults, portions, pin);
        const auto slot = by_week.find(monday_of(pin.day));
        if (slot == by_week.end()) {
            add_fault(faults, pin_text(pin) + " lies outside the plan",
                      "pin a day from " + day_text(monday_of(slots.front().day)) + " to " +
                          day_text(monday_of(slots.back().day) + days{6}));
            continue;
        }
        const auto [earlier, fresh] = first.emplace(slot->first, &pin);
        if (!fresh)
            add_fault(faults, pin_text(pin) + " is the second in its week, after " + pin_text(*earlier->second),
                      "keep one of them, or move one to another week");
        add_slot_faults(faults, *slot->second, pin);
    }
}

void mark_near(std::vector<WeekSlot>& slots) {
    int left = kKeptAhead;
    for (auto& slot : slots) {
        slot.near = !slot.passed && left > 0;
        if (slot.near) --left;
    }
}

}  // namespace

sys_days monday_of(sys_days day) {
    return day - (std::chrono::weekday{day} - std::chrono::Monday);
}

std::vector<WeekSlot> week_slots(const WeekPlanFor& what) {
    std::map<sys_days, const PlannedWeek*> before;
    if (what.previous != nullptr)
        for (const auto& week : what.previous->weeks) before[monday_of(week.day)] = &week;
    std::map<sys_days, const WeekPin*> pins;
    for (const auto& pin : what.pins) pins.emplace(monday_of(pin.day), &pin);
    std::vector<WeekSlot> slots;
    const sys_days first = what.start + (what.meets - std::chrono::weekday{what.start});
    for (int n = 0; n < what.weeks; ++n) {
        WeekSlot slot;
        slot.number = n + 1;
        slot.day = first + days{7 * n};
        const auto old = before.find(monday_of(slot.day));
        slot.before = old == before.end() ? nullptr : old->second;
        slot.passed = (slot.before != nullptr ? slot.before->day : slot.day) < what.today;
        if (slot.passed && slot.before != nullptr) slot.day = slot.before->day;
        slot.holiday = holiday_on(what.holidays, slot.day);
        const auto pin = pins.find(monday_of(slot.day));
        slot.pin = pin == pins.end() ? nullptr : pin->second;
        slots.push_back(slot);
    }
    mark_near(slots);
    return slots;
}

bool stands_under(const Portion& portion, const trade::Article& reference) {
    return std::any_of(portion.points.begin(), portion.points.end(), [&reference](const WeekPoint& point) {
        const auto match = trade::compare(point.reference, reference);
        return match == trade::ArticleMatch::exact || match == trade::ArticleMatch::deeper;
    });
}

base::Faults week_plan_faults(const std::vector<Portion>& portions, const WeekPlanFor& what) {
    base::Faults faults;
    if (portions.empty())
        add_fault(faults, "there is no point to plan with",
                  "choose an edition or an outline that the library has points for");
    add_range_faults(faults, what);
    const bool weeks_known = what.weeks >= 1 && what.weeks <= kMostWeeks && what.meets.ok();
    if (weeks_known && !portions.empty()) add_pin_faults(faults, portions, what);
    return faults;
}

}  // namespace practice
