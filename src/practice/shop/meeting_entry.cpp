#include "practice/shop/meeting_entry.hpp"

#include <algorithm>
#include <charconv>
#include <iterator>
#include <map>
#include <unordered_map>

#include "base/csv.hpp"
#include "base/quantity.hpp"
#include "base/text.hpp"
#include "content/compose.hpp"
#include "practice/shop/meeting_slots.hpp"

namespace practice {
namespace {

using content::Form;

bool same_answers(const std::vector<Entry>& a, const std::vector<Entry>& b) {
    return std::ranges::equal(a, b,
                              [](const Entry& x, const Entry& y) { return x.given == y.given && x.sure == y.sure; });
}

/// What was entered, fit to be shown: control characters and broken bytes are not passed on to a terminal.
std::string shown(std::string_view text) {
    if (base::first_bad_utf8(text)) return "(not readable text)";
    std::string out{text};
    std::ranges::replace_if(
        out, [](char c) { return static_cast<unsigned char>(c) < 0x20U || c == '\x7f'; }, '?');
    return out;
}

/// Takes sheets one after another, from whichever writing, and keeps the good ones.
class Desk {
public:
    Desk(const Meeting& meeting, const EnterFor& what) : meeting_{meeting}, what_{what} {}

    void fault(int line, std::string what, std::string mend, bool warning = false) {
        faults_.push_back({what_.file, "", line, std::move(what), std::move(mend), warning});
    }
    void take(int line, std::string_view number, const std::vector<Slot>& slots);
    [[nodiscard]] Entered done() &&;

private:
    struct Taken {
        int line = 0;
        std::vector<Entry> entries;
        bool dropped = false;  ///< stood there twice, with different answers
    };

    [[nodiscard]] bool learner_known(int line, const Sheet& sheet);
    [[nodiscard]] bool fits(int line, const Sheet& sheet, std::size_t ask, const Slot& slot);
    [[nodiscard]] std::optional<Entry> entry(int line, const Sheet& sheet, std::size_t ask, const Slot& slot);
    void keep(int line, const Sheet& sheet, std::vector<Entry> entries);

