#include <algorithm>
#include <optional>
#include <utility>

#include "base/csv.hpp"
#include "base/quantity.hpp"
#include "base/text.hpp"
#include "content/write/deck_csv.hpp"
#include "content/write/sheet_cells.hpp"
#include "content/write/tidy_deck.hpp"

namespace content {
namespace {

using nlohmann::ordered_json;

/// One row with its cells by column.
struct Row {
    int line = 0;
    std::map<std::string, std::string> cells;

    [[nodiscard]] std::string at(const std::string& column) const {
        const auto found = cells.find(column);
        return found == cells.end() ? std::string{} : found->second;
    }
    [[nodiscard]] bool empty() const { return cells.empty(); }
};

/// What a cell that says yes or no says; nothing for anything else.
std::optional<bool> yes_or_no(const std::string& cell) {
    const std::string small = base::lower(cell);
    if (small == "yes" || small == "y" || small == "true" || small == "1" || small == "x") return true;
    if (small.empty() || small == "no" || small == "n" || small == "false" || small == "0") return false;
    return std::nullopt;
}

bool is_deck_name(const std::string& name) {
    return !name.empty() && name.front() >= 'a' && name.front() <= 'z' &&
           name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string::npos;
}

std::optional<double> number_in(const std::string& cell) {
    const auto typed = base::parse_typed_quantity(cell);
    return typed && !typed->unit ? std::optional{typed->value} : std::nullopt;
}

/// Turns rows into decks, one after another.
class Sheet {
public:
    Sheet(std::string file, std::string deck) : file_{std::move(file)}, default_deck_{std::move(deck)} {}

    void take(const Row& row) {
        row_ = &row;
        if (!open_deck() || !open_point()) return;
        put_point();
        if (!row.at("gap").empty())
            put_gap();
        else if (!row.at("editions").empty() || !row.at("says").empty())
            put_version();
        if (!row.at("form").empty() || !row.at("text").empty()) put_question();
    }

    base::Checked<std::vector<SheetDeck>> finish() {
        if (decks_.empty() && faults_.empty())
            fault_at(1, "there is nothing below the line of columns", "write a row for each question");
        if (!faults_.empty()) return tl::unexpected{std::move(faults_)};
        return std::move(decks_);
    }

    void fault_at(int line, std::string what, std::string mend) {
        faults_.push_back({file_, "", line, std::move(what), std::move(mend), false});
    }

private:
    void fault(std::string what, std::string mend) { fault_at(row_->line, std::move(what), std::move(mend)); }

    bool says_yes(const std::string& column) {
        const auto says = yes_or_no(row_->at(column));
        if (!says)
            fault("\"" + column + "\" takes yes or no, not '" + row_->at(column) + "'", "write yes, or leave it empty");
        return says.value_or(false);
    }

    bool open_deck() {
        std::string name = row_->at("deck");
        if (name.empty()) name = deck_ == nullptr ? default_deck_ : deck_->name;
        if (!is_deck_name(name)) {
            fault("'" + name + "' is no name for a deck", "write small letters, digits and dashes: our-jobs");
            return false;
        }
        const auto found =
            std::find_if(decks_.begin(), decks_.end(), [&](const SheetDeck& one) { return one.name == name; });
        if (found == decks_.end()) {
            const std::string title = row_->at("deck title");
            const std::string topic = row_->at("topic");
            decks_.push_back({name,
                              {{"format", "greentag-deck/1"},
                               {"deck", name},
                               {"title", title.empty() ? name : title},
                               {"topic", topic.empty() ? name : topic},
                               {"mistakes", ordered_json::object()},
                               {"points", ordered_json::array()}},
                              {}});
            deck_ = &decks_.back();
        } else {
            deck_ = &*found;
        }
        return true;
    }

