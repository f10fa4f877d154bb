#include "practice/mark.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <optional>

#include "base/quantity.hpp"
#include "base/text.hpp"
#include "trade/article.hpp"

namespace practice {
namespace {

using content::Ask;
using content::Form;
using Marked = tl::expected<Mark, std::string>;

// Decimal fractions do not come out even in binary; far below what any answer is given to.
constexpr double kNumberSlack = 1e-6;

std::string last_letter(const Ask& ask) {
    return content::letter(ask.options.size() - 1);
}

/// Positions of the letters in the order typed; nothing when anything else was typed.
std::optional<std::vector<std::size_t>> letters_in(std::string_view given, std::size_t options) {
    static constexpr std::string_view kBetween = " ,;.)(/&+-";
    std::vector<std::size_t> picked;
    for (const char c : base::lower(given)) {
        if (kBetween.find(c) != std::string_view::npos) continue;
        const auto at = static_cast<std::size_t>(c - 'a');
        if (c < 'a' || at >= options) return std::nullopt;
        if (std::find(picked.begin(), picked.end(), at) == picked.end()) picked.push_back(at);
    }
    if (picked.empty()) return std::nullopt;
    return picked;
}

Marked mark_choose(const Ask& ask, std::string_view given) {
    const auto picked = letters_in(given, ask.options.size());
    if (!picked || picked->size() != 1) return tl::unexpected<std::string>{"type one letter, a to " + last_letter(ask)};
    const auto& option = ask.options[picked->front()];
    Mark mark;
    mark.mark = option.right ? 1.0 : 0.0;
    if (!option.right) mark.mistakes.push_back(option.mistake);
    return mark;
}

Marked mark_choose_all(const Ask& ask, std::string_view given) {
    const auto picked = letters_in(given, ask.options.size());
    if (!picked)
        return tl::unexpected<std::string>{"type every letter that applies, a to " + last_letter(ask) + ", such as ac"};
    Mark mark;
    double score = 0.0;
    for (const auto at : *picked) {
        score += ask.options[at].right ? 1.0 : -1.0;
        if (!ask.options[at].right) mark.mistakes.push_back(ask.options[at].mistake);
    }
    double right = 0.0;
    for (std::size_t i = 0; i < ask.options.size(); ++i) {
        if (!ask.options[i].right) continue;
        right += 1.0;
        if (std::find(picked->begin(), picked->end(), i) == picked->end())
            mark.notes.push_back("missed " + content::letter(i) + ") " + ask.options[i].text);
    }
    mark.mark = std::clamp(score / right, 0.0, 1.0);
    return mark;
}

Marked mark_number(const Ask& ask, std::string_view given) {
    const auto& wanted = ask.question.answer;
    const std::string unit{base::spoken(wanted.unit)};
    const auto typed = base::parse_typed_quantity(given);
    if (!typed)
        return tl::unexpected<std::string>{
            "type a number" + (unit.empty() ? std::string{} : ", with or without its unit (" + unit + ")")};
    Mark mark;
    const auto value = base::convert(typed->value, typed->unit.value_or(wanted.unit), wanted.unit);
    if (!value) {
        mark.notes.push_back(unit.empty() ? "the answer is a plain number" : "the answer is in " + unit);
        return mark;
    }
    const auto near = [&](double other) { return std::abs(*value - other) <= ask.question.within + kNumberSlack; };
    if (near(wanted.value)) {
        mark.mark = 1.0;
        return mark;
    }
    for (const auto& wrong : ask.question.wrong_numbers)
        if (near(wrong.value)) mark.mistakes.push_back(wrong.mistake);
    return mark;
}

/// A reference below `enough` that is still on the way to the whole one counts as fully right.
bool far_enough(const trade::Article& given, const trade::Article& wanted, const std::string& enough_text) {
    const auto enough = trade::parse_article(enough_text);
    if (!enough) return false;
    const auto reached = compare(given, *enough);
    const auto on_the_way = compare(given, wanted);
    const bool at_least = reached == trade::ArticleMatch::exact || reached == trade::ArticleMatch::deeper;
    return at_least && (on_the_way == trade::ArticleMatch::shorter ||
                        (enough->section == 0 && on_the_way == trade::ArticleMatch::article));
}

double article_mark(const trade::Article& given, const trade::Article& wanted, const std::string& enough) {
    if (far_enough(given, wanted, enough)) return 1.0;
    switch (compare(given, wanted)) {
        case trade::ArticleMatch::exact:
        case trade::ArticleMatch::deeper:
            return 1.0;
        case trade::ArticleMatch::shorter:
            return 0.5;
        case trade::ArticleMatch::section:
            return 0.25;
        default:
            return 0.0;
    }
}

Marked mark_article(const Ask& ask, std::string_view given) {
    const auto typed = trade::parse_article(given);
    const auto wanted = trade::parse_article(ask.version.article);
    if (!typed || !wanted)
        return tl::unexpected<std::string>{"type a code reference, such as 210.8(A)(4) or 210-8 a 4"};
    Mark mark;
    mark.mark = article_mark(*typed, *wanted, ask.question.enough);
    if (mark.mark == 0.5) mark.notes.emplace_back("right as far as it goes; the whole reference goes further down");
    if (mark.mark == 0.25) mark.notes.emplace_back("the right section, another subdivision");
    if (mark.mark == 1.0) return mark;
    for (const auto& wrong : ask.question.wrong_articles) {
        const auto reference = trade::parse_article(wrong.article);
        if (!reference) continue;
        const auto match = compare(*typed, *reference);
        if (match == trade::ArticleMatch::exact || match == trade::ArticleMatch::deeper)
            mark.mistakes.push_back(wrong.mistake);
    }
    return mark;
}

Marked mark_order(const Ask& ask, std::string_view given) {
    const auto picked = letters_in(given, ask.options.size());
    if (!picked || picked->size() != ask.options.size())
        return tl::unexpected<std::string>{"type all " + std::to_string(ask.options.size()) +
                                           " letters in order, first step first, such as " +
                                           (ask.options.size() == 3 ? "cab" : "bdac")};
    std::vector<int> place(ask.options.size() + 1, 0);
    for (std::size_t i = 0; i < picked->size(); ++i)
        place[static_cast<std::size_t>(ask.options[(*picked)[i]].step)] = static_cast<int>(i);
    int pairs = 0;
    int in_order = 0;
    for (std::size_t early = 1; early < place.size(); ++early)
        for (std::size_t late = early + 1; late < place.size(); ++late) {
            ++pairs;
            in_order += place[early] < place[late] ? 1 : 0;
        }
    Mark mark;
    mark.mark = static_cast<double>(in_order) / pairs;
    for (const auto& wrong : ask.question.wrong_orders)
        if (place[static_cast<std::size_t>(wrong.before)] > place[static_cast<std::size_t>(wrong.after)])
            mark.mistakes.push_back(wrong.mistake);
    return mark;
}

/// True when the phrase stands in the text and begins where a word begins.
bool says(const std::string& text, const std::string& phrase) {
    const std::string wanted = base::lower(base::trim(phrase));
    if (wanted.empty()) return false;
    for (auto at = text.find(wanted); at != std::string::npos; at = text.find(wanted, at + 1)) {
        const bool word_starts = at == 0 || std::isalnum(static_cast<unsigned char>(text[at - 1])) == 0;
        if (word_starts) return true;
    }
    return false;
}

bool says_any(const std::string& text, const std::vector<std::string>& phrases) {
    return std::any_of(phrases.begin(), phrases.end(), [&](const std::string& p) { return says(text, p); });
}

Marked mark_recall(const Ask& ask, std::string_view given) {
    const std::string text = base::lower(base::trim(given));
    if (text.empty()) return tl::unexpected<std::string>{"type a few words, or ! if you do not know"};
    Mark mark;
    std::size_t found = 0;
    for (const auto& idea : ask.question.ideas) {
        if (says_any(text, idea.words))
            ++found;
        else
            mark.notes.push_back("not found in your words: " + idea.idea);
    }
    mark.mark = static_cast<double>(found) / static_cast<double>(ask.question.ideas.size());
    if (mark.mark < 1.0)
        for (const auto& wrong : ask.question.wrong_words)
            if (says_any(text, wrong.words)) mark.mistakes.push_back(wrong.mistake);
    return mark;
}

}  // namespace

Marked mark(const Ask& ask, std::string_view given) {
    switch (ask.question.form) {
        case Form::choose:
            return mark_choose(ask, given);
        case Form::choose_all:
            return mark_choose_all(ask, given);
        case Form::number:
            return mark_number(ask, given);
        case Form::article:
            return mark_article(ask, given);
        case Form::order:
            return mark_order(ask, given);
        case Form::recall:
            return mark_recall(ask, given);
    }
    return tl::unexpected<std::string>{"this form is not known"};
}

std::string answer_hint(const Ask& ask) {
    switch (ask.question.form) {
        case Form::choose:
            return "one letter, a-" + last_letter(ask);
        case Form::choose_all:
            return "all letters that apply, a-" + last_letter(ask);
        case Form::number: {
            const std::string unit{base::spoken(ask.question.answer.unit)};
            return unit.empty() ? "a number" : "a number, in " + unit;
        }
        case Form::article:
            return "a code reference";
        case Form::order:
            return "all letters, first step first";
        case Form::recall:
            return "a few words";
    }
    return {};
}

}  // namespace practice
