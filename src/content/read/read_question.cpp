#include "content/read/read_question.hpp"

#include <array>
#include <cmath>
#include <limits>

#include "base/text.hpp"
#include "content/read/read_computed.hpp"
#include "trade/article.hpp"
#include "trade/work/calculator.hpp"

namespace content {
namespace {

using base::Reader;

std::string key_text(const Reader& reader) {
    if (std::holds_alternative<double>(reader.node().value)) return base::number_text(reader.as_number());
    return reader.as_text();
}

int whole(const Reader& reader, std::string_view key, int otherwise) {
    const double value = reader.number_or(key, otherwise);
    if (value != std::floor(value) || value < 0 || value > std::numeric_limits<int>::max()) {
        reader.fault("\"" + std::string{key} + "\" should be a whole number from 0 up", "write a whole number");
        return otherwise;
    }
    return static_cast<int>(value);
}

std::vector<Wrong> read_wrong(const Reader& reader) {
    std::vector<Wrong> wrong;
    for (const auto& item : reader.items("wrong")) {
        item.only({"text", "mistake"});
        wrong.push_back({item.text("text"), item.text("mistake")});
    }
    return wrong;
}

void read_choose(const Reader& reader, Question& question) {
    question.right = {reader.text("right")};
    question.wrong = read_wrong(reader);
    if (reader.has("check")) question.check = read_check(reader.member("check"));
}

void read_choose_all(const Reader& reader, Question& question) {
    question.right = reader.texts("right");
    question.wrong = read_wrong(reader);
    if (question.right.empty() && reader.has("right"))
        reader.fault("there is no right option", "a question of this form has at least one");
}

void read_number(const Reader& reader, Question& question) {
    const Reader answer = reader.member("answer");
    answer.only({"value", "unit", "within"});
    question.answer.value = answer.number("value");
    question.within = answer.number_or("within", 0.0);
    const std::string unit = answer.text("unit");
    if (const auto known = base::parse_unit(unit))
        question.answer.unit = *known;
    else if (answer.has_text("unit"))
        answer.fault("there is no unit '" + unit + "'", "see the units in docs/formats/deck.schema.json");
    for (const auto& item : reader.items("mistakes")) {
        item.only({"value", "mistake"});
        question.wrong_numbers.push_back({item.number("value"), item.text("mistake")});
    }
    if (reader.has("check")) question.check = read_check(reader.member("check"));
}

void read_article(const Reader& reader, Question& question) {
    question.enough = reader.text_or("enough", "");
    if (!question.enough.empty() && !trade::parse_article(question.enough))
        reader.fault("'" + question.enough + "' is no code reference", "write it like 210.8(A)");
    for (const auto& item : reader.items_or_none("mistakes")) {
        item.only({"article", "mistake"});
        question.wrong_articles.push_back({item.text("article"), item.text("mistake")});
        if (!trade::parse_article(question.wrong_articles.back().article))
            item.fault("'" + question.wrong_articles.back().article + "' is no code reference",
                       "write it like 210.8(A)");
    }
}

void read_order(const Reader& reader, Question& question) {
    question.right = reader.texts("steps");
    const int steps = static_cast<int>(question.right.size());
    if (steps < 2 && reader.has("steps")) reader.fault("one step has no order", "give three to eight steps");
    for (const auto& item : reader.items("mistakes")) {
        item.only({"before", "after", "mistake"});
        const WrongOrder order{whole(item, "before", 0), whole(item, "after", 0), item.text("mistake")};
        if (order.before < 1 || order.after > steps || order.before >= order.after)
            item.fault("steps " + std::to_string(order.before) + " and " + std::to_string(order.after) +
                           " are not an earlier and a later step",
                       "count the steps from 1");
        question.wrong_orders.push_back(order);
    }
}

void read_recall(const Reader& reader, Question& question) {
    question.right = {reader.text("answer")};
    for (const auto& item : reader.items("ideas")) {
        item.only({"idea", "words"});
        question.ideas.push_back({item.text("idea"), item.texts("words")});
    }
    if (question.ideas.empty() && reader.has("ideas"))
        reader.fault("nothing says what a right answer must contain", "name at least one idea and its words");
    for (const auto& item : reader.items_or_none("mistakes")) {
        item.only({"words", "mistake"});
        question.wrong_words.push_back({item.texts("words"), item.text("mistake")});
    }
}

struct FormRow {
    Form form;
    void (*read)(const Reader&, Question&);
    std::vector<std::string> fields;
};

const FormRow& row_of(Form form) {
    static const std::array<FormRow, 6> kRows = {{
        {Form::choose, read_choose, {"right", "wrong", "check"}},
        {Form::choose_all, read_choose_all, {"right", "wrong"}},
        {Form::number, read_number, {"answer", "mistakes", "check"}},
        {Form::article, read_article, {"enough", "mistakes"}},
        {Form::order, read_order, {"steps", "mistakes"}},
        {Form::recall, read_recall, {"answer", "ideas", "mistakes"}},
    }};
    return kRows.at(static_cast<std::size_t>(form));
}

}  // namespace

Place place_of(const Reader& reader) {
    return {reader.file(), reader.pointer(), reader.line(), reader.node().begin, reader.node().end};
}

trade::EditionRange read_editions(const Reader& reader, std::string_view key) {
    const std::string text = reader.text(key);
    if (const auto range = trade::parse_edition_range(text)) return *range;
    if (reader.has_text(key))
        reader.fault("'" + text + "' is no run of editions",
                     "write one year or two, older first, from 2017, 2020, 2023, 2026: \"2017-2023\"");
    return {};
}

trade::Basis read_basis(const Reader& reader) {
    reader.only({"kind", "source"});
    trade::Basis basis;
    const std::string kind = reader.text("kind");
    if (const auto known = trade::parse_basis_kind(kind))
        basis.kind = *known;
    else if (reader.has_text("kind"))
        reader.fault("'" + kind + "' is no kind of basis", "write published, practice or memory");
    basis.source = reader.text_or("source", "");
    if (basis.kind == trade::Basis::Kind::published && basis.source.empty())
        reader.fault("a published basis names its source", "add \"source\": title and place of what was seen");
    return basis;
}

Check read_check(const Reader& reader) {
    Check check;
    if (reader.has("lookup")) {
        reader.only({"lookup", "row", "column"});
        check.table = reader.text("lookup");
        check.column = reader.text("column");
        for (const auto& [key, value] : reader.member("row").members()) check.row[key] = key_text(value);
        return check;
    }
    if (reader.has("sum")) {
        reader.only({"sum"});
        check.sum = reader.text("sum");
        return check;
    }
    reader.only({"calculate", "facts", "value"});
    check.calculator = reader.text("calculate");
    check.value = reader.text_or("value", "");
    const auto* calculator = trade::find_calculator(check.calculator);
    if (calculator != nullptr) {
        check.facts = trade::read_facts(calculator->facts, reader.member("facts"), {});
    } else if (!check.calculator.empty()) {
        std::vector<std::string> known;
        for (const auto& one : trade::calculators()) known.emplace_back(one.name);
        reader.fault("there is no calculator '" + check.calculator + "'", "known here: " + base::join(known, ", "));
    }
    return check;
}

/// Steps of an explanation: sums as text, table rows and calculators as objects.
std::vector<Check> read_worked(const Reader& reader) {
    std::vector<Check> worked;
    for (const auto& item : reader.items("worked")) {
        if (!std::holds_alternative<std::string>(item.node().value)) {
            worked.push_back(read_check(item));
            continue;
        }
        Check sum;
        sum.sum = item.as_text();
        worked.push_back(std::move(sum));
    }
    return worked;
}

Question read_question(const Reader& reader, bool in_scenario) {
    Question question;
    question.place = place_of(reader);
    question.id = reader.text("id");
    const std::string form = reader.text("form");
    const auto known = parse_form(form);
    if (!known) {
        if (reader.has_text("form"))
            reader.fault("there is no form '" + form + "'",
                         "write choose, choose-all, number, article, order or recall");
        return question;
    }
    question.form = *known;
    question.text = reader.text("text");
    question.why = reader.text_or("why", "");
    // Every ask of a service call stands in a situation.
    question.situation = in_scenario || reader.flag_or("situation", false);
    if (reader.has("editions")) question.editions = read_editions(reader, "editions");
    if (reader.has("basis")) question.basis = read_basis(reader.member("basis"));
    if (reader.has("worked")) question.worked = read_worked(reader);
    if (in_scenario) question.point.text = reader.text("point");
    std::vector<std::string> fields = {"id", "form", "text", "why", "worked", "editions", "basis"};
    fields.emplace_back(in_scenario ? "point" : "situation");
    if (reader.has("compute")) {
        fields.insert(fields.end(), {"compute", "mistakes", "says", "phrases", "places", "within"});
        reader.only(fields);
        if (question.form != Form::choose && question.form != Form::number)
            reader.fault("only choose and number are computed", "write another form");
        read_computed(reader, question);
        return question;
    }
    const FormRow& row = row_of(question.form);
    fields.insert(fields.end(), row.fields.begin(), row.fields.end());
    reader.only(fields);
    row.read(reader, question);
    return question;
}

}  // namespace content
