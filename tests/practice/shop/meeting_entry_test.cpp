#include "practice/shop/meeting_entry.hpp"

#include <algorithm>
#include <set>

#include <doctest/doctest.h>

#include "base/csv.hpp"
#include "base/text.hpp"
#include "practice/shop/meetings.hpp"

namespace {

using practice::Entered;
using practice::Entry;
using practice::Meeting;

Entered lines(const Meeting& meeting, const std::string& text) {
    return practice::enter_lines(meeting, text, {"paper.txt", {}});
}

Entered csv(const Meeting& meeting, const std::string& text) {
    return practice::enter_csv(meeting, text, {"paper.csv", {}});
}

/// The answer to one ask of the small meeting's first sheet, others blank.
Entry only(const std::string& line) {
    const auto entered = lines(meetings::small(1), "1 " + line);
    REQUIRE(entered.faults.empty());
    const auto found = std::ranges::find_if(entered.entries, [](const Entry& e) { return !e.blank(); });
    REQUIRE(found != entered.entries.end());
    return *found;
}

/// One fault, an error or a warning, in that line, saying so.
void check_fault(const Entered& entered, int line, bool warning, const std::string& says) {
    REQUIRE(entered.faults.size() == 1);
    const auto& fault = entered.faults.front();
    CHECK(fault.line == line);
    CHECK(fault.warning == warning);
    CHECK(fault.what.find(says) != std::string::npos);
    CHECK_FALSE(fault.mend.empty());
}

/// Answers of one learner, one text an ask as the log would have it; empty: blank.
std::vector<std::string> random_answers(const Meeting& meeting, base::Random& random) {
    std::vector<std::string> given;
    for (const auto& one : meeting.asks) {
        const auto options = one.ask.options.size();
        std::string text;
        if (random.below(6) == 0) {
            given.push_back(text);
        } else if (one.ask.question.form == content::Form::choose) {
            given.push_back(content::letter(static_cast<std::size_t>(random.below(options))));
        } else if (one.ask.question.form == content::Form::number) {
            given.push_back(std::to_string(random.below(40)) + (random.below(2) == 0 ? "" : " in"));
        } else {
            for (std::size_t i = 0; i < options; ++i)
                if (random.below(2) == 0) text += content::letter(i);
            given.push_back(text);
        }
    }
    return given;
}

std::string as_line(const Meeting& meeting, const std::vector<std::string>& given, base::Random& random) {
    std::string line;
    for (std::size_t i = 0; i < given.size(); ++i) {
        const bool number = meeting.asks[i].ask.question.form == content::Form::number;
        std::string text = given[i].empty() ? (random.below(2) == 0 ? "-" : ".") : given[i];
        if (!given[i].empty() && (number || text.size() > 1)) text = "[" + text + "]";
        if (random.below(5) == 0)
            std::ranges::transform(text, text.begin(),
                                   [](char c) { return c >= 'a' && c <= 'd' ? static_cast<char>(c - 32) : c; });
        line += std::string(random.below(3), ' ') + text;
    }
    return line;
}

}  // namespace

TEST_CASE("meeting entry: any answers come back as they were marked, from lines and from CSV alike") {
    for (base::Seed seed = 1; seed <= 60; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        const Meeting meeting = meetings::planned(seed % 5 + 1, 6);
        std::string text;
        std::string table = "sheet,name";
        for (std::size_t i = 1; i <= meeting.asks.size(); ++i) table += ",q" + std::to_string(i);
        std::vector<std::vector<std::string>> all;
        for (const auto& sheet : meeting.sheets) {
            all.push_back(random_answers(meeting, random));
            if (std::ranges::all_of(all.back(), &std::string::empty)) all.back().front() = "a";
            text += std::to_string(sheet.number) + " " + as_line(meeting, all.back(), random) + "\n";
            table += "\r\n" + std::to_string(sheet.number) + "," + sheet.name;
            for (const auto& cell : all.back()) table += "," + base::csv_cell(cell);
        }
        const auto from_lines = lines(meeting, text);
        const auto from_csv = csv(meeting, table);
        REQUIRE(from_lines.faults.empty());
        REQUIRE(from_csv.faults.empty());
        REQUIRE(from_lines.entries.size() == meeting.asks.size() * meeting.sheets.size());
        REQUIRE(from_csv.entries.size() == from_lines.entries.size());
        for (std::size_t i = 0; i < from_lines.entries.size(); ++i) {
            const auto& one = from_lines.entries[i];
            const auto& sheet = meeting.sheets[i / meeting.asks.size()];
            const auto& given = all[i / meeting.asks.size()][i % meeting.asks.size()];
            CHECK(one.given == given);
            CHECK(one.learner == sheet.learner);
            CHECK(one.ask == i % meeting.asks.size());
            CHECK(one.id == from_csv.entries[i].id);
            CHECK(one.given == from_csv.entries[i].given);
            if (given.empty())
                CHECK(one.mark.mark == 0.0);
            else
                CHECK(one.mark.mark == practice::mark(practice::ask_on(meeting, sheet, one.ask), given).value().mark);
        }
    }
}

