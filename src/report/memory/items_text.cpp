#include "report/memory/items_text.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/text.hpp"
#include "memory/items/flag_words.hpp"
#include "report/table.hpp"

namespace report {
namespace {

using memory::ItemFlag;
using Lines = std::vector<std::string>;

std::string figure(double value) {
    return std::isfinite(value) ? base::number_text(value, 2) : "-";
}

std::size_t flagged(const practice::ItemFigures& figures, ItemFlag flag) {
    return static_cast<std::size_t>(
        std::count_if(figures.flags.begin(), figures.flags.end(), [&](const auto& one) { return one.flag == flag; }));
}

void add_flags(Lines& lines, const practice::ItemLog& log, const practice::ItemFigures& figures, const Page& page) {
    std::optional<std::uint32_t> last;
    for (const auto& flag : figures.flags) {
        if (flag.flag == ItemFlag::too_few) continue;
        const auto& summary = figures.summaries[flag.item];
        if (last != flag.item)
            lines.push_back(inked(page, Ink::bold, log.items[flag.item].id.text) + "  " + counted(summary.n, "answer") +
                            ", " + percent(summary.share_right.estimate) + " right");
        last = flag.item;
        add(lines, page, memory::in_words(flag), 4, Ink::warn);
        const auto& options = log.items[flag.item].options;
        if (flag.option >= 0 && static_cast<std::size_t>(flag.option) < options.size())
            add(lines, page, "that option: " + options[static_cast<std::size_t>(flag.option)], 4, Ink::faint);
    }
}

void add_table(Lines& lines, const practice::ItemLog& log, const practice::ItemFigures& figures, const Page& page) {
    std::size_t width = 8;
    for (const auto& item : log.items) width = std::max(width, item.id.text.size());
    width = std::min(width, page.width > 54 ? page.width - 46 : std::size_t{12});
    lines.emplace_back();
    lines.push_back(inked(page, Ink::bold,
                          padded("question", width) + right_set("n", 6) + right_set("right", 7) + right_set("r", 7) +
                              right_set("slope", 8) + right_set("difficult", 10) + right_set("time", 7)));
    for (std::size_t n = 0; n < log.items.size(); ++n) {
        const auto& summary = figures.summaries[n];
        const auto& item = figures.fitted.items[n];
        const std::string r = summary.discrimination ? figure(summary.discrimination->correlation.estimate) : "-";
        const std::string slope = item.estimated ? figure(item.slope) : "-";
        const std::string difficulty = item.estimated && item.difficulty ? figure(*item.difficulty) : "-";
        const std::string seconds =
            summary.times.n > 0 ? std::to_string(std::lround(summary.times.median / 1000)) + " s" : "-";
        lines.push_back(padded(log.items[n].id.text, width) + right_set(std::to_string(summary.n), 6) +
                        right_set(percent(summary.share_right.estimate), 7) + right_set(r, 7) + right_set(slope, 8) +
                        right_set(difficulty, 10) + right_set(seconds, 7));
    }
    add(lines, page,
        std::string{"r: how being right goes with ability on the other questions. slope, difficulty: logistic model, "
                    "ability with mean 0 and standard deviation 1"} +
            (figures.fitted.options.prior ? ", held lightly to usual values" : "") + ". time: the median.",
        0, Ink::faint);
}

}  // namespace

std::vector<std::string> items_text(const practice::ItemLog& log, const practice::ItemFigures& figures, bool all,
                                    const Page& page) {
    Lines lines;
    add(lines, page,
        counted(log.items.size(), "question") + ", " + counted(log.learners, "learner") + ", " +
            counted(figures.counted, "first answer") + "; " + counted(figures.repeats, "later answer") +
            " left out, as they tell of memory and not of the question.");
    const std::size_t silent = flagged(figures, ItemFlag::too_few);
    if (silent > 0)
        add(lines, page, "Of " + counted(silent, "question") + " too few have answered to say anything.", 0,
            Ink::faint);
    const std::size_t telling = figures.flags.size() - silent;
    if (telling > 0) lines.emplace_back();
    add_flags(lines, log, figures, page);
    if (telling == 0) add(lines, page, "No question is flagged.", 0, Ink::good);
    if (all) add_table(lines, log, figures, page);
    return lines;
}

}  // namespace report
