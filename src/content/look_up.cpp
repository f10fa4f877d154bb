#include "content/look_up.hpp"

#include <algorithm>
#include <cctype>
#include <vector>

#include "content/compose.hpp"
#include "trade/article.hpp"

namespace content {
namespace {

constexpr std::string_view kInTheBook = "@book";
constexpr const char* kFind = "find";

std::string far_enough(const std::string& reference) {
    auto article = *trade::parse_article(reference);
    if (article.parts.size() > 1) article.parts.resize(1);
    return to_text(article);
}

bool in_reference(char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '.' || c == '(' || c == ')' || c == '-';
}

/// The statement with its own section blanked, where it names it.
std::string without_place(const std::string& says, const trade::Article& place) {
    std::string text;
    const auto after = [](const std::string& word) {
        // The bracket or full stop behind a reference is the sentence's.
        const auto end = word.find_last_not_of(".)");
        const std::string tail = word.substr(end + 1);
        const auto opened = std::count(word.begin(), word.end(), '(');
        const auto closed = std::count(word.begin(), word.end(), ')');
        return (closed > opened ? ")" : "") + std::string(tail.ends_with('.') ? "." : "");
    };
    for (std::size_t at = 0; at < says.size();) {
        std::size_t end = at;
        while (end < says.size() && in_reference(says[end])) ++end;
        const std::size_t start = at + says.substr(at, end - at).find_first_not_of('(');
        const auto named = trade::parse_article(says.substr(std::min(start, end), end - std::min(start, end)));
        if (named && named->article == place.article && named->section == place.section)
            text += says.substr(at, start - at) + "___" + after(says.substr(start, end - start));
        else
            text += says.substr(at, end - at);
        if (end < says.size()) text += says[end++];
        at = end;
    }
    return text;
}

Question statement_to_find(const Version& version) {
    Question question;
    question.id = kFind;
    question.form = Form::article;
    question.text = "Find it in your own book: " + without_place(version.says, *trade::parse_article(version.article)) +
                    " Which section has it?";
    question.enough = far_enough(version.article);
    return question;
}

}  // namespace

base::PointId look_up_of(const base::PointId& point) {
    return {point.text + std::string{kInTheBook}};
}

std::optional<base::PointId> looked_up(const base::PointId& id) {
    if (!id.text.ends_with(kInTheBook)) return std::nullopt;
    return base::PointId{id.text.substr(0, id.text.size() - kInTheBook.size())};
}

int article_to_find(const Version& version) {
    if (version.unverified || version.basis.kind == trade::Basis::Kind::practice) return 0;
    const auto article = trade::parse_article(version.article);
    return article && article->section > 0 ? article->article : 0;
}

Ask compose_look_up(const Library& library, const PointEntry& entry, trade::Edition edition, std::size_t turn,
                    base::Seed seed) {
    const auto& point = library.point(entry);
    std::vector<Question> ways = {statement_to_find(*point.version(edition))};
    for (const auto* question : questions_for(point, edition))
        if (question->form == Form::article) ways.push_back(*question);
    const auto& way = ways[turn % ways.size()];
    Ask ask = compose(library, entry, way, edition, seed);
    ask.question.point = look_up_of(entry.id);
    ask.id.text = ask.question.point.text + "#" + way.id;
    return ask;
}

}  // namespace content
