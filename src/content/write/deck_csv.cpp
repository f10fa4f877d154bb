#include "content/write/deck_csv.hpp"

#include <set>

#include "base/csv.hpp"
#include "base/text.hpp"
#include "content/write/sheet_cells.hpp"
#include "content/write/tidy_deck.hpp"

namespace content {
namespace {

using nlohmann::ordered_json;
using Row = std::map<std::string, std::string>;

std::string wrong_column(int n) {
    return "wrong " + std::to_string(n);
}
std::string mistake_column(int n) {
    return "mistake " + std::to_string(n);
}

std::vector<std::string> make_columns() {
    std::vector<std::string> columns = {"deck",         "deck title", "topic",      "point",    "title",    "stakes",
                                        "tags",         "needs",      "caution",    "editions", "article",  "says",
                                        "basis",        "source",     "unverified", "gap",      "question", "form",
                                        "for editions", "situation",  "text",       "right",    "ideas"};
    for (int n = 1; n <= kMostWrong; ++n) {
        columns.push_back(wrong_column(n));
        columns.push_back(mistake_column(n));
    }
    for (const char* one : {"why", "worked", "unit", "within", "enough", "check", "answer basis", "answer source"})
        columns.emplace_back(one);
    return columns;
}

std::vector<std::string> texts_of(const ordered_json& list) {
    std::vector<std::string> texts;
    for (const auto& one : list) texts.push_back(one.get<std::string>());
    return texts;
}

std::string text_of(const ordered_json& object, const char* key) {
    const auto found = object.find(key);
    if (found == object.end()) return {};
    return found->is_string() ? found->get<std::string>() : one_line(*found);
}

bool flagged(const ordered_json& object, const char* key) {
    return object.contains(key) && object.at(key) == true;
}

/// Rows of one deck, on their way out. A mistake is explained where it first comes up.
class Sheet {
public:
    explicit Sheet(const ordered_json& deck) : deck_{&deck} {
        row_ = {
            {"deck", text_of(deck, "deck")}, {"deck title", text_of(deck, "title")}, {"topic", text_of(deck, "topic")}};
    }

    std::string write() {
        for (const auto& point : deck_->at("points")) write(point);
        return text_;
    }

private:
    void write(const ordered_json& point) {
        row_["point"] = text_of(point, "id");
        row_["title"] = text_of(point, "title");
        row_["stakes"] = text_of(point, "stakes");
        row_["caution"] = text_of(point, "caution");
        row_["tags"] = joined(texts_of(point.value("tags", ordered_json::array())), ", ");
        row_["needs"] = joined(texts_of(point.value("needs", ordered_json::array())), ", ");
        const auto versions = point.value("versions", ordered_json::array());
        const auto questions = point.value("questions", ordered_json::array());
        // The first version and the first question share a row: most points are one version and read as one line.
        for (std::size_t i = 0; i < std::max(versions.size(), questions.size()); ++i) {
            if (i < versions.size()) put_version(versions.at(i));
            if (i < questions.size()) put_question(questions.at(i));
            end_row();
        }
        for (const auto& gap : point.value("gaps", ordered_json::array())) {
            row_["point"] = text_of(point, "id");
            row_["editions"] = text_of(gap, "editions");
            row_["gap"] = text_of(gap, "why");
            end_row();
        }
    }

    void put_version(const ordered_json& version) {
        for (const char* key : {"editions", "article", "says"}) row_[key] = text_of(version, key);
        const auto basis = version.value("basis", ordered_json::object());
        row_["basis"] = text_of(basis, "kind");
        row_["source"] = text_of(basis, "source");
        row_["unverified"] = flagged(version, "unverified") ? "yes" : "";
    }

    void put_question(const ordered_json& question) {
        row_["question"] = text_of(question, "id");
        row_["form"] = text_of(question, "form");
        row_["for editions"] = text_of(question, "editions");
        row_["situation"] = flagged(question, "situation") ? "yes" : "";
        for (const char* key : {"text", "why", "enough", "check"}) row_[key] = text_of(question, key);
        std::vector<std::string> worked;
        for (const auto& step : question.value("worked", ordered_json::array()))
            worked.push_back(step.is_string() ? step.get<std::string>() : one_line(step));
        row_["worked"] = joined(worked);
        const auto basis = question.value("basis", ordered_json::object());
        row_["answer basis"] = text_of(basis, "kind");
        row_["answer source"] = text_of(basis, "source");
        put_answer(question);
        int n = 0;
        for (const char* list : {"wrong", "mistakes"})
            for (const auto& wrong : question.value(list, ordered_json::array())) put_wrong(++n, wrong);
    }

    void put_answer(const ordered_json& question) {
        for (const char* list : {"right", "steps"})
            if (question.contains(list))
                row_["right"] =
                    question.at(list).is_string() ? text_of(question, list) : joined(texts_of(question.at(list)));
        if (!question.contains("answer")) return;
        const auto& answer = question.at("answer");
        row_["right"] = answer.is_string() ? answer.get<std::string>() : text_of(answer, "value");
        if (answer.is_object()) {
            row_["unit"] = text_of(answer, "unit");
            row_["within"] = text_of(answer, "within");
        }
        std::vector<std::string> ideas;
        for (const auto& idea : question.value("ideas", ordered_json::array()))
            ideas.push_back(text_of(idea, "idea") + ": " + joined(texts_of(idea.at("words")), ", "));
        row_["ideas"] = joined(ideas);
    }

    void put_wrong(int n, const ordered_json& wrong) {
        std::string& cell = row_[wrong_column(n)];
        if (wrong.contains("before"))
            cell = text_of(wrong, "before") + " before " + text_of(wrong, "after");
        else if (wrong.contains("words"))
            cell = joined(texts_of(wrong.at("words")), ", ");
        else
            cell = text_of(wrong, wrong.contains("text") ? "text" : wrong.contains("value") ? "value" : "article");
        const std::string id = text_of(wrong, "mistake");
        const auto mistakes = deck_->value("mistakes", ordered_json::object());
        const bool first = told_.insert(id).second && mistakes.contains(id);
        row_[mistake_column(n)] = id + (first ? ": " + text_of(mistakes, id.c_str()) : "");
    }

    void end_row() {
        std::vector<std::string> cells;
        for (const auto& column : sheet_columns()) cells.push_back(row_[column]);
        text_ += base::csv_line(cells);
        row_.clear();
    }

    const ordered_json* deck_;
    Row row_;
    std::set<std::string> told_;
    std::string text_;
};

}  // namespace

const std::vector<std::string>& sheet_columns() {
    static const auto kColumns = make_columns();
    return kColumns;
}

std::string sheet_head() {
    return base::csv_line(sheet_columns());
}

std::string sheet_of(const ordered_json& deck) {
    return Sheet{deck}.write();
}

}  // namespace content
