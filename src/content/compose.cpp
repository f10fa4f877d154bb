#include "content/compose.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cstdio>

#include "base/text.hpp"

namespace content {
namespace {

using Facts = std::map<std::string, std::string>;

std::vector<Option> options_of(const Question& question) {
    std::vector<Option> options;
    if (question.form == Form::order) {
        for (std::size_t i = 0; i < question.right.size(); ++i)
            options.push_back({question.right[i], false, static_cast<int>(i + 1), ""});
    } else if (question.form == Form::choose || question.form == Form::choose_all) {
        for (const auto& text : question.right) options.push_back({text, true, 0, ""});
        for (const auto& wrong : question.wrong) options.push_back({wrong.text, false, 0, wrong.mistake});
    }
    return options;
}

bool in_right_order(const std::vector<Option>& options) {
    return std::is_sorted(options.begin(), options.end(),
                          [](const Option& a, const Option& b) { return a.step < b.step; });
}

std::vector<Option> shuffled_options(const Question& question, base::Seed seed) {
    auto options = options_of(question);
    base::Random random{base::derive_seed(seed, "options")};
    random.shuffle(options);
    // Steps shown in their right order would give the answer away.
    while (question.form == Form::order && options.size() > 1 && in_right_order(options)) random.shuffle(options);
    return options;
}

Ask pose(const Library& library, const PointEntry& entry, Question question, const Slice& mistakes,
         trade::Edition edition, base::Seed seed) {
    const Point& point = library.point(entry);
    const Version* version = point.version(edition);
    assert(version != nullptr);
    Ask ask;
    ask.seed = seed;
    ask.edition = edition;
    ask.topic = point.topic;
    ask.title = point.title;
    ask.stakes = point.stakes;
    ask.version = *version;
    ask.content = content_version(question, *version);
    ask.options = shuffled_options(question, seed);
    ask.caution = point.caution.empty() ? usual_caution(point.stakes) : point.caution;
    ask.mistakes_at = mistakes;
    ask.question = std::move(question);
    return ask;
}

Facts draw_facts(const Scenario& scenario, base::Seed seed) {
    Facts facts;
    for (const auto& fact : scenario.facts) {
        if (fact.choices.empty()) continue;
        base::Random random{base::derive_seed(seed, fact.name)};
        facts[fact.name] = fact.choices[static_cast<std::size_t>(random.below(fact.choices.size()))];
    }
    return facts;
}

Question with_facts(Question question, const Facts& facts) {
    question.text = fill_slots(question.text, facts);
    question.why = fill_slots(question.why, facts);
    for (auto& text : question.right) text = fill_slots(text, facts);
    for (auto& wrong : question.wrong) wrong.text = fill_slots(wrong.text, facts);
    return question;
}

}  // namespace

std::string usual_caution(Stakes stakes) {
    if (stakes != Stakes::shock && stakes != Stakes::fire) return {};
    return "de-energise, lock out, prove dead with a tester checked on a known source before and after. Local code and "
           "the inspector decide.";
}

std::string content_version(const Question& question, const Version& version) {
    std::string all = question.id + '\n' + std::string{to_text(question.form)} + '\n' + question.text + '\n';
    for (const auto& text : question.right) all += text + '\n';
    for (const auto& wrong : question.wrong) all += wrong.text + '\n' + wrong.mistake + '\n';
    all +=
        base::to_text(question.answer) + '\n' + base::number_text(question.within, 6) + '\n' + question.enough + '\n';
    for (const auto& idea : question.ideas) all += idea.idea + '\n' + base::join(idea.words, "|") + '\n';
    all += version.article + '\n' + version.says;
    std::array<char, 17> text{};
    std::snprintf(text.data(), text.size(), "%016llx", static_cast<unsigned long long>(base::stable_hash(all)));
    return text.data();
}

std::string fill_slots(const std::string& text, const Facts& facts) {
    std::string filled;
    for (std::size_t at = 0; at < text.size();) {
        const auto open = text.find('{', at);
        const auto close = open == std::string::npos ? std::string::npos : text.find('}', open);
        if (close == std::string::npos) return filled + text.substr(at);
        filled += text.substr(at, open - at);
        const auto fact = facts.find(text.substr(open + 1, close - open - 1));
        filled += fact == facts.end() ? text.substr(open, close - open + 1) : fact->second;
        at = close + 1;
    }
    return filled;
}

std::vector<const Question*> questions_for(const Point& point, trade::Edition edition) {
    std::vector<const Question*> fitting;
    for (const auto& question : point.questions)
        if (holds_in(question, point, edition)) fitting.push_back(&question);
    return fitting;
}

void explain(const Library& library, Ask& ask, const std::vector<std::string>& mistakes) {
    for (const auto& id : mistakes) ask.mistakes[id] = library.mistake(ask.mistakes_at, id);
}

Ask compose(const Library& library, const PointEntry& entry, const Question& question, trade::Edition edition,
            base::Seed seed) {
    const std::string id = entry.id.text + "#" + question.id;
    Ask ask = pose(library, entry, question, entry.mistakes, edition, base::derive_seed(seed, id));
    ask.id.text = id;
    ask.seed = seed;
    return ask;
}

std::vector<Ask> compose_scenario(const Library& library, const ScenarioEntry& entry, trade::Edition edition,
                                  base::Seed seed) {
    const Scenario& scenario = library.scenario(entry);
    const Facts facts = draw_facts(scenario, base::derive_seed(seed, scenario.id));
    std::vector<Ask> asks;
    for (const auto& authored : scenario.asks) {
        const PointEntry* point = library.find(authored.point);
        if (point == nullptr || !holds_in(authored, library.point(*point), edition)) continue;
        const std::string id = scenario.id + "#" + authored.id;
        Ask ask =
            pose(library, *point, with_facts(authored, facts), entry.mistakes, edition, base::derive_seed(seed, id));
        ask.id.text = id;
        ask.seed = seed;
        ask.call = scenario.title;
        ask.story = fill_slots(scenario.story, facts);
        asks.push_back(std::move(ask));
    }
    return asks;
}

}  // namespace content
