#include "trade/rules/book.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "base/text.hpp"
#include "trade/sample_rules.hpp"

namespace {

using sample_rules::judged;
using sample_rules::names;
using sample_rules::unknown;
using trade::Edition;
using trade::Ruling;
using Names = std::vector<std::string>;

const trade::RuleBook& book_of(Edition edition) {
    static const auto books = [] {
        std::vector<trade::RuleBook> made;
        for (const auto one : trade::kEditions) made.push_back(sample_rules::book(sample_rules::rules(), one));
        return made;
    }();
    return books.at(static_cast<std::size_t>(std::ranges::find(trade::kEditions, edition) - trade::kEditions.begin()));
}

trade::ResultSet only(const std::string& result) {
    return trade::ResultSet{1} << sample_rules::vocabulary()->find_result(result).value();
}

base::Fault fault(const std::string& rule) {
    const auto made = trade::make_book(sample_rules::vocabulary(), sample_rules::rules_of(rule), Edition::e2023, "");
    REQUIRE_FALSE(made.has_value());
    REQUIRE(made.error().size() == 1);
    return made.error().front();
}

/// A rule that always holds but for the members given.
std::string rule(const std::string& members) {
    return R"({"id": "x", "title": "t", "why": "w", )" + members +
           R"(, "versions": [{"editions": "2017-2026", "article": "210.8", "basis": {"kind": "practice"}}]})";
}

}  // namespace

TEST_CASE("rule book: a rule fires, with its version, when all its conditions hold") {
    const auto ruling =
        judged(book_of(Edition::e2023),
               {{"occupancy", "house"}, {"location", "bath"}, {"volts", "240"}, {"locked", "no"}, {"sink_ft", "none"}},
               only("GFCI"));
    CHECK(names(ruling.requires_) == Names{"GFCI"});
    REQUIRE(ruling.fired.size() == 1);
    CHECK(ruling.fired.front().rule->id == "g.bath");
    CHECK(ruling.fired.front().version->article == "210.8(A)(2)");
    CHECK(ruling.fired.front().version->unverified);
    CHECK_FALSE(ruling.fired.front().count.has_value());
    CHECK(ruling.unknown.empty());
}

TEST_CASE("rule book: each edition has its own version, or none") {
    const sample_rules::Given bath = {{"occupancy", "house"}, {"location", "bath"}, {"volts", "240"}, {"locked", "no"}};
    CHECK(judged(book_of(Edition::e2017), bath, only("GFCI")).requires_ == 0);
    CHECK(judged(book_of(Edition::e2017), bath, only("GFCI")).unknown.empty());
    const sample_rules::Given sink = {{"occupancy", "shop"}, {"sink_ft", "5.9"}};
    CHECK(judged(book_of(Edition::e2017), sink, only("GFCI")).requires_ == 0);
    CHECK(names(judged(book_of(Edition::e2026), sink, only("GFCI")).requires_) == Names{"GFCI"});
    CHECK(book_of(Edition::e2017).size() == 4);
    CHECK(book_of(Edition::e2020).size() == 5);
}

TEST_CASE("rule book: ends of a range are within unless they are left out") {
    const auto gfci = [](const std::string& feet) {
        return judged(book_of(Edition::e2023), {{"occupancy", "shop"}, {"sink_ft", feet}}, only("GFCI")).requires_ != 0;
    };
    CHECK(gfci("0"));
    CHECK(gfci("5.99"));
    CHECK_FALSE(gfci("6"));
    CHECK_FALSE(gfci("none"));
    const auto bath = [](const std::string& volts) {
        return judged(book_of(Edition::e2017),
                      {{"occupancy", "house"}, {"location", "bath"}, {"volts", volts}, {"locked", "no"}}, only("GFCI"))
                   .requires_ != 0;
    };
    CHECK(bath("125"));
    CHECK_FALSE(bath("125.1"));
}

