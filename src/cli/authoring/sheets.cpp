#include <algorithm>
#include <array>
#include <filesystem>
#include <ostream>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "base/text.hpp"
#include "cli/authoring/own_deck.hpp"
#include "cli/authoring/trial.hpp"
#include "cli/context.hpp"
#include "cli/whole_file.hpp"
#include "content/write/deck_csv.hpp"
#include "content/write/sheet_cells.hpp"
#include "content/write/tidy_deck.hpp"
#include "report/session_json.hpp"
#include "report/style.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;
using nlohmann::ordered_json;

std::string read_file(const std::string& path) {
    const auto text = content::read_source(path);
    if (text) return *text;
    throw Failure{Exit::no_input, path + ": " + text.error().front().what, text.error().front().mend};
}

/// "/points/3/questions/1" of a sheet's deck, when its fourth point has become the sixth: "/points/5/questions/1".
std::string moved(const std::string& pointer, const std::map<std::size_t, std::size_t>& places) {
    const auto parts = base::split(pointer, '/');
    std::string text;
    for (std::size_t i = 1; i < parts.size(); ++i)
        text += "/" + (i == 2 ? std::to_string(places.at(std::stoul(parts[i]))) : parts[i]);
    return text;
}

/// Which line of the sheet made what stands at a pointer of a deck.
using SheetLines = std::map<std::string, int>;

int line_of(const SheetLines& lines, std::string pointer) {
    while (!pointer.empty()) {
        if (const auto found = lines.find(pointer); found != lines.end()) return found->second;
        pointer.erase(pointer.rfind('/'));
    }
    return 0;
}

/// What an import is about to write.
struct Coming {
    std::map<std::string, std::string> texts;  ///< by deck
    std::map<std::string, SheetLines> lines;   ///< by path of the deck's file
    std::size_t points = 0, questions = 0;
    std::vector<std::string> notes;  ///< what gives way to them
};

/// Questions that a point had and the sheet has not: its rows are the whole of a point.
void note_gone(const ordered_json& before, const ordered_json& after, std::vector<std::string>& notes) {
    if (before.is_null()) return;
    for (const auto& point : after.at("points"))
        for (const auto& old : before.at("points")) {
            if (old.value("id", "") != point.at("id")) continue;
            for (const auto& question : old.value("questions", ordered_json::array())) {
                const auto now = point.value("questions", ordered_json::array());
                const bool kept = std::any_of(now.begin(), now.end(), [&](const auto& one) {
                    return one.value("id", "") == question.value("id", "");
                });
                if (!kept)
                    notes.push_back(point.at("id").get<std::string>() + "#" + question.value("id", "") +
                                    " is no longer there: the sheet has no row for it");
            }
        }
}

Coming coming_of(const std::vector<content::SheetDeck>& decks, const std::string& library,
                 const content::Contents& there) {
    Coming coming;
    for (const auto& deck : decks) {
        ordered_json whole = own_deck(library, deck.name);
        note_gone(whole, deck.document, coming.notes);
        for (const auto& point : deck.document.at("points"))
            if (const auto* shipped = there.point({point.at("id")});
                shipped != nullptr && !shipped->place.file.starts_with(library + "/"))
                coming.notes.push_back(point.at("id").get<std::string>() +
                                       " takes the place of a point of that id in " + shipped->place.file);
        const auto places = put_into(whole, deck.document);
        coming.texts[deck.name] = content::tidy_deck(whole);
        auto& lines = coming.lines[deck_path(library, deck.name)];
        for (const auto& [pointer, line] : deck.lines) lines[moved(pointer, places)] = line;
        for (const auto& point : deck.document.at("points")) {
            ++coming.points;
            coming.questions += point.contains("questions") ? point.at("questions").size() : 0;
        }
    }
    return coming;
}

/// The words of a deck's format as the sheet has them.
std::string in_words_of_sheet(std::string text) {
    const std::array<std::pair<std::string_view, std::string_view>, 7> kWords = {{
        {"add it to \"mistakes\" with one line", "write its sentence once in the cell of the mistake"},
        {"add \"check\" or \"basis\"", "fill in \"check\" or \"answer basis\""},
        {"\"versions\" is missing", "it has no statement: fill in editions, article, says and basis"},
        {"\"questions\" is missing", "it has no question: fill in form and text"},
        {"\"gaps\"", "\"gap\""},
        {", or enter it in decks/figures", ""},
        {"\"row\" and \"column\"", "the check"},
    }};
    for (const auto& [deck, sheet] : kWords)
        if (const auto at = text.find(deck); at != std::string::npos) text.replace(at, deck.size(), sheet);
    return text;
}

