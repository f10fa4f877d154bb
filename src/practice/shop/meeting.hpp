#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/ids.hpp"
#include "base/instant.hpp"
#include "base/random.hpp"
#include "content/ask.hpp"
#include "store/crew.hpp"
#include "trade/edition.hpp"

namespace practice {

/// Why an ask is in a meeting.
enum class MeetingReason : std::uint8_t { sure_and_wrong, correction, job, week, rotation };
/// "sure and wrong", "correction", "coming job", "article of the week", "rotation".
[[nodiscard]] std::string_view to_text(MeetingReason reason);
[[nodiscard]] std::optional<MeetingReason> parse_meeting_reason(std::string_view text);

/// One ask of a meeting. Its options stand in authored order, the right ones first: every sheet has its own order.
/// ask.mistakes holds the lines of all its mistakes, so that nothing has to be looked up after the meeting.
struct MeetingAsk {
    content::Ask ask;
    MeetingReason reason = MeetingReason::week;
};

/// The paper of one learner. All sheets of a meeting have the asks in the same order, so that the crew can talk of
/// "number four" and a lead reads all sheets by one key; the options of each ask stand in an order of the sheet's own.
struct Sheet {
    int number = 0;  ///< counted from 1, unique in the meeting
    base::Id128 learner;
    std::string name;
    /// content::compose with this seed gives the asks with their options in the order of this sheet: what the answer
    /// log keeps as the seed of an answer, so that a letter on paper stays a letter of a known order.
    base::Seed seed = 0;
    /// For each ask: the option shown at a, b, c ... by its place in authored order; empty for a number.
    std::vector<std::vector<std::size_t>> orders;
};

/// A meeting as it was printed.
struct Meeting {
    base::Id128 id;       ///< see meeting_id
    base::Instant day{};  ///< when it is held; answers from paper are kept as given at this moment
    std::string title, shop, jurisdiction;
    trade::Edition edition = trade::Edition::e2023;
    base::Seed seed = 0;
    std::vector<MeetingAsk> asks;
    std::vector<Sheet> sheets;  ///< by number, rising
};

/// The forms that can be answered on paper: choose (one box), choose-all (several boxes) and number (a line to write
/// on). Article, order and recall would be written out, and a lead could not mark those at a glance.
[[nodiscard]] bool on_paper(content::Form form);
[[nodiscard]] bool has_options(content::Form form);

/// A hash of day, edition, seed and asks with their content versions: the same plan has the same id on every machine.
/// Sheets are no part of it, so that somebody who turns up can be given one.
[[nodiscard]] base::Id128 meeting_id(const Meeting& meeting);

/// 128 bits that follow from a text and a moment: 48 bits of milliseconds as in a version 7 UUID, so that ids sort by
/// time, then 74 bits of two 64-bit hashes of the text; marked as version 8 (RFC 9562 section 5.8, "vendor-specific").
[[nodiscard]] base::Id128 id_from(std::string_view text, base::Instant when);

/// Gives a sheet to everybody who has none yet and has not retired, in the order given. Numbers already given stay.
void add_sheets(Meeting& meeting, const std::vector<store::Learner>& crew);

/// The order in which content::compose shows the options of a question: places in authored order.
[[nodiscard]] std::vector<std::size_t> option_order(base::Seed seed, const base::QuestionId& question,
                                                    std::size_t options);

[[nodiscard]] const Sheet* find_sheet(const Meeting& meeting, int number);

/// Letters on this sheet of options named by their place in authored order, "ac": sorted as on the sheet.
[[nodiscard]] std::string letters_of(const Sheet& sheet, std::size_t ask, const std::vector<std::size_t>& options);
/// The way back: places in authored order, rising. Nothing when a letter is none of this ask's, or the text is empty.
[[nodiscard]] std::optional<std::vector<std::size_t>> options_of(const Sheet& sheet, std::size_t ask,
                                                                 std::string_view letters);

/// An ask as this sheet shows it, ready for marking: options in the sheet's order, the sheet's seed.
[[nodiscard]] content::Ask ask_on(const Meeting& meeting, const Sheet& sheet, std::size_t ask);

/// What is right on this sheet: "b", "acd", "18 in3".
[[nodiscard]] std::string right_on(const Meeting& meeting, const Sheet& sheet, std::size_t ask);

}  // namespace practice