    const Meeting& meeting_;
    const EnterFor& what_;
    std::map<int, Taken> taken_;
    std::vector<int> order_;
    base::Faults faults_;
};

std::string named(const Sheet& sheet) {
    return "sheet " + std::to_string(sheet.number) + " (" + sheet.name + ")";
}

std::string at(const Sheet& sheet, std::size_t ask) {
    return "sheet " + std::to_string(sheet.number) + ", ask " + std::to_string(ask + 1) + ": ";
}

bool Desk::learner_known(int line, const Sheet& sheet) {
    if (what_.crew.empty()) return true;
    const auto found = std::ranges::find(what_.crew, sheet.learner, &store::Learner::id);
    if (found == what_.crew.end()) {
        fault(line, named(sheet) + " is of somebody who is not in this crew",
              "enter it where that learner's answers are kept");
        return false;
    }
    if (found->retired_at) fault(line, named(sheet) + ": has left; the answers are kept", "nothing to do", true);
    return true;
}

bool Desk::fits(int line, const Sheet& sheet, std::size_t ask, const Slot& slot) {
    const auto& posed = meeting_.asks[ask].ask;
    if (posed.question.form == Form::number) {
        if (slot.grouped && base::parse_typed_quantity(slot.text)) return true;
        fault(line, at(sheet, ask) + "'" + shown(slot.text) + "' is not a number as it is entered",
              "put the number in brackets, such as [18]; '-' when nothing was written");
        return false;
    }
    const std::string last = content::letter(posed.options.size() - 1);
    const auto options = options_of(sheet, ask, slot.text);
    if (!options) {
        fault(line, at(sheet, ask) + "there is no box '" + shown(slot.text) + "'",
              "the boxes are a to " + last + "; '-' when none was marked");
        return false;
    }
    if (posed.question.form == Form::choose && options->size() != 1) {
        fault(line, at(sheet, ask) + "'" + shown(slot.text) + "' are several boxes where one was to be marked",
              "enter the box that counts, or '-' for none");
        return false;
    }
    return true;
}

std::optional<Entry> Desk::entry(int line, const Sheet& sheet, std::size_t ask, const Slot& slot) {
    Entry one;
    one.id = entry_id(meeting_, sheet, ask);
    one.sheet = sheet.number;
    one.learner = sheet.learner;
    one.name = sheet.name;
    one.ask = ask;
    one.sure = slot.text.empty() ? memory::Sure::guess : slot.sure ? memory::Sure::sure : memory::Sure::fairly;
    if (slot.text.empty()) return one;
    if (!fits(line, sheet, ask, slot)) return std::nullopt;
    const auto options =
        has_options(meeting_.asks[ask].ask.question.form) ? options_of(sheet, ask, slot.text) : std::nullopt;
    one.given = options ? letters_of(sheet, ask, *options) : slot.text;
    auto marked = mark(ask_on(meeting_, sheet, ask), one.given);
    if (!marked) {
        fault(line, at(sheet, ask) + "'" + shown(slot.text) + "' is no answer", marked.error());
        return std::nullopt;
    }
    one.mark = std::move(*marked);
    return one;
}

void Desk::keep(int line, const Sheet& sheet, std::vector<Entry> entries) {
    const auto before = taken_.find(sheet.number);
    if (before == taken_.end()) {
        order_.push_back(sheet.number);
        taken_[sheet.number] = {line, std::move(entries), false};
        return;
    }
    const std::string first = "line " + std::to_string(before->second.line);
    if (!before->second.dropped && same_answers(before->second.entries, entries)) {
        fault(line, named(sheet) + " stands in " + first + " already, with the same answers", "it counts once", true);
        return;
    }
    before->second.dropped = true;
    fault(line, named(sheet) + " stands in " + first + " already, with other answers",
          "see which is right and leave one; neither is taken");
}

void Desk::take(int line, std::string_view number, const std::vector<Slot>& slots) {
    int value = 0;
    const auto read = std::from_chars(number.data(), number.data() + number.size(), value);
    const bool whole = read.ec == std::errc{} && read.ptr == number.data() + number.size();
    const Sheet* sheet = whole ? find_sheet(meeting_, value) : nullptr;
    if (sheet == nullptr) {
        const std::string mend =
            meeting_.sheets.empty() ? std::string{"the meeting has no sheets yet"}
                                    : "the sheets run from " + std::to_string(meeting_.sheets.front().number) + " to " +
                                          std::to_string(meeting_.sheets.back().number) + "; is it of another meeting?";
        return fault(line, "there is no sheet '" + shown(number) + "' in this meeting", mend);
    }
    if (slots.size() != meeting_.asks.size())
        return fault(line,
                     named(*sheet) + " has " + std::to_string(slots.size()) + " answers; the meeting has " +
                         std::to_string(meeting_.asks.size()) + " asks",
                     "enter one for each ask, '-' where nothing was marked");
    bool good = learner_known(line, *sheet);
    std::vector<Entry> entries;
    for (std::size_t ask = 0; ask < slots.size(); ++ask) {
        auto one = entry(line, *sheet, ask, slots[ask]);
        good = good && one.has_value();
        if (one) entries.push_back(std::move(*one));
    }
    if (good) keep(line, *sheet, std::move(entries));
}

Entered Desk::done() && {
    Entered entered;
    for (const int number : order_) {
        auto& taken = taken_.at(number);
        if (taken.dropped) continue;
        if (std::ranges::all_of(taken.entries, &Entry::blank)) {
            fault(taken.line, named(*find_sheet(meeting_, number)) + " has no answer at all: taken as not there",
                  "nothing is kept of it", true);
            continue;
        }
        std::ranges::move(taken.entries, std::back_inserter(entered.entries));
    }
    std::ranges::stable_sort(faults_, {}, &base::Fault::line);
    entered.faults = std::move(faults_);
    return entered;
}

/// Which cell holds the sheet, and which each ask.
struct Columns {
    std::size_t sheet = 0;
    std::vector<std::size_t> asks;
};

std::optional<Columns> columns_of(const base::CsvRow& row, std::size_t asks, Desk& desk) {
    Columns columns;
    std::map<std::string, std::size_t> named_cells;
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
        const std::string name = base::lower(base::trim(row.cells[i]));
        if (!name.empty() && !named_cells.emplace(name, i).second) {
            desk.fault(row.line, "two columns are named '" + shown(name) + "'", "leave one of them");
            return std::nullopt;
        }
    }
    columns.sheet = named_cells.at("sheet");
    named_cells.erase("sheet");
    bool complete = true;
    for (std::size_t ask = 1; ask <= asks; ++ask) {
        const std::string name = "q" + std::to_string(ask);
        const auto found = named_cells.find(name);
        if (found == named_cells.end()) {
            desk.fault(row.line, "there is no column '" + name + "'", "the meeting has q1 to q" + std::to_string(asks));
            complete = false;
            continue;
        }
        columns.asks.push_back(found->second);
        named_cells.erase(found);
    }
    for (const auto& [name, at] : named_cells)
        if (name != "name" && name != "learner")
            desk.fault(row.line, "the column '" + shown(name) + "' is not used",
                       "the meeting has q1 to q" + std::to_string(asks), true);
    return complete ? std::optional{columns} : std::nullopt;
}

Columns plain_columns(const base::CsvRow& row) {
    Columns columns;
    for (std::size_t i = 1; i < row.cells.size(); ++i) columns.asks.push_back(i);
    return columns;
}

bool names_columns(const base::CsvRow& row) {
    return std::ranges::any_of(row.cells, [](const auto& cell) { return base::lower(base::trim(cell)) == "sheet"; });
}

void take_row(const base::CsvRow& row, const Columns& columns, const Meeting& meeting, Desk& desk) {
    const auto cell = [&](std::size_t at) { return at < row.cells.size() ? base::trim(row.cells[at]) : ""; };
    if (std::ranges::all_of(row.cells, [](const auto& c) { return base::trim(c).empty(); })) return;
    std::vector<Slot> slots;
    for (std::size_t ask = 0; ask < columns.asks.size(); ++ask) {
        const bool number = ask < meeting.asks.size() && meeting.asks[ask].ask.question.form == Form::number;
        slots.push_back(slot_in_cell(cell(columns.asks[ask]), number));
    }
    desk.take(row.line, cell(columns.sheet), slots);
}

std::string current_version(const content::Library& library, const content::Ask& printed) {
    const auto* entry = library.find(printed.question.point);
    if (entry == nullptr || !entry->editions.contains(printed.edition)) return {};
    const auto& point = library.point(*entry);
    const auto* version = point.version(printed.edition);
    if (version == nullptr) return {};
    for (const auto* question : content::questions_for(point, printed.edition))
        if (point.id.text + "#" + question->id == printed.id.text) return content::content_version(*question, *version);
    return {};
}

}  // namespace

