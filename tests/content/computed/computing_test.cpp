#include "content/computed/computing.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "base/text.hpp"
#include "content/sample_trade.hpp"

namespace {

using content::Computed;
using content::FactTexts;
using content::Form;
using content::Question;
using content::Under;
using content::WrongPath;
using trade::Edition;

const Under kUnder = {Edition::e2023, "", ""};

/// A box with some 12 AWG in it.
Computed box(std::vector<WrongPath> paths) {
    Computed computed;
    computed.calculator = "box-fill";
    computed.facts = {{"conductors", "{n}x12"}, {"grounds", "{=n/2}x12"}, {"devices", "none"}, {"clamps", "yes"}};
    computed.paths = std::move(paths);
    return computed;
}

Computed by_rules(content::FactSlots facts, std::vector<std::string> asked, std::vector<WrongPath> paths) {
    Computed computed;
    computed.by = Computed::By::rules;
    computed.facts = std::move(facts);
    computed.asked = std::move(asked);
    computed.paths = std::move(paths);
    return computed;
}

WrongPath with(content::FactSlots facts, std::string mistake) {
    WrongPath path;
    path.facts = std::move(facts);
    path.mistake = std::move(mistake);
    return path;
}

WrongPath stated(std::string as, std::string mistake) {
    WrongPath path;
    path.as = std::move(as);
    path.mistake = std::move(mistake);
    return path;
}

base::Checked<Question> answered(Form form, Computed computed, const FactTexts& facts, const Under& under = kUnder,
                                 const std::string& why = "") {
    Question question;
    question.id = "a";
    question.form = form;
    question.text = "What?";
    question.why = why;
    question.computed = std::make_shared<const Computed>(std::move(computed));
    return content::answered(std::move(question), facts, sample_trade::data(), under);
}

Question done(Form form, Computed computed, const FactTexts& facts, const Under& under = kUnder,
              const std::string& why = "") {
    auto question = answered(form, std::move(computed), facts, under, why);
    REQUIRE_MESSAGE(question.has_value(), (question ? "" : question.error().front().what));
    return std::move(*question);
}

std::string refused(const base::Checked<Question>& question) {
    REQUIRE_FALSE(question.has_value());
    return question.error().front().what;
}

std::vector<std::string> wrong_texts(const Question& question) {
    std::vector<std::string> texts;
    for (const auto& wrong : question.wrong) texts.push_back(wrong.text);
    return texts;
}

}  // namespace

TEST_CASE("computing: the right number is worked out from the facts of the story") {
    // Four 12 AWG, grounds as one, clamps as one: six allowances of 2.25 in3.
    const auto question = done(Form::number, box({with({{"clamps", "no"}}, "clamps")}), {{"n", "4"}});
    CHECK(question.answer.value == doctest::Approx(13.5));
    CHECK(question.answer.unit == base::Unit::in3);
    REQUIRE(question.wrong_numbers.size() == 1);
    CHECK(question.wrong_numbers.front().value == doctest::Approx(11.25));
    CHECK(question.wrong_numbers.front().mistake == "clamps");
    CHECK(question.articles == std::vector<std::string>{"314.16(B)"});
    CHECK(done(Form::number, box({with({{"clamps", "no"}}, "clamps")}), {{"n", "6"}}).answer.value ==
          doctest::Approx(18.0));
}

TEST_CASE("computing: wrong ways by other facts, a fact left out, another edition, another value and a sum") {
    WrongPath old;
    old.edition = Edition::e2017;
    old.mistake = "old";
    WrongPath other;
    other.value = "allowances";
    other.mistake = "other";
    const auto question = done(Form::number,
                               box({with({{"fittings", "1"}}, "fitting"), old, other,
                                    stated("answer_number * 2", "double"), with({{"grounds", ""}}, "open")}),
                               {{"n", "12"}});
    // Twelve conductors, six grounds (one and two quarters), clamps: 14.5 allowances; by 2017 fourteen.
    CHECK(question.answer.value == doctest::Approx(32.63));
    std::map<std::string, double> values;
    for (const auto& wrong : question.wrong_numbers) values[wrong.mistake] = wrong.value;
    CHECK(values.at("fitting") == doctest::Approx(34.88));
    CHECK(values.at("old") == doctest::Approx(31.5));
    CHECK(values.at("double") == doctest::Approx(65.25));
    // Without its grounds the box cannot be worked out: no such wrong answer.
    CHECK_FALSE(values.contains("open"));
}