TEST_CASE("rule book: an exception excuses, and is named, one that may apply leaves the rule open") {
    sample_rules::Given bath = {{"occupancy", "house"}, {"location", "bath"}, {"volts", "120"}, {"sink_ft", "none"}};
    const auto open = judged(book_of(Edition::e2023), bath, only("GFCI"));
    CHECK(open.requires_ == 0);
    CHECK(unknown(open) == Names{"locked"});
    bath.emplace_back("locked", "yes");
    const auto out = judged(book_of(Edition::e2023), bath, only("GFCI"));
    CHECK(out.requires_ == 0);
    CHECK(names(out.exempt) == Names{"GFCI"});
    REQUIRE(out.excepted.size() == 1);
    CHECK(out.excepted.front().exception->article == "210.8(A) Ex 1");
    CHECK(out.unknown.empty());
}

TEST_CASE("rule book: what one rule excuses another may still require") {
    const auto ruling =
        judged(book_of(Edition::e2023),
               {{"occupancy", "house"}, {"location", "bath"}, {"volts", "120"}, {"locked", "yes"}, {"sink_ft", "2"}},
               only("GFCI"));
    CHECK(names(ruling.requires_) == Names{"GFCI"});
    CHECK(ruling.exempt == 0);
    CHECK(ruling.excepted.size() == 1);
}

TEST_CASE("rule book: facts that cannot change the answer are not asked for") {
    CHECK(unknown(judged(book_of(Edition::e2023), {{"occupancy", "shop"}, {"sink_ft", "20"}}, only("GFCI"))).empty());
    CHECK(unknown(judged(book_of(Edition::e2023), {{"occupancy", "shop"}, {"sink_ft", "3"}}, only("GFCI"))).empty());
    CHECK(unknown(judged(book_of(Edition::e2023), {{"occupancy", "house"}, {"sink_ft", "3"}}, only("GFCI"))).empty());
    CHECK(unknown(judged(book_of(Edition::e2023), {{"sink_ft", "20"}, {"room", "hall"}}, only("GFCI"))).empty());
    CHECK(unknown(judged(book_of(Edition::e2023), {{"sink_ft", "20"}}, only("GFCI"))) ==
          Names{"occupancy", "room", "locked", "volts"});
    CHECK(unknown(judged(book_of(Edition::e2023), {}, only("AFCI"))) == Names{"occupancy", "room", "day"});
}

TEST_CASE("rule book: a group of words given leaves open which of them it is") {
    CHECK(
        unknown(judged(book_of(Edition::e2023), {{"occupancy", "dwelling"}, {"room", "hall"}}, only("AFCI"))).empty());
    CHECK(names(judged(book_of(Edition::e2023), {{"occupancy", "dwelling"}, {"room", "hall"}}).requires_).front() ==
          "AFCI");
}

TEST_CASE("rule book: days") {
    const auto afci = [](const std::string& day) {
        return judged(book_of(Edition::e2023), {{"occupancy", "house"}, {"room", "bath"}, {"day", day}}, only("AFCI"))
                   .requires_ != 0;
    };
    CHECK_FALSE(afci("2026-08-31"));
    CHECK(afci("2026-09-01"));
    CHECK(afci("2027-01-01"));
}

TEST_CASE("rule book: nothing of none may hold") {
    const auto barred = [](const sample_rules::Given& given) {
        return judged(book_of(Edition::e2023), given, only("receptacle-here"));
    };
    CHECK(names(barred({{"wet", "yes"}, {"locked", "no"}}).forbids) == Names{"receptacle-here"});
    CHECK(barred({{"wet", "no"}}).forbids == 0);
    CHECK(barred({{"wet", "no"}}).unknown.empty());
    CHECK(barred({{"locked", "yes"}}).unknown.empty());
    CHECK(unknown(barred({{"wet", "yes"}})) == Names{"locked"});
    CHECK(barred({{"wet", "yes"}, {"locked", "no"}}).requires_ == 0);
}

