#include "store/read_log.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <tuple>
#include <utility>

#include <nlohmann/json.hpp>

#include "base/text.hpp"

namespace store {
namespace {

using nlohmann::json;

constexpr std::string_view kFormat = "greentag-answer/1";
constexpr std::string_view kFamily = "greentag-answer/";
constexpr std::string_view kDatabase = "SQLite format 3";
constexpr std::size_t kMostFaults = 50;
constexpr std::size_t kLongestName = 80;
constexpr std::size_t kLongestId = 200;
constexpr std::array<std::string_view, 17> kMembers = {
    "format",       "id",      "learner",  "name",    "point", "question", "content", "seed",  "edition",
    "jurisdiction", "setting", "asked_at", "took_ms", "mark",  "sure",     "given",   "device"};

bool is_plain(std::string_view text) {
    return std::none_of(text.begin(), text.end(), [](char c) { return (c >= 0 && c < ' ') || c == '\x7f'; });
}

bool is_version(std::string_view text) {
    const auto hex = [](char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'); };
    return text.size() == 16 && std::all_of(text.begin(), text.end(), hex);
}

/// The members of one line, each judged as it is asked for.
class Line {
public:
    Line(const json& members, const std::string& file, int number, base::Faults& faults)
        : members_{&members}, file_{&file}, number_{number}, faults_{&faults} {}

    void fault(std::string pointer, std::string what, std::string mend) const {
        if (!pointer.empty()) pointer.insert(0, "/");
        faults_->push_back({*file_, std::move(pointer), number_, std::move(what), std::move(mend)});
    }

    [[nodiscard]] std::string text(const char* name) const {
        const json* value = find(name);
        if (value == nullptr) return {};
        if (value->is_string()) return value->get<std::string>();
        fault(name, "is no text", "put it in quotes");
        return {};
    }
    /// Text on one line, of so many bytes.
    [[nodiscard]] std::string word(const char* name, std::size_t least, std::size_t most) const {
        auto value = text(name);
        if (!has_text(name)) return value;
        if (value.size() < least || value.size() > most)
            fault(name, "has " + std::to_string(value.size()) + " bytes",
                  std::to_string(least) + " to " + std::to_string(most) + " are wanted");
        else if (!is_plain(value))
            fault(name, "holds control characters", "a name or id stands on one line");
        return value;
    }
    [[nodiscard]] base::Id128 id(const char* name) const {
        const auto value = text(name);
        const auto read = value.size() == 36 ? base::parse_id(value) : std::nullopt;
        if (!read && has_text(name)) fault(name, "'" + value.substr(0, 40) + "' is no id", "36 characters of a UUID");
        return read.value_or(base::Id128{});
    }
    [[nodiscard]] std::uint64_t whole(const char* name, std::uint64_t least, std::uint64_t most) const {
        const json* value = find(name);
        if (value == nullptr) return least;
        if (value->is_number_unsigned())
            if (const auto number = value->get<std::uint64_t>(); number >= least && number <= most) return number;
        fault(name, "is no whole number from " + std::to_string(least) + " to " + std::to_string(most),
              "write it without quotes, point or sign");
        return least;
    }
    [[nodiscard]] double mark() const {
        const json* value = find("mark");
        if (value == nullptr) return 0.0;
        if (value->is_number())
            if (const double number = value->get<double>(); number >= 0.0 && number <= 1.0) return number;
        fault("mark", "is no number from 0 to 1", "0 is wrong, 1 is right");
        return 0.0;
    }
    /// One of a few words; `parse` gives nothing for any other.
    template <class Parse>
    [[nodiscard]] auto one_of(const char* name, Parse parse, const std::string& mend) const {
        const auto value = text(name);
        const auto read = parse(std::string_view{value});
        if (!read && has_text(name)) fault(name, "'" + value.substr(0, 40) + "' is not known here", mend);
        return read.value_or(typename decltype(read)::value_type{});
    }

    void only_known_members() const {
        for (const auto& [name, value] : members_->items())
            if (std::find(kMembers.begin(), kMembers.end(), name) == kMembers.end())
                fault(name.substr(0, 40), "is no member of " + std::string{kFormat}, "take it out, or mend its name");
    }

private:
    [[nodiscard]] const json* find(const char* name) const {
        const auto found = members_->find(name);
        if (found != members_->end()) return &*found;
        fault(name, "is missing", "every answer has it");
        return nullptr;
    }
    [[nodiscard]] bool has_text(const char* name) const {
        const auto found = members_->find(name);
        return found != members_->end() && found->is_string();
    }

    const json* members_;
    const std::string* file_;
    int number_;
    base::Faults* faults_;
};

AnswerRecord record_of(const Line& line) {
    AnswerRecord record;
    record.id = line.id("id");
    record.learner = line.id("learner");
    record.point.text = line.word("point", 1, kLongestId);
    record.question.text = line.word("question", 1, kLongestId);
    record.content = line.one_of(
        "content", [](std::string_view t) { return is_version(t) ? std::optional{std::string{t}} : std::nullopt; },
        "16 hexadecimal digits, small");
    record.seed = line.whole("seed", 0, UINT64_MAX);
    record.edition = static_cast<int>(line.whole("edition", 1900, 2999));
    record.jurisdiction = line.word("jurisdiction", 0, kLongestId);
    record.setting = line.one_of("setting", parse_setting, "study, meeting, exam or brief");
    record.asked_at = line.one_of("asked_at", base::parse_instant, "write it like 2026-03-02T07:00:10.000Z");
    record.took_ms = static_cast<std::int64_t>(line.whole("took_ms", 0, INT64_MAX));
    record.mark = line.mark();
    record.sure = line.one_of("sure", memory::parse_sure, "guess, fairly or sure");
    record.given = line.text("given");
    record.device = line.id("device");
    return record;
}

/// The day that is in an id of the version 7 layout; the beginning of time in any other.
base::Instant day_in(const base::Id128& id) {
    if (id.bytes[6] >> 4U != 7U) return {};
    std::int64_t ms = 0;
    for (std::size_t at = 0; at < 6; ++at) ms = ms * 256 + id.bytes[at];
    return base::from_milliseconds(ms);
}

class LogReader {
public:
    LogReader(std::string_view text, const std::string& file) : text_{text} { part_.file = file; }

    base::Checked<LogPart> read() {
        part_.details = false;
        if (text_.starts_with(kDatabase)) return a_store();
        if (text_.starts_with("\xEF\xBB\xBF")) text_.remove_prefix(3);
        for (int number = 1; !text_.empty() && faults_.size() < kMostFaults; ++number) take(next_line(), number);
        if (faults_.size() >= kMostFaults) {
            faults_.resize(kMostFaults);
            faults_.push_back({part_.file, "", 0,
                               "more may be wrong: the first " + std::to_string(kMostFaults) + " faults are told",
                               "is this the file you mean?"});
        }
        if (!faults_.empty()) return tl::unexpected<base::Faults>{std::move(faults_)};
        for (const auto& [id, named] : names_) part_.crew.push_back(named_learner(id, std::get<1>(named)));
        return std::move(part_);
    }

private:
    [[nodiscard]] base::Checked<LogPart> a_store() const {
        return tl::unexpected<base::Faults>{base::Faults{
            {part_.file, "", 0, "is a store, not an exported log", "'greentag record merge' reads stores"}}};
    }
    std::string_view next_line() {
        const auto end = std::min(text_.find('\n'), text_.size());
        const auto line = text_.substr(0, end);
        text_.remove_prefix(std::min(end + 1, text_.size()));
        return line;
    }
    void take(std::string_view text, int number) {
        if (base::trim(text).empty()) return;
        const json members = parse(text, number);
        if (!members.is_object()) return;
        const Line line{members, part_.file, number, faults_};
        if (!format_is_known(line)) return;
        const std::size_t before = faults_.size();
        line.only_known_members();
        auto record = record_of(line);
        const auto name = line.word("name", 0, kLongestName);
        if (faults_.size() > before) return;
        remember(record, name);
        part_.answers.push_back({std::move(record), number});
    }
    /// Null, and noted, when the line is no object or has a member twice.
    json parse(std::string_view text, int number) {
        std::set<std::string> seen;
        std::string twice;
        const auto look = [&](int depth, json::parse_event_t event, json& key) {
            if (event == json::parse_event_t::key && depth == 1 && !seen.insert(key.get<std::string>()).second)
                twice = key.get<std::string>();
            return true;
        };
        json members;
        try {
            members = json::parse(text, look);
        } catch (const json::parse_error& error) {
            note(number, "is broken JSON at byte " + std::to_string(error.byte),
                 error.byte > text.size() ? "was the file cut short?" : "every line is one whole answer");
            return {};
        }
        if (!twice.empty()) note(number, "has '" + twice.substr(0, 40) + "' twice", "leave the right one");
        if (!members.is_object()) note(number, "is no JSON object", "every line is one answer, in braces");
        return twice.empty() && members.is_object() ? std::move(members) : json{};
    }
    static bool format_is_known(const Line& line) {
        const auto format = line.text("format");
        if (format == kFormat) return true;
        if (format.starts_with(kFamily))
            line.fault("format", "'" + format.substr(0, 40) + "' is newer than this Greentag knows",
                       "bring this machine's Greentag up to date");
        else if (!format.empty())
            line.fault("format", "'" + format.substr(0, 40) + "' is not known",
                       "'greentag record export' writes " + std::string{kFormat});
        return false;
    }
    void remember(const AnswerRecord& record, const std::string& name) {
        // An export has no name for someone who is not in its crew; whoever takes the answers in may know them.
        if (name.empty()) return;
        auto& kept = names_[record.learner];
        kept = std::max(kept, std::pair{record.asked_at, name});
        if (std::get<1>(kept).empty()) kept = {record.asked_at, name};
    }
    static Learner named_learner(const base::Id128& id, const std::string& name) {
        Learner learner;
        learner.id = id;
        learner.name = name;
        learner.added_at = day_in(id);
        return learner;
    }
    void note(int number, std::string what, std::string mend) {
        faults_.push_back({part_.file, "", number, std::move(what), std::move(mend)});
    }

    std::string_view text_;
    LogPart part_;
    base::Faults faults_;
    std::map<base::Id128, std::pair<base::Instant, std::string>> names_;
};

}  // namespace

base::Checked<LogPart> read_log(std::string_view text, const std::string& file) {
    return LogReader{text, file}.read();
}

}  // namespace store
