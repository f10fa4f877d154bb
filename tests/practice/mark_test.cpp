#include "practice/mark.hpp"

#include <algorithm>
#include <numeric>

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "content/shipped.hpp"
#include "practice/asks.hpp"

namespace {

using base::Unit;
using content::Ask;
using content::Form;
using Texts = std::vector<std::string>;

struct Row {
    std::string given;
    double mark;
    Texts mistakes;
};

void check_rows(const Ask& ask, const std::vector<Row>& rows) {
    for (const auto& row : rows) {
        CAPTURE(row.given);
        const auto marked = practice::mark(ask, row.given);
        REQUIRE(marked.has_value());
        CHECK(marked->mark == doctest::Approx(row.mark).epsilon(1e-9));
        CHECK(marked->mistakes == row.mistakes);
    }
}

void check_refused(const Ask& ask, const Texts& given, const std::string& says) {
    for (const auto& text : given) {
        CAPTURE(text);
        const auto marked = practice::mark(ask, text);
        REQUIRE_FALSE(marked.has_value());
        CHECK(marked.error().find(says) != std::string::npos);
    }
}

const Ask kChoose = asks::choosing(Form::choose, {{"one", "m.a"}, {"two", ""}, {"three", "m.c"}});
const Ask kAll = asks::choosing(Form::choose_all, {{"one", ""}, {"two", "m.b"}, {"three", ""}, {"four", "m.d"}});

/// The definition: pairs that stand in the right order, over all pairs.
double share_of_pairs(const std::vector<int>& steps) {
    int right = 0;
    int all = 0;
    for (std::size_t i = 0; i < steps.size(); ++i)
        for (std::size_t j = i + 1; j < steps.size(); ++j, ++all) right += steps[i] < steps[j] ? 1 : 0;
    return static_cast<double>(right) / all;
}

bool names(const practice::Mark& mark, const std::string& mistake) {
    return std::ranges::count(mark.mistakes, mistake) > 0;
}

}  // namespace

TEST_CASE("mark: choose is right or wrong, and a wrong option names its mistake") {
    check_rows(kChoose,
               {{"b", 1, {}}, {" B) ", 1, {}}, {"(b)", 1, {}}, {"bb", 1, {}}, {"a", 0, {"m.a"}}, {"C.", 0, {"m.c"}}});
    check_refused(kChoose, {"", " ", "d", "ab", "two", "1", "\xC3\xA9", "b?"}, "type one letter, a to c");
}

TEST_CASE("mark: choose-all gives right picks less wrong ones, over all right ones") {
    check_rows(kAll, {{"ac", 1, {}},
                      {"c, a", 1, {}},
                      {"A&C", 1, {}},
                      {"a", 0.5, {}},
                      {"abc", 0.5, {"m.b"}},
                      {"abcd", 0, {"m.b", "m.d"}},
                      {"ab", 0, {"m.b"}},
                      {"d b", 0, {"m.d", "m.b"}}});
    check_refused(kAll, {"", "e", "none", "ac!"}, "every letter that applies, a to d");
}

TEST_CASE("mark: choose-all tells what was missed") {
    CHECK(practice::mark(kAll, "c")->notes == Texts{"missed a) one"});
    CHECK(practice::mark(kAll, "ac")->notes.empty());
}

TEST_CASE("mark: a number counts within its margin, in any unit of its kind") {
    const Ask ask = asks::number(18, Unit::in, 0.5, {{24, "m.deep"}, {20, "m.near"}});
    check_rows(ask, {{"18", 1, {}},
                     {"18.5 in", 1, {}},
                     {"17.5\"", 1, {}},
                     {"1.5 ft", 1, {}},
                     {"1-1/2 feet", 1, {}},
                     {"18.51", 0, {}},
                     {"2 ft", 0, {"m.deep"}},
                     {"24.4", 0, {"m.deep"}},
                     {"20", 0, {"m.near"}},
                     {"-18", 0, {}}});
    check_refused(ask, {"", "a lot", "18 furlongs", "inf", "18 or 24"},
                  "type a number, with or without its unit (inches)");
}

TEST_CASE("mark: a number of another kind is wrong and says why") {
    const auto marked = practice::mark(asks::number(18, Unit::in), "18 A");
    CHECK(marked->mark == 0.0);
    CHECK(marked->notes == Texts{"the answer is in inches"});
    CHECK(practice::mark(asks::number(4, Unit::count), "4 A")->notes == Texts{"the answer is a plain number"});
}