TEST_CASE("rule book: counts go up by one for each further part") {
    const trade::Count count{"wall_ft", 12.0, 12.0};
    CHECK(trade::count_for(count, 0.0) == 0.0);
    CHECK(trade::count_for(count, 0.1) == 1.0);
    CHECK(trade::count_for(count, 12.0) == 1.0);
    CHECK(trade::count_for(count, 12.01) == 2.0);
    CHECK(trade::count_for(count, 24.0) == 2.0);
    CHECK(trade::count_for(count, 24.5) == 3.0);
    const trade::Count island{"area", 9.0, 18.0};
    CHECK(trade::count_for(island, 9.0) == 1.0);
    CHECK(trade::count_for(island, 27.0) == 2.0);
    CHECK(trade::count_for(island, 27.1) == 3.0);
    // 0.1 added thirty times is not 3 in binary; a measure that a person calls 3 is.
    double measure = 0.0;
    for (int i = 0; i < 30; ++i) measure += 0.1;
    CHECK(trade::count_for({"x", 1.0, 1.0}, measure) == 3.0);
}

TEST_CASE("rule book: a rule that counts asks for its measure, and calls for nothing at 0") {
    const auto walls = [](const sample_rules::Given& given) {
        return judged(book_of(Edition::e2023), given, only("wall-receptacle"));
    };
    const auto three = walls({{"occupancy", "house"}, {"wall_ft", "25"}});
    REQUIRE(three.fired.size() == 1);
    CHECK(three.fired.front().count == 3.0);
    CHECK(unknown(walls({{"occupancy", "house"}})) == Names{"wall_ft"});
    const auto counted = sample_rules::book(
        sample_rules::rules_of(
            rule(R"("requires": "wall-receptacle", "count": {"of": "wall_ft", "first": 12, "each": 12})")),
        Edition::e2023);
    CHECK(judged(counted, {{"wall_ft", "0"}}).requires_ == 0);
    CHECK(judged(counted, {{"wall_ft", "1"}}).requires_ != 0);
    CHECK(unknown(judged(counted, {})) == Names{"wall_ft"});
}

TEST_CASE("rule book: a rule that may call for more of what is required already is still asked about") {
    const auto both = sample_rules::book(
        sample_rules::rules_of(rule(R"("requires": "wall-receptacle")") + "," +
                               sample_rules::spoiled(rule(R"("requires": "wall-receptacle", "when": {"wet": true},
                                   "count": {"of": "wall_ft", "first": 1, "each": 1})"),
                                                     "\"x\"", "\"y\"")),
        Edition::e2023);
    CHECK(unknown(judged(both, {{"wall_ft", "5"}})) == Names{"wet"});
    CHECK(unknown(judged(both, {{"wall_ft", "5"}, {"wet", "no"}})).empty());
}

TEST_CASE("rule book: only what is asked for is looked at") {
    const sample_rules::Given bath = {{"occupancy", "house"}, {"location", "hall"}, {"sink_ft", "3"}};
    CHECK(names(judged(book_of(Edition::e2023), bath, only("AFCI")).requires_) == Names{"AFCI"});
    CHECK(judged(book_of(Edition::e2023), bath, 0).unknown.empty());
}

TEST_CASE("rule book: a ruling used again holds nothing of the case before") {
    Ruling ruling;
    auto bath = sample_rules::facts({{"occupancy", "house"}, {"location", "bath"}, {"room", "hall"}, {"sink_ft", "1"}});
    book_of(Edition::e2023).judge(bath, trade::kEveryResult, ruling);
    CHECK_FALSE(ruling.findings.empty());
    auto shop = sample_rules::facts({{"occupancy", "shop"}, {"sink_ft", "none"}, {"wet", "no"}});
    book_of(Edition::e2023).judge(shop, trade::kEveryResult, ruling);
    CHECK((ruling.requires_ | ruling.permits | ruling.forbids | ruling.exempt) == 0);
    CHECK((ruling.fired.empty() && ruling.excepted.empty() && ruling.findings.empty() && ruling.unknown.empty()));
}

