#include "cli/batch.hpp"

#include <fstream>
#include <ostream>

#include "base/text.hpp"
#include "cli/crew_edition.hpp"
#include "report/finding_json.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;

content::Under in_jurisdiction(const std::string& id, const std::string& day, base::Instant instant,
                               const content::TradeData& data) {
    const auto* place = data.jurisdiction(id);
    if (place == nullptr) {
        std::vector<std::string> known;
        for (const auto& one : data.jurisdictions()) known.push_back(one.id);
        const auto near = base::nearest(id, known);
        throw Failure{
            Exit::no_input, "there is no jurisdiction '" + id + "'",
            near ? "did you mean '" + *near + "'?"
                 : "known: " + base::join(known, ", ") + "; one of your own needs --library DIR, or say --edition"};
    }
    const auto edition = place->edition_on(instant);
    if (!edition)
        throw Failure{Exit::no_input, id + " had adopted no edition by " + day, "name an edition with --edition"};
    return {*edition, id, day};
}

/// What holds for the learner meant; nothing when there is no store yet or nobody is meant.
std::optional<store::Learner> learner_meant(const Context& context) {
    if (!context.store_exists()) return std::nullopt;
    auto store = context.open_store(false);
    if (context.has("--learner")) return context.learner(store);
    std::vector<store::Learner> active;
    for (auto& one : store.learners())
        if (!one.retired_at) active.push_back(std::move(one));
    return active.size() == 1 ? std::optional{active.front()} : std::nullopt;
}

std::string own_day(const base::Reader& object, const std::string& otherwise) {
    const auto instant = base::parse_instant(object.text("date"));
    if (instant) return base::date_text(*instant);
    object.member("date").fault("this is no day", "write it like 2026-09-01");
    return otherwise;
}

/// The edition in force where an object says, on its day; nothing, and a fault, where there is none.
std::optional<trade::Edition> edition_there(const base::Reader& object, const content::Under& under,
                                            const content::TradeData& data) {
    const auto instant = base::parse_instant(under.day);
    const auto* place = data.jurisdiction(under.jurisdiction);
    const auto edition = place != nullptr && instant ? place->edition_on(*instant) : std::nullopt;
    if (edition || (object.has("edition") && place != nullptr)) return edition;
    object.member(object.has("jurisdiction") ? "jurisdiction" : "date")
        .fault(place == nullptr ? "there is no jurisdiction '" + under.jurisdiction + "'"
                                : "'" + under.jurisdiction + "' had adopted no edition by " + under.day,
               "'greentag jurisdiction list' names them");
    return std::nullopt;
}

trade::Edition own_edition(const base::Reader& object, trade::Edition otherwise) {
    const base::Reader said = object.member("edition");
    const std::string text =
        std::holds_alternative<double>(said.node().value) ? base::number_text(said.as_number()) : said.as_text();
    if (const auto edition = trade::parse_edition(text)) return *edition;
    said.fault("'" + text + "' is no edition", "write 2017, 2020, 2023 or 2026");
    return otherwise;
}

void append_error(std::string& line, std::size_t number, const base::Fault& fault) {
    line += "\"error\":{\"line\":" + std::to_string(number) + ",\"pointer\":";
    report::append_json_text(line, fault.pointer);
    line += ",\"what\":";
    report::append_json_text(line, fault.what);
    line += ",\"mend\":";
    report::append_json_text(line, fault.mend);
    line += '}';
}

/// The id as it was given: text or number.
std::string id_member(const base::Located& object) {
    std::string member = "\"id\":";
    const auto* id = object.find("id");
    if (id == nullptr || std::holds_alternative<std::nullptr_t>(id->value)) return member + "null,";
    if (const auto* number = std::get_if<double>(&id->value)) return member + base::number_text(*number) + ",";
    if (const auto* text = std::get_if<std::string>(&id->value))
        report::append_json_text(member, *text);
    else
        member += "null";
    return member + ",";
}

void append_id(std::string& line, const base::FlatObject::Member* id) {
    line += "\"id\":";
    if (id != nullptr && id->kind == base::FlatObject::Kind::number)
        line += base::number_text(id->number);
    else if (id != nullptr && id->kind == base::FlatObject::Kind::text)
        report::append_json_text(line, id->text);
    else
        line += "null";
    line += ',';
}