TEST_CASE("mark: an exact number is exact, but not finer than anyone can type") {
    check_rows(asks::number(20.3125, Unit::in3), {{"20.3125", 1, {}}, {"20-5/16", 1, {}}, {"20.31", 0, {}}});
    check_rows(asks::number(5, Unit::milliamp), {{"0.005 A", 1, {}}, {"5 A", 0, {}}});
    check_rows(asks::number(12, Unit::awg), {{"12", 1, {}}, {"#12", 1, {}}, {"12 AWG", 1, {}}, {"14 AWG", 0, {}}});
    check_refused(asks::number(4, Unit::count), {"four"}, "type a number");
}

TEST_CASE("mark: an article counts by how far it goes on the right way") {
    const Ask ask = asks::article("210.8(A)(2)", "", {{"210.8(B)", "m.business"}, {"406.4", "m.replace"}});
    check_rows(ask, {{"210.8(A)(2)", 1, {}},
                     {"210-8 a 2", 1, {}},
                     {"NEC 210.8(A)(2)(b)", 1, {}},
                     {"210.8(A)", 0.5, {}},
                     {"210.8", 0.5, {}},
                     {"210.8(A)(3)", 0.25, {}},
                     {"210.8(B)", 0.25, {"m.business"}},
                     {"210.8(B)(4)", 0.25, {"m.business"}},
                     {"Article 210", 0, {}},
                     {"210.12", 0, {}},
                     {"406.4(D)", 0, {"m.replace"}},
                     {"406", 0, {}}});
    check_refused(ask, {"", "gfci", "210.8(A)(2) or 406.4", "the book"}, "type a code reference");
}

TEST_CASE("mark: `enough` makes a shorter reference fully right, if it goes that far") {
    check_rows(asks::article("210.8(A)(2)", "210.8(A)"),
               {{"210.8(A)", 1, {}}, {"210.8(A)(2)", 1, {}}, {"210.8", 0.5, {}}, {"210.8(A)(3)", 0.25, {}}});
    check_rows(asks::article("210.8(A)(2)", "210.8"), {{"210.8", 1, {}}, {"210.8(A)", 1, {}}, {"210.8(B)", 0.25, {}}});
    check_rows(asks::article("210.8(A)(2)", "Article 210"),
               {{"Article 210", 1, {}}, {"210", 1, {}}, {"210.8", 1, {}}, {"Article 406", 0, {}}});
}

TEST_CASE("mark: a whole article is met by anything in it") {
    check_rows(asks::article("Article 314"), {{"314", 1, {}}, {"314.16(B)", 1, {}}, {"300", 0, {}}});
}

TEST_CASE("mark: order counts pairs in the right order and names what was turned round") {
    const Ask ask = asks::order({2, 3, 1}, {{1, 2, "m.early"}, {2, 3, "m.late"}});
    check_rows(ask, {{"cab", 1, {}},
                     {"C, A, B", 1, {}},
                     {"acb", 2.0 / 3, {"m.early"}},
                     {"cba", 2.0 / 3, {"m.late"}},
                     {"bac", 0, {"m.early", "m.late"}}});
    check_refused(ask, {"", "ca", "cabd", "cac", "1 2 3"}, "type all 3 letters in order");
}

TEST_CASE("mark: property: order agrees with its definition for every answer to five steps") {
    std::vector<int> shown = {3, 1, 5, 2, 4};
    const Ask ask = asks::order(shown);
    std::vector<int> letters = {0, 1, 2, 3, 4};
    do {
        std::string given;
        std::vector<int> steps;
        for (const int l : letters) {
            given += static_cast<char>('a' + l);
            steps.push_back(shown[static_cast<std::size_t>(l)]);
        }
        CHECK_MESSAGE(practice::mark(ask, given)->mark == doctest::Approx(share_of_pairs(steps)), given);
    } while (std::ranges::next_permutation(letters).found);
}

TEST_CASE("mark: recall finds ideas by any of their words, where a word begins") {
    const Ask ask = asks::recall({{"off", {"lock out", "lockout", "off"}}, {"proof", {"prove", "test"}}},
                                 {{{"gloves"}, "m.gloves"}});
    check_rows(ask, {{"Lock out and prove dead", 1, {}},
                     {"LOCKOUT, then testing", 1, {}},
                     {"turn it off", 0.5, {}},
                     {"(off)", 0.5, {}},
                     {"the coffee attests", 0, {}},
                     {"gloves", 0, {"m.gloves"}},
                     {"gloves, off, test", 1, {}}});
    check_refused(ask, {"", "  "}, "type a few words");
    CHECK(practice::mark(ask, "off")->notes == Texts{"not found in your words: proof"});
}

