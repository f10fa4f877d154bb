#include "practice/shop/meeting.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <set>

#include <doctest/doctest.h>

#include "practice/mark.hpp"
#include "practice/shop/meetings.hpp"

namespace {

using practice::Meeting;
using practice::MeetingReason;
using Places = std::vector<std::size_t>;

/// The places that are set in `bits`.
Places subset(unsigned bits) {
    Places places;
    for (std::size_t i = 0; i < 8; ++i)
        if ((bits >> i & 1U) != 0) places.push_back(i);
    return places;
}

}  // namespace

TEST_CASE("meeting: a sheet's order is the one in which its seed poses the question") {
    const auto& library = shipped::library();
    std::size_t held = 0;
    for (const auto& entry : library.index().points)
        for (const auto* question : content::questions_for(library.point(entry), trade::Edition::e2023)) {
            if (!practice::has_options(question->form)) continue;
            const base::Seed seed = ++held * 977;
            const auto ask = content::compose(library, entry, *question, trade::Edition::e2023, seed);
            const auto order = practice::option_order(seed, ask.id, ask.options.size());
            std::vector<std::string> authored = question->right;
            for (const auto& wrong : question->wrong) authored.push_back(wrong.text);
            for (std::size_t i = 0; i < order.size(); ++i) CHECK(ask.options[i].text == authored.at(order[i]));
        }
    CHECK(held > 500);
}

TEST_CASE("meeting: letters and options lead to each other, for every choice on every sheet") {
    const Meeting meeting = meetings::planned(3, 12);
    for (const auto& sheet : meeting.sheets)
        for (std::size_t ask = 0; ask < meeting.asks.size(); ++ask) {
            const auto options = meeting.asks[ask].ask.options.size();
            for (unsigned bits = 1; bits < 1U << options; ++bits) {
                const auto letters = practice::letters_of(sheet, ask, subset(bits));
                CHECK(std::ranges::is_sorted(letters));
                REQUIRE(practice::options_of(sheet, ask, letters) == subset(bits));
            }
            CHECK_FALSE(practice::options_of(sheet, ask, content::letter(options)));
            CHECK_FALSE(practice::options_of(sheet, ask, ""));
            CHECK_FALSE(practice::options_of(sheet, ask, "-"));
        }
}

TEST_CASE("meeting: letters may be large or stand twice") {
    const Meeting meeting = meetings::small(1);
    const auto& sheet = meeting.sheets.front();
    CHECK(practice::options_of(sheet, 1, "CAc") == practice::options_of(sheet, 1, "ac"));
    CHECK_FALSE(practice::options_of(sheet, 2, "a"));  // a number has no letters
}

TEST_CASE("meeting: what a sheet calls right is marked right on that sheet") {
    for (base::Seed seed = 1; seed <= 8; ++seed) {
        const Meeting meeting = meetings::planned(seed, 5);
        for (const auto& sheet : meeting.sheets)
            for (std::size_t ask = 0; ask < meeting.asks.size(); ++ask) {
                CAPTURE(seed);
                const auto shown = practice::ask_on(meeting, sheet, ask);
                const auto marked = practice::mark(shown, practice::right_on(meeting, sheet, ask));
                REQUIRE(marked.has_value());
                CHECK(marked->mark == 1.0);
                CHECK(shown.seed == sheet.seed);
            }
    }
}

TEST_CASE("meeting: neighbours cannot copy letters") {
    const Meeting meeting = meetings::planned(1, 30);
    std::set<std::string> rows;
    for (const auto& sheet : meeting.sheets) {
        std::string row;
        for (std::size_t ask = 0; ask < meeting.asks.size(); ++ask)
            row += practice::right_on(meeting, sheet, ask) + ' ';
        rows.insert(row);
    }
    CHECK(rows.size() == 30);
}

TEST_CASE("meeting: right answers fall on every letter about as often") {
    // 2000 sheets of one choose ask with four options: 500 each expected, standard deviation 19.4; five of them
    // allowed.
    const Meeting meeting = meetings::small(2000);
    std::array<int, 4> counts{};
    for (const auto& sheet : meeting.sheets)
        ++counts.at(static_cast<std::size_t>(practice::right_on(meeting, sheet, 0).front() - 'a'));
    for (const int count : counts) CHECK(std::abs(count - 500) < 97);
}

TEST_CASE("meeting: who turns up later gets the next number, and nothing else moves") {
    Meeting meeting = meetings::planned(4, 3);
    const auto before = meeting;
    auto crew = meetings::crew(5);
    crew[4].retired_at = meetings::day();
    practice::add_sheets(meeting, crew);
    REQUIRE(meeting.sheets.size() == 4);
    for (std::size_t i = 0; i < 3; ++i) {
        CHECK(meeting.sheets[i].number == static_cast<int>(i) + 1);
        CHECK(meeting.sheets[i].orders == before.sheets[i].orders);
    }
    CHECK(meeting.sheets[3].number == 4);
    CHECK(meeting.sheets[3].name == "Dov");
    CHECK(practice::meeting_id(meeting) == before.id);
    practice::add_sheets(meeting, crew);
    CHECK(meeting.sheets.size() == 4);
    CHECK(practice::find_sheet(meeting, 4) == &meeting.sheets[3]);
    CHECK(practice::find_sheet(meeting, 5) == nullptr);
}

TEST_CASE("meeting: the id follows from day, edition, seed and what is asked") {
    const Meeting meeting = meetings::small(0);
    std::set<base::Id128> ids = {practice::meeting_id(meeting)};
    Meeting other = meeting;
    other.seed += 1;
    ids.insert(practice::meeting_id(other));
    other = meeting;
    other.day += std::chrono::hours{24};
    ids.insert(practice::meeting_id(other));
    other = meeting;
    other.edition = trade::Edition::e2020;
    ids.insert(practice::meeting_id(other));
    other = meeting;
    other.asks[1].ask.content = "changed";
    ids.insert(practice::meeting_id(other));
    other = meeting;
    std::swap(other.asks[0], other.asks[3]);
    ids.insert(practice::meeting_id(other));
    CHECK(ids.size() == 6);
}

TEST_CASE("meeting: ids from a text sort by day, are marked as version 8, and do not meet") {
    // RFC 9562: version in the high four bits of byte 6 (section 4.2), variant 10 in the high two of byte 8 (4.1).
    std::set<base::Id128> ids;
    for (int i = 0; i < 20000; ++i) {
        const auto id = practice::id_from("text " + std::to_string(i), meetings::day());
        ids.insert(id);
        REQUIRE((id.bytes[6] & 0xf0U) == 0x80U);
        REQUIRE((id.bytes[8] & 0xc0U) == 0x80U);
    }
    CHECK(ids.size() == 20000);
    const auto later = practice::id_from("a", meetings::day() + std::chrono::milliseconds{1});
    CHECK(*ids.rbegin() < later);
    // 2026-03-02T13:00:00Z is 1 772 456 400 seconds after 1970 (date -u +%s), in milliseconds 0x019caea25480.
    CHECK(base::to_text(*ids.begin()).starts_with("019caea2-5480-8"));
}

TEST_CASE("meeting: reasons have names that are read back") {
    for (const auto reason : {MeetingReason::sure_and_wrong, MeetingReason::correction, MeetingReason::job,
                              MeetingReason::week, MeetingReason::rotation})
        CHECK(practice::parse_meeting_reason(practice::to_text(reason)) == reason);
    CHECK_FALSE(practice::parse_meeting_reason("whim"));
}
