#include "content/check/check.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "base/text.hpp"
#include "content/sample.hpp"

namespace {

using base::Faults;

struct Finding {
    std::string from, to;
    std::string pointer;
    std::string what;
    bool warning = false;
};

std::string told(const Faults& faults) {
    std::string text;
    for (const auto& fault : faults) text += base::to_text(fault) + "\n";
    return text;
}

bool holds(const Faults& faults, const Finding& finding, const std::string& file) {
    return std::any_of(faults.begin(), faults.end(), [&](const base::Fault& f) {
        return f.file == file && f.pointer == finding.pointer && f.warning == finding.warning &&
               f.what.find(finding.what) != std::string::npos && f.line > 0 && !f.mend.empty();
    });
}

/// Each change provokes its finding in the deck; what else it provokes is told when it does not.
void check_findings(const std::vector<Finding>& findings) {
    for (const auto& finding : findings) {
        CAPTURE(finding.what);
        const std::string deck = sample::spoiled(sample::kDeck, finding.from, finding.to);
        REQUIRE_FALSE(deck.empty());
        const auto faults = content::check_contents(sample::contents(deck));
        CHECK_MESSAGE(holds(faults, finding, "deck.json"), told(faults));
    }
}

/// A deck of points that each ask one choose question, as long as told.
std::string deck_of_lengths(int points, int with_longest_right) {
    std::string all;
    for (int i = 0; i < points; ++i) {
        const std::string n = std::to_string(i);
        const std::string right = i < with_longest_right ? "a right answer longer than all" : "right";
        all +=
            (i > 0 ? "," : "") + std::string{R"({"id": "p.n)"} + n +
            R"(", "title": "t", "stakes": "fire", "tags": [], "versions": [{"editions": "2017-2026", "article": "90.2",
               "says": "says)" +
            n + R"(", "basis": {"kind": "practice"}}], "questions": [{"id": "a", "form": "choose", "text": "word)" + n +
            " one" + n + " two" + n + R"(", "right": ")" + right +
            R"(", "wrong": [{"text": "wrong one", "mistake": "m"}, {"text": "other", "mistake": "m"}]}]})";
    }
    return R"({"format": "greentag-deck/1", "deck": "d", "title": "t", "topic": "d", "mistakes": {"m": "explained here"}, "points": [)" +
           all + "]}";
}

Faults findings_of(const std::string& deck) {
    content::Contents contents;
    content::add_document(contents, deck, {"deck.json", 0, 0, 0});
    return content::check_contents(contents);
}

const std::string kVersions = "\"versions\": [\n        {\n          \"editions\": \"2020-2026\"";

}  // namespace

TEST_CASE("check: the sample is without a finding") {
    CHECK(told(content::check_contents(sample::contents())).empty());
}

TEST_CASE("check: every finding about points is made where it belongs") {
    const std::string p0 = "/points/0";
    const std::string p1 = "/points/1";
    check_findings({
        {"\"id\": \"box.volume\"", "\"id\": \"volume\"", p1, "'volume' is no good id"},
        {"\"id\": \"box.volume\"", "\"id\": \"Box.volume\"", p1, "'Box.volume' is no good id"},
        {"\"title\": \"Boxes stay reachable\"", "\"title\": \"\"", p0, "lacks a title"},
        {"[\"box.accessible\"]", "[\"box.gone\"]", p1, "needs 'box.gone', which is not in the library"},
        {"[\"box.accessible\"]", "[\"box.volume\"]", p1, "'box.volume' needs itself"},
        {"\"tags\": [\"box\", \"rough-in\"],", "\"tags\": [], \"needs\": [\"box.volume\"],", p0,
         "needs itself by way of"},
        {"\"gaps\": [{\"editions\": \"2017\", \"why\": \"Left out on purpose.\"}],", "", p1, "says nothing for 2017"},
        {"\"gaps\": [{\"editions\": \"2017\"", "\"gaps\": [{\"editions\": \"2017-2020\"", p1, "calls 2020 a gap but"},
        {"\"editions\": \"2017-2023\",\n          \"article\"", "\"editions\": \"2017-2026\",\n          \"article\"",
         p0, "has two versions for 2026"},
    });
}

