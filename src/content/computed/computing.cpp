#include "content/computed/computing.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "base/text.hpp"
#include "content/computed/switching_asks.hpp"
#include "trade/work/calculator.hpp"

namespace content {
namespace {

using base::Checked;

template <class T>
tl::unexpected<base::Faults> pass(const Checked<T>& failed) {
    return tl::unexpected<base::Faults>{failed.error()};
}

/// The right facts with a path's laid over them, slots filled.
Checked<std::vector<std::pair<std::string, std::string>>> filled_facts(const Computed& computed, const WrongPath* path,
                                                                       const FactTexts& facts) {
    FactSlots slots = computed.facts;
    if (path != nullptr)
        for (const auto& [name, text] : path->facts) {
            const auto found = std::ranges::find(slots, name, &FactSlots::value_type::first);
            if (found == slots.end())
                slots.emplace_back(name, text);
            else
                found->second = text;
        }
    std::vector<std::pair<std::string, std::string>> filled;
    for (const auto& [name, text] : slots) {
        auto one = fill(text, facts);
        if (!one) return pass(one);
        if (!one->empty()) filled.emplace_back(name, std::move(*one));
    }
    return filled;
}

Checked<trade::Value> value_of(const trade::Finding& finding, const std::string& name) {
    if (name == "article" && !finding.articles.empty()) return trade::value_of(finding.articles.front());
    if (name.empty() && finding.answer) return *finding.answer;
    if (const auto* value = finding.find(name)) return *value;
    return base::refuse("the calculator gives no '" + (name.empty() ? "answer" : name) + "'",
                        !finding.unknown.empty() ? "unknown: " + base::join(finding.unknown, ", ")
                        : finding.blocked()      ? base::join(finding.findings, "; ")
                                                 : "see its help for the values there are");
}

Checked<Worked> by_calculator(const Computed& computed, const WrongPath* path, const FactTexts& facts,
                              const TradeData& data, trade::Edition edition) {
    const auto* calculator = trade::find_calculator(computed.calculator);
    if (calculator == nullptr)
        return base::refuse("there is no calculator '" + computed.calculator + "'", "'greentag work --list' has them");
    const auto filled = filled_facts(computed, path, facts);
    if (!filled) return pass(filled);
    trade::Facts given;
    for (const auto& [name, text] : *filled) {
        const auto spec = std::ranges::find(calculator->facts, name, &trade::FactSpec::name);
        if (spec == calculator->facts.end())
            return base::refuse("there is no fact '" + name + "'",
                                "see 'greentag work " + computed.calculator + " --help'");
        auto value = trade::parse_fact(*spec, text);
        if (!value) return pass(value);
        given.set(name, std::move(*value));
    }
    auto finding = calculator->run(given, {edition, &data.tables(), path == nullptr});
    auto value = value_of(finding, path != nullptr && !path->value.empty() ? path->value : computed.value);
    if (!value) return pass(value);
    Worked worked{std::move(*value), std::move(finding.steps), std::move(finding.articles), {}, {}};
    if (path == nullptr)
        for (const auto& also : finding.also) worked.also[std::string{also.name}] = trade::to_text(also.value);
    return worked;
}

Checked<trade::ResultSet> asked_set(const Computed& computed, const trade::Vocabulary& vocabulary) {
    trade::ResultSet asked = 0;
    for (const auto& name : computed.asked) {
        const auto at = vocabulary.find_result(name);
        if (!at) return base::refuse("there is no result '" + name + "'", "decks/rules/facts.json has the results");
        asked |= trade::ResultSet{1} << *at;
    }
    return asked;
}

/// What the rules say in the way the ask wants it: results joined by '+', or how many of something.
Checked<trade::Value> value_of(const trade::Ruling& ruling, const std::string& name,
                               const trade::Vocabulary& vocabulary) {
    constexpr std::string_view kCount = "count:";
    if (name.starts_with(kCount)) {
        double most = 0.0;
        for (const auto& fired : ruling.fired)
            if (fired.rule->result == name.substr(kCount.size())) most = std::max(most, fired.count.value_or(0.0));
        return trade::value_of(most, base::Unit::count);
    }
    if (name == "article") {
        if (ruling.fired.empty()) return base::refuse("no rule applies", "ask for something that a rule covers");
        return trade::value_of(ruling.fired.front().version->article);
    }
    const auto set = name == "permits" ? ruling.permits : name == "forbids" ? ruling.forbids : ruling.requires_;
    const auto names = trade::names_of(set, vocabulary);
    return trade::value_of(names.empty() ? "nothing" : base::join(names, "+"));
}

void add_reasons(const trade::Ruling& ruling, Worked& worked) {
    for (const auto& fired : ruling.fired) {
        worked.steps.push_back(fired.version->article + ": " + fired.rule->title + ". " + fired.rule->why);
        worked.articles.push_back(fired.version->article);
    }
    for (const auto& out : ruling.excepted)
        worked.steps.push_back(out.version->article + " does not apply here: " + out.exception->why);
}

Checked<Worked> by_rules(const Computed& computed, const WrongPath* path, const FactTexts& facts, const TradeData& data,
                         const Under& under) {
    const auto& book = data.book(under.edition, under.jurisdiction, under.day);
    trade::CaseFacts given{data.vocabulary()};
    const auto filled = filled_facts(computed, path, facts);
    if (!filled) return pass(filled);
    for (const auto& [name, text] : *filled)
        if (const auto set = given.set(name, text); !set) return pass(set);
    const auto asked = asked_set(computed, data.vocabulary());
    if (!asked) return pass(asked);
    trade::Ruling ruling;
    book.judge(given, *asked, ruling);
    if (!ruling.unknown.empty() || !ruling.findings.empty()) {
        std::vector<std::string> missing = ruling.findings;
        for (const auto fact : ruling.unknown) missing.push_back(data.vocabulary().facts()[fact].name);
        return base::refuse("the facts leave it open: " + base::join(missing, ", "), "state them");
    }
    auto value =
        value_of(ruling, path != nullptr && !path->value.empty() ? path->value : computed.value, data.vocabulary());
    if (!value) return pass(value);
    Worked worked{std::move(*value), {}, {}, {}, {}};
    if (path == nullptr) add_reasons(ruling, worked);
    return worked;
}

/// Results joined by '+' in the order of the vocabulary, so that the same set always reads the same.
std::string in_order(const std::string& results, const trade::Vocabulary& vocabulary) {
    trade::ResultSet set = 0;
    for (const auto& name : base::split(results, '+')) {
        const auto at = vocabulary.find_result(name);
        if (!at) return results;
        set |= trade::ResultSet{1} << *at;
    }
    return base::join(trade::names_of(set, vocabulary), "+");
}

double rounded(double value, int places) {
    const double scale = std::pow(10.0, places);
    return std::round(value * scale) / scale;
}

/// "GFCI+AFCI" as people say it.
std::string spoken(const trade::Value& value, const Computed& computed) {
    const bool alone = computed.asked.size() == 1;
    if (value.words == "nothing")
        return alone ? "No, not here" : computed.asked.size() == 2 ? "Neither of them" : "None of them";
    if (alone) return "Yes, it is required";
    const auto parts = base::split(value.words, '+');
    return parts.size() == 1 ? parts.front() + " only" : base::join(parts, " and ");
}

std::string option_text(const trade::Value& value, const Computed& computed) {
    trade::Value shown = value;
    if (shown.is_number()) shown.number = rounded(shown.number, computed.places);
    const auto phrase = computed.phrases.find(shown.is_number() ? base::number_text(shown.number) : shown.words);
    if (phrase != computed.phrases.end()) return phrase->second;
    const bool of_rules = computed.by == Computed::By::rules && !shown.is_number() && computed.value.empty();
    std::string text = of_rules ? spoken(shown, computed) : trade::to_text(shown);
    if (computed.says.empty()) return text;
    std::string said = computed.says;
    constexpr std::string_view kSlot = "{value}";
    const auto at = said.find(kSlot);
    return at == std::string::npos ? said : said.replace(at, kSlot.size(), text);
}

/// The story's facts and, over them, what the right working gives: {answer}, {answer_number} and further values.
FactTexts with_answer(const Computed& computed, const FactTexts& facts, const Worked& right) {
    FactTexts known = facts;
    for (const auto& [name, text] : right.also) known.emplace(name, text);
    known["answer"] = option_text(right.value, computed);
    if (right.value.is_number()) known["answer_number"] = base::number_text(right.value.number, 6);
    return known;
}

/// An answer that a path states outright: a sum, or words.
Checked<Worked> stated(const Computed& computed, const WrongPath& path, const FactTexts& facts,
                       const trade::Value& right, const trade::Vocabulary& vocabulary) {
    auto text = fill(path.as, facts);
    if (!text) return pass(text);
    if (computed.by == Computed::By::rules) *text = in_order(*text, vocabulary);
    if (!right.is_number()) {
        // A conductor size brings its own unit: "250" as a wrong answer for 4/0 AWG is in kcmil.
        const auto size = right.unit == base::Unit::count ? std::nullopt : trade::parse_size(*text);
        return Worked{size ? trade::value_of(*size) : trade::value_of(*text), {}, {}, {}, {}};
    }
    const auto number = work_out(*text, facts);
    if (!number) return pass(number);
    return Worked{trade::value_of(*number, right.unit), {}, {}, {}, {}};
}

/// Collects the wrong answers that differ from the right one and from each other as shown.
class WrongAnswers {
public:
    WrongAnswers(Question& question, const Worked& right) : question_{&question} { (void)is_new(right); }

