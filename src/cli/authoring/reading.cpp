#include <algorithm>
#include <filesystem>
#include <map>
#include <ostream>
#include <sstream>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "base/located_json.hpp"
#include "base/text.hpp"
#include "cli/context.hpp"
#include "cli/whole_file.hpp"
#include "content/reading.hpp"
#include "content/write/readings_file.hpp"
#include "practice/second_reading.hpp"
#include "report/style.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;
using content::ToRead;
using nlohmann::ordered_json;
using practice::PosedReading;
using practice::Verdict;

bool wanted(const Context& context, const content::ReadingBook& book, const ToRead& one) {
    const auto topics = context.values("--topic");
    if (!topics.empty() && std::find(topics.begin(), topics.end(), one.point->topic) == topics.end()) return false;
    if (context.has("--calls") && one.scenario == nullptr) return false;
    return context.has("--all") || book.state(one) != content::ReadingBook::State::read;
}

/// The question without anything that gives its answer away.
ordered_json question_json(const PosedReading& posed) {
    const auto& ask = posed.ask;
    ordered_json editions = ordered_json::array();
    for (const auto edition : posed.what.editions) editions.push_back(trade::to_text(edition));
    ordered_json out = {{"id", posed.what.id},
                        {"edition", trade::to_text(posed.what.edition)},
                        {"said_of", editions},
                        {"form", content::to_text(ask.question.form)}};
    if (!ask.story.empty()) out["story"] = ask.story;
    out["text"] = ask.question.text;
    ordered_json options = ordered_json::object();
    for (std::size_t i = 0; i < ask.options.size(); ++i) options[content::letter(i)] = ask.options[i].text;
    if (!options.empty()) out["options"] = options;
    out["answer_as"] = practice::answer_hint(ask);
    return out;
}

std::vector<PosedReading> all_posed(Context& context, const content::Contents& contents, bool all) {
    const content::ReadingBook book{contents};
    std::vector<ToRead> questions;
    for (auto& one : content::to_read(contents))
        if (all || wanted(context, book, one)) questions.push_back(std::move(one));
    return practice::pose_for_reading(questions, context.open_library());
}

/// A reader's answers, JSON Lines of {"id", "edition", "answer", "note"}.
std::vector<Verdict> verdicts_of(const std::string& file, const std::vector<PosedReading>& posed) {
    const auto text = content::read_source(file);
    if (!text) throw Failure{Exit::no_input, file + ": " + text.error().front().what, text.error().front().mend};
    std::map<std::string, const PosedReading*> by_key;
    for (const auto& one : posed) by_key[one.what.id + " " + trade::to_text(one.what.edition)] = &one;
    std::vector<Verdict> verdicts;
    std::istringstream lines{*text};
    int number = 0;
    for (std::string line; std::getline(lines, line);) {
        ++number;
        if (base::trim(line).empty()) continue;
        const auto located = base::parse_located(line, file);
        base::Faults faults;
        if (!located)
            throw Failure{Exit::bad_data, file + ":" + std::to_string(number) + ": this is no JSON object",
                          "write one object to a line"};
        const base::Reader reader{*located, file, "", faults};
        const std::string key = reader.text("id") + " " + reader.text("edition");
        const std::string answer = reader.text("answer");
        if (!faults.empty())
            throw Failure{Exit::bad_data, file + ":" + std::to_string(number) + ": " + faults.front().what,
                          "a line has \"id\", \"edition\" and \"answer\", all text"};
        const auto found = by_key.find(key);
        if (found == by_key.end())
            throw Failure{Exit::bad_data, file + ":" + std::to_string(number) + ": there is no question '" + key + "'",
                          "answer what 'greentag library unread' gives, with its edition"};
        verdicts.push_back(practice::judge(*found->second, answer, reader.text_or("note", "")));
    }
    return verdicts;
}

std::vector<content::Reading> readings_of(const std::string& path) {
    auto readings = content::load_readings(path);
    if (readings) return std::move(*readings);
    throw Failure{Exit::bad_data, base::to_text(readings.error().front()), "mend or move the file"};
}

void write_readings(const std::string& path, const std::vector<content::Reading>& readings, const std::string& reader) {
    std::error_code error;
    if (const auto folder = std::filesystem::path{path}.parent_path(); !folder.empty())
        std::filesystem::create_directories(folder, error);
    write_whole(path, [&](std::ostream& out) { out << content::readings_text(readings, reader); });
}

void tell_verdicts(Context& context, const std::vector<Verdict>& verdicts) {
    std::size_t agreed = 0;
    ordered_json list = ordered_json::array();
    for (const auto& verdict : verdicts) {
        agreed += verdict.agrees ? 1 : 0;
        if (verdict.agrees) continue;
        const auto& what = verdict.posed->what;
        list.push_back({{"id", what.id},
                        {"edition", trade::to_text(what.edition)},
                        {"given", verdict.given},
                        {"ours", content::right_answer(verdict.posed->ask)},
                        {"note", verdict.note}});
        if (!context.json())
            context.out() << what.id << " (" << trade::to_text(what.edition) << "): given " << verdict.given
                          << ", ours " << content::right_answer(verdict.posed->ask)
                          << (verdict.note.empty() ? "" : "; " + verdict.note) << '\n';
    }
    if (context.json())
        context.out() << ordered_json{{"ok", list.empty()},
                                      {"answers", verdicts.size()},
                                      {"agreed", agreed},
                                      {"differing", list}}
                             .dump(2)
                      << '\n';
    else
        context.out() << report::counted(verdicts.size(), "answer") << ", " << agreed << " agreed, "
                      << verdicts.size() - agreed << " differed\n";
}

Exit uphold_one(Context& context, const content::Contents& contents, const std::string& into) {
    const std::string id = context.value("--uphold");
    const std::string because = context.value("--because");
    if (because.empty())
        throw Failure{Exit::usage, "upheld for what reason?",
                      "say why with --because TEXT: the source that settles it"};
    auto readings = readings_of(into);
    bool found = false;
    for (const auto& one : content::to_read(contents))
        if (one.id == id && practice::uphold(readings, one, because)) found = true;
    if (!found)
        throw Failure{Exit::no_input, "no reading of '" + id + "' is kept in " + into,
                      "name a question that a reader has answered"};
    write_readings(into, readings, readings.front().reader);
    context.out() << id << ": our answer stands\n";
    return Exit::fine;
}

}  // namespace

Exit run_library_unread(Context& context) {
    const auto contents = context.load_contents();
    for (const auto& posed : all_posed(context, contents, false)) context.out() << question_json(posed).dump() << '\n';
    return Exit::fine;
}

Exit run_library_reading(Context& context) {
    const std::string into = context.value("--into");
    if (into.empty())
        throw Failure{Exit::usage, "kept where?",
                      "name the file of readings with --into FILE, such as decks/reviews/all.json"};
    const auto contents = context.load_contents();
    if (context.has("--uphold")) return uphold_one(context, contents, into);
    const std::string reader = context.value("--reader");
    if (reader.empty() || !context.has("--answers"))
        throw Failure{Exit::usage, "whose answers?", "give --answers FILE and --reader NAME"};
    const auto posed = all_posed(context, contents, true);
    const auto verdicts = verdicts_of(context.value("--answers"), posed);
    auto readings = readings_of(into);
    practice::record(readings, verdicts, reader);
    write_readings(into, readings, reader);
    tell_verdicts(context, verdicts);
    const bool all_agreed = std::all_of(verdicts.begin(), verdicts.end(), [](const Verdict& v) { return v.agrees; });
    return all_agreed ? Exit::fine : Exit::problems;
}

}  // namespace cli
