#include "content/reading.hpp"

#include <algorithm>
#include <array>
#include <cstdio>
#include <map>
#include <utility>

#include "base/random.hpp"
#include "base/text.hpp"

namespace content {
namespace {

void add(std::string& all, std::string_view part) {
    all += part;
    all += '\n';
}

void add_computed(std::string& all, const Computed& computed) {
    add(all, std::to_string(static_cast<int>(computed.by)) + computed.calculator + ' ' + computed.value);
    for (const auto& [name, slot] : computed.facts) add(all, name + '=' + slot);
    for (const auto& path : computed.paths) {
        add(all, path.as + ' ' + path.value);
        for (const auto& [name, slot] : path.facts) add(all, name + '=' + slot);
    }
    for (const auto& one : computed.asked) add(all, one);
    for (const auto& [value, words] : computed.phrases) add(all, value + '=' + words);
    add(all, computed.says + std::to_string(computed.places));
}

void add_story(std::string& all, const Scenario& scenario) {
    add(all, scenario.story);
    for (const auto& fact : scenario.facts) {
        add(all, fact.name + ' ' + fact.is + ' ' + base::join(fact.choices, "|"));
        add(all, base::number_text(fact.from, 6) + ' ' + base::number_text(fact.to, 6) + ' ' +
                     base::number_text(fact.step, 6));
    }
    for (const auto& sum : scenario.only) add(all, sum);
}

/// What a reader sees and what counts as right, and nothing else: an explanation may be put better at any time.
std::string content_of(const Question& question, const Scenario* scenario, const std::string& article) {
    std::string all;
    if (scenario != nullptr) add_story(all, *scenario);
    add(all, to_text(question.form));
    add(all, question.text);
    for (const auto& right : question.right) add(all, right);
    for (const auto& wrong : question.wrong) add(all, wrong.text);
    for (const auto& idea : question.ideas) add(all, base::join(idea.words, "|"));
    if (question.form == Form::number)
        add(all, base::to_text(question.answer) + ' ' + base::number_text(question.within, 6));
    if (question.form == Form::article) add(all, article + ' ' + question.enough);
    if (question.computed) add_computed(all, *question.computed);
    std::array<char, 17> text{};
    std::snprintf(text.data(), text.size(), "%016llx", static_cast<unsigned long long>(base::stable_hash(all)));
    return text.data();
}

/// The editions that share one right answer: by reference for a look-up, else all of them.
std::map<std::string, std::vector<trade::Edition>> by_answer(const Question& question, const Point& point,
                                                             const Scenario* scenario) {
    std::map<std::string, std::vector<trade::Edition>> groups;
    for (const auto edition : trade::kEditions) {
        if (!holds_in(question, point, edition)) continue;
        if (scenario != nullptr && !scenario->editions.contains(edition)) continue;
        groups[question.form == Form::article ? point.version(edition)->article : std::string{}].push_back(edition);
    }
    return groups;
}

/// The newest edition whose statement is confirmed; failing that, the newest.
trade::Edition read_under(const Point& point, const std::vector<trade::Edition>& editions) {
    const auto confirmed = std::find_if(editions.rbegin(), editions.rend(),
                                        [&](trade::Edition edition) { return !point.version(edition)->unverified; });
    return confirmed == editions.rend() ? editions.back() : *confirmed;
}

void add_all(std::vector<ToRead>& all, const std::string& owner, const Point& point, const Question& question,
             const Scenario* scenario) {
    for (const auto& [article, editions] : by_answer(question, point, scenario)) {
        ToRead one{owner + "#" + question.id, &point, &question, scenario, read_under(point, editions), editions, {}};
        one.content = content_of(question, scenario, article);
        // What is worked out may come out otherwise in each edition: a reader vouches for the one alone.
        if (question.computed) one.editions = {one.edition};
        all.push_back(std::move(one));
    }
}

}  // namespace

std::vector<ToRead> to_read(const Contents& contents) {
    std::vector<ToRead> all;
    std::map<std::string, const Point*> points;
    for (const auto& deck : contents.decks)
        for (const auto& point : deck.points) {
            points[point.id.text] = &point;
            for (const auto& question : point.questions) add_all(all, point.id.text, point, question, nullptr);
        }
    for (const auto& family : contents.families)
        for (const auto& scenario : family.scenarios)
            for (const auto& ask : scenario.asks)
                if (const auto point = points.find(ask.point.text); point != points.end())
                    add_all(all, scenario.id, *point->second, ask, &scenario);
    return all;
}

ReadingBook::ReadingBook(const Contents& contents) {
    for (const auto& reading : contents.readings) readings_[{reading.question, reading.edition}].push_back(&reading);
}

ReadingBook::State ReadingBook::state(const ToRead& one) const {
    const auto found = readings_.find({one.id, one.edition});
    if (found == readings_.end()) return State::never;
    const bool same = std::any_of(found->second.begin(), found->second.end(),
                                  [&](const Reading* reading) { return reading->content == one.content; });
    return same ? State::read : State::changed;
}

}  // namespace content