TEST_CASE("check: a point that cannot be asked in one of its editions is found") {
    std::string deck = deck_of_lengths(1, 0);
    deck = sample::spoiled(deck, "\"form\": \"choose\"", "\"form\": \"choose\", \"editions\": \"2017-2023\"");
    const auto faults = findings_of(deck);
    REQUIRE_MESSAGE(faults.size() == 1, told(faults));
    CHECK(faults[0].what == "no question of 'p.n0' can be asked under 2026");
}

TEST_CASE("check: every finding about questions is made where it belongs") {
    const std::string q0 = "/points/0/questions/";
    const std::string q1 = "/points/1/questions/";
    check_findings({
        {"{\"id\": \"b\", \"form\": \"choose-all\"", "{\"id\": \"a\", \"form\": \"choose-all\"", q0 + "1",
         "the question id 'a' is taken"},
        {"\"text\": \"May a box vanish behind new drywall?\"", "\"text\": \" \"", q0 + "0", "it asks nothing"},
        {"\"form\": \"order\",", "\"form\": \"order\", \"editions\": \"2017-2020\",", q1 + "2",
         "asked under 2017, where its point says nothing"},
        {"Yes, once it has been inspected", "no, it stays reachable for good ", q0 + "0", "stands twice"},
        {"\"Above a lift-out ceiling tile\", ", "", q0 + "1", "there are 2 options"},
        {"\"Lock out\", \"Prove dead\", \"Open\", \"Look\"", "\"Lock out\", \"Prove dead\"", q1 + "2",
         "there are 2 steps"},
        {"\"Open\", \"Look\"", "\"Open\", \"open\"", q1 + "2", "the option 'open' stands twice"},
        {"\"value\": 2.0, \"mistake\"", "\"value\": 2.26, \"mistake\"", q1 + "0", "wrong value 2.26 counts as right"},
        {"\"value\": 2.25,", "\"value\": 2.5,", q1 + "0", "the answer is 2.5 in3 but under 2020 it works out to 2.25"},
        {"\"value\": 11.25,", "\"value\": 9,", q1 + "1", "the answer is 9 in3 but under 2020 it works out to 11.25"},
        {"\"lookup\": \"box-volume\"", "\"lookup\": \"box-size\"", q1 + "0", "there is no table 'box-size'"},
        {"{\"size\": 12}", "{\"size\": 99}", q1 + "0", "no one row of table 'box-volume' fits"},
        {"\"column\": \"volume\"", "\"column\": \"room\"", q1 + "0", "no one row of table 'box-volume' fits"},
        {"{\"size\": \"12\", \"count\": 4}", "{\"size\": \"2\", \"count\": 4}", q1 + "1",
         "'box-fill' cannot be worked out"},
        {",\n          \"check\": {\"lookup\": \"box-volume\", \"row\": {\"size\": 12}, \"column\": \"volume\"}", "",
         q1 + "0", "a number needs a check or a basis"},
        {"\"enough\": \"314.29\"", "\"enough\": \"314.16\"", q0 + "2", "'314.16' is not on the way to 314.29 (2017)"},
        {"[\"heat\", \"hot\"]", "[]", q1 + "3", "the idea 'heat' has no words"},
        {"\"mistake\": \"m.glue\"}]\n        }\n      ]", "\"mistake\": \"m.gleu\"}]\n        }\n      ]", q1 + "3",
         "the mistake 'm.gleu' is not explained"},
    });
}