TEST_CASE("meeting entry: what stands for one answer") {
    const Meeting meeting = meetings::small(1);
    const std::string right = practice::right_on(meeting, meeting.sheets[0], 1);
    CHECK(only("a - - -").given == "a");
    CHECK(only("D...").given == "d");
    CHECK(only("[b]---").given == "b");
    CHECK(only("-[d, a]--").given == "ad");
    CHECK(only("-[DAA]--").given == "ad");
    CHECK(only("-c--").given == "c");
    CHECK(only("--[18 cu in]-").given == "18 cu in");
    CHECK(only("--[ 18 ]-").mark.mark == 1.0);
    CHECK(only("--[20]-").mark.mistakes == std::vector<std::string>{"m.n"});
    CHECK(only("-,[],-,c").given == "c");
    CHECK(only("-[" + right + "]--").mark.mark == 1.0);
    CHECK(only("a---").sure == memory::Sure::fairly);
    CHECK(only("a+---").sure == memory::Sure::sure);
    CHECK(only("-[ab]+--").sure == memory::Sure::sure);
    CHECK(lines(meeting, "1: a---").entries.at(3).sure == memory::Sure::guess);
}

TEST_CASE("meeting entry: comments, empty lines and line ends of any kind are passed over") {
    const auto entered = lines(meetings::small(2), "# meeting of March\r\n\r\n  2 a---\r\n\t\n1 b---");
    CHECK(entered.faults.empty());
    REQUIRE(entered.entries.size() == 8);
    CHECK(entered.entries.front().sheet == 2);
}

TEST_CASE("meeting entry: each fault is told with its line, and the other sheets are taken") {
    struct Row {
        std::string line, says;
    };
    const std::vector<Row> rows = {{"bac-", "does not begin with a sheet number"},
                                   {"7 ----", "there is no sheet '7'"},
                                   {"0 a---", "there is no sheet '0'"},
                                   {"99999999999999999999 a---", "there is no sheet '99999999999999999999'"},
                                   {"2 a--", "has 3 answers; the meeting has 4"},
                                   {"2 a----", "has 5 answers; the meeting has 4"},
                                   {"2", "has 0 answers; the meeting has 4"},
                                   {"2 e---", "ask 1: there is no box 'e'"},
                                   {"2 -[ae]--", "ask 2: there is no box 'ae'"},
                                   {"2 ---d", "ask 4: there is no box 'd'"},
                                   {"2 [ab]---", "ask 1: 'ab' are several boxes"},
                                   {"2 --a-", "ask 3: 'a' is not a number"},
                                   {"2 --[abc]-", "ask 3: 'abc' is not a number"},
                                   {"2 [18]---", "ask 1: there is no box '18'"},
                                   {"2 a*--", "'*' is no answer (after answer 1)"},
                                   {"2 a18-", "'1' is no answer (after answer 1)"},
                                   {"2 +a--", "'+' is no answer (after answer 0)"},
                                   {"2 a++--", "'+' is no answer (after answer 1)"},
                                   {"2 a\xE2\x80\x93--", "'\xE2\x80\x93' is no answer"},
                                   {"2 a\xFF--", "a byte that is no letter"},
                                   {"2 a\x1b[2J--", "a byte that is no letter"},
                                   {"2 [\x1b]---", "there is no box '?'"},
                                   {"2 a[b--", "a bracket is left open"}};
    for (const auto& row : rows) {
        CAPTURE(row.line);
        const auto entered = lines(meetings::small(3), "1 a---\n" + row.line + "\n3 b---\n");
        check_fault(entered, 2, false, row.says);
        CHECK(entered.faults.front().file == "paper.txt");
        CHECK(entered.entries.size() == 8);
    }
}

TEST_CASE("meeting entry: all faults of a sheet and of a text are told at once") {
    const auto entered = lines(meetings::small(2), "1 ee[x]z\n9 a---\n2 a---\nx");
    CHECK(entered.faults.size() == 6);
    CHECK(std::ranges::is_sorted(entered.faults, {}, &base::Fault::line));
    CHECK(entered.entries.size() == 4);
}

