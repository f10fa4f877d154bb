#include "trade/article.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>

#include "base/text.hpp"

namespace trade {
namespace {

constexpr int kLowestArticle = 80;
constexpr int kHighestArticle = 999;

/// Groups of digits or of letters, with the sign that stood before each.
struct Token {
    std::string text;
    char before = ' ';
    [[nodiscard]] bool is_number() const { return std::isdigit(static_cast<unsigned char>(text.front())) != 0; }
};

bool is_digit(char c) {
    return std::isdigit(static_cast<unsigned char>(c)) != 0;
}
bool is_letter(char c) {
    return std::isalpha(static_cast<unsigned char>(c)) != 0;
}

std::optional<std::vector<Token>> tokens_of(std::string_view text) {
    static constexpr std::string_view kSigns = " .-()[],:/\t";
    std::vector<Token> tokens;
    char before = ' ';
    for (std::size_t i = 0; i < text.size();) {
        if (!is_digit(text[i]) && !is_letter(text[i])) {
            if (kSigns.find(text[i]) == std::string_view::npos) return std::nullopt;
            if (text[i] != ' ' || before == ' ') before = text[i];
            ++i;
            continue;
        }
        const bool number = is_digit(text[i]);
        std::size_t end = i;
        while (end < text.size() && (number ? is_digit(text[end]) : is_letter(text[end]))) ++end;
        tokens.push_back({std::string{text.substr(i, end - i)}, before});
        before = ' ';
        i = end;
    }
    return tokens;
}

void drop_lead_words(std::vector<Token>& tokens) {
    static constexpr std::array<std::string_view, 8> kLead = {"article", "art",  "section", "sec",
                                                              "nec",     "code", "table",   "s"};
    while (!tokens.empty() && std::find(kLead.begin(), kLead.end(), base::lower(tokens.front().text)) != kLead.end())
        tokens.erase(tokens.begin());
}

int value_of(const std::string& digits) {
    int value = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    return error == std::errc{} ? value : -1;
}

/// Letters that ran together ("210.8a4", "aB") name one subdivision each, but roman numerals stay whole.
void add_part(std::vector<std::string>& parts, const Token& token) {
    const std::string small = base::lower(token.text);
    const bool roman = small.find_first_not_of("ivx") == std::string::npos;
    if (token.is_number() || token.text.size() == 1 || roman) {
        parts.push_back(token.text);
        return;
    }
    for (const char letter : token.text) parts.emplace_back(1, letter);
}

bool same_part(const std::string& a, const std::string& b) {
    return base::lower(a) == base::lower(b);
}

}  // namespace

std::optional<Article> parse_article(std::string_view text) {
    std::string plain{base::trim(text)};
    // The section sign is two bytes in UTF-8; people paste it from documents.
    for (auto at = plain.find("\xC2\xA7"); at != std::string::npos; at = plain.find("\xC2\xA7"))
        plain.replace(at, 2, " ");
    auto tokens = tokens_of(plain);
    if (!tokens) return std::nullopt;
    drop_lead_words(*tokens);
    if (tokens->empty() || !tokens->front().is_number()) return std::nullopt;
    Article article;
    article.article = value_of(tokens->front().text);
    if (article.article < kLowestArticle || article.article > kHighestArticle) return std::nullopt;
    std::size_t next = 1;
    if (tokens->size() > 1 && (*tokens)[1].is_number()) {
        article.section = value_of((*tokens)[1].text);
        if (article.section <= 0) return std::nullopt;
        next = 2;
    }
    if (article.section == 0 && next < tokens->size()) return std::nullopt;
    for (; next < tokens->size(); ++next) {
        // No subdivision has a number of three digits: a second reference begins here.
        if ((*tokens)[next].is_number() && (*tokens)[next].text.size() > 2) return std::nullopt;
        add_part(article.parts, (*tokens)[next]);
    }
    return article;
}

std::string to_text(const Article& article) {
    if (article.section == 0) return "Article " + std::to_string(article.article);
    std::string text = std::to_string(article.article) + "." + std::to_string(article.section);
    for (const auto& part : article.parts) text += "(" + part + ")";
    return text;
}

ArticleMatch compare(const Article& given, const Article& wanted) {
    if (given.article != wanted.article) return ArticleMatch::apart;
    if (wanted.section == 0) return given.section == 0 ? ArticleMatch::exact : ArticleMatch::deeper;
    if (given.section == 0) return ArticleMatch::article;
    if (given.section != wanted.section) return ArticleMatch::article;
    const std::size_t shared = std::min(given.parts.size(), wanted.parts.size());
    for (std::size_t i = 0; i < shared; ++i)
        if (!same_part(given.parts[i], wanted.parts[i])) return ArticleMatch::section;
    if (given.parts.size() == wanted.parts.size()) return ArticleMatch::exact;
    return given.parts.size() > wanted.parts.size() ? ArticleMatch::deeper : ArticleMatch::shorter;
}

}  // namespace trade