TEST_CASE("check: a sum is worked out, and a chosen number has to be what its check gives") {
    const std::string looked_up =
        ",\n          \"check\": {\"lookup\": \"box-volume\", \"row\": {\"size\": 12}, \"column\": \"volume\"}";
    const std::string q = "/points/1/questions/0";
    const std::string chosen = "\"right\": \"No, it stays reachable for good\"";
    check_findings({
        {looked_up, ", \"check\": {\"sum\": \"9 / 3\"}", q, "the answer is 2.25 in3 but under 2020 it works out to 3"},
        {looked_up, ", \"check\": {\"sum\": \"9 / 0\"}", q, "the sum '9 / 0' cannot be worked out"},
        {chosen, chosen + ", \"check\": {\"sum\": \"2 * 2\"}", "/points/0/questions/0",
         "the right option does not have the number that the check works out under 2017: 4"},
    });
    const auto with_number =
        sample::spoiled(sample::kDeck, chosen, "\"right\": \"No, 4 of them\", \"check\": {\"sum\": \"2 * 2\"}");
    CHECK(told(content::check_contents(sample::contents(with_number))).empty());
}

TEST_CASE("check: an empty option, an empty answer and a mistake that explains nothing are found") {
    const std::string q0 = "/points/0/questions/0";
    check_findings({
        {"\"right\": \"No, it stays reachable for good\"", "\"right\": \" \"", q0, "one of its options is empty"},
        {"\"text\": \"Yes, once it has been inspected\"", "\"text\": \"\"", q0, "one of its options is empty"},
        {"\"answer\": \"heat and no box\"", "\"answer\": \"\"", "/points/1/questions/3", "it has no full answer"},
        {"\"m.glue\": \"Glues it shut.\"", "\"m.glue\": \"Wrong.\"", "/mistakes",
         "the line of the mistake 'm.glue' explains nothing"},
    });
}

TEST_CASE("check: a mistake that nothing uses is a warning at the list of mistakes") {
    check_findings({{"\"m.glue\": \"Glues it shut.\"", "\"m.glue\": \"Glues it shut.\", \"m.idle\": \"Never at all.\"",
                     "/mistakes", "the mistake 'm.idle' is never used", true}});
}

TEST_CASE("check: an answer is worked out again in every edition that it holds in") {
    const std::string grounds = "\"clamps\": true, \"grounds\": {\"size\": \"12\", \"count\": 6}";
    std::string deck = sample::spoiled(sample::kDeck, "\"clamps\": true, \"grounds\": []", grounds);
    deck = sample::spoiled(deck, "\"value\": 11.25", "\"value\": 14.625");
    CHECK(told(content::check_contents(sample::contents(deck))).empty());
    deck = sample::spoiled(deck, "\"gaps\": [{\"editions\": \"2017\", \"why\": \"Left out on purpose.\"}],", "");
    deck = sample::spoiled(deck, kVersions, sample::spoiled(kVersions, "2020", "2017"));
    const auto faults = content::check_contents(sample::contents(deck));
    REQUIRE_MESSAGE(faults.size() == 1, told(faults));
    CHECK(faults[0].what.find("under 2017 it works out to 13.5") != std::string::npos);
}

TEST_CASE("check: a calculator that lacks its table is told") {
    const std::string table = sample::spoiled(sample::kTable, "\"box-volume\"", "\"other\"");
    const auto faults = content::check_contents(sample::contents(sample::kDeck, sample::kCalls, table));
    CHECK(holds(faults, {"", "", "/points/1/questions/1", "a conductor of 12 AWG"}, "deck.json"));
}

TEST_CASE("check: every finding about calls is made where it belongs") {
    const std::vector<Finding> findings = {
        {"\"point\": \"box.volume\"", "\"point\": \"box.gone\"", "/scenarios/0/asks/1", "there is no point 'box.gone'"},
        {"\"editions\": \"2020-2023\"", "\"editions\": \"2017-2023\"", "/scenarios/0", "has 2 asks under 2017"},
        {"{\"id\": \"c\", ", "{\"id\": \"a\", ", "/scenarios/0/asks/2", "the question id 'a' is taken"},
        {"\"mistake\": \"m.late\"}],\n          \"basis\"", "\"mistake\": \"m.lat\"}],\n          \"basis\"",
         "/scenarios/0/asks/1", "the mistake 'm.lat' is not explained"},
        {"\"m.late\": \"Comes too late.\"", "\"m.late\": \"x\", \"m.idle\": \"y\"", "/mistakes", "never used", true}};
    for (const auto& finding : findings) {
        const std::string calls = sample::spoiled(sample::kCalls, finding.from, finding.to);
        REQUIRE_FALSE(calls.empty());
        const auto faults = content::check_contents(sample::contents(sample::kDeck, calls));
        CHECK_MESSAGE(holds(faults, finding, "calls.json"), finding.what, " in ", told(faults));
    }
}