/// Faults at the lines of the sheet that they come from.
base::Faults in_sheet(base::Faults faults, const Coming& coming, const std::string& sheet) {
    for (auto& fault : faults) {
        const auto lines = coming.lines.find(fault.file);
        const int line = lines == coming.lines.end() ? 0 : line_of(lines->second, fault.pointer);
        if (line == 0) continue;
        fault.file = sheet;
        fault.line = line;
        fault.pointer.clear();
        fault.what = in_words_of_sheet(fault.what);
        fault.mend = in_words_of_sheet(fault.mend);
    }
    return faults;
}

void tell_import(Context& context, const Coming& coming, const base::Faults& faults, bool written) {
    if (context.json()) {
        ordered_json files = ordered_json::array();
        for (const auto& [path, lines] : coming.lines) files.push_back(path);
        context.out()
            << ordered_json{{"ok", !base::any_errors(faults)},      {"written", written}, {"points", coming.points},
                            {"questions", coming.questions},        {"files", files},     {"notes", coming.notes},
                            {"faults", report::faults_json(faults)}}
                   .dump(2)
            << '\n';
        return;
    }
    constexpr std::size_t kMostTold = 40;
    base::Faults told = faults;
    if (told.size() > kMostTold) told.resize(kMostTold);
    tell(base::any_errors(faults) ? context.err() : context.out(), told);
    if (told.size() < faults.size()) context.err() << "and " << faults.size() - told.size() << " more\n";
    if (base::any_errors(faults)) return;
    for (const auto& note : coming.notes) context.out() << "note: " << note << '\n';
    context.out() << report::counted(coming.points, "point") << " with "
                  << report::counted(coming.questions, "question") << (written ? " written to" : " would go to");
    for (const auto& [path, lines] : coming.lines) context.out() << ' ' << path;
    context.out() << '\n';
}

std::string stem_of(const std::string& path) {
    const std::string stem = content::id_of(std::filesystem::path{path}.stem().string(), 6);
    return stem.empty() ? "own" : stem;
}

/// The deck as its file has it, without points that have given way to others.
ordered_json document_of(const content::Deck& deck) {
    auto document = ordered_json::parse(read_file(deck.place.file));
    ordered_json kept = ordered_json::array();
    for (const auto& point : document.at("points"))
        if (std::any_of(deck.points.begin(), deck.points.end(),
                        [&](const content::Point& one) { return one.id.text == point.at("id"); }))
            kept.push_back(point);
    document["points"] = std::move(kept);
    return document;
}

std::string template_text(const Context& context) {
    const auto shipped = find_content(context.world().program);
    if (!shipped)
        throw Failure{Exit::no_input, "no content was found beside the program",
                      "see docs/authoring.md for the columns"};
    return read_file(*shipped + "/decks/templates/points.csv");
}

std::string export_text(const Context& context) {
    if (context.has("--template") && context.has("--deck"))
        throw Failure{Exit::usage, "a template, or a deck?", "give one of --template and --deck"};
    if (context.has("--template")) return template_text(context);
    const auto contents = context.load_contents();
    const auto wanted = context.values("--deck");
    std::string text = content::sheet_head();
    std::vector<std::string> known;
    std::size_t found = 0;
    for (const auto& deck : contents.decks) {
        known.push_back(deck.name);
        if (!wanted.empty() && std::find(wanted.begin(), wanted.end(), deck.name) == wanted.end()) continue;
        ++found;
        text += content::sheet_of(document_of(deck));
    }
    for (const auto& name : wanted)
        if (std::find(known.begin(), known.end(), name) == known.end()) {
            const auto near = base::nearest(name, known);
            throw Failure{Exit::no_input, "there is no deck '" + name + "'",
                          near ? "did you mean '" + *near + "'?" : "known: " + base::join(known, ", ")};
        }
    return text;
}

}  // namespace

Exit run_library_import(Context& context) {
    const std::string file = context.value("FILE");
    const std::string deck = context.has("--deck") ? context.value("--deck") : stem_of(file);
    const auto decks = content::decks_of_sheet(read_file(file), file, deck);
    if (!decks) {
        tell(context.err(), decks.error());
        throw Failure{Exit::bad_data, file + ": nothing was taken over", "mend the lines named above"};
    }
    const std::string library = own_library(context);
    const auto coming = coming_of(*decks, library, context.load_contents());
    const auto faults = in_sheet(try_decks(context, library, coming.texts), coming, file);
    const bool writes = !context.has("--dry-run") && !base::any_errors(faults);
    if (writes) write_decks(library, coming.texts);
    tell_import(context, coming, faults, writes);
    if (!base::any_errors(faults)) return Exit::fine;
    if (context.json()) return Exit::bad_data;
    throw Failure{Exit::bad_data, file + ": nothing was taken over", "mend the lines named above"};
}

Exit run_library_export(Context& context) {
    const std::string text = export_text(context);
    if (context.has("--out"))
        write_whole(context.value("--out"), [&](std::ostream& out) { out << text; });
    else
        context.out() << text;
    return Exit::fine;
}

}  // namespace cli