base::Id128 entry_id(const Meeting& meeting, const Sheet& sheet, std::size_t ask) {
    return id_from("entry\n" + base::to_text(meeting.id) + '\n' + std::to_string(sheet.number) + '\n' +
                       base::to_text(sheet.learner) + '\n' + std::to_string(ask) + '\n' +
                       meeting.asks.at(ask).ask.id.text,
                   meeting.day);
}

Entered enter_lines(const Meeting& meeting, std::string_view text, const EnterFor& what) {
    Desk desk{meeting, what};
    int number = 0;
    for (const auto& whole : base::split(text, '\n')) {
        ++number;
        const auto line = base::trim(whole);
        if (line.empty() || line.front() == '#') continue;
        const auto read = read_line(line);
        if (!read)
            desk.fault(number, read.error().what, read.error().mend);
        else
            desk.take(number, read->sheet, read->slots);
    }
    return std::move(desk).done();
}

Entered enter_csv(const Meeting& meeting, std::string_view text, const EnterFor& what) {
    const auto rows = base::parse_csv(text, what.file);
    if (!rows) return {{}, rows.error()};
    Desk desk{meeting, what};
    std::optional<Columns> columns;
    for (std::size_t i = 0; i < rows->size(); ++i) {
        const auto& row = (*rows)[i];
        if (i == 0 && names_columns(row)) {
            columns = columns_of(row, meeting.asks.size(), desk);
            if (!columns) break;
            continue;
        }
        take_row(row, columns ? *columns : plain_columns(row), meeting, desk);
    }
    return std::move(desk).done();
}