TEST_CASE("mark: every form says what may be typed") {
    CHECK(practice::answer_hint(kChoose) == "one letter, a-c");
    CHECK(practice::answer_hint(kAll) == "all letters that apply, a-d");
    CHECK(practice::answer_hint(asks::number(1, Unit::in3)) == "a number, in cubic inches");
    CHECK(practice::answer_hint(asks::number(1, Unit::count)) == "a number");
    CHECK(practice::answer_hint(asks::article("90.2")) == "a code reference");
    CHECK(practice::answer_hint(asks::order({2, 1})) == "all letters, first step first");
    CHECK(practice::answer_hint(asks::recall({})) == "a few words");
}

TEST_CASE("mark: property: whatever is typed gives a mark from 0 to 1, or a reason") {
    const std::vector<Ask> all = {kChoose,
                                  kAll,
                                  asks::number(18, Unit::in),
                                  asks::article("210.8(A)"),
                                  asks::order({2, 1, 3}),
                                  asks::recall({{"x", {"a"}}})};
    for (base::Seed seed = 1; seed <= 3000; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        std::string given(random.below(12), ' ');
        for (char& c : given)
            c = random.below(3) == 0 ? static_cast<char>(random.below(256)) : "abc1280.()/ "[random.below(12)];
        const auto marked = practice::mark(all[random.below(all.size())], given);
        if (!marked) CHECK_FALSE(marked.error().empty());
        if (marked) CHECK((marked->mark >= 0.0 && marked->mark <= 1.0));
    }
}

TEST_CASE("mark: the right answer to everything the shipped library asks is fully right") {
    const auto all = shipped::all_asks(17);
    REQUIRE(all.size() > 1000);
    for (const Ask& ask : all) {
        CAPTURE(ask.id.text);
        CAPTURE(content::right_answer(ask));
        const auto marked = practice::mark(ask, content::right_answer(ask));
        REQUIRE(marked.has_value());
        CHECK(marked->mark == 1.0);
        CHECK(marked->mistakes.empty());
        CHECK(marked->notes.empty());
    }
}

TEST_CASE("mark: every wrong option of the shipped library is worth nothing and names its mistake") {
    for (const Ask& ask : shipped::all_asks(18)) {
        if (ask.question.form != Form::choose) continue;
        CAPTURE(ask.id.text);
        for (std::size_t i = 0; i < ask.options.size(); ++i) {
            if (ask.options[i].right) continue;
            const auto marked = practice::mark(ask, content::letter(i));
            CHECK(marked->mark == 0.0);
            CHECK(marked->mistakes == Texts{ask.options[i].mistake});
        }
    }
}

TEST_CASE("mark: every authored wrong number and article of the shipped library names its mistake") {
    for (const Ask& ask : shipped::all_asks(19)) {
        CAPTURE(ask.id.text);
        for (const auto& wrong : ask.question.wrong_numbers) {
            const auto marked =
                practice::mark(ask, base::to_text(base::Quantity{wrong.value, ask.question.answer.unit}));
            CHECK(marked->mark == 0.0);
            CHECK(names(*marked, wrong.mistake));
        }
        for (const auto& wrong : ask.question.wrong_articles) {
            const auto marked = practice::mark(ask, wrong.article);
            CHECK(marked->mark < 1.0);
            CHECK(names(*marked, wrong.mistake));
        }
    }
}

TEST_CASE("mark: every authored wrong order of the shipped library names its mistake") {
    for (const Ask& ask : shipped::all_asks(20))
        for (const auto& wrong : ask.question.wrong_orders) {
            std::string given = content::right_answer(ask);
            std::swap(given.at(static_cast<std::size_t>(wrong.before) - 1),
                      given.at(static_cast<std::size_t>(wrong.after) - 1));
            const auto marked = practice::mark(ask, given);
            CHECK_MESSAGE(marked->mark < 1.0, ask.id.text);
            CHECK_MESSAGE(names(*marked, wrong.mistake), ask.id.text);
        }
}

TEST_CASE("mark: every mistake that the shipped library can name is explained") {
    for (Ask& ask : shipped::all_asks(21)) {
        Texts named;
        for (const auto& wrong : ask.question.wrong) named.push_back(wrong.mistake);
        for (const auto& wrong : ask.question.wrong_numbers) named.push_back(wrong.mistake);
        for (const auto& wrong : ask.question.wrong_words) named.push_back(wrong.mistake);
        content::explain(shipped::library(), ask, named);
        for (const auto& [id, line] : ask.mistakes) CHECK_MESSAGE(!line.empty(), ask.id.text, " ", id);
    }
}
