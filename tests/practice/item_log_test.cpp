#include "practice/item_log.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "content/compose.hpp"
#include "content/shipped.hpp"

namespace {

using content::Form;

/// The first question of a form that has authored options, with its point.
struct Found {
    const content::PointEntry* entry = nullptr;
    const content::Question* question = nullptr;
};

Found first_of(Form form) {
    const auto& library = shipped::library();
    for (const auto& entry : library.index().points)
        for (const auto* question : content::questions_for(library.point(entry), trade::Edition::e2023))
            if (question->form == form && !question->computed) return {&entry, question};
    return {};
}

store::AnswerRecord answered(const Found& found, const content::Ask& ask, const std::string& given, double mark) {
    store::AnswerRecord record;
    record.learner.bytes[0] = 1;
    record.point = found.entry->id;
    record.question = ask.id;
    record.content = ask.content;
    record.seed = ask.seed;
    record.edition = 2023;
    record.given = given;
    record.mark = mark;
    record.took_ms = 5000;
    return record;
}

content::Ask posed(const Found& found, base::Seed seed) {
    return content::compose(shipped::library(), *found.entry, *found.question, trade::Edition::e2023, seed);
}

}  // namespace

TEST_CASE("item log: the option chosen is found again, whatever order it was shown in") {
    const Found found = first_of(Form::choose);
    REQUIRE(found.question != nullptr);
    for (base::Seed seed = 1; seed <= 8; ++seed) {
        const auto ask = posed(found, seed);
        for (std::size_t place = 0; place < ask.options.size(); ++place) {
            practice::ItemLogReader reader{shipped::library()};
            reader.add(answered(found, ask, content::letter(place), ask.options[place].right ? 1 : 0));
            const auto& log = reader.log();
            REQUIRE(log.items.size() == 1);
            const auto choice = log.answers[0].choice;
            REQUIRE(choice >= 0);
            CHECK(log.items[0].options[static_cast<std::size_t>(choice)] == ask.options[place].text);
            CHECK((choice == log.keys[0].right) == ask.options[place].right);
        }
    }
}

TEST_CASE("item log: no option where none was chosen, where words changed, or where there are none") {
    const Found found = first_of(Form::choose);
    const auto ask = posed(found, 3);
    practice::ItemLogReader reader{shipped::library()};
    reader.add(answered(found, ask, "!", 0));
    auto changed = answered(found, ask, "a", 1);
    changed.content = "0000000000000000";
    reader.add(changed);
    reader.add(answered(found, ask, "z", 0));
    const Found number = first_of(Form::number);
    reader.add(answered(number, posed(number, 1), "18", 1));
    auto gone = answered(found, ask, "a", 1);
    gone.point.text = "gone.point";
    gone.question.text = "gone.point#a";
    reader.add(gone);
    auto call = answered(found, ask, "a", 1);
    call.question.text = "call.somewhere#b";
    reader.add(call);
    const auto& log = reader.log();
    for (const auto& answer : log.answers) CHECK(answer.choice == -1);
    CHECK(log.changed == 2);
    CHECK(log.learners == 1);
    CHECK(log.items.size() == 4);
    CHECK(log.keys[1].options == 0);
    CHECK(log.items[2].topic.empty());
}

TEST_CASE("item log: figures cover every question, repeats left out") {
    const Found found = first_of(Form::choose);
    practice::ItemLogReader reader{shipped::library()};
    for (std::uint8_t learner = 1; learner <= 30; ++learner)
        for (int n = 0; n < 2; ++n) {
            const auto ask = posed(found, learner);
            auto record = answered(found, ask, content::right_answer(ask), 1);
            record.learner.bytes[0] = learner;
            reader.add(record);
        }
    const auto figures = practice::item_figures(reader.log(), {});
    CHECK(figures.counted == 30);
    CHECK(figures.repeats == 30);
    REQUIRE(figures.summaries.size() == 1);
    CHECK(figures.summaries[0].n == 30);
    CHECK(figures.summaries[0].right == 30);
    CHECK(figures.summaries[0].options[0].count == 30);
}
