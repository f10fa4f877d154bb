#pragma once

#include <string>
#include <utility>
#include <vector>

#include "content/ask.hpp"

/// Asks put together by hand, options in the order given.
namespace asks {

using content::Ask;
using content::Form;

[[nodiscard]] inline Ask of(Form form) {
    Ask ask;
    ask.id.text = "p.one#a";
    ask.question.id = "a";
    ask.question.form = form;
    ask.question.point.text = "p.one";
    ask.question.text = "What now?";
    ask.version.article = "210.8(A)(2)";
    ask.version.says = "The rule.";
    return ask;
}

/// Options in order; a mistake makes one wrong.
[[nodiscard]] inline Ask choosing(Form form, const std::vector<std::pair<std::string, std::string>>& options) {
    Ask ask = of(form);
    for (const auto& [text, mistake] : options) ask.options.push_back({text, mistake.empty(), 0, mistake});
    return ask;
}

[[nodiscard]] inline Ask number(double value, base::Unit unit, double within = 0.0,
                                std::vector<content::WrongNumber> wrong = {}) {
    Ask ask = of(Form::number);
    ask.question.answer = {value, unit};
    ask.question.within = within;
    ask.question.wrong_numbers = std::move(wrong);
    return ask;
}

[[nodiscard]] inline Ask article(const std::string& wanted, const std::string& enough = "",
                                 std::vector<content::WrongArticle> wrong = {}) {
    Ask ask = of(Form::article);
    ask.version.article = wanted;
    ask.question.enough = enough;
    ask.question.wrong_articles = std::move(wrong);
    return ask;
}

/// `steps` are the places in the right order of the options as shown.
[[nodiscard]] inline Ask order(const std::vector<int>& steps, std::vector<content::WrongOrder> wrong = {}) {
    Ask ask = of(Form::order);
    for (const int step : steps) ask.options.push_back({"step " + std::to_string(step), false, step, ""});
    for (std::size_t i = 1; i <= steps.size(); ++i) ask.question.right.push_back("step " + std::to_string(i));
    ask.question.wrong_orders = std::move(wrong);
    return ask;
}

[[nodiscard]] inline Ask recall(std::vector<content::Idea> ideas, std::vector<content::WrongWords> wrong = {}) {
    Ask ask = of(Form::recall);
    ask.question.ideas = std::move(ideas);
    ask.question.wrong_words = std::move(wrong);
    return ask;
}

}  // namespace asks