store::AnswerRecord record_of(const Meeting& meeting, const Entry& entry) {
    const auto& ask = meeting.asks.at(entry.ask).ask;
    store::AnswerRecord record;
    record.id = entry.id;
    record.learner = entry.learner;
    record.point = ask.question.point;
    record.question = ask.id;
    record.content = ask.content;
    const auto* sheet = find_sheet(meeting, entry.sheet);
    record.seed = sheet == nullptr ? ask.seed : sheet->seed;
    record.edition = static_cast<int>(meeting.edition);
    record.jurisdiction = meeting.jurisdiction;
    record.setting = store::Setting::meeting;
    record.asked_at = meeting.day;
    record.mark = entry.mark.mark;
    record.sure = entry.sure;
    record.given = entry.blank() ? "!" : entry.given;
    return record;
}

std::vector<Entry> entries_in_log(const Meeting& meeting, const std::vector<store::AnswerRecord>& log) {
    std::unordered_map<base::Id128, const store::AnswerRecord*> by_id;
    for (const auto& record : log) by_id.emplace(record.id, &record);
    std::vector<Entry> entries;
    for (const auto& sheet : meeting.sheets)
        for (std::size_t ask = 0; ask < meeting.asks.size(); ++ask) {
            const auto found = by_id.find(entry_id(meeting, sheet, ask));
            if (found == by_id.end()) continue;
            const auto& record = *found->second;
            Entry one{record.id, sheet.number, sheet.learner, sheet.name, ask, "", record.sure, {}};
            if (record.given != "!") one.given = record.given;
            const auto marked = mark(ask_on(meeting, sheet, ask), one.given);
            if (marked) one.mark = *marked;
            one.mark.mark = record.mark;  // the log's word stands, whatever marking has become since
            entries.push_back(std::move(one));
        }
    return entries;
}

base::Faults told_of_differing(const std::vector<Entry>& entered, const std::vector<Entry>& in_log) {
    std::unordered_map<base::Id128, const Entry*> known;
    for (const auto& one : in_log) known.emplace(one.id, &one);
    base::Faults told;
    for (const auto& one : entered) {
        const auto found = known.find(one.id);
        if (found == known.end() || (found->second->given == one.given && found->second->sure == one.sure)) continue;
        const auto word = [](const Entry& e) {
            return (e.blank() ? std::string{"none"} : "'" + e.given + "'") +
                   (e.sure == memory::Sure::sure ? " and sure" : "");
        };
        told.push_back({"", "", 0,
                        "sheet " + std::to_string(one.sheet) + ", ask " + std::to_string(one.ask + 1) +
                            ": was entered before as " + word(*found->second) + ", now as " + word(one),
                        "the answer log keeps the first", true});
    }
    return told;
}

std::vector<std::size_t> changed_asks(const Meeting& meeting, const content::Library& library) {
    std::vector<std::size_t> changed;
    for (std::size_t i = 0; i < meeting.asks.size(); ++i)
        if (current_version(library, meeting.asks[i].ask) != meeting.asks[i].ask.content) changed.push_back(i);
    return changed;
}

base::Faults told_of_changed(const Meeting& meeting, const std::vector<std::size_t>& changed) {
    base::Faults told;
    for (const auto at : changed)
        told.push_back({"", "", 0,
                        "ask " + std::to_string(at + 1) + " (" + meeting.asks.at(at).ask.title +
                            ") has changed in the library since it was printed",
                        "it is marked by what was printed; tell the crew what is different now", true});
    return told;
}

}  // namespace practice