    void add(const Worked& worked, const std::string& mistake) {
        const auto& value = worked.value;
        if (!is_new(worked)) return;
        const std::string text = option_text(value, *question_->computed);
        if (question_->form != Form::number) {
            question_->wrong.push_back({text, mistake});
            return;
        }
        const double number = rounded(value.number, question_->computed->places);
        if (value.is_number() && std::abs(number - question_->answer.value) > 2.0 * question_->within)
            question_->wrong_numbers.push_back({number, mistake});
    }
    [[nodiscard]] bool enough() const {
        if (question_->form == Form::number) return !question_->wrong_numbers.empty();
        const bool yes_or_no = question_->computed->by == Computed::By::rules &&
                               question_->computed->asked.size() == 1 && question_->computed->value.empty();
        return question_->wrong.size() >= (yes_or_no ? 1U : 2U);
    }

private:
    /// Neither shown so far nor, where it has a key, standing for the same.
    bool is_new(const Worked& worked) {
        const bool text = seen_.insert(base::lower(option_text(worked.value, *question_->computed))).second;
        const bool key = worked.key.empty() || seen_.insert("key " + worked.key).second;
        return text && key;
    }

    Question* question_;
    std::set<std::string> seen_;
};

void set_right(Question& question, const trade::Value& right) {
    const Computed& computed = *question.computed;
    if (question.form != Form::number) {
        question.right = {option_text(right, computed)};
        return;
    }
    question.answer = {rounded(right.number, computed.places), right.unit};
    // As near as half of the last place shown, or as the ask allows.
    question.within = std::max(question.within, 0.5 * std::pow(10.0, -computed.places) + 1e-9);
}

constexpr std::size_t kMostWrong = 4;

}  // namespace

Checked<Worked> work(const Computed& computed, const WrongPath* path, const FactTexts& facts, const TradeData& data,
                     const Under& under) {
    Under here = under;
    if (path != nullptr && path->edition) here.edition = *path->edition;
    switch (computed.by) {
        case Computed::By::calculator:
            return by_calculator(computed, path, facts, data, here.edition);
        case Computed::By::rules:
            return by_rules(computed, path, facts, data, here);
        case Computed::By::switching:
            return by_switching(computed, path, facts);
    }
    return base::refuse("nothing computes this", "");
}

Checked<Worked> work_wrongly(const Computed& computed, const WrongPath& path, const FactTexts& facts,
                             const Worked& right, const TradeData& data, const Under& under) {
    if (path.as.empty()) return work(computed, &path, facts, data, under);
    return stated(computed, path, with_answer(computed, facts, right), right.value, data.vocabulary());
}

Checked<Question> answered(Question question, const FactTexts& facts, const TradeData& data, const Under& under) {
    const Computed& computed = *question.computed;
    auto right = work(computed, nullptr, facts, data, under);
    if (!right) return pass(right);
    if (question.form == Form::number && !right->value.is_number())
        return base::refuse("the answer is '" + right->value.words + "', no number", "ask it as a choice");
    const FactTexts known = with_answer(computed, facts, *right);
    set_right(question, right->value);
    WrongAnswers wrong{question, *right};
    for (const auto& path : computed.paths) {
        const auto other = path.as.empty() ? work(computed, &path, facts, data, under)
                                           : stated(computed, path, known, right->value, data.vocabulary());
        // A wrong path may lead nowhere for some facts: then there is no such wrong answer.
        if (other && question.wrong.size() < kMostWrong) wrong.add(*other, path.mistake);
    }
    if (!wrong.enough())
        return base::refuse("too few wrong answers differ from the right one", "other facts, or more mistakes");
    // What the working tells may be part of the question: the symptom of a fault.
    auto text = fill(question.text, known);
    if (!text) return pass(text);
    question.text = std::move(*text);
    auto why = fill(question.why, known);
    if (!why) return pass(why);
    question.why = std::move(*why);
    for (const auto& step : right->steps) question.why += "\n" + step;
    question.articles = std::move(right->articles);
    return question;
}

}  // namespace content
