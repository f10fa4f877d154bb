#include "content/compose.hpp"

#include <algorithm>
#include <set>

#include <doctest/doctest.h>

#include "base/text.hpp"
#include "content/sample.hpp"
#include "content/shipped.hpp"

namespace {

using content::Ask;
using content::Form;
using trade::Edition;

/// The sample as an open library.
class Open {
public:
    explicit Open(const std::string& name, const std::string& calls = sample::kCalls) : folder_{name} {
        folder_.write_sample();
        folder_.write("scenarios/calls.json", calls);
        library_ = std::make_unique<content::Library>(content::open_library({folder_.path()}, "").value());
    }
    [[nodiscard]] const content::Library& library() const { return *library_; }
    [[nodiscard]] Ask ask(const std::string& point, std::size_t question, base::Seed seed) const {
        const auto* entry = library_->find({point});
        const auto* asked = content::questions_for(library_->point(*entry), Edition::e2020).at(question);
        return content::compose(*library_, *entry, *asked, Edition::e2020, seed);
    }
    [[nodiscard]] std::vector<Ask> call(Edition edition, base::Seed seed) const {
        return content::compose_scenario(*library_, library_->index().scenarios.at(0), edition, seed);
    }

private:
    sample::Folder folder_;
    std::unique_ptr<content::Library> library_;
};

std::vector<std::string> shown(const Ask& ask) {
    std::vector<std::string> texts;
    for (const auto& option : ask.options) texts.push_back(option.text);
    return texts;
}

std::string fingerprint(const Ask& ask) {
    return ask.id.text + "|" + ask.content + "|" + ask.story + "|" + ask.question.text + "|" +
           base::join(shown(ask), "|") + "|" + content::right_answer(ask) + "|" + ask.caution;
}

std::vector<std::string> authored(const content::Question& question) {
    std::vector<std::string> texts = question.right;
    for (const auto& wrong : question.wrong) texts.push_back(wrong.text);
    return texts;
}

}  // namespace

TEST_CASE("compose: the same question, edition and seed give the same ask") {
    const auto& once = shipped::asks();
    const auto again = shipped::all_asks(1);
    REQUIRE(once.size() == again.size());
    for (std::size_t i = 0; i < once.size(); ++i) CHECK(fingerprint(once[i]) == fingerprint(again[i]));
}

TEST_CASE("compose: the options are those of the author, each once, and every order of them comes up") {
    const Open open{"compose-options"};
    std::set<std::vector<std::string>> orders;
    for (base::Seed seed = 1; seed <= 100; ++seed) {
        const Ask ask = open.ask("box.accessible", 0, seed);
        const auto texts = shown(ask);
        orders.insert(texts);
        CHECK(std::ranges::is_permutation(texts, authored(ask.question)));
        CHECK(std::ranges::count_if(ask.options, [](const auto& o) { return o.right; }) == 1);
    }
    CHECK(orders.size() == 6);
}

TEST_CASE("compose: property: options of the whole library are permutations of what was authored") {
    for (const Ask& ask : shipped::asks()) {
        CAPTURE(ask.id.text);
        const Form form = ask.question.form;
        const bool optional = form == Form::choose || form == Form::choose_all || form == Form::order;
        CHECK(std::ranges::is_permutation(shown(ask), optional ? authored(ask.question) : std::vector<std::string>{}));
    }
}

TEST_CASE("compose: steps are never shown in their right order") {
    const Open open{"compose-order"};
    std::set<std::string> answers;
    for (base::Seed seed = 1; seed <= 400; ++seed)
        answers.insert(content::right_answer(open.ask("box.volume", 2, seed)));
    CHECK_FALSE(answers.contains("abcd"));
    CHECK(answers.size() == 23);
    for (const Ask& ask : shipped::asks())
        if (ask.question.form == Form::order)
            CHECK_MESSAGE(content::right_answer(ask) != std::string{"abcdefgh"}.substr(0, ask.options.size()),
                          ask.id.text);
}

TEST_CASE("compose: an ask says where it comes from and what it is worth knowing for") {
    const Open open{"compose-about"};
    const Ask ask = open.ask("box.accessible", 0, 9);
    CHECK(ask.id.text == "box.accessible#a");
    CHECK(ask.seed == 9);
    CHECK(ask.edition == Edition::e2020);
    CHECK(ask.version.article == "314.29");
    CHECK(ask.title == "Boxes stay reachable");
    CHECK(ask.question.point.text == "box.accessible");
    CHECK(ask.mistakes.empty());
    CHECK(ask.call.empty());
}