TEST_CASE("rule book: what the vocabulary does not have is a fault at its place, with the nearest name") {
    const auto unknown_fact = fault(rule(R"("requires": "GFCI", "when": {"ocupancy": "house"})"));
    CHECK(unknown_fact.what == "there is no fact 'ocupancy'");
    CHECK(unknown_fact.mend == "did you mean 'occupancy'?");
    CHECK(unknown_fact.file == "sample.json");
    CHECK(unknown_fact.pointer == "/rules/0/when/ocupancy");
    CHECK(unknown_fact.line == 1);
    CHECK(fault(rule(R"("requires": "GFCI", "when": {"any": [{"wet": true}, {"room": "batth"}]})")).mend ==
          "did you mean 'bath'?");
    CHECK(fault(rule(R"("requires": "GFCI", "exceptions": [{"when": {"rom": "bath"}, "why": "w"}])")).what ==
          "there is no fact 'rom'");
    CHECK(fault(rule(R"("requires": "GFI")")).mend == "did you mean 'GFCI'?");
    CHECK(fault(rule(R"("requires": "GFCI", "count": {"of": "walls", "first": 1, "each": 1})")).what ==
          "there is no fact 'walls'");
}

TEST_CASE("rule book: a fact asked for in a way that it cannot answer is a fault") {
    for (const char* when : {R"({"volts": "house"})", R"({"occupancy": 3})", R"({"occupancy": {"least": 3}})",
                             R"({"volts": {}})", R"({"volts": true})", R"({"room": []})", R"({"room": {"not": []}})",
                             R"({"room": {"not": ["bath"], "least": 3}})"})
        CHECK_MESSAGE(fault(rule(R"("requires": "GFCI", "when": )" + std::string{when})).what.find("wrong way") !=
                          std::string::npos,
                      when);
    CHECK(fault(rule(R"("requires": "GFCI", "count": {"of": "room", "first": 1, "each": 1})")).what ==
          "nothing can be counted by \"room\"");
}

TEST_CASE("amendments: each action changes one rule, for its editions and days") {
    const auto changes = sample_rules::amendments_of(
        {R"({"id": "a", "action": "delete", "rule": "g.sink", "basis": {"kind": "practice"}})",
         R"({"id": "b", "action": "add", "editions": "2020-2026", "basis": {"kind": "practice"}, "with": )" +
             sample_rules::spoiled(rule(R"("requires": "GFCI", "when": {"wet": true})"), "\"x\"", "\"local.wet\"") +
             "}",
         R"({"id": "c", "action": "replace", "rule": "a.rooms", "from": "2024-01-01", "until": "2025-01-01", "basis": {"kind": "practice"},
             "with": )" +
             rule(R"("requires": "AFCI", "when": {"locked": true})") + "}",
         R"({"id": "d", "action": "delay", "rule": "w.wall", "until": "2026-01-01", "basis": {"kind": "practice"}})"});
    const auto at = [&](Edition edition, const std::string& day) {
        return sample_rules::book(trade::amended(sample_rules::rules(), changes, edition, day).value(), edition, day);
    };
    const sample_rules::Given sink = {{"occupancy", "shop"}, {"sink_ft", "1"}, {"wet", "no"}};
    CHECK(judged(at(Edition::e2023, "2024-06-01"), sink).requires_ == 0);
    const sample_rules::Given wet = {{"occupancy", "shop"}, {"wet", "yes"}};
    CHECK(judged(at(Edition::e2017, "2024-06-01"), wet, only("GFCI")).requires_ == 0);
    const auto later = at(Edition::e2020, "2024-06-01");
    const auto added = judged(later, wet, only("GFCI"));
    REQUIRE(added.fired.size() == 1);
    CHECK(added.fired.front().rule->local);
    const sample_rules::Given hall = {{"occupancy", "house"}, {"room", "hall"}, {"locked", "no"}};
    CHECK(judged(at(Edition::e2023, "2023-12-31"), hall, only("AFCI")).requires_ != 0);
    CHECK(judged(at(Edition::e2023, "2024-01-01"), hall, only("AFCI")).requires_ == 0);
    CHECK(judged(at(Edition::e2023, "2024-12-31"), hall, only("AFCI")).requires_ == 0);
    CHECK(judged(at(Edition::e2023, "2025-01-01"), hall, only("AFCI")).requires_ != 0);
    const sample_rules::Given wall = {{"occupancy", "house"}, {"wall_ft", "3"}};
    CHECK(judged(at(Edition::e2023, "2025-12-31"), wall, only("wall-receptacle")).requires_ == 0);
    CHECK(judged(at(Edition::e2023, "2026-01-01"), wall, only("wall-receptacle")).requires_ != 0);
    // Without a day every dated amendment counts, and a delay is over.
    CHECK(judged(at(Edition::e2023, ""), hall, only("AFCI")).requires_ == 0);
    CHECK(judged(at(Edition::e2023, ""), wall, only("wall-receptacle")).requires_ != 0);
}