TEST_CASE("check: adoptions stand in order of time, and there is at least one") {
    const std::vector<Finding> findings = {
        {"\"2021-07-01\"", "\"2018-07-01\"", "/jurisdictions/0", "the adoptions of 'alder' are not in order"},
        {"{\"edition\": \"2017\", \"from\": \"2018-07-01\"},\n        {\"edition\": \"2020\", \"from\": "
         "\"2021-07-01\"}",
         "", "/jurisdictions/0", "'alder' has adopted no edition"}};
    for (const auto& finding : findings) {
        const std::string places = sample::spoiled(sample::kPlaces, finding.from, finding.to);
        REQUIRE_FALSE(places.empty());
        const auto faults =
            content::check_contents(sample::contents(sample::kDeck, sample::kCalls, sample::kTable, places));
        CHECK_MESSAGE(holds(faults, finding, "places.json"), told(faults));
    }
}

TEST_CASE("check: an explanation of one point that reads almost like that of another is found") {
    check_findings({{"Standard boxes have a volume by table.", "A box stays reachable!", "/points/1",
                     "box.volume reads almost like box.accessible"},
                    {"Standard boxes have a volume by table.", "Joints fail, and then somebody has to reach them.",
                     "/points/1", "box.volume reads almost like box.accessible#a"}});
}

TEST_CASE("check: a question that reads almost like another is found, wherever the other stands") {
    check_findings({{"Which of these places will do for a junction box?", "May a box vanish behind new drywall at all?",
                     "/points/0/questions/1", "box.accessible#b reads almost like box.accessible#a"}});
    const std::string calls = sample::spoiled(sample::kCalls, "The {room} ceiling hides a splice. What now?",
                                              "May a box vanish behind new drywall");
    const auto faults = content::check_contents(sample::contents(sample::kDeck, calls));
    CHECK(holds(faults, {"", "", "/scenarios/0/asks/0", "call.attic#a reads almost like box.accessible#a"},
                "calls.json"));
}

TEST_CASE("check: questions for different editions may read alike") {
    std::string deck = sample::spoiled(sample::kDeck, "Which of these places will do for a junction box?",
                                       "May a box vanish behind new drywall?");
    deck = sample::spoiled(deck, "\"form\": \"choose-all\",", "\"form\": \"choose-all\", \"editions\": \"2017\",");
    CHECK(content::check_contents(sample::contents(deck)).size() == 1);
    deck = sample::spoiled(deck, "\"form\": \"choose\",", "\"form\": \"choose\", \"editions\": \"2020-2026\",");
    CHECK(told(content::check_contents(sample::contents(deck))).empty());
}

TEST_CASE("check: right answers that give themselves away by length are found, once there are enough to judge") {
    CHECK(told(findings_of(deck_of_lengths(9, 9))).empty());
    CHECK(told(findings_of(deck_of_lengths(20, 9))).empty());
    const auto faults = findings_of(deck_of_lengths(20, 10));
    REQUIRE_MESSAGE(faults.size() == 1, told(faults));
    CHECK(faults[0].what.find("the longest in 10 of 20") != std::string::npos);
}

TEST_CASE("check: what was found while reading comes first") {
    const std::string deck = sample::spoiled(sample::kDeck, "\"stakes\": \"fire\"", "\"stakes\": \"flood\"");
    const auto faults =
        content::check_contents(sample::contents(sample::spoiled(deck, "[\"box.accessible\"]", "[\"box.gone\"]")));
    REQUIRE(faults.size() == 2);
    CHECK(faults[0].what.find("flood") != std::string::npos);
}
