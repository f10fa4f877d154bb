#include "practice/shop/meeting.hpp"

#include <algorithm>
#include <array>
#include <numeric>

#include "base/text.hpp"

namespace practice {
namespace {

constexpr std::array<std::string_view, 5> kReasons = {"sure and wrong", "correction", "coming job",
                                                      "article of the week", "rotation"};

void put_in(std::array<std::uint8_t, 16>& bytes, std::size_t at, std::size_t count, std::uint64_t value) {
    for (std::size_t i = 0; i < count; ++i)
        bytes[at + i] = static_cast<std::uint8_t>(value >> (8U * (count - 1 - i)) & 0xffU);
}

}  // namespace

std::string_view to_text(MeetingReason reason) {
    return kReasons.at(static_cast<std::size_t>(reason));
}

std::optional<MeetingReason> parse_meeting_reason(std::string_view text) {
    const auto found = std::ranges::find(kReasons, text);
    if (found == kReasons.end()) return std::nullopt;
    return static_cast<MeetingReason>(found - kReasons.begin());
}

bool on_paper(content::Form form) {
    return has_options(form) || form == content::Form::number;
}

bool has_options(content::Form form) {
    return form == content::Form::choose || form == content::Form::choose_all;
}

base::Id128 id_from(std::string_view text, base::Instant when) {
    const auto ms = static_cast<std::uint64_t>(std::max<std::int64_t>(0, base::to_milliseconds(when)));
    base::Id128 id;
    put_in(id.bytes, 0, 6, ms);
    put_in(id.bytes, 6, 2, base::stable_hash("first\n" + std::string{text}) >> 48U);
    put_in(id.bytes, 8, 8, base::derive_seed(base::stable_hash("second\n" + std::string{text}), "id"));
    id.bytes[6] = static_cast<std::uint8_t>(0x80U | (id.bytes[6] & 0x0fU));
    id.bytes[8] = static_cast<std::uint8_t>(0x80U | (id.bytes[8] & 0x3fU));
    return id;
}

base::Id128 meeting_id(const Meeting& meeting) {
    std::string text = "meeting\n" + base::to_text(meeting.day) + '\n' + trade::to_text(meeting.edition) + '\n' +
                       std::to_string(meeting.seed);
    for (const auto& one : meeting.asks) text += '\n' + one.ask.id.text + ' ' + one.ask.content;
    return id_from(text, meeting.day);
}

std::vector<std::size_t> option_order(base::Seed seed, const base::QuestionId& question, std::size_t options) {
    // The same draw as in content::compose; a test holds the two against each other.
    std::vector<std::size_t> order(options);
    std::iota(order.begin(), order.end(), std::size_t{0});
    base::Random random{base::derive_seed(base::derive_seed(seed, question.text), "options")};
    random.shuffle(order);
    return order;
}

void add_sheets(Meeting& meeting, const std::vector<store::Learner>& crew) {
    for (const auto& learner : crew) {
        const bool has_one = std::ranges::count(meeting.sheets, learner.id, &Sheet::learner) > 0;
        if (has_one || learner.retired_at) continue;
        Sheet sheet;
        sheet.number = meeting.sheets.empty() ? 1 : meeting.sheets.back().number + 1;
        sheet.learner = learner.id;
        sheet.name = learner.name;
        sheet.seed = base::derive_seed(meeting.seed, "sheet " + std::to_string(sheet.number));
        for (const auto& one : meeting.asks)
            sheet.orders.push_back(option_order(sheet.seed, one.ask.id, one.ask.options.size()));
        meeting.sheets.push_back(std::move(sheet));
    }
}

const Sheet* find_sheet(const Meeting& meeting, int number) {
    const auto found = std::ranges::find(meeting.sheets, number, &Sheet::number);
    return found == meeting.sheets.end() ? nullptr : &*found;
}

std::string letters_of(const Sheet& sheet, std::size_t ask, const std::vector<std::size_t>& options) {
    const auto& order = sheet.orders.at(ask);
    std::string letters;
    for (std::size_t shown = 0; shown < order.size(); ++shown)
        if (std::ranges::count(options, order[shown]) > 0) letters += content::letter(shown);
    return letters;
}

std::optional<std::vector<std::size_t>> options_of(const Sheet& sheet, std::size_t ask, std::string_view letters) {
    const auto& order = sheet.orders.at(ask);
    std::vector<std::size_t> options;
    for (const char c : base::lower(letters)) {
        const auto shown = static_cast<std::size_t>(c - 'a');
        if (c < 'a' || shown >= order.size()) return std::nullopt;
        options.push_back(order[shown]);
    }
    if (options.empty()) return std::nullopt;
    std::ranges::sort(options);
    options.erase(std::unique(options.begin(), options.end()), options.end());
    return options;
}

content::Ask ask_on(const Meeting& meeting, const Sheet& sheet, std::size_t ask) {
    content::Ask shown = meeting.asks.at(ask).ask;
    const auto& order = sheet.orders.at(ask);
    for (std::size_t i = 0; i < order.size(); ++i) shown.options[i] = meeting.asks[ask].ask.options.at(order[i]);
    shown.seed = sheet.seed;
    return shown;
}

std::string right_on(const Meeting& meeting, const Sheet& sheet, std::size_t ask) {
    return content::right_answer(ask_on(meeting, sheet, ask));
}

}  // namespace practice
