#include "report/point_text.hpp"

#include <nlohmann/json.hpp>

#include "base/text.hpp"

namespace report {
namespace {

using content::Form;
using content::Question;
using nlohmann::ordered_json;
using Lines = std::vector<std::string>;

std::string basis_line(const trade::Basis& basis) {
    return std::string{to_text(basis.kind)} + (basis.source.empty() ? "" : ": " + basis.source);
}

std::string right_line(const Question& question) {
    switch (question.form) {
        case Form::number:
            return base::to_text(question.answer);
        case Form::article:
            return question.enough.empty() ? "the article of the edition" : "at least " + question.enough;
        default:
            return base::join(question.right, question.form == Form::order ? "  >  " : "  +  ");
    }
}

std::vector<std::pair<std::string, std::string>> wrong_pairs(const Question& question) {
    std::vector<std::pair<std::string, std::string>> pairs;
    for (const auto& w : question.wrong) pairs.emplace_back(w.text, w.mistake);
    for (const auto& w : question.wrong_numbers) pairs.emplace_back(base::number_text(w.value), w.mistake);
    for (const auto& w : question.wrong_articles) pairs.emplace_back(w.article, w.mistake);
    for (const auto& w : question.wrong_orders)
        pairs.emplace_back("step " + std::to_string(w.after) + " before step " + std::to_string(w.before), w.mistake);
    for (const auto& w : question.wrong_words) pairs.emplace_back(base::join(w.words, "/"), w.mistake);
    return pairs;
}

void add_question(Lines& lines, const Question& question, const Page& page) {
    lines.emplace_back();
    const std::string editions = question.editions ? " " + trade::to_text(*question.editions) : "";
    add_hanging(lines, page, question.id + "  ", std::string{to_text(question.form)} + editions, Ink::bold);
    add(lines, page, question.text, 4);
    add_hanging(lines, page, "    right: ", right_line(question), Ink::good);
    for (const auto& [text, mistake] : wrong_pairs(question))
        add_hanging(lines, page, "    wrong: ", text + "  [" + mistake + "]");
    for (const auto& idea : question.ideas)
        add_hanging(lines, page, "    idea:  ", idea.idea + ": " + base::join(idea.words, ", "));
    if (!question.why.empty()) add_hanging(lines, page, "    why:   ", question.why);
}

ordered_json question_json(const Question& question) {
    ordered_json wrong = ordered_json::array();
    for (const auto& [text, mistake] : wrong_pairs(question)) wrong.push_back({{"text", text}, {"mistake", mistake}});
    return {{"id", question.id},
            {"form", to_text(question.form)},
            {"editions", question.editions ? ordered_json(trade::to_text(*question.editions)) : ordered_json(nullptr)},
            {"point", question.point.text},
            {"text", question.text},
            {"right", right_line(question)},
            {"wrong", wrong},
            {"why", question.why}};
}

}  // namespace

Lines point_text(const content::Point& point, const Page& page) {
    Lines lines;
    add_hanging(lines, page, point.id.text + "  ", point.title, Ink::bold);
    add(lines, page,
        "deck " + point.deck + ", topic " + point.topic + ", stakes: " + std::string{to_text(point.stakes)} +
            ", tags: " + base::join(point.tags, ", "),
        2);
    for (const auto& need : point.needs) add(lines, page, "needs " + need.text, 2);
    for (const auto& v : point.versions) {
        add_hanging(lines, page, "  " + padded(trade::to_text(v.editions), 10) + " ",
                    v.article + ": " + v.says + (v.unverified ? " [not verified]" : ""));
        add(lines, page, basis_line(v.basis), 13, Ink::faint);
    }
    for (const auto& gap : point.gaps)
        add_hanging(lines, page, "  " + padded(trade::to_text(gap.editions), 10) + " ", "no such rule: " + gap.why);
    for (const auto& question : point.questions) add_question(lines, question, page);
    return lines;
}

Lines scenario_text(const content::Scenario& scenario, const Page& page) {
    Lines lines;
    add_hanging(lines, page, scenario.id + "  ", scenario.title, Ink::bold);
    add(lines, page, "family " + scenario.family + ", editions " + trade::to_text(scenario.editions), 2);
    add(lines, page, scenario.story, 2);
    for (const auto& fact : scenario.facts)
        add(lines, page, "{" + fact.name + "}: " + base::join(fact.choices, " | "), 2, Ink::faint);
    for (const auto& ask : scenario.asks) {
        add_question(lines, ask, page);
        add(lines, page, "point: " + ask.point.text, 4, Ink::faint);
    }
    return lines;
}

ordered_json point_json(const content::Point& point) {
    ordered_json versions = ordered_json::array();
    for (const auto& v : point.versions)
        versions.push_back({{"editions", trade::to_text(v.editions)},
                            {"article", v.article},
                            {"says", v.says},
                            {"basis", basis_line(v.basis)},
                            {"unverified", v.unverified}});
    ordered_json questions = ordered_json::array();
    for (const auto& q : point.questions) questions.push_back(question_json(q));
    return {{"id", point.id.text},
            {"title", point.title},
            {"deck", point.deck},
            {"topic", point.topic},
            {"stakes", to_text(point.stakes)},
            {"tags", point.tags},
            {"versions", versions},
            {"questions", questions}};
}

ordered_json scenario_json(const content::Scenario& scenario) {
    ordered_json asks = ordered_json::array();
    for (const auto& ask : scenario.asks) asks.push_back(question_json(ask));
    return {{"id", scenario.id},         {"title", scenario.title},
            {"family", scenario.family}, {"editions", trade::to_text(scenario.editions)},
            {"story", scenario.story},   {"asks", asks}};
}

}  // namespace report