TEST_CASE("compose: the lines behind mistakes are looked up when they are wanted") {
    const Open open{"compose-explain"};
    Ask ask = open.ask("box.accessible", 0, 9);
    content::explain(open.library(), ask, {"m.hidden", "m.none"});
    CHECK(ask.mistakes ==
          content::Mistakes{{"m.hidden", "Thinks a hidden box is fine; it has to stay reachable."}, {"m.none", ""}});
    Ask call = open.call(Edition::e2020, 1).at(0);
    content::explain(open.library(), call, {"m.late"});
    CHECK(call.mistakes.at("m.late") == "Comes too late.");
}

TEST_CASE("compose: a point's own caution goes before the usual one of its stakes") {
    const Open open{"compose-caution"};
    CHECK(open.ask("box.volume", 0, 1).caution == "Dead first.");
    CHECK(open.ask("box.accessible", 0, 1).caution == content::usual_caution(content::Stakes::fire));
    CHECK(content::usual_caution(content::Stakes::paperwork).empty());
    CHECK(content::usual_caution(content::Stakes::shock).find("prove dead") != std::string::npos);
}

TEST_CASE("compose: only questions of the edition are asked") {
    const Open open{"compose-editions"};
    const auto& point = open.library().point(*open.library().find({"box.accessible"}));
    CHECK(content::questions_for(point, Edition::e2023).size() == 3);
    CHECK(content::questions_for(point, Edition::e2026).size() == 2);
    CHECK(content::questions_for(open.library().point(*open.library().find({"box.volume"})), Edition::e2017).empty());
}

TEST_CASE("compose: a call's facts are drawn once and stand everywhere") {
    const Open open{"compose-call"};
    std::set<std::string> stories;
    for (base::Seed seed = 1; seed <= 60; ++seed) {
        const auto asks = open.call(Edition::e2020, seed);
        REQUIRE(asks.size() == 3);
        stories.insert(asks[0].story);
        const std::string room = asks[0].question.right.at(0).substr(9, asks[0].question.right.at(0).find(" a ") - 9);
        CHECK(asks[0].story == "Mrs. Hale called about a warm spot in the " + room + ".");
        CHECK(asks[0].question.text == "The " + room + " ceiling hides a splice. What now?");
        CHECK(asks[2].question.text == "Tell Mrs. Hale in one word what was wrong.");
        CHECK(asks[2].call == "A warm ceiling");
    }
    CHECK(stories.size() == 3);
}

TEST_CASE("compose: asks whose point is in a gap or gone are left out of a call") {
    const Open open{"compose-gap", sample::spoiled(sample::kCalls, "\"box.volume\"", "\"box.gone\"")};
    CHECK(open.call(Edition::e2020, 1).size() == 2);
    const Open whole{"compose-gap-whole"};
    CHECK(whole.call(Edition::e2017, 1).size() == 2);
}

TEST_CASE("compose: slots are filled, and those without a fact stay") {
    const std::map<std::string, std::string> facts = {{"a", "1"}, {"b", "{a}"}};
    CHECK(content::fill("{a} and {b} and {c} {", facts).value() == "1 and {a} and {c} {");
    CHECK(content::fill("{}{a}", facts).value() == "{}1");
    CHECK(content::fill("", facts)->empty());
}

TEST_CASE("compose: no slot of the shipped library stays empty") {
    for (const Ask& ask : shipped::asks()) {
        const std::string all = ask.story + ask.question.text + ask.question.why + base::join(shown(ask), " ");
        CHECK_MESSAGE(all.find_first_of("{}") == std::string::npos, ask.id.text, " ", all);
    }
}

TEST_CASE("compose: the content version follows what is asked and answered, and nothing else") {
    const Open open{"compose-version"};
    const Ask ask = open.ask("box.volume", 0, 1);
    CHECK(content::content_version(ask.question, ask.version) == ask.content);
    CHECK(ask.content == open.ask("box.volume", 0, 2).content);
    auto question = ask.question;
    question.why = "Another reason.";
    CHECK(content::content_version(question, ask.version) == ask.content);
    question.answer.value = 2.5;
    CHECK(content::content_version(question, ask.version) != ask.content);
    auto version = ask.version;
    version.says = "Otherwise.";
    CHECK(content::content_version(ask.question, version) != ask.content);
}

TEST_CASE("compose: right answers are told in words and letters that agree") {
    const Open open{"compose-words"};
    const Ask choose = open.ask("box.accessible", 0, 1);
    CHECK(content::right_in_words(choose) == content::right_answer(choose) + ") No, it stays reachable for good");
    const Ask order = open.ask("box.volume", 2, 1);
    CHECK(content::right_in_words(order) ==
          content::right_answer(order) + "\n1. Lock out\n2. Prove dead\n3. Open\n4. Look");
    CHECK(content::right_in_words(open.ask("box.volume", 1, 1)) == "11.25 in3");
    CHECK(content::right_in_words(open.ask("box.accessible", 2, 1)) == "314.29");
    CHECK(content::right_in_words(open.ask("box.volume", 3, 1)) == "heat and no box");
}
