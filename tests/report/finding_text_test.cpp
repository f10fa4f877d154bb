#include "report/finding_text.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "base/text.hpp"
#include "trade/sample_rules.hpp"

namespace {

using trade::Edition;

const report::Page kPage{100, false};
const content::Under kUnder = {Edition::e2023, "alder", "2026-01-01"};

const trade::Calculator& calculator() {
    static const trade::Calculator one = {"span",
                                          "how far",
                                          "feet",
                                          {{"pass_through", trade::FactKind::wires, "what passes"},
                                           {"length", trade::FactKind::number, "how long", base::Unit::ft, 0.0, 100.0}},
                                          nullptr};
    return one;
}

std::string page_of(const sample_rules::Given& given, const content::Under& under = kUnder) {
    static const auto book = sample_rules::book(sample_rules::rules(), Edition::e2023);
    return base::join(report::ruling_text(sample_rules::judged(book, given), *sample_rules::vocabulary(), under, kPage),
                      "\n");
}

std::string page_of(const trade::Finding& finding) {
    return base::join(report::finding_text(calculator(), finding, kUnder, kPage), "\n");
}

bool tells(const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("finding text: the answer, its working, further values, what is wrong and what governs") {
    trade::Finding finding;
    finding.answer = trade::value_of(12.5, base::Unit::ft);
    finding.also = {{"spare", trade::value_of(2.0, base::Unit::ft)}};
    finding.steps = {"first", "then"};
    finding.articles = {"310.16", "240.4"};
    finding.findings = {"too long"};
    const auto text = page_of(finding);
    CHECK(tells(text, "span: 12.5 ft (2023 edition in alder)\n  first\n  then\n"));
    CHECK(tells(text, "  spare                2 ft"));
    CHECK(tells(text, "Look: too long"));
    CHECK(tells(text, "Governs: 310.16, 240.4"));
}

TEST_CASE("finding text: facts that are missing are asked for by the option that says them") {
    trade::Finding finding;
    finding.unknown = {"pass_through", "the moon"};
    const auto text = page_of(finding);
    CHECK(tells(text, "cannot be worked out yet"));
    CHECK(tells(text, "--pass-through  what passes (list such as 4x12"));
    CHECK(tells(text, "the moon"));
    CHECK_FALSE(tells(text, "--length"));
}

TEST_CASE("finding text: nobody reads a working without the caution, nor takes it for the inspector's word") {
    trade::Finding finding;
    finding.answer = trade::value_of(1.0, base::Unit::ft);
    for (const auto& text : {page_of(finding), page_of(trade::Finding{}), page_of(sample_rules::Given{})}) {
        CHECK(tells(text, "prove dead with a tester checked on a known source"));
        CHECK(tells(text, "verify against the adopted code and local amendments"));
    }
}

TEST_CASE("ruling text: what is required, why, and where it stands") {
    const auto text = page_of({{"occupancy", "house"},
                               {"location", "bath"},
                               {"volts", "120"},
                               {"locked", "no"},
                               {"sink_ft", "none"},
                               {"wall_ft", "25"},
                               {"day", "2020-01-01"}});
    CHECK(tells(text, "Required: GFCI, wall-receptacle (2023 edition in alder)"));
    CHECK(tells(text, "Not allowed: receptacle-here"));
    CHECK(tells(text, "requires GFCI (210.8(A)(2), unverified)"));
    CHECK(tells(text, "requires wall-receptacle x 3 (210.52(A))"));
    CHECK(tells(text, "Walls. Cords are short."));
    CHECK_FALSE(tells(text, "Still to be told"));
}

TEST_CASE("ruling text: exceptions, contradictions, and what could still change the answer") {
    const auto excused = page_of({{"occupancy", "house"},
                                  {"location", "bath"},
                                  {"volts", "120"},
                                  {"locked", "yes"},
                                  {"sink_ft", "none"},
                                  {"wall_ft", "1"},
                                  {"day", "2020-01-01"}});
    CHECK(tells(excused, "Nothing required ("));
    CHECK(tells(excused, "Excused: GFCI"));
    CHECK(tells(excused, "Baths, but: Nobody gets at it."));
    const auto open = page_of({{"location", "bath"}, {"wet", "no"}});
    // A case that is open never reads like an answer.
    CHECK_FALSE(tells(open, "Nothing required"));
    CHECK(tells(open, "Open: more has to be told to decide on GFCI"));
    CHECK(tells(open, "Look: \"room\" bath does not go with \"wet\" no"));
    CHECK(tells(open, "Still to be told, since it could change the answer:"));
    CHECK(tells(open, "occupancy  what the building is for"));
}

TEST_CASE("finding text: no line is wider than its page") {
    for (const std::size_t width : {40U, 60U, 80U}) {
        const report::Page page{width, false};
        const auto book = sample_rules::book(sample_rules::rules(), Edition::e2023);
        auto lines = report::ruling_text(sample_rules::judged(book, {{"occupancy", "house"}, {"wall_ft", "25"}}),
                                         *sample_rules::vocabulary(), kUnder, page);
        std::ranges::copy(report::facts_text(calculator(), page), std::back_inserter(lines));
        for (const auto& line : lines) CHECK_MESSAGE(base::display_width(line) <= width, line);
    }
}

TEST_CASE("finding text: where and when") {
    CHECK(report::under_text({Edition::e2017, "", ""}) == "2017 edition");
    CHECK(report::under_text(kUnder) == "2023 edition in alder");
}