TEST_CASE("amendments: a replacement keeps the id, so that a later one can lie over it") {
    const auto replace = [](const std::string& when) {
        return R"({"id": "c", "action": "replace", "rule": "a.rooms", "basis": {"kind": "practice"}, "with": )" +
               rule(R"("requires": "AFCI", "when": )" + when) + "}";
    };
    const auto rules = trade::amended(
        sample_rules::rules(), sample_rules::amendments_of({replace(R"({"wet": true})"), replace(R"({"wet": false})")}),
        Edition::e2023, "");
    REQUIRE(rules.has_value());
    CHECK(rules->size() == sample_rules::rules().size());
    const auto book = sample_rules::book(*rules, Edition::e2023);
    CHECK(judged(book, {{"wet", "no"}}, only("AFCI")).fired.front().rule->id == "a.rooms");
}

TEST_CASE("amendments: one that fits no rule is a fault at its place") {
    const auto refused = [](const std::string& text) {
        const auto rules =
            trade::amended(sample_rules::rules(), sample_rules::amendments_of({text}), Edition::e2023, "");
        REQUIRE_FALSE(rules.has_value());
        REQUIRE(rules.error().size() == 1);
        CHECK(rules.error().front().file == "sample.json");
        return rules.error().front();
    };
    CHECK(refused(R"({"id": "a", "action": "delete", "rule": "g.snk", "basis": {"kind": "practice"}})").mend ==
          "did you mean 'g.sink'?");
    CHECK(refused(R"({"id": "a", "action": "add", "basis": {"kind": "practice"}, "with": )" +
                  sample_rules::spoiled(rule(R"("requires": "GFCI")"), "\"x\"", "\"g.sink\"") + "}")
              .what == "there is a rule 'g.sink' already");
}

TEST_CASE("amendments: on a day on which one does not fit the others still count") {
    const auto changes = sample_rules::amendments_of(
        {R"({"id": "a", "action": "delete", "rule": "g.sink", "basis": {"kind": "practice"}})",
         R"({"id": "b", "action": "add", "from": "2026-01-01", "basis": {"kind": "practice"}, "with": )" +
             rule(R"("requires": "GFCI")") + "}",
         R"({"id": "c", "action": "replace", "rule": "x", "basis": {"kind": "practice"}, "with": )" +
             rule(R"("requires": "AFCI")") + "}"});
    CHECK(trade::amended(sample_rules::rules(), changes, Edition::e2023, "2026-01-01").has_value());
    CHECK_FALSE(trade::amended(sample_rules::rules(), changes, Edition::e2023, "2025-12-31").has_value());
    const auto rules = trade::amended_as_far_as_fits(sample_rules::rules(), changes, Edition::e2023, "2025-12-31");
    CHECK(rules.size() == sample_rules::rules().size() - 1);
    CHECK(std::ranges::none_of(rules, [](const auto& r) { return r.id == "g.sink"; }));
}