TEST_CASE("computing: a wrong way that leads to the right answer, or to another wrong one, is left out") {
    WrongPath old;
    old.edition = Edition::e2017;
    old.mistake = "old";
    const auto paths =
        std::vector<WrongPath>{old, with({{"clamps", "no"}}, "first"), stated("answer_number - 2.25", "second")};
    // Two grounds count once in either edition.
    const auto question = done(Form::number, box(paths), {{"n", "4"}});
    REQUIRE(question.wrong_numbers.size() == 1);
    CHECK(question.wrong_numbers.front().mistake == "first");
    CHECK(refused(answered(Form::number, box({old}), {{"n", "4"}})).find("too few wrong answers") != std::string::npos);
    CHECK(answered(Form::number, box({old}), {{"n", "12"}}).has_value());
}

TEST_CASE("computing: numbers are rounded to their places, and are right within half of the last") {
    auto computed = box({with({{"clamps", "no"}}, "clamps")});
    computed.places = 0;
    const auto question = done(Form::number, computed, {{"n", "12"}});
    CHECK(question.answer.value == 33.0);
    CHECK(question.within == doctest::Approx(0.5));
    computed.places = 2;
    CHECK(done(Form::number, computed, {{"n", "12"}}).within == doctest::Approx(0.005));
    // A wrong answer that the rounding brings within reach of the right one is no answer to offer.
    computed.paths.push_back(stated("answer_number + 0.3", "near"));
    computed.places = 0;
    CHECK(done(Form::number, computed, {{"n", "12"}}).wrong_numbers.size() == 1);
}

TEST_CASE("computing: choices are worded by says and by phrases, and are told apart as worded") {
    auto computed = box({with({{"box", "18"}, {"clamps", "no"}}, "clamps"), with({{"box", "10"}}, "small"),
                         stated("yes", "said"), stated("perhaps", "unsure")});
    computed.facts.emplace_back("box", "{box}");
    computed.value = "fits";
    computed.phrases = {{"yes", "It fits"}, {"no", "It is too small"}};
    const auto question = done(Form::choose, computed, {{"n", "6"}, {"box", "17"}});
    CHECK(question.right == std::vector<std::string>{"It is too small"});
    CHECK(wrong_texts(question) == std::vector<std::string>{"It fits", "perhaps"});
    auto size = box({with({{"clamps", "no"}}, "clamps"), stated("answer_number + 1", "more")});
    size.says = "A box of {value}";
    CHECK(done(Form::choose, size, {{"n", "4"}}).right.front() == "A box of 13.5 in3");
}

TEST_CASE("computing: a choice takes four wrong answers at most and two at least") {
    std::vector<WrongPath> paths;
    for (int i = 1; i <= 6; ++i)
        paths.push_back(stated("answer_number + " + std::to_string(i), "m" + std::to_string(i)));
    CHECK(done(Form::choose, box(paths), {{"n", "4"}}).wrong.size() == 4);
    paths.resize(1);
    CHECK(refused(answered(Form::choose, box(paths), {{"n", "4"}})).find("too few") != std::string::npos);
}

TEST_CASE("computing: rules in words, for two results and for one") {
    const content::FactSlots hall = {{"occupancy", "house"}, {"location", "{room}"}, {"sink_ft", "none"},
                                     {"volts", "120"},       {"locked", "no"},       {"day", "2020-01-01"}};
    const auto two =
        done(Form::choose,
             by_rules(hall, {"GFCI", "AFCI"},
                      {stated("GFCI", "g"), stated("AFCI", "a"), stated("AFCI+GFCI", "both"), stated("nothing", "n")}),
             {{"room", "hall"}});
    CHECK(two.right == std::vector<std::string>{"AFCI only"});
    CHECK(wrong_texts(two) == std::vector<std::string>{"GFCI only", "GFCI and AFCI", "Neither of them"});
    const auto one =
        done(Form::choose, by_rules(hall, {"GFCI"}, {stated("GFCI", "g"), stated("nothing", "n")}), {{"room", "bath"}});
    CHECK(one.right == std::vector<std::string>{"Yes, it is required"});
    CHECK(wrong_texts(one) == std::vector<std::string>{"No, not here"});
}

TEST_CASE("computing: the same results stated in another order are no wrong answer") {
    const content::FactSlots both = {{"occupancy", "house"}, {"location", "hall"}, {"sink_ft", "1"}};
    const auto question = done(
        Form::choose,
        by_rules(both, {"GFCI", "AFCI"}, {stated("AFCI+GFCI", "same"), stated("GFCI", "g"), stated("nothing", "n")}),
        {});
    CHECK(question.right == std::vector<std::string>{"GFCI and AFCI"});
    CHECK(wrong_texts(question) == std::vector<std::string>{"GFCI only", "Neither of them"});
}

