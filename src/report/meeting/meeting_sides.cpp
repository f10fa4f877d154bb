#include "report/meeting/meeting_sides.hpp"

#include <algorithm>
#include <cmath>

#include "base/quantity.hpp"
#include "base/text.hpp"

namespace report {
namespace {

using content::Ask;
using content::Form;

constexpr double kType = 12.0, kLine = 14.4;
constexpr double kWidth = 538.0, kHeight = 735.0;  // A4 and letter, less 10 mm on every side
constexpr double kStripWidth = 150.0;              // with the gap beside it
constexpr double kStripHead = 24.0, kStripRow = 26.0, kBoxesInRow = 4;
constexpr double kFrontTaken = 138.0;  // head, instructions, caution: 125 in DejaVu Sans
constexpr double kBackTaken = 70.0;    // head, note: 61 in DejaVu Sans
constexpr double kBetweenAsks = 8.0;
constexpr double kOptionIndent = 31.0, kColumnGap = 10.0;

double letter_width(char c) {
    constexpr std::string_view kThin = "ijlIJ'";
    constexpr std::string_view kNarrow = " ,./:;|f-\\";
    constexpr std::string_view kSlim = "()[]tr!\"";
    constexpr std::string_view kWide = "mMW%@w#+<=>^~";
    if (kThin.find(c) != std::string_view::npos) return 0.30;
    if (kNarrow.find(c) != std::string_view::npos) return 0.36;
    if (kSlim.find(c) != std::string_view::npos) return 0.46;
    if (kWide.find(c) != std::string_view::npos) return 1.0;
    if (c >= 'A' && c <= 'Z') return 0.79;
    // Of a letter of several bytes the first one counts.
    return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U ? 0.0 : 0.65;
}

/// Lines that a text takes, broken at blanks as a browser does.
std::size_t lines_of(const std::string& text, double width) {
    const double blank = type_width(" ");
    std::size_t lines = 1;
    double used = 0.0;
    for (const auto& word : base::split(text, ' ')) {
        const double wide = type_width(word);
        if (used > 0.0 && used + blank + wide > width) {
            ++lines;
            used = 0.0;
        }
        used += (used > 0.0 ? blank : 0.0) + wide;
        if (used > width) {
            const double full = std::ceil(used / width) - 1;
            lines += static_cast<std::size_t>(full);
            used -= full * width;
        }
        lines += static_cast<std::size_t>(std::ranges::count(word, '\n'));
    }
    return lines;
}

bool fits_two_columns(const Ask& ask, double width) {
    const double column = (width - kOptionIndent + 17.0 - kColumnGap) / 2 - 17.0;
    return std::ranges::all_of(ask.options, [&](const auto& option) { return type_width(option.text) <= column; });
}

double height_of(const Ask& ask, double width) {
    std::size_t lines = lines_of("12. " + printed_text(ask), width);
    if (fits_two_columns(ask, width))
        lines += (ask.options.size() + 1) / 2;
    else
        for (const auto& option : ask.options) lines += lines_of(option.text, width - kOptionIndent);
    return static_cast<double>(lines) * kLine + kBetweenAsks;
}

double strip_height(const practice::Meeting& meeting) {
    double height = kStripHead;
    for (const auto& one : meeting.asks)
        height += kStripRow * std::max(1.0, std::ceil(static_cast<double>(one.ask.options.size()) / kBoxesInRow));
    return height;
}

}  // namespace

double type_width(std::string_view text) {
    double width = 0.0;
    for (const char c : text) width += letter_width(c) * kType;
    return width;
}

std::string printed_text(const Ask& ask) {
    // Many texts say themselves that several may be right.
    const bool said = ask.question.text.find("Pick every") != std::string::npos ||
                      ask.question.text.find("Pick all") != std::string::npos;
    if (ask.question.form == Form::choose_all) return ask.question.text + (said ? "" : " Mark every one that applies.");
    if (ask.question.form != Form::number) return ask.question.text;
    const std::string unit{base::spoken(ask.question.answer.unit)};
    return ask.question.text + (unit.empty() || ask.question.text.find("in " + unit) != std::string::npos
                                    ? " Write the number."
                                    : " Write the number, in " + unit + ".");
}

std::vector<std::vector<PlacedAsk>> sides_of(const practice::Meeting& meeting) {
    std::vector<std::vector<PlacedAsk>> sides(1);
    const double beside_strip = strip_height(meeting);
    double at = 0.0;
    // Asks stand beside the strip as far as it reaches, and then across the whole side.
    const auto width = [&] { return sides.size() == 1 && at < beside_strip ? kWidth - kStripWidth : kWidth; };
    for (std::size_t i = 0; i < meeting.asks.size(); ++i) {
        const auto& ask = meeting.asks[i].ask;
        const double room = kHeight - (sides.size() == 1 ? kFrontTaken : kBackTaken);
        if (!sides.back().empty() && at + height_of(ask, width()) > room) {
            sides.emplace_back();
            at = 0.0;
        }
        sides.back().push_back({i, fits_two_columns(ask, width())});
        at += height_of(ask, width());
    }
    if (sides.size() > 1 && sides.size() % 2 == 1) sides.emplace_back();
    return sides;
}

}  // namespace report
