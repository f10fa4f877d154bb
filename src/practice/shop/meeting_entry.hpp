#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/fault.hpp"
#include "base/ids.hpp"
#include "content/library.hpp"
#include "memory/state.hpp"
#include "practice/mark.hpp"
#include "practice/shop/meeting.hpp"
#include "store/answer_log.hpp"
#include "store/crew.hpp"

namespace practice {

/// One answer from paper, marked by what was printed.
struct Entry {
    base::Id128 id;  ///< see entry_id
    int sheet = 0;
    base::Id128 learner;
    std::string name;
    std::size_t ask = 0;                       ///< place in the meeting, from 0
    std::string given;                         ///< letters as on the sheet, rising, or a number; empty: left blank
    memory::Sure sure = memory::Sure::fairly;  ///< sure: the box was ticked; guess: left blank
    Mark mark{};                               ///< left blank: 0, no mistake
    [[nodiscard]] bool blank() const { return given.empty(); }
    [[nodiscard]] bool right() const { return mark.mark >= memory::kRecalledFrom; }
};

/// The answers of all sheets without a fault, by line and ask; and everything that was wrong with the others. The good
/// ones can be kept at once: entering all of it again after mending adds what was missing and nothing else.
struct Entered {
    std::vector<Entry> entries;
    base::Faults faults;  ///< errors of sheets that were not taken; warnings of what was taken
};

struct EnterFor {
    std::string file;                  ///< named in faults
    std::vector<store::Learner> crew;  ///< to tell who has left or is not known; empty: not looked at
};

/// Reads one sheet a line: the sheet number, then one answer for each ask; spaces and commas between them as you like.
///   b      the box that was marked          [ac]     several boxes (choose-all)
///   - or . none                             [18 in]  a number, with its unit or without; a comma stays in it
///   b+     the same, and "sure" was ticked
/// Capitals count as small letters; ':' may follow the sheet number; empty lines and lines that begin with # are
/// passed over.
/// Errors, each with its line: no sheet number; a sheet the meeting does not have; another number of answers than asks;
/// a letter that is none of the ask's; several letters where one is wanted; no number where one is wanted; anything
/// else between answers; a bracket left open; a sheet that stands there twice with different answers (neither is
/// taken); a learner who is not in the crew.
/// Warnings: the same sheet twice with the same answers; nothing but blanks (taken as not there, nothing is kept); a
/// learner who has left.
[[nodiscard]] Entered enter_lines(const Meeting& meeting, std::string_view text, const EnterFor& what);

/// The same from CSV (RFC 4180): sheet, q1, q2, ... A first row that begins with "sheet" names the columns, in any
/// order; others are passed over with a warning. Cells hold what stands for one answer above, brackets not needed; an
/// empty cell is none.
[[nodiscard]] Entered enter_csv(const Meeting& meeting, std::string_view text, const EnterFor& what);

/// A hash of meeting, sheet, learner and ask, not of the answer: entering a sheet twice gives the same ids, and a log
/// that passes over ids it has takes nothing twice. Begins with the day of the meeting; layout as id_from.
[[nodiscard]] base::Id128 entry_id(const Meeting& meeting, const Sheet& sheet, std::size_t ask);

/// What the answer log keeps. Blanks are kept as "!" with a guess, as "I do not know" is in a session; the time it took
/// is not known: 0. The device is the caller's to give.
[[nodiscard]] store::AnswerRecord record_of(const Meeting& meeting, const Entry& entry);

/// The answers of this meeting that a log holds, by sheet and ask; other records are passed over.
[[nodiscard]] std::vector<Entry> entries_in_log(const Meeting& meeting, const std::vector<store::AnswerRecord>& log);

/// A warning for each entry that the log has already with another answer: the first one stays.
[[nodiscard]] base::Faults told_of_differing(const std::vector<Entry>& entered, const std::vector<Entry>& in_log);

/// Asks, by place, whose question is gone or has another content version in the library than was printed.
[[nodiscard]] std::vector<std::size_t> changed_asks(const Meeting& meeting, const content::Library& library);
/// A warning for each of them: it is marked by what was printed.
[[nodiscard]] base::Faults told_of_changed(const Meeting& meeting, const std::vector<std::size_t>& changed);

}  // namespace practice