    bool open_point() {
        const std::string id = row_->at("point");
        auto& points = deck_->document["points"];
        if (id.empty()) {
            if (!points.empty()) return true;
            fault("the row belongs to no point: the cell \"point\" is empty and there is none above",
                  "give the point an id such as shop.ladder-check");
            return false;
        }
        if (!points.empty() && points.back()["id"] == id) return true;
        if (std::any_of(points.begin(), points.end(), [&](const ordered_json& one) { return one["id"] == id; })) {
            fault("the rows of point '" + id + "' do not stand together", "move them below one another");
            return false;
        }
        deck_->lines["/points/" + std::to_string(points.size())] = row_->line;
        points.push_back({{"id", id}, {"title", ""}, {"stakes", ""}, {"tags", ordered_json::array()}});
        return true;
    }

    ordered_json& point() { return deck_->document["points"].back(); }

    void put_text(ordered_json& into, const char* key, const std::string& column) {
        if (const std::string cell = row_->at(column); !cell.empty()) into[key] = cell;
    }

    void put_point() {
        for (const char* key : {"title", "caution"}) put_text(point(), key, key);
        if (const std::string stakes = row_->at("stakes"); !stakes.empty()) point()["stakes"] = base::lower(stakes);
        for (const char* key : {"tags", "needs"})
            if (const std::string cell = row_->at(key); !cell.empty()) point()[key] = parts_of(cell, ',');
        if (point()["tags"].empty()) point()["tags"] = {deck_->name};
    }

    void note_line(const std::string& list, std::size_t at) {
        deck_->lines["/points/" + std::to_string(deck_->document["points"].size() - 1) + "/" + list + "/" +
                     std::to_string(at)] = row_->line;
    }

    void add(const char* list, ordered_json item) {
        auto& items = point()[list];
        note_line(list, items.size());
        items.push_back(std::move(item));
    }

    ordered_json basis(const std::string& kind, const std::string& source) {
        ordered_json out = {{"kind", base::lower(row_->at(kind))}};
        put_text(out, "source", source);
        return out;
    }

    void put_version() {
        ordered_json version;
        for (const char* key : {"editions", "article", "says"}) put_text(version, key, key);
        version["basis"] = basis("basis", "source");
        if (says_yes("unverified")) version["unverified"] = true;
        add("versions", std::move(version));
    }

    void put_gap() { add("gaps", {{"editions", row_->at("editions")}, {"why", row_->at("gap")}}); }

    std::string question_id() {
        if (std::string given = row_->at("question"); !given.empty()) return given;
        const auto questions = point().value("questions", ordered_json::array());
        for (std::size_t n = questions.size();; ++n) {
            std::string id(1, static_cast<char>('a' + static_cast<char>(n % 26)));
            if (n >= 26) id += std::to_string(n / 26);
            if (std::none_of(questions.begin(), questions.end(), [&](const auto& q) { return q["id"] == id; }))
                return id;
        }
    }

    void put_question() {
        const std::string form = base::lower(row_->at("form"));
        if (form.empty()) {
            fault("the question has no form", "write choose, choose-all, number, article, order or recall");
            return;
        }
        ordered_json question = {{"id", question_id()}};
        put_text(question, "editions", "for editions");
        question["form"] = form;
        if (says_yes("situation")) question["situation"] = true;
        put_text(question, "text", "text");
        put_answer(question, form);
        for (const char* key : {"enough", "why"}) put_text(question, key, key);
        for (const auto& step : parts_of(row_->at("worked"))) question["worked"].push_back(check_of(step, false));
        if (const std::string check = row_->at("check"); !check.empty()) question["check"] = check_of(check, true);
        if (!row_->at("answer basis").empty()) question["basis"] = basis("answer basis", "answer source");
        add("questions", std::move(question));
    }

    /// A plain sum may stand there as it is; table rows and calculators are written as in a deck.
    ordered_json check_of(const std::string& cell, bool of_answer) {
        if (cell.front() != '{') return of_answer ? ordered_json{{"sum", cell}} : ordered_json(cell);
        auto parsed = ordered_json::parse(cell, nullptr, false);
        if (!parsed.is_discarded()) return parsed;
        fault("the check is neither a sum nor written as in a deck", "write a sum such as 120 / 40");
        return ordered_json::object();
    }

