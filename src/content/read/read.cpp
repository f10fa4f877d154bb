#include "content/read/read.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "content/read/read_question.hpp"
#include "content/read/read_rules.hpp"
#include "trade/article.hpp"

namespace content {
namespace {

using base::Reader;

Version read_version(const Reader& reader) {
    reader.only({"editions", "article", "says", "basis", "unverified"});
    Version version;
    version.editions = read_editions(reader, "editions");
    version.article = reader.text("article");
    if (!version.article.empty() && !trade::parse_article(version.article))
        reader.fault("'" + version.article + "' is no code reference", "write it like 210.8(A)(2) or Article 590");
    version.says = reader.text("says");
    version.basis = read_basis(reader.member("basis"));
    version.unverified = reader.flag_or("unverified", false);
    return version;
}

Stakes read_stakes(const Reader& reader) {
    const std::string text = reader.text("stakes");
    if (const auto stakes = parse_stakes(text)) return *stakes;
    if (reader.has_text("stakes"))
        reader.fault("'" + text + "' is no kind of stakes", "write shock, fire, inspection or paperwork");
    return Stakes::inspection;
}

std::string cell_text(const Reader& reader) {
    if (std::holds_alternative<double>(reader.node().value)) return base::number_text(reader.as_number(), 9);
    return reader.as_text();
}

Fact read_fact(const std::string& name, const Reader& reader) {
    Fact fact;
    fact.name = name;
    if (std::holds_alternative<base::Located::Members>(reader.node().value)) {
        reader.only({"choices", "from", "to", "step", "is"});
        for (const auto& choice : reader.items_or_none("choices")) fact.choices.push_back(cell_text(choice));
        fact.is = reader.text_or("is", "");
        if (reader.has("from")) {
            fact.from = reader.number("from");
            fact.to = reader.number("to");
            fact.step = reader.number("step");
            if (fact.step <= 0.0 || fact.to < fact.from) reader.fault("this range is empty", "let \"step\" be over 0");
        }
        if (fact.choices.empty() && fact.is.empty() && fact.step <= 0.0)
            reader.fault("nothing says what this fact is",
                         "give \"choices\", or \"from\", \"to\" and \"step\", or \"is\"");
    } else {
        fact.choices.push_back(cell_text(reader));
    }
    return fact;
}

trade::TableRow read_row(const Reader& reader, const trade::Table& table, const trade::Basis& basis) {
    trade::TableRow row;
    row.basis = basis;
    for (const auto& key : table.keys)
        if (!reader.has(key)) reader.fault("the row lacks its key \"" + key + "\"", "add it");
    for (const auto& [name, value] : reader.members()) {
        if (name == "basis")
            row.basis = read_basis(value);
        else if (std::find(table.keys.begin(), table.keys.end(), name) != table.keys.end())
            row.keys[name] = cell_text(value);
        else
            row.values[name] = cell_text(value);
    }
    return row;
}

}  // namespace

Mistakes read_mistakes(const Reader& document) {
    Mistakes mistakes;
    if (!document.has("mistakes")) return mistakes;
    for (const auto& [id, line] : document.member("mistakes").members()) mistakes[id] = line.as_text();
    return mistakes;
}

Point read_point(const Reader& reader, const std::string& deck, const std::string& topic) {
    reader.only({"id", "title", "stakes", "tags", "needs", "caution", "versions", "gaps", "questions"});
    Point point;
    point.place = place_of(reader);
    point.id.text = reader.text("id");
    point.title = reader.text("title");
    point.deck = deck;
    point.topic = topic;
    point.stakes = read_stakes(reader);
    point.tags = reader.texts("tags");
    for (auto& need : reader.texts_or_none("needs")) point.needs.push_back({std::move(need)});
    point.caution = reader.text_or("caution", "");
    for (const auto& item : reader.items("versions")) point.versions.push_back(read_version(item));
    for (const auto& item : reader.items_or_none("gaps")) {
        item.only({"editions", "why"});
        point.gaps.push_back({read_editions(item, "editions"), item.text("why")});
    }
    for (const auto& item : reader.items("questions")) {
        point.questions.push_back(read_question(item, false));
        point.questions.back().point = point.id;
    }
    return point;
}

Deck read_deck(const Reader& document) {
    document.only({"format", "deck", "title", "topic", "mistakes", "points"});
    Deck deck;
    deck.place = place_of(document);
    deck.name = document.text("deck");
    deck.title = document.text("title");
    deck.topic = document.text("topic");
    deck.mistakes = read_mistakes(document);
    if (document.has("mistakes")) deck.mistakes_place = place_of(document.member("mistakes"));
    for (const auto& item : document.items("points")) deck.points.push_back(read_point(item, deck.name, deck.topic));
    return deck;
}

Scenario read_scenario(const Reader& reader, const std::string& family) {
    reader.only({"id", "title", "tags", "editions", "story", "facts", "only", "asks"});
    Scenario scenario;
    scenario.place = place_of(reader);
    scenario.family = family;
    scenario.id = reader.text("id");
    scenario.title = reader.text("title");
    scenario.tags = reader.texts("tags");
    if (reader.has("editions")) scenario.editions = read_editions(reader, "editions");
    scenario.story = reader.text("story");
    if (reader.has("facts"))
        for (const auto& [name, value] : reader.member("facts").members())
            scenario.facts.push_back(read_fact(name, value));
    scenario.only = reader.texts_or_none("only");
    for (const auto& item : reader.items("asks")) scenario.asks.push_back(read_question(item, true));
    return scenario;
}

ScenarioFamily read_scenarios(const Reader& document) {
    document.only({"format", "family", "title", "mistakes", "scenarios"});
    ScenarioFamily family;
    family.place = place_of(document);
    family.name = document.text("family");
    family.title = document.text("title");
    family.mistakes = read_mistakes(document);
    if (document.has("mistakes")) family.mistakes_place = place_of(document.member("mistakes"));
    for (const auto& item : document.items("scenarios")) family.scenarios.push_back(read_scenario(item, family.name));
    return family;
}

trade::Table read_table(const Reader& document) {
    document.only({"format", "table", "title", "article", "editions", "basis", "keys", "columns", "rows"});
    trade::Table table;
    table.id = document.text("table");
    table.title = document.text("title");
    table.article = document.text("article");
    table.editions = read_editions(document, "editions");
    table.keys = document.texts("keys");
    for (const auto& [column, unit] : document.member("columns").members()) {
        const std::string text = unit.as_text();
        const auto known = base::parse_unit(text);
        if (!known && !text.empty())
            unit.fault("'" + text + "' is no unit", "see the units in docs/formats/deck.schema.json");
        table.columns[column] = known.value_or(base::Unit::count);
    }
    const trade::Basis basis = read_basis(document.member("basis"));
    for (const auto& item : document.items("rows")) table.rows.push_back(read_row(item, table, basis));
    return table;
}

std::vector<Jurisdiction> read_jurisdictions(const Reader& document) {
    document.only({"format", "jurisdictions"});
    std::vector<Jurisdiction> all;
    for (const auto& item : document.items("jurisdictions")) {
        item.only({"id", "name", "note", "basis", "adoptions", "amendments"});
        Jurisdiction one;
        one.place = place_of(item);
        one.id = item.text("id");
        one.name = item.text("name");
        one.note = item.text_or("note", "");
        one.basis = read_basis(item.member("basis"));
        for (const auto& adoption : item.items("adoptions")) {
            adoption.only({"edition", "from"});
            const auto edition = trade::parse_edition(adoption.text("edition"));
            const auto from = base::parse_instant(adoption.text("from"));
            if (!edition && adoption.has_text("edition"))
                adoption.fault("this is no edition", "write \"2017\", \"2020\", \"2023\" or \"2026\"");
            if (!from && adoption.has_text("from")) adoption.fault("this is no date", "write it like 2024-01-01");
            if (edition && from) one.adoptions.push_back({*edition, *from});
        }
        for (const auto& amendment : item.items_or_none("amendments"))
            one.amendments.push_back(read_amendment(amendment));
        all.push_back(std::move(one));
    }
    return all;
}

}  // namespace content
