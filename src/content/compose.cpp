#include "content/compose.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <cstdio>

#include "base/text.hpp"

namespace content {
namespace {

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

std::string drawn(const Fact& fact, base::Random& random) {
    if (fact.step <= 0.0) return fact.choices[static_cast<std::size_t>(random.below(fact.choices.size()))];
    constexpr double kSlack = 1e-9;
    const auto steps = static_cast<std::uint64_t>(std::floor((fact.to - fact.from) / fact.step + kSlack));
    return base::number_text(fact.from + fact.step * static_cast<double>(random.below(steps + 1)), 6);
}

/// Text with its slots filled; a sum that fails leaves the text as it stands, and the checks report it.
std::string filled(const std::string& text, const FactTexts& facts) {
    return fill(text, facts).value_or(text);
}

Question with_facts(Question question, const FactTexts& facts) {
    question.text = filled(question.text, facts);
    if (question.computed) return question;
    question.why = filled(question.why, facts);
    for (auto& text : question.right) text = filled(text, facts);
    for (auto& wrong : question.wrong) wrong.text = filled(wrong.text, facts);
    return question;
}

bool holds(const std::string& sum, const FactTexts& facts) {
    const auto value = work_out(sum, facts);
    return value && *value != 0.0;
}

/// The asks of a scenario that hold in the edition, answers worked out; nothing when the facts leave one without.
std::optional<std::vector<Question>> questions_of(const Library& library, const Scenario& scenario,
                                                  const FactTexts& facts, const Under& under) {
    std::vector<Question> questions;
    for (const auto& authored : scenario.asks) {
        const PointEntry* point = library.find(authored.point);
        if (point == nullptr || !holds_in(authored, library.point(*point), under.edition)) continue;
        questions.push_back(with_facts(authored, facts));
        if (!authored.computed) continue;
        auto done = answered(std::move(questions.back()), facts, library.trade(), under);
        if (!done) return std::nullopt;
        questions.back() = std::move(*done);
    }
    return questions;
}

constexpr int kMostDraws = 400;

/// The facts of a story in the order they stand in: `value` gives those that are drawn, sums over earlier ones the
/// rest.
template <class Value>
base::Checked<FactTexts> facts_in_order(const Scenario& scenario, const Value& value) {
    FactTexts facts;
    for (const auto& fact : scenario.facts) {
        if (!fact.is.empty()) {
            auto text = fill(fact.is, facts);
            if (!text) return tl::unexpected<base::Faults>{text.error()};
            facts[fact.name] = std::move(*text);
        } else if (!fact.choices.empty() || fact.step > 0.0) {
            facts[fact.name] = value(fact);
        }
    }
    return facts;
}

}  // namespace

std::string usual_caution(Stakes stakes) {
    if (stakes != Stakes::shock && stakes != Stakes::fire) return {};
    return "de-energize, lock out, prove dead with a tester checked on a known source before and after. Local code and "
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

base::Checked<FactTexts> draw_facts(const Scenario& scenario, base::Seed seed, int attempt) {
    const base::Seed draw = attempt == 0 ? seed : base::derive_seed(seed, "again " + std::to_string(attempt));
    return facts_in_order(scenario, [&](const Fact& fact) {
        base::Random random{base::derive_seed(draw, fact.name)};
        return drawn(fact, random);
    });
}

base::Checked<FactTexts> with_fact(const Scenario& scenario, const FactTexts& facts, const std::string& name,
                                   const std::string& value) {
    return facts_in_order(scenario, [&](const Fact& fact) { return fact.name == name ? value : facts.at(fact.name); });
}

bool draw_counts(const Scenario& scenario, const FactTexts& facts) {
    return std::ranges::all_of(scenario.only, [&](const auto& sum) { return holds(sum, facts); });
}

std::vector<Ask> compose_scenario(const Library& library, const ScenarioEntry& entry, trade::Edition edition,
                                  base::Seed seed) {
    const Scenario& scenario = library.scenario(entry);
    const base::Seed own = base::derive_seed(seed, scenario.id);
    const Under under = library.under(edition);
    std::vector<Ask> asks;
    for (int attempt = 0; attempt < kMostDraws; ++attempt) {
        const auto facts = draw_facts(scenario, own, attempt);
        if (!facts || !draw_counts(scenario, *facts)) continue;
        auto questions = questions_of(library, scenario, *facts, under);
        if (!questions) continue;
        for (auto& question : *questions) {
            const PointEntry* point = library.find(question.point);
            const std::string id = scenario.id + "#" + question.id;
            Ask ask = pose(library, *point, std::move(question), entry.mistakes, edition, base::derive_seed(seed, id));
            ask.id.text = id;
            ask.seed = seed;
            ask.call = scenario.title;
            ask.story = filled(scenario.story, *facts);
            asks.push_back(std::move(ask));
        }
        break;
    }
    return asks;
}

}  // namespace content