TEST_CASE("computing: rules: counts, articles, and the reasons as working") {
    auto walls = by_rules({{"occupancy", "house"}, {"wall_ft", "{feet}"}}, {"wall-receptacle"},
                          {stated("answer_number + 1", "m")});
    walls.value = "count:wall-receptacle";
    const auto question = done(Form::number, walls, {{"feet", "25"}}, kUnder, "They need {answer_number}.");
    CHECK(question.answer.value == 3.0);
    CHECK(question.why == "They need 3.\n210.52(A): Walls. Cords are short.");
    auto article = by_rules({{"occupancy", "house"}, {"wall_ft", "25"}}, {"wall-receptacle"},
                            {stated("210.8(A)", "x"), stated("406.9", "y")});
    article.value = "article";
    CHECK(done(Form::choose, article, {}).right == std::vector<std::string>{"210.52(A)"});
}

TEST_CASE("computing: rules are those of the place and the day") {
    const auto yard = by_rules({{"location", "yard"}, {"occupancy", "shop"}, {"sink_ft", "none"}}, {"GFCI"},
                               {stated("GFCI", "g"), stated("nothing", "n")});
    CHECK(done(Form::choose, yard, {}).right.front() == "No, not here");
    CHECK(done(Form::choose, yard, {}, {Edition::e2023, "ours", "2026-01-01"}).right.front() == "Yes, it is required");
}

TEST_CASE("computing: what the facts leave open, or contradict, is refused and named") {
    const auto open = by_rules({{"occupancy", "house"}, {"location", "bath"}, {"sink_ft", "none"}}, {"GFCI"},
                               {stated("nothing", "n")});
    const auto told = refused(answered(Form::choose, open, {}));
    CHECK(told.find("locked") != std::string::npos);
    CHECK(told.find("volts") != std::string::npos);
    const auto clash = by_rules({{"occupancy", "shop"}, {"sink_ft", "none"}, {"location", "bath"}, {"wet", "no"}},
                                {"GFCI"}, {stated("GFCI", "g")});
    CHECK(refused(answered(Form::choose, clash, {})).find("does not go with") != std::string::npos);
    auto box_without = box({stated("1", "m")});
    box_without.facts.pop_back();
    const auto missing = answered(Form::number, box_without, {{"n", "4"}});
    REQUIRE_FALSE(missing.has_value());
    CHECK(missing.error().front().mend.find("clamps") != std::string::npos);
}

TEST_CASE("computing: names that are not there and answers of the wrong kind are refused") {
    auto wrong = box({stated("1", "m")});
    wrong.calculator = "box-full";
    CHECK(refused(answered(Form::number, wrong, {{"n", "4"}})).find("no calculator 'box-full'") != std::string::npos);
    wrong = box({stated("1", "m")});
    wrong.facts.emplace_back("clamp", "yes");
    CHECK(refused(answered(Form::number, wrong, {{"n", "4"}})).find("no fact 'clamp'") != std::string::npos);
    wrong = box({stated("1", "m")});
    wrong.value = "sparse";
    CHECK(refused(answered(Form::number, wrong, {{"n", "4"}})).find("no 'sparse'") != std::string::npos);
    CHECK(refused(answered(Form::number, box({stated("1", "m")}), {{"m", "4"}})).find("there is no fact 'n'") !=
          std::string::npos);
    wrong = box({stated("1", "m")});
    wrong.facts.emplace_back("box", "20");
    wrong.value = "fits";
    CHECK(refused(answered(Form::number, wrong, {{"n", "4"}})).find("no number") != std::string::npos);
    CHECK(refused(answered(Form::choose, by_rules({}, {"GFI"}, {}), {})).find("no result 'GFI'") != std::string::npos);
}

TEST_CASE("computing: the steps of the working stand under the reason") {
    const auto question = done(Form::number, box({with({{"clamps", "no"}}, "clamps")}), {{"n", "4"}}, kUnder,
                               "In all {answer} for {n} conductors and {nothing}.");
    const auto lines = base::split(question.why, '\n');
    REQUIRE(lines.size() > 2);
    CHECK(lines.front() == "In all 13.5 in3 for 4 conductors and {nothing}.");
    CHECK(lines.back() == "together 13.5 in3");
}

TEST_CASE("computing: the same facts give the same question, to the letter") {
    const auto print = [] {
        const auto question = done(Form::choose,
                                   box({with({{"clamps", "no"}}, "clamps"), with({{"fittings", "2"}}, "f"),
                                        stated("answer_number / 2", "half")}),
                                   {{"n", "6"}}, kUnder, "{answer}");
        return question.right.front() + "|" + base::join(wrong_texts(question), "|") + "|" + question.why;
    };
    const auto once = print();
    for (int i = 0; i < 20; ++i) CHECK(print() == once);
}
