#include "report/meeting/meeting_json.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "base/text.hpp"
#include "practice/shop/meeting_entry.hpp"
#include "practice/shop/meetings.hpp"

namespace {

using nlohmann::ordered_json;
using practice::Meeting;

/// The fault that a document has once `spoil` has been at it.
template <class Spoil>
std::string fault_of(Spoil spoil) {
    ordered_json document = report::meeting_json(meetings::small(2));
    spoil(document);
    const auto read = report::read_meeting(document.dump(2), "m.json");
    if (read) return "none";
    std::string all;
    for (const auto& fault : read.error()) {
        CHECK(fault.file == "m.json");
        CHECK(fault.line > 0);
        all += fault.pointer + " " + fault.what + "\n";
    }
    return all;
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("meeting document: reading gives back what was written, to the letter") {
    for (base::Seed seed = 1; seed <= 40; ++seed) {
        CAPTURE(seed);
        Meeting meeting = meetings::planned(seed, 1 + seed % 7);
        meeting.jurisdiction = "alder";
        meeting.seed = 0xfedcba9876543210U + seed;  // more than a double can hold
        meeting.id = practice::meeting_id(meeting);
        const auto document = report::meeting_json(meeting);
        const auto read = report::read_meeting(document.dump(), "m.json");
        REQUIRE(read.has_value());
        CHECK(report::meeting_json(*read) == document);
        CHECK(practice::meeting_id(*read) == meeting.id);
        CHECK(read->seed == meeting.seed);
        CHECK(read->day == meeting.day);
    }
}

TEST_CASE("meeting document: answers are marked alike from the meeting and from its document, without the library") {
    for (base::Seed seed = 1; seed <= 20; ++seed) {
        CAPTURE(seed);
        const Meeting meeting = meetings::planned(seed, 4);
        const auto read = report::read_meeting(report::meeting_json(meeting).dump(), "m.json").value();
        base::Random random{seed};
        std::string text;
        for (const auto& sheet : meeting.sheets) {
            text += std::to_string(sheet.number) + " ";
            for (const auto& one : meeting.asks)
                text += one.ask.options.empty() ? "[" + std::to_string(random.below(30)) + "]"
                                                : content::letter(random.below(one.ask.options.size()));
            text += "\n";
        }
        const auto ours = practice::enter_lines(meeting, text, {});
        const auto theirs = practice::enter_lines(read, text, {});
        REQUIRE(ours.faults.empty());
        REQUIRE(theirs.entries.size() == ours.entries.size());
        for (std::size_t i = 0; i < ours.entries.size(); ++i) {
            CHECK(practice::record_of(meeting, ours.entries[i]) == practice::record_of(read, theirs.entries[i]));
            CHECK(ours.entries[i].mark.mistakes == theirs.entries[i].mark.mistakes);
        }
        const auto before = report::review_json(meeting, practice::review(meeting, ours.entries));
        CHECK(report::review_json(read, practice::review(read, theirs.entries)) == before);
    }
}

TEST_CASE("meeting document: what it holds, by name") {
    const auto document = report::meeting_json(meetings::small(1));
    CHECK(document["format"] == "greentag-meeting/1");
    CHECK(document["day"] == "2026-03-02T13:00:00.000Z");
    CHECK(document["seed"] == "5");
    CHECK(document["asks"][0]["options"][0] == ordered_json{{"text", "w"}, {"right", true}});
    CHECK(document["asks"][0]["options"][1] ==
          ordered_json{{"text", "x"}, {"mistake", "m.x"}, {"means", "Takes x for it."}});
    CHECK(document["asks"][2]["answer"] == ordered_json{{"value", 18.0}, {"unit", "in3"}, {"within", 0.5}});
    std::string order = document["sheets"][0]["orders"][0];
    std::ranges::sort(order);
    CHECK(order == "abcd");
    CHECK(document["sheets"][0]["orders"][2] == "");
}

TEST_CASE("meeting document: what is wrong with it is told with its line") {
    CHECK(fault_of([](ordered_json&) {}) == "none");
    CHECK(has(fault_of([](auto& d) { d["format"] = "greentag-meeting/2"; }), "format 'greentag-meeting/2'"));
    CHECK(has(fault_of([](auto& d) { d.erase("format"); }), "format"));
    CHECK(has(fault_of([](auto& d) { d["id"] = "x"; }), "\"id\" is 'x'"));
    CHECK(has(fault_of([](auto& d) { d["day"] = "Monday"; }), "\"day\" is 'Monday'"));
    CHECK(has(fault_of([](auto& d) { d["seed"] = "-1"; }), "\"seed\" is '-1'"));
    CHECK(has(fault_of([](auto& d) { d["seed"] = 5; }), "/seed"));
    CHECK(has(fault_of([](auto& d) { d["edition"] = "2019"; }), "\"edition\" is '2019'"));
    CHECK(has(fault_of([](auto& d) { d["asks"] = ordered_json::array(); }), "no asks"));
    CHECK(has(fault_of([](auto& d) { d.erase("sheets"); }), "sheets"));
    CHECK(has(fault_of([](auto& d) { d["asks"][0]["form"] = "recall"; }), "cannot be answered on paper"));
    CHECK(has(fault_of([](auto& d) { d["asks"][0]["form"] = "sing"; }), "\"form\" is 'sing'"));
    CHECK(has(fault_of([](auto& d) { d["asks"][0]["stakes"] = "money"; }), "\"stakes\" is 'money'"));
    CHECK(has(fault_of([](auto& d) { d["asks"][0]["reason"] = "whim"; }), "\"reason\" is 'whim'"));
    CHECK(has(fault_of([](auto& d) { d["asks"][0]["options"][1]["right"] = true; }), "2 right options"));
    CHECK(has(fault_of([](auto& d) { d["asks"][1]["options"].erase(0); }), "does not fit ask 2"));
    CHECK(has(fault_of([](auto& d) { d["asks"][0]["options"].erase(0); }), "0 right options"));
    CHECK(has(fault_of([](auto& d) { d["asks"][0]["options"] = ordered_json::array(); }), "has 0 options"));
    CHECK(has(fault_of([](auto& d) { d["asks"][2]["answer"]["unit"] = "furlong"; }), "\"unit\" is 'furlong'"));
    CHECK(has(fault_of([](auto& d) { d["sheets"][0]["sheet"] = 1.5; }), "no sheet number"));
    CHECK(has(fault_of([](auto& d) { d["sheets"][1]["sheet"] = 1; }), "sheet 1 stands there twice"));
    CHECK(has(fault_of([](auto& d) { d["sheets"][1]["learner"] = d["sheets"][0]["learner"]; }), "two sheets"));
    CHECK(has(fault_of([](auto& d) { d["sheets"][0]["orders"][0] = "abca"; }), "the order 'abca' does not fit"));
    CHECK(has(fault_of([](auto& d) { d["sheets"][0]["orders"][2] = "a"; }), "does not fit ask 3"));
    CHECK(has(fault_of([](auto& d) { d["sheets"][0]["orders"].erase(0); }), "has 3 orders for 4 asks"));
    const auto several = fault_of([](auto& d) {
        d["id"] = "x";
        d["asks"][0]["stakes"] = "money";
        d["sheets"][0]["seed"] = "";
    });
    CHECK(std::ranges::count(several, '\n') == 3);
}

TEST_CASE("meeting document: cut anywhere, it is refused") {
    const std::string text = report::meeting_json(meetings::small(2)).dump();
    for (std::size_t length = 0; length < text.size(); ++length)
        REQUIRE_FALSE(report::read_meeting(text.substr(0, length), "m.json").has_value());
}

TEST_CASE("meeting document: plan and review for programs") {
    const auto plan = practice::plan_meeting(shipped::library(), meetings::drawn(4)).value();
    const auto document = report::plan_json(plan);
    CHECK(document["ok"] == true);
    REQUIRE(document["asks"].size() == plan.meeting.asks.size());
    CHECK(document["asks"][1]["ask"] == 2);
    CHECK(document["told"].size() == plan.told.size());
    const Meeting meeting = meetings::small(2);
    const auto none = report::review_json(meeting, practice::review(meeting, {}));
    CHECK(none["tag"].is_null());
    CHECK(none["asks"][0]["share_right"].is_null());
    CHECK(none["missing"] == ordered_json{"Ada", "Ben"});
}