/// Answers one line; false when it could not be read.
bool answer_line(const std::string& text, std::size_t number, std::string& line,
                 const std::function<void(const base::Reader&, std::string&)>& judge) {
    line = "{";
    const auto located = base::parse_located(text, "");
    if (!located) {
        line += "\"id\":null,";
        append_error(line, number, located.error().front());
        line += '}';
        return false;
    }
    line += id_member(*located);
    base::Faults faults;
    const base::Reader object{*located, "", "", faults};
    const std::size_t kept = line.size();
    if (!std::holds_alternative<base::Located::Members>(located->value))
        object.fault("a line holds one JSON object, but this is " + std::string{located->kind()}, "begin it with {");
    else
        judge(object, line);
    if (base::any_errors(faults)) {
        line.resize(kept);
        for (const auto& fault : faults)
            if (!fault.warning) {
                append_error(line, number, fault);
                break;
            }
    }
    line += '}';
    return !base::any_errors(faults);
}

}  // namespace

Place place_for(const Context& context, const content::TradeData& data) {
    const std::string day = base::date_text(context.now());
    Place place{{trade::Edition::e2023, "", day}, false};
    const auto learner =
        context.has("--jurisdiction") || context.has("--edition") ? std::nullopt : learner_meant(context);
    std::string id = context.value("--jurisdiction");
    if (learner) id = learner->jurisdiction;
    if (!id.empty() && id != "none") place.under = in_jurisdiction(id, day, context.now(), data);
    auto said = trade::parse_edition(context.value("--edition"));
    if (!said && learner && learner->edition) said = trade::parse_edition(std::to_string(*learner->edition));
    place.edition_said = said.has_value();
    if (said) place.under.edition = *said;
    const bool nobody = !learner && !context.has("--jurisdiction") && !context.has("--edition");
    if (nobody) place.under.edition = edition_meant(context);
    return place;
}

content::Under under_for(const base::Reader& object, const Place& otherwise, const content::TradeData& data) {
    content::Under under = otherwise.under;
    if (object.has("date")) under.day = own_day(object, under.day);
    if (object.has("jurisdiction")) under.jurisdiction = object.text("jurisdiction");
    const bool moved = object.has("date") || object.has("jurisdiction");
    if (moved && !under.jurisdiction.empty()) {
        const auto in_force = edition_there(object, under, data);
        if (in_force && !otherwise.edition_said) under.edition = *in_force;
    }
    if (object.has("edition")) under.edition = own_edition(object, under.edition);
    return under;
}

content::TradeData load_trade(const Context& context) {
    auto data = content::load_trade_data(context.library_roots());
    if (data) return std::move(*data);
    tell(context.err(), data.error());
    throw Failure{Exit::bad_data, "the tables and rules have faults",
                  "mend the places named above; 'greentag library check' tells all"};
}

std::string facts_text(const Context& context) {
    const std::string path = context.value("--facts");
    if (!path.empty() && path != "-") {
        const auto text = content::read_source(path);
        if (text) return *text;
        throw Failure{Exit::no_input, path + ": " + text.error().front().what, text.error().front().mend};
    }
    std::string text;
    while (const auto line = context.world().input->line()) text += *line + '\n';
    return text;
}

Exit run_batch(Context& context, const std::function<void(const base::Reader&, std::string&)>& judge) {
    return run_batch(context, nullptr, judge);
}

Exit run_batch(Context& context, const std::function<bool(const base::FlatObject&, std::string&)>& quick,
               const std::function<void(const base::Reader&, std::string&)>& judge) {
    const std::string path = context.value("--facts");
    bool all_read = true;
    std::string line;
    base::FlatObject flat;
    std::size_t number = 0;
    const auto quickly = [&](std::string_view text) {
        if (!quick || !flat.read(text)) return false;
        line = "{";
        append_id(line, flat.find("id"));
        if (!quick(flat, line)) return false;
        line += '}';
        return true;
    };
    const auto one = [&](std::string_view text) {
        ++number;
        if (text.find_first_not_of(" \t\r") == std::string_view::npos) return;
        if (!quickly(text)) all_read = answer_line(std::string{text}, number, line, judge) && all_read;
        line += '\n';
        context.out() << line;
    };
    if (path.empty() || path == "-") {
        // As they come, so that a program at the other end may wait for each answer.
        while (const auto text = context.world().input->line()) one(*text);
    } else {
        std::ifstream in{path, std::ios::binary};
        if (!in) throw Failure{Exit::no_input, path + ": cannot be read", "check that it is there and readable"};
        for (std::string text; std::getline(in, text);) one(text);
        if (in.bad()) throw Failure{Exit::io_error, path + ": reading failed half way", "try again"};
    }
    return all_read ? Exit::fine : Exit::bad_data;
}

}  // namespace cli
