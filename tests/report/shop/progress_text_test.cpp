#include "report/shop/progress_text.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "base/text.hpp"
#include "report/shop/made_page.hpp"
#include "report/shop/progress_words.hpp"

namespace {

using Lines = std::vector<std::string>;
using memory::Sure;

bool shows(const Lines& lines, const std::string& part) {
    return std::any_of(lines.begin(), lines.end(),
                       [&](const std::string& line) { return line.find(part) != std::string::npos; });
}

std::string without_escapes(const std::string& line) {
    std::string plain;
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (line[i] == '\x1b')
            i = line.find('m', i);
        else
            plain += line[i];
    }
    return plain;
}

std::size_t place(const Lines& lines, const std::string& part) {
    const auto found = std::find_if(lines.begin(), lines.end(),
                                    [&](const std::string& line) { return line.find(part) != std::string::npos; });
    return static_cast<std::size_t>(found - lines.begin());
}

}  // namespace

TEST_CASE("progress text: reads like a page on the shop's wall") {
    auto index = made::index(6);
    auto log = made::log(index, 1);
    log.answers = {made::answer(0, 9, 1, Sure::sure, 4000), made::answer(1, 9, 0, Sure::guess, 8000),
                   made::answer(0, 2, 0, Sure::sure, 6000)};
    const auto progress = practice::progress(index, log, made::learner(1), made::what());
    store::Learner learner;
    learner.name = "Ada Ferris";
    const auto lines = report::progress_text({learner, progress, made::kNow}, {80, false});
    REQUIRE(lines.size() > 10);
    CHECK(lines[0] == "Ada Ferris, 2026-03-04");
    CHECK(lines[1] == "Red tag: 2 corrections open, 1 tripped");
    CHECK(lines[2] == "3 answers on 2 days since 2026-02-23, the last on 2026-03-02; 33 % right. 2 of 6");
    CHECK(shows(lines, "  - p.1000 (shock stakes, sure and wrong, last answered 2026-03-02)"));
    CHECK(shows(lines, "  - p.1001 (fire stakes, wrong last time, last answered 2026-02-23)"));
    CHECK(shows(lines,
                "  2026-03-04    " + report::load_words(progress.recall_now(), 2).insert(0, "  ") + "  of 2 points"));
    CHECK(shows(lines, "  2026-02-23         2  ##############################"));
    CHECK(shows(lines, "  2026-03-02         1  ###############"));
    CHECK(shows(lines, "  sure            50 % right of 2 answers"));
    CHECK(shows(lines, "  fairly             - right of 0 answers"));
    CHECK(shows(lines, "  choose             6  (5 to 7, 3 answers)"));
}

TEST_CASE("progress text: of someone new it says that nothing was answered, and draws the empty panel") {
    const made::Shop shop{1};
    const auto lines = report::progress_text(shop.page(3), {80, false});
    CHECK(shows(lines, "No tag yet: nothing answered"));
    CHECK(shows(lines, "spare"));
    CHECK_FALSE(shows(lines, "Answers a week"));
    CHECK_FALSE(shows(lines, "nan"));
}

TEST_CASE("progress text: the lead reads first what needs them, then the crew") {
    const made::Shop shop{2};
    const auto lines = report::crew_progress_text(shop.crew, {80, false});
    CHECK(lines[0] == "Needs you today, 2026-03-04");
    CHECK(shows(lines, "shock stakes"));
    CHECK(shows(lines, "Dee Newly: not begun, 20 days since joining."));
    CHECK(shows(lines, "Ada Ferris: exam in 9 days; chance to pass 54 %."));
    CHECK(place(lines, "shock stakes") < place(lines, "not begun, 20 days"));
    CHECK(place(lines, "chance to pass") < place(lines, "last study"));
    CHECK(shows(lines, "Weakest topics, and who is strong there"));
}

TEST_CASE("progress text: a long list says how much more there is") {
    const auto index = made::index(40);
    auto log = made::log(index, 1);
    for (std::uint32_t n = 0; n < 40; n += 4) log.answers.push_back(made::answer(n, 1, 0, Sure::sure));
    practice::MemberFor member;
    member.learner.id = made::learner(1);
    member.learner.name = "Ada";
    const auto crew = practice::crew_progress(index, log, {member}, made::kNow);
    REQUIRE(crew.needs.size() == 1);
    REQUIRE(crew.needs[0].points.size() == 9);  // one of the ten is of no edition
    const auto lines = report::crew_progress_text(crew, {80, false});
    CHECK(shows(lines, "       and 4 more"));
    CHECK(std::count_if(lines.begin(), lines.end(), [](const auto& line) { return line.starts_with("     - p."); }) ==
          report::kMostNeedPoints);
}

TEST_CASE("progress text: with nothing to do the lead is told so") {
    practice::CrewProgress crew;
    crew.now = made::kNow;
    CHECK(shows(report::crew_progress_text(crew, {80, false}), "Nothing needs you today."));
}

TEST_CASE("progress text: property: no line is wider than the page, and colour changes no word") {
    for (base::Seed seed = 1; seed <= 6; ++seed) {
        const made::Shop shop{seed, 20 * seed * seed, {"Ada Ferris", "Bartholomew Okonkwo-Featherstone", "C", "Dee"}};
        for (std::size_t width = 40; width <= 120; width += 5) {
            auto lines = report::progress_text(shop.page(seed % 4), {width, false});
            for (auto& line : report::crew_progress_text(shop.crew, {width, false})) lines.push_back(line);
            for (const auto& line : lines) CHECK_MESSAGE(base::display_width(line) <= width, line);
        }
        const auto plain = report::crew_progress_text(shop.crew, {80, false});
        const auto inked = report::crew_progress_text(shop.crew, {80, true});
        REQUIRE(plain.size() == inked.size());
        for (std::size_t n = 0; n < plain.size(); ++n) CHECK(without_escapes(inked[n]) == plain[n]);
    }
}

TEST_CASE("progress words: sure is judged only from twenty answers on") {
    practice::Progress progress;
    auto& sure = progress.sure[2];
    sure = {19, 10};
    CHECK(report::calibration_words(progress).find("too few") != std::string::npos);
    sure = {20, 19};
    CHECK(report::calibration_words(progress) ==
          "Of 20 answers given as sure, 95 % were right and 1 was sure and wrong.");
}

TEST_CASE("progress words: a forecast is never certain, and a day is told as people say it") {
    CHECK(report::chance_words(0) == "under 1 %");
    CHECK(report::chance_words(1) == "over 99 %");
    CHECK(report::chance_words(0.545) == "55 %");
    CHECK(report::ahead_words(0) == "today");
    CHECK(report::ahead_words(1) == "tomorrow");
    CHECK(report::ahead_words(30) == "in 30 days");
}
