#include "report/exam/sitting_json.hpp"

#include <charconv>
#include <cmath>
#include <optional>

#include <nlohmann/json.hpp>

#include "base/located_json.hpp"
#include "base/text.hpp"

namespace report {
namespace {

using base::Reader;
using nlohmann::ordered_json;
using practice::Did;

constexpr std::string_view kFormat = "greentag-sitting/1";
// Far above any exam; a larger number is a slip, and would not be exact in a double for ever.
constexpr double kMostWhole = 1e15;

std::string line_of(const ordered_json& json) {
    return json.dump(-1, ' ', false, ordered_json::error_handler_t::replace);
}

ordered_json item_json(const practice::PaperItem& item) {
    // A seed has 64 bits; as a JSON number it would lose some in most readers.
    ordered_json out = {{"section", item.section + 1}, {"question", item.question.text},
                        {"point", item.point.text},    {"seed", std::to_string(item.seed)},
                        {"chance", item.chance},       {"content", item.content}};
    if (item.call) out["call"] = true;
    return out;
}

std::optional<base::Seed> parse_seed(std::string_view text) {
    base::Seed seed = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), seed);
    if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
    return seed;
}

base::Seed seed_in(const Reader& reader) {
    const auto seed = parse_seed(reader.text("seed"));
    if (!seed && reader.has_text("seed")) reader.fault("the seed is no number", "write its digits as text");
    return seed.value_or(0);
}

std::size_t whole_in(const Reader& reader, const std::string& key, double least) {
    const double value = reader.number(key);
    if (value >= least && value <= kMostWhole && value == std::floor(value)) return static_cast<std::size_t>(value);
    if (reader.has(key))
        reader.fault("'" + key + "' is no whole number of " + base::number_text(least, 0) + " or more",
                     "keep the line as it was written");
    return static_cast<std::size_t>(least);
}

base::Id128 id_in(const Reader& reader, std::string_view key) {
    const auto id = base::parse_id(reader.text(key));
    if (!id && reader.has_text(key)) reader.fault("'" + std::string{key} + "' is no id", "write 32 hexadecimal digits");
    return id.value_or(base::Id128{});
}

base::Instant instant_in(const Reader& reader, std::string_view key) {
    const auto when = base::parse_instant(reader.text(key));
    if (!when && reader.has_text(key))
        reader.fault("'" + std::string{key} + "' is no instant", "write it like 2026-03-02T07:00:00.000Z");
    return when.value_or(base::Instant{});
}

trade::Edition edition_in(const Reader& reader) {
    const auto edition = trade::parse_edition(reader.text("edition"));
    if (!edition && reader.has_text("edition")) reader.fault("there is no such edition", "write a year such as 2023");
    return edition.value_or(trade::Edition::e2023);
}

practice::PaperItem item_in(const Reader& reader) {
    practice::PaperItem item;
    item.section = whole_in(reader, "section", 1) - 1;
    item.question.text = reader.text("question");
    item.point.text = reader.text("point");
    item.call = reader.flag_or("call", false);
    item.seed = seed_in(reader);
    item.chance = reader.number("chance");
    if (!(item.chance >= 0.0 && item.chance <= 1.0)) reader.fault("the chance lies outside 0 to 1", "write 0 to 1");
    item.content = reader.text("content");
    return item;
}

practice::SittingFor sitting_in(const Reader& reader) {
    practice::SittingFor what;
    if (reader.text("format") != kFormat && reader.has_text("format"))
        reader.fault("the format is not " + std::string{kFormat}, "read it with the version that wrote it");
    what.id = id_in(reader, "id");
    what.learner = id_in(reader, "learner");
    what.jurisdiction = reader.text_or("jurisdiction", "");
    what.paper.outline = reader.text("outline");
    what.paper.edition = edition_in(reader);
    what.paper.seed = seed_in(reader);
    what.start = instant_in(reader, "start");
    what.limit = base::Milliseconds{static_cast<std::int64_t>(whole_in(reader, "limit_ms", 1))};
    for (const auto& item : reader.items("items")) what.paper.items.push_back(item_in(item));
    return what;
}

practice::SittingEvent event_in(const Reader& reader) {
    practice::SittingEvent event;
    event.at = instant_in(reader, "at");
    const auto did = practice::parse_did(reader.text("did"));
    if (!did && reader.has_text("did"))
        reader.fault("nothing of that name is done in an exam", "write answer, flag, unflag or finish");
    event.did = did.value_or(Did::answer);
    if (!did || event.did == Did::finish) return event;
    event.ask = whole_in(reader, "ask", 1) - 1;
    if (event.did != Did::answer) return event;
    event.given = reader.text("given");
    const auto sure = memory::parse_sure(reader.text_or("sure", "fairly"));
    if (!sure) reader.fault("nobody is sure in that way", "write guess, fairly or sure");
    event.sure = sure.value_or(memory::Sure::fairly);
    return event;
}