TEST_CASE("meeting entry: a sheet twice counts once when it agrees, and not at all when it does not") {
    const Meeting meeting = meetings::small(2);
    const auto same = lines(meeting, "1 a[ac]--\n2 b---\n1 A [ca] . .");
    check_fault(same, 3, true, "stands in line 1 already");
    CHECK(same.entries.size() == 8);
    const auto other = lines(meeting, "1 a---\n2 b---\n1 b---");
    check_fault(other, 3, false, "stands in line 1 already, with other answers");
    CHECK(other.entries.size() == 4);
    CHECK(other.entries.front().sheet == 2);
    CHECK(lines(meeting, "1 a---\n1 b---\n1 a---").entries.empty());
    CHECK(lines(meeting, "1 a---\n1 a+---").entries.empty());
}

TEST_CASE("meeting entry: a sheet without an answer is taken as not there") {
    const auto entered = lines(meetings::small(2), "1 ----\n2 a---");
    check_fault(entered, 1, true, "no answer at all");
    CHECK(entered.entries.size() == 4);
}

TEST_CASE("meeting entry: who has left is told, who is not of the crew is refused") {
    const Meeting meeting = meetings::small(3);
    auto crew = meetings::crew(2);
    crew[1].retired_at = meetings::day();
    const auto entered = practice::enter_lines(meeting, "1 a---\n2 a---\n3 a---", {"", crew});
    REQUIRE(entered.faults.size() == 2);
    CHECK(entered.faults[0].warning);
    CHECK(entered.faults[0].line == 2);
    CHECK_FALSE(entered.faults[1].warning);
    CHECK(entered.faults[1].line == 3);
    CHECK(entered.entries.size() == 8);
}

TEST_CASE("meeting entry: CSV with and without names of columns, in any order") {
    const Meeting meeting = meetings::small(2);
    const auto plain = csv(meeting, "1,a,ac,18 in,b\n2,b+,,\"[1,200 in]\",-\n");
    CHECK(plain.faults.empty());
    REQUIRE(plain.entries.size() == 8);
    CHECK(plain.entries[1].given == "ac");
    CHECK(plain.entries[2].given == "18 in");
    CHECK(plain.entries[4].sure == memory::Sure::sure);
    CHECK(plain.entries[6].given == "1,200 in");
    CHECK(plain.entries[7].blank());
    const auto named = csv(meeting, "\xEF\xBB\xBFQ4,Name,Q1,Sheet,Q3,Q2\nb,Ada,a,1,18 in,ac\n,,,,,\n'-,Ben,b,2,,\n");
    CHECK(named.faults.empty());
    REQUIRE(named.entries.size() == 8);
    for (std::size_t i = 0; i < 4; ++i) CHECK(named.entries[i].given == plain.entries[i].given);
    CHECK(named.entries[7].blank());
}

TEST_CASE("meeting entry: faults of CSV have the line of their row") {
    const Meeting meeting = meetings::small(2);
    check_fault(csv(meeting, "sheet,q1,q2,q3,q4\n\"1\",\"a\",\"\n\",,\n2,e,,,\n"), 4, false, "there is no box 'e'");
    check_fault(csv(meeting, "1,a,,\n"), 1, false, "has 3 answers");
    check_fault(csv(meeting, "1,a,,,,b\n"), 1, false, "has 5 answers");
    check_fault(csv(meeting, "x,a,,,\n"), 1, false, "there is no sheet 'x'");
    check_fault(csv(meeting, "1x,a,,,\n"), 1, false, "there is no sheet '1x'");
    check_fault(csv(meeting, "sheet,q1,q2,q4\n1,a,b,c\n"), 1, false, "there is no column 'q3'");
    check_fault(csv(meeting, "sheet,q1,q1,q2,q3,q4\n"), 1, false, "two columns are named 'q1'");
    check_fault(csv(meeting, "sheet,q1,q2,q3,q4,q5\n1,a,,,,b\n"), 1, true, "column 'q5' is not used");
    check_fault(csv(meeting, "1,\"a,,,\n"), 1, false, "");
    CHECK(csv(meeting, "").entries.empty());
}