    void put_answer(ordered_json& question, const std::string& form) {
        const std::string right = row_->at("right");
        if (form == "choose") {
            question["right"] = right;
            put_wrong(question, "wrong", [](const std::string& cell) { return ordered_json{{"text", cell}}; });
        } else if (form == "choose-all") {
            question["right"] = parts_of(right);
            put_wrong(question, "wrong", [](const std::string& cell) { return ordered_json{{"text", cell}}; });
        } else if (form == "number") {
            put_number(question, right);
        } else if (form == "order") {
            question["steps"] = parts_of(right);
            put_wrong(question, "mistakes", [this](const std::string& cell) { return order_of(cell); });
        } else if (form == "recall") {
            put_recall(question, right);
        } else {
            if (!right.empty())
                fault("a look-up has no \"right\" of its own: the article of the point is", "leave the cell empty");
            put_wrong(question, "mistakes", [](const std::string& cell) { return ordered_json{{"article", cell}}; });
            if (question.value("mistakes", ordered_json::array()).empty()) question.erase("mistakes");
        }
    }

    void put_number(ordered_json& question, const std::string& right) {
        const auto typed = base::parse_typed_quantity(right);
        ordered_json answer;
        if (!typed)
            fault("the right answer '" + right + "' is no number",
                  "write a number, with its unit or with one in \"unit\"");
        else
            answer["value"] = plain_number(typed->value);
        const std::string unit = row_->at("unit");
        if (typed && typed->unit && !unit.empty() && base::parse_unit(unit) != typed->unit)
            fault("the right answer is in " + std::string{base::symbol(*typed->unit)} + ", the column \"unit\" says " +
                      unit,
                  "write the unit once");
        if (!unit.empty())
            answer["unit"] = unit;
        else
            answer["unit"] = typed && typed->unit ? std::string{base::symbol(*typed->unit)} : "count";
        if (const std::string within = row_->at("within"); !within.empty()) {
            if (const auto number = number_in(within))
                answer["within"] = plain_number(*number);
            else
                fault("'" + within + "' in \"within\" is no number", "write how far off still counts as right");
        }
        question["answer"] = std::move(answer);
        put_wrong(question, "mistakes", [this](const std::string& cell) {
            const auto value = base::parse_typed_quantity(cell);
            if (!value) fault("the wrong answer '" + cell + "' is no number", "write a number");
            return ordered_json{{"value", plain_number(value ? value->value : 0.0)}};
        });
    }

    void put_recall(ordered_json& question, const std::string& right) {
        question["answer"] = right;
        ordered_json ideas = ordered_json::array();
        for (const auto& part : parts_of(row_->at("ideas"))) {
            const auto colon = part.find(':');
            if (colon == std::string::npos) {
                fault("the idea '" + part + "' names no words", "write it like arc-fault: afci, arc | ...");
                continue;
            }
            ideas.push_back({{"idea", std::string{base::trim(part.substr(0, colon))}},
                             {"words", parts_of(part.substr(colon + 1), ',')}});
        }
        question["ideas"] = std::move(ideas);
        put_wrong(question, "mistakes", [](const std::string& cell) {
            return ordered_json{{"words", parts_of(cell, ',')}};
        });
        if (question["mistakes"].empty()) question.erase("mistakes");
    }

    ordered_json order_of(const std::string& cell) {
        const auto middle = cell.find(" before ");
        const auto before = middle == std::string::npos ? std::nullopt : number_in(cell.substr(0, middle));
        const auto after = middle == std::string::npos ? std::nullopt : number_in(cell.substr(middle + 8));
        if (!before || !after) fault("'" + cell + "' is no order of two steps", "write it like 1 before 3");
        return {{"before", plain_number(before.value_or(0))}, {"after", plain_number(after.value_or(0))}};
    }

