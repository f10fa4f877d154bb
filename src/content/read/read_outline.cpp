#include "content/read/read_outline.hpp"

#include <cmath>
#include <string>
#include <variant>

#include "base/text.hpp"
#include "content/read/read_question.hpp"

namespace content {
namespace {

using base::Reader;

// No exam comes near it; a slip of the key does.
constexpr int kMostQuestions = 1000;

bool is_object(const Reader& reader) {
    return std::holds_alternative<base::Located::Members>(reader.node().value);
}

/// A whole number in [least, most]; noted, and 0, when it is another.
int whole(const Reader& reader, double value, int least, int most, const std::string& what) {
    if (std::floor(value) == value && value >= least && value <= most) return static_cast<int>(value);
    reader.fault(base::number_text(value) + " is no " + what,
                 "write a whole number from " + std::to_string(least) + " to " + std::to_string(most));
    return 0;
}

/// A number, or an object with the ends of a range.
QuestionCount read_count(const Reader& owner, const char* key, int least) {
    if (!owner.has(key)) {
        owner.fault("\"" + std::string{key} + "\" is missing", "write a number, or {\"min\": 10, \"max\": 14}");
        return {};
    }
    const Reader reader = owner.member(key);
    if (!is_object(reader)) {
        if (!std::holds_alternative<double>(reader.node().value)) {
            reader.fault("this should be a number of questions but is " + std::string{reader.node().kind()},
                         "write a number, or {\"min\": 10, \"max\": 14}");
            return {};
        }
        const int count = whole(reader, reader.as_number(), least, kMostQuestions, "number of questions");
        return {count, count};
    }
    reader.only({"min", "max"});
    const QuestionCount range{whole(reader, reader.number("min"), least, kMostQuestions, "number of questions"),
                              whole(reader, reader.number("max"), least, kMostQuestions, "number of questions")};
    if (range.least <= range.most) return range;
    reader.fault("the range " + to_text(range) + " ends before it starts", "put the smaller number under \"min\"");
    return {range.most, range.least};
}

/// A share in (0,1].
double read_share(const Reader& reader) {
    const double share = reader.as_number();
    if (!std::holds_alternative<double>(reader.node().value) || (share > 0.0 && share <= 1.0)) return share;
    reader.fault(base::number_text(share) + " is no share to pass with",
                 "write a share over 0 and at most 1, such as 0.7 for 70 %");
    return 0.0;
}

PassMark read_pass(const Reader& document, const QuestionCount& questions) {
    PassMark pass;
    if (!document.has("pass")) {
        document.fault("\"pass\" is missing", "write a share such as 0.7, or {\"right\": 38}");
        return pass;
    }
    const Reader reader = document.member("pass");
    if (!is_object(reader)) {
        pass.share = read_share(reader);
        return pass;
    }
    reader.only({"right"});
    pass.right = whole(reader, reader.number("right"), 1, kMostQuestions, "number of right answers");
    if (questions.most > 0 && pass.right > questions.most)
        reader.fault("to pass takes " + std::to_string(pass.right) + " right answers, more than the exam asks",
                     "write at most " + std::to_string(questions.most));
    return pass;
}

std::vector<ArticleSpan> read_articles(const Reader& section) {
    std::vector<ArticleSpan> spans;
    for (const auto& item : section.items_or_none("articles")) {
        const std::string text = item.as_text();
        if (const auto span = parse_article_span(text))
            spans.push_back(*span);
        else if (!text.empty())
            item.fault("'" + text + "' is no part of the code",
                       "write it like 250, 210.8(A), 300 to 398 or 210.50 to 210.71");
    }
    return spans;
}

OutlineSection read_section(const Reader& reader) {
    reader.only({"id", "title", "questions", "topics", "tags", "articles", "pass", "uncovered"});
    OutlineSection section;
    section.place = place_of(reader);
    section.id = reader.text("id");
    section.title = reader.text("title");
    section.questions = read_count(reader, "questions", 0);
    section.topics = reader.texts_or_none("topics");
    section.tags = reader.texts_or_none("tags");
    section.articles = read_articles(reader);
    if (reader.has("pass")) section.pass = read_share(reader.member("pass"));
    section.uncovered = reader.text_or("uncovered", "");
    if (!reader.has("topics") && !reader.has("tags") && !reader.has("articles") && section.uncovered.empty())
        reader.fault("nothing says which points belong to this section",
                     "give \"topics\", \"tags\" or \"articles\", or say under \"uncovered\" why there are none");
    return section;
}

Book read_book(const Reader& document) {
    const std::string text = document.text("book");
    if (const auto book = parse_book(text)) return *book;
    if (document.has_text("book"))
        document.member("book").fault("'" + text + "' says nothing of the book", "write open or closed");
    return Book::open;
}

}  // namespace

Outline read_outline(const Reader& document) {
    document.only({"format", "id", "title", "resembles", "note", "book", "minutes", "questions", "pass", "basis",
                   "sections_basis", "sections"});
    constexpr int kMostMinutes = 24 * 60;
    Outline outline;
    outline.place = place_of(document);
    outline.id = document.text("id");
    outline.title = document.text("title");
    outline.resembles = document.text("resembles");
    outline.note = document.text_or("note", "");
    outline.book = read_book(document);
    if (const double minutes = document.number("minutes"); document.has("minutes"))
        outline.minutes =
            whole(document.member("minutes"), minutes, 1, kMostMinutes, "time to sit an exam in, in minutes");
    outline.questions = read_count(document, "questions", 1);
    outline.pass = read_pass(document, outline.questions);
    outline.basis = read_basis(document.member("basis"));
    outline.sections_basis =
        document.has("sections_basis") ? read_basis(document.member("sections_basis")) : outline.basis;
    for (const auto& item : document.items("sections")) outline.sections.push_back(read_section(item));
    if (outline.sections.empty() && document.has("sections"))
        document.fault("the outline has no sections", "add at least one to \"sections\"");
    return outline;
}

}  // namespace content