TEST_CASE("meeting entry: entering twice gives the ids that are there already, whatever the answers") {
    const Meeting meeting = meetings::planned(2, 30);
    std::set<base::Id128> ids;
    for (const auto& sheet : meeting.sheets)
        for (std::size_t ask = 0; ask < meeting.asks.size(); ++ask) ids.insert(practice::entry_id(meeting, sheet, ask));
    CHECK(ids.size() == 30 * meeting.asks.size());
    const Meeting tiny = meetings::small(2);
    const auto first = lines(tiny, "1 a---\n2 b---").entries;
    const auto again = lines(tiny, "2 c---\n1 a---").entries;
    std::set<base::Id128> entered;
    for (const auto& one : first) entered.insert(one.id);
    CHECK(entered.size() == 8);
    for (const auto& one : again) CHECK(entered.contains(one.id));
    Meeting next = tiny;
    next.id = practice::id_from("another", tiny.day);
    CHECK_FALSE(entered.contains(lines(next, "1 a---").entries.front().id));
}

TEST_CASE("meeting entry: the log gives back what was entered, and a differing second entry is told") {
    const Meeting meeting = meetings::small(3);
    const auto first = lines(meeting, "1 a+[ab][18]-\n2 b-[20]c");
    std::vector<store::AnswerRecord> log(1);  // a record that has nothing to do with it
    for (const auto& one : first.entries) log.push_back(practice::record_of(meeting, one));
    const auto back = practice::entries_in_log(meeting, log);
    REQUIRE(back.size() == first.entries.size());
    for (std::size_t i = 0; i < back.size(); ++i) {
        CHECK(back[i].id == first.entries[i].id);
        CHECK(back[i].given == first.entries[i].given);
        CHECK(back[i].sure == first.entries[i].sure);
        CHECK(back[i].mark.mark == first.entries[i].mark.mark);
        CHECK(back[i].mark.mistakes == first.entries[i].mark.mistakes);
    }
    CHECK(practice::told_of_differing(first.entries, back).empty());
    const auto told = practice::told_of_differing(lines(meeting, "1 a[ab][18]c\n2 b-[20]c\n3 aaa").entries, back);
    REQUIRE(told.size() == 2);
    CHECK(told[0].what == "sheet 1, ask 1: was entered before as 'a' and sure, now as 'a'");
    CHECK(told[1].what == "sheet 1, ask 4: was entered before as none, now as 'c'");
    CHECK(told[0].warning);
}

TEST_CASE("meeting entry: a record is what the log wants, and its letter means what was printed") {
    const Meeting meeting = meetings::planned(6, 9);
    const auto& library = shipped::library();
    std::size_t held = 0;
    for (const auto& sheet : meeting.sheets)
        for (std::size_t at = 0; at < meeting.asks.size(); ++at) {
            const auto& ask = meeting.asks[at].ask;
            if (ask.question.form != content::Form::choose) continue;
            Entry entry{practice::entry_id(meeting, sheet, at), sheet.number, sheet.learner, "", at, "b"};
            const auto record = practice::record_of(meeting, entry);
            CHECK(record.id == entry.id);
            CHECK(record.learner == sheet.learner);
            CHECK(record.point == ask.question.point);
            CHECK(record.question == ask.id);
            CHECK(record.content == ask.content);
            CHECK(record.edition == static_cast<int>(meeting.edition));
            CHECK(record.setting == store::Setting::meeting);
            CHECK(record.asked_at == meeting.day);
            CHECK(record.given == "b");
            const auto& point = *library.find(record.point);
            for (const auto* question : content::questions_for(library.point(point), meeting.edition))
                if (point.id.text + "#" + question->id == record.question.text) {
                    const auto posed = content::compose(library, point, *question, meeting.edition, record.seed);
                    CHECK(posed.content == record.content);
                    CHECK(posed.options.at(1).text == ask.options.at(sheet.orders[at].at(1)).text);
                    ++held;
                }
        }
    CHECK(held >= 9);
    const Meeting tiny = meetings::small(1);
    CHECK(practice::record_of(tiny, lines(tiny, "1 a---").entries.at(1)).given == "!");
}

TEST_CASE("meeting entry: a question that has changed since is told, and marked by what was printed") {
    Meeting meeting = meetings::planned(3, 2);
    CHECK(practice::changed_asks(meeting, shipped::library()).empty());
    meeting.asks[2].ask.content = "0123456789abcdef";
    meeting.asks[4].ask.question.point.text = "no.longer.there";
    const auto changed = practice::changed_asks(meeting, shipped::library());
    CHECK(changed == std::vector<std::size_t>{2, 4});
    const auto told = practice::told_of_changed(meeting, changed);
    REQUIRE(told.size() == 2);
    CHECK(told[0].warning);
    CHECK(told[0].what.starts_with("ask 3 (" + meeting.asks[2].ask.title));
}