    void explain(const MistakeCell& named) {
        auto& mistakes = deck_->document["mistakes"];
        if (mistakes.contains(named.id) && mistakes[named.id] != named.line)
            fault("the mistake '" + named.id + "' has another sentence further up",
                  "give one of the two another id, or name it by its id alone");
        mistakes[named.id] = named.line;
    }

    template <class MakeWrong>
    void put_wrong(ordered_json& question, const char* list, const MakeWrong& make) {
        ordered_json all = ordered_json::array();
        for (int n = 1; n <= kMostWrong; ++n) {
            const std::string cell = row_->at("wrong " + std::to_string(n));
            const std::string mistake = row_->at("mistake " + std::to_string(n));
            if (cell.empty() && mistake.empty()) continue;
            if (cell.empty())
                fault("\"mistake " + std::to_string(n) + "\" stands without \"wrong " + std::to_string(n) + "\"",
                      "write the wrong answer that shows it");
            ordered_json wrong = make(cell);
            const auto named = mistake_of(mistake);
            if (!named.line.empty()) explain(named);
            wrong["mistake"] = named.id;
            all.push_back(std::move(wrong));
        }
        question[list] = std::move(all);
    }

    std::string file_, default_deck_;
    std::vector<SheetDeck> decks_;
    SheetDeck* deck_ = nullptr;
    const Row* row_ = nullptr;
    base::Faults faults_;
};

/// The columns of the first row; a name that is not known is a fault.
std::vector<std::string> columns_of(const base::CsvRow& head, Sheet& sheet) {
    std::vector<std::string> columns;
    for (const auto& cell : head.cells) {
        const std::string name = base::lower(base::trim(cell));
        const auto& known = sheet_columns();
        if (!name.empty() && std::find(known.begin(), known.end(), name) == known.end()) {
            const auto near = base::nearest(name, known);
            sheet.fault_at(head.line, "there is no column '" + name + "'",
                           near ? "did you mean '" + *near + "'?" : "known: " + joined(known, ", "));
        }
        if (!name.empty() && std::find(columns.begin(), columns.end(), name) != columns.end())
            sheet.fault_at(head.line, "the column '" + name + "' stands twice", "keep one of the two");
        columns.push_back(name);
    }
    return columns;
}

Row row_of(const base::CsvRow& cells, const std::vector<std::string>& columns, Sheet& sheet) {
    Row row;
    row.line = cells.line;
    for (std::size_t i = 0; i < cells.cells.size(); ++i) {
        const std::string cell{base::trim(unguarded(cells.cells[i]))};
        if (cell.empty()) continue;
        if (i >= columns.size() || columns[i].empty())
            sheet.fault_at(cells.line, "the cell '" + cell + "' stands under no column",
                           "name its column in the first row");
        else
            row.cells[columns[i]] = cell;
    }
    return row;
}

}  // namespace

base::Checked<std::vector<SheetDeck>> decks_of_sheet(std::string_view text, const std::string& file,
                                                     const std::string& deck) {
    Sheet sheet{file, deck};
    const std::string_view head = text.substr(0, text.find_first_of("\r\n"));
    if (head.find(',') == std::string_view::npos && head.find_first_of(";\t") != std::string_view::npos) {
        sheet.fault_at(1, "the columns are parted by semicolons or tabs",
                       "save the sheet as CSV with commas between the cells");
        return sheet.finish();
    }
    if (text.find('\0') != std::string_view::npos) {
        sheet.fault_at(1, "the file holds bytes that are no text", "save the sheet as CSV, encoded as UTF-8");
        return sheet.finish();
    }
    const auto rows = base::parse_csv(text, file);
    if (!rows) return tl::unexpected{rows.error()};
    if (rows->empty()) {
        sheet.fault_at(1, "the file is empty", "begin with the line of columns: 'greentag library export --template'");
        return sheet.finish();
    }
    const auto columns = columns_of(rows->front(), sheet);
    for (std::size_t i = 1; i < rows->size(); ++i)
        if (const Row row = row_of((*rows)[i], columns, sheet); !row.empty()) sheet.take(row);
    return sheet.finish();
}

}  // namespace content