/// Parses one line and turns it into a value; every fault gets the line's number in its file.
template <class Value>
base::Checked<Value> from_line(std::string_view text, const std::string& file, int line, Value (*read)(const Reader&)) {
    base::Faults faults;
    Value value{};
    if (const auto parsed = base::parse_located(text, file)) {
        value = read(Reader{*parsed, file, "", faults});
    } else {
        faults = parsed.error();
    }
    for (auto& fault : faults) fault.line = line;
    if (base::any_errors(faults)) return tl::unexpected<base::Faults>{std::move(faults)};
    return value;
}

ordered_json section_json(const practice::SectionScore& score, const content::Outline& outline) {
    return {{"section", outline.sections[score.section].id},
            {"title", outline.sections[score.section].title},
            {"asked", score.asked},
            {"right", score.right},
            {"unanswered", score.unanswered},
            {"needed", score.needed},
            {"must_pass", score.must_pass},
            {"tag", score.green() ? "green" : "red"}};
}

ordered_json correction_json(const practice::Sitting& sitting, const content::Outline& outline,
                             const practice::Correction& one) {
    const auto& ask = sitting.ask(one.asks.front());
    ordered_json asks = ordered_json::array();
    for (const auto place : one.asks) asks.push_back(place + 1);
    return {{"point", one.point.text},
            {"title", ask.title},
            {"article", ask.version.article},
            {"stakes", content::to_text(ask.stakes)},
            {"section", outline.sections[one.section].id},
            {"asks", asks},
            {"unanswered", one.unanswered}};
}

}  // namespace

std::string to_line(const practice::SittingFor& what) {
    ordered_json items = ordered_json::array();
    for (const auto& item : what.paper.items) items.push_back(item_json(item));
    return line_of({{"format", kFormat},
                    {"id", base::to_text(what.id)},
                    {"learner", base::to_text(what.learner)},
                    {"jurisdiction", what.jurisdiction},
                    {"outline", what.paper.outline},
                    {"edition", trade::to_text(what.paper.edition)},
                    {"seed", std::to_string(what.paper.seed)},
                    {"start", base::to_text(what.start)},
                    {"limit_ms", what.limit.count()},
                    {"items", items}});
}

std::string to_line(const practice::SittingEvent& event) {
    ordered_json out = {{"at", base::to_text(event.at)}, {"did", practice::to_text(event.did)}};
    if (event.did != Did::finish) out["ask"] = event.ask + 1;
    if (event.did == Did::answer) {
        out["given"] = event.given;
        out["sure"] = memory::to_text(event.sure);
    }
    return line_of(out);
}

base::Checked<practice::SittingFor> sitting_from_line(std::string_view text, const std::string& file, int line) {
    return from_line<practice::SittingFor>(text, file, line, sitting_in);
}

base::Checked<practice::SittingEvent> event_from_line(std::string_view text, const std::string& file, int line) {
    return from_line<practice::SittingEvent>(text, file, line, event_in);
}

base::Checked<KeptSitting> read_sitting(std::string_view text, const std::string& file) {
    KeptSitting kept;
    base::Faults faults;
    const auto note = [&](const base::Faults& more) { faults.insert(faults.end(), more.begin(), more.end()); };
    bool first = true;
    int number = 0;
    while (!text.empty()) {
        ++number;
        const auto end = text.find('\n');
        if (end == std::string_view::npos) {
            kept.torn = true;
            break;
        }
        const auto line = text.substr(0, end);
        text.remove_prefix(end + 1);
        if (base::trim(line).empty()) continue;
        if (first) {
            auto what = sitting_from_line(line, file, number);
            if (what)
                kept.what = std::move(*what);
            else
                note(what.error());
        } else {
            auto event = event_from_line(line, file, number);
            if (event)
                kept.events.push_back(std::move(*event));
            else
                note(event.error());
        }
        first = false;
    }
    if (first) return base::refuse(file + " holds no sitting", "begin a new exam");
    if (!faults.empty()) return tl::unexpected<base::Faults>{std::move(faults)};
    return kept;
}

ordered_json result_json(const practice::Sitting& sitting, const content::Outline& outline,
                         const practice::SittingResult& result) {
    ordered_json sections = ordered_json::array();
    for (const auto& score : result.sections) sections.push_back(section_json(score, outline));
    ordered_json corrections = ordered_json::array();
    for (const auto& one : result.corrections) corrections.push_back(correction_json(sitting, outline, one));
    const auto& what = sitting.what();
    return {{"type", "exam"},
            {"sitting", base::to_text(what.id)},
            {"outline", outline.id},
            {"edition", trade::to_text(what.paper.edition)},
            {"seed", what.paper.seed},
            {"start", base::to_text(what.start)},
            {"end", base::to_text(sitting.ends_at())},
            {"out_of_time", result.out_of_time},
            {"asked", result.asked},
            {"right", result.right},
            {"unanswered", result.unanswered},
            {"needed", result.needed},
            {"tag", result.green() ? "green" : "red"},
            {"sections", sections},
            {"corrections", corrections}};
}

}  // namespace report
