#pragma once

#include <string>
#include <vector>

#include "base/ids.hpp"
#include "content/shipped.hpp"
#include "practice/asks.hpp"
#include "practice/shop/meeting.hpp"
#include "practice/shop/meeting_plan.hpp"
#include "store/crew.hpp"

/// Meetings to try things on.
namespace meetings {

[[nodiscard]] inline base::Instant day() {
    return base::parse_instant("2026-03-02T13:00:00Z").value();
}

[[nodiscard]] inline std::vector<store::Learner> crew(std::size_t size) {
    static const std::vector<std::string> kNames = {"Ada", "Ben", "Cleo", "Dov", "Eve"};
    std::vector<store::Learner> all(size);
    for (std::size_t i = 0; i < size; ++i) {
        all[i].id.bytes[14] = static_cast<std::uint8_t>(i / 256);
        all[i].id.bytes[15] = static_cast<std::uint8_t>(i % 256 + 1);
        all[i].name = kNames[i % kNames.size()] + (i < kNames.size() ? "" : " " + std::to_string(i));
    }
    return all;
}

/// From the shipped library, sources drawn by seed.
[[nodiscard]] inline practice::MeetingFor drawn(base::Seed seed) {
    base::Random random{seed};
    const auto& points = shipped::library().index().points;
    const auto any = [&] { return points[static_cast<std::size_t>(random.below(points.size()))].id; };
    practice::MeetingFor what;
    what.day = day();
    what.title = "Boxes";
    what.shop = "Hale Electric";
    what.seed = seed;
    what.edition = trade::kEditions[static_cast<std::size_t>(random.below(trade::kEditions.size()))];
    what.asks = 8 + static_cast<std::size_t>(random.below(5));
    for (auto n = random.below(20); n > 0; --n) what.week.push_back(any());
    for (auto n = random.below(8); n > 0; --n) what.corrections.push_back({any(), 1.0 + random.unit()});
    for (auto n = random.below(8); n > 0; --n) what.sure_and_wrong.push_back({any(), 1.0 + random.unit()});
    for (auto n = random.below(8); n > 0; --n) what.jobs.push_back(any());
    for (auto n = random.below(30); n > 0; --n) {
        const auto id = any();
        what.recent.push_back({id, {id.text + "#a"}});
    }
    return what;
}

[[nodiscard]] inline practice::Meeting planned(base::Seed seed, std::size_t learners) {
    auto meeting = practice::plan_meeting(shipped::library(), drawn(seed)).value().meeting;
    practice::add_sheets(meeting, crew(learners));
    return meeting;
}

/// Four asks by hand: choose (the first of four is right), choose-all (the first two of four), number (18 in3), choose
/// (the first of three); stakes shock, fire, inspection, paperwork.
[[nodiscard]] inline practice::Meeting small(std::size_t learners) {
    practice::Meeting meeting;
    meeting.day = day();
    meeting.title = "Four asks";
    meeting.shop = "Hale Electric";
    meeting.seed = 5;
    const std::vector<content::Ask> made = {
        asks::choosing(content::Form::choose, {{"w", ""}, {"x", "m.x"}, {"y", "m.y"}, {"z", "m.z"}}),
        asks::choosing(content::Form::choose_all, {{"p", ""}, {"q", ""}, {"r", "m.r"}, {"s", "m.r"}}),
        asks::number(18, base::Unit::in3, 0.5, {{20, "m.n"}}),
        asks::choosing(content::Form::choose, {{"f", ""}, {"g", "m.x"}, {"h", "m.y"}})};
    for (std::size_t i = 0; i < made.size(); ++i) {
        practice::MeetingAsk one{made[i], practice::MeetingReason::week};
        const std::string point = "p." + std::to_string(i + 1);
        one.ask.id.text = point + "#a";
        one.ask.question.point.text = point;
        one.ask.content = "version-" + std::to_string(i + 1);
        one.ask.title = "Title " + std::to_string(i + 1);
        one.ask.stakes = static_cast<content::Stakes>(i);
        one.ask.mistakes = {{"m.x", "Takes x for it."}, {"m.r", "Counts r in."}};
        for (const auto& option : one.ask.options) {
            if (option.right) one.ask.question.right.push_back(option.text);
            if (!option.right) one.ask.question.wrong.push_back({option.text, option.mistake});
        }
        meeting.asks.push_back(std::move(one));
    }
    meeting.id = practice::meeting_id(meeting);
    practice::add_sheets(meeting, crew(learners));
    return meeting;
}

}  // namespace meetings
