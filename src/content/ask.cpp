#include "content/ask.hpp"

#include <algorithm>
#include <numeric>

#include "base/text.hpp"

namespace content {
namespace {

std::string letters_of_right(const Ask& ask) {
    std::string letters;
    for (std::size_t i = 0; i < ask.options.size(); ++i)
        if (ask.options[i].right) letters += letter(i);
    return letters;
}

std::string letters_in_order(const Ask& ask) {
    std::vector<std::size_t> shown(ask.options.size());
    std::iota(shown.begin(), shown.end(), std::size_t{0});
    std::sort(shown.begin(), shown.end(),
              [&](std::size_t a, std::size_t b) { return ask.options[a].step < ask.options[b].step; });
    std::string letters;
    for (const auto i : shown) letters += letter(i);
    return letters;
}

}  // namespace

std::string letter(std::size_t position) {
    return std::string(1, static_cast<char>('a' + position));
}

std::string right_answer(const Ask& ask) {
    switch (ask.question.form) {
        case Form::choose:
        case Form::choose_all:
            return letters_of_right(ask);
        case Form::number:
            return base::to_text(ask.question.answer);
        case Form::article:
            return ask.version.article;
        case Form::order:
            return letters_in_order(ask);
        case Form::recall:
            return ask.question.right.empty() ? std::string{} : ask.question.right.front();
    }
    return {};
}

std::string right_in_words(const Ask& ask) {
    switch (ask.question.form) {
        case Form::choose:
        case Form::choose_all: {
            std::vector<std::string> parts;
            for (std::size_t i = 0; i < ask.options.size(); ++i)
                if (ask.options[i].right) parts.push_back(letter(i) + ") " + ask.options[i].text);
            return base::join(parts, "\n");
        }
        case Form::order: {
            std::vector<std::string> parts;
            for (std::size_t i = 0; i < ask.question.right.size(); ++i)
                parts.push_back(std::to_string(i + 1) + ". " + ask.question.right[i]);
            return letters_in_order(ask) + "\n" + base::join(parts, "\n");
        }
        default:
            return right_answer(ask);
    }
}

}  // namespace content
