#include <algorithm>
#include <charconv>
#include <cmath>
#include <limits>

#include "base/located_json.hpp"
#include "base/quantity.hpp"
#include "report/meeting/meeting_json.hpp"

namespace report {
namespace {

using base::Reader;
using content::Ask;
using practice::Meeting;
using practice::MeetingAsk;
using practice::Sheet;

constexpr std::size_t kMostOptions = 26;

/// The member as text, turned into a value of ours; noted when it is none.
template <class Parse>
auto parsed(const Reader& r, std::string_view key, const std::string& mend, Parse parse) {
    const std::string text = r.text(key);
    auto value = parse(text);
    if (!value && r.has_text(key)) r.fault("\"" + std::string{key} + "\" is '" + text + "'", mend);
    return value;
}

std::optional<base::Seed> parse_seed(const std::string& text) {
    base::Seed seed = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), seed);
    if (text.empty() || read.ec != std::errc{} || read.ptr != text.data() + text.size()) return std::nullopt;
    return seed;
}

base::Seed seed_of(const Reader& r) {
    return parsed(r, "seed", "write a whole number as a text", parse_seed).value_or(0);
}

base::Id128 id_of(const Reader& r, std::string_view key) {
    return parsed(r, key, "write 32 hexadecimal digits", base::parse_id).value_or(base::Id128{});
}

std::string mistake_of(const Reader& r, Ask& ask) {
    std::string mistake = r.text("mistake");
    ask.mistakes[mistake] = r.text_or("means", "");
    return mistake;
}

void read_options(const Reader& r, Ask& ask) {
    std::size_t right = 0;
    for (const auto& item : r.items("options")) {
        content::Option option;
        option.text = item.text("text");
        option.right = item.flag_or("right", false);
        if (option.right) {
            ++right;
            ask.question.right.push_back(option.text);
        } else {
            option.mistake = mistake_of(item, ask);
            ask.question.wrong.push_back({option.text, option.mistake});
        }
        ask.options.push_back(std::move(option));
    }
    if (ask.options.size() < 2 || ask.options.size() > kMostOptions)
        r.fault("has " + std::to_string(ask.options.size()) + " options", "give it 2 to 26");
    if (right == 0 || (right > 1 && ask.question.form == content::Form::choose))
        r.fault("has " + std::to_string(right) + " right options", ask.question.form == content::Form::choose
                                                                       ? "mark exactly one as right"
                                                                       : "mark at least one as right");
}

void read_number(const Reader& r, Ask& ask) {
    const Reader answer = r.member("answer");
    ask.question.answer.value = answer.number("value");
    const auto unit = parsed(answer, "unit", "use a unit of content files, such as in3", base::parse_unit);
    ask.question.answer.unit = unit.value_or(base::Unit::count);
    ask.question.within = answer.number_or("within", 0.0);
    for (const auto& item : r.items_or_none("wrong")) {
        const double value = item.number("value");
        ask.question.wrong_numbers.push_back({value, mistake_of(item, ask)});
    }
}

trade::Basis read_basis(const Reader& r) {
    trade::Basis basis;
    const auto kind = parsed(r, "kind", "published, practice or memory", trade::parse_basis_kind);
    basis.kind = kind.value_or(trade::Basis::Kind::memory);
    basis.source = r.text_or("source", "");
    return basis;
}

MeetingAsk read_ask(const Reader& r, const Meeting& meeting) {
    MeetingAsk one;
    Ask& ask = one.ask;
    ask.id.text = r.text("question");
    ask.seed = meeting.seed;
    ask.edition = meeting.edition;
    ask.content = r.text("content");
    ask.question.point.text = r.text("point");
    ask.question.id = ask.id.text.substr(ask.id.text.find('#') + 1);
    const auto form = parsed(r, "form", "choose, choose-all or number", content::parse_form);
    ask.question.form = form.value_or(content::Form::choose);
    const auto reason = parsed(r, "reason", "such as \"article of the week\"", practice::parse_meeting_reason);
    one.reason = reason.value_or(practice::MeetingReason::week);
    ask.topic = r.text_or("topic", "");
    ask.title = r.text("title");
    const auto stakes = parsed(r, "stakes", "shock, fire, inspection or paperwork", content::parse_stakes);
    ask.stakes = stakes.value_or(content::Stakes::inspection);
    ask.version.editions = {meeting.edition, meeting.edition};
    ask.version.article = r.text("article");
    ask.version.says = r.text("says");
    ask.version.unverified = r.flag_or("unverified", false);
    ask.version.basis = read_basis(r.member("basis"));
    ask.caution = r.text_or("caution", "");
    ask.question.text = r.text("text");
    ask.question.why = r.text_or("why", "");
    if (practice::has_options(ask.question.form))
        read_options(r, ask);
    else if (ask.question.form == content::Form::number)
        read_number(r, ask);
    else
        r.fault("cannot be answered on paper", "use choose, choose-all or number");
    return one;
}

/// "cadb": a permutation of as many letters as there are options.
std::optional<std::vector<std::size_t>> order_of(const std::string& letters, std::size_t options) {
    if (letters.size() != options) return std::nullopt;
    std::vector<std::size_t> order;
    for (const char c : letters) {
        const auto place = static_cast<std::size_t>(c - 'a');
        if (c < 'a' || place >= options || std::ranges::count(order, place) > 0) return std::nullopt;
        order.push_back(place);
    }
    return order;
}

Sheet read_sheet(const Reader& r, const Meeting& meeting) {
    Sheet sheet;
    const double number = r.number("sheet");
    if (number < 1 || number > std::numeric_limits<int>::max() || number != std::floor(number))
        r.fault("\"sheet\" is no sheet number", "write a whole number from 1");
    else
        sheet.number = static_cast<int>(number);
    sheet.learner = id_of(r, "learner");
    sheet.name = r.text("name");
    sheet.seed = seed_of(r);
    const auto orders = r.texts("orders");
    if (orders.size() != meeting.asks.size())
        r.fault("has " + std::to_string(orders.size()) + " orders for " + std::to_string(meeting.asks.size()) + " asks",
                "give one for each ask, \"\" for a number");
    for (std::size_t i = 0; i < meeting.asks.size(); ++i) {
        auto order = i < orders.size() ? order_of(orders[i], meeting.asks[i].ask.options.size()) : std::nullopt;
        if (!order && i < orders.size())
            r.fault("the order '" + orders[i] + "' does not fit ask " + std::to_string(i + 1),
                    "name each option once, by its letter in the order of the document");
        sheet.orders.push_back(order.value_or(std::vector<std::size_t>{}));
    }
    return sheet;
}

void read_sheets(const Reader& r, Meeting& meeting) {
    for (const auto& item : r.items("sheets")) {
        Sheet sheet = read_sheet(item, meeting);
        if (practice::find_sheet(meeting, sheet.number) != nullptr)
            item.fault("sheet " + std::to_string(sheet.number) + " stands there twice", "leave one of them");
        if (std::ranges::count(meeting.sheets, sheet.learner, &Sheet::learner) > 0)
            item.fault("the learner has two sheets", "leave one of them");
        meeting.sheets.push_back(std::move(sheet));
    }
    std::ranges::stable_sort(meeting.sheets, {}, &Sheet::number);
}

Meeting read_document(const Reader& r) {
    Meeting meeting;
    if (r.has_text("format") && r.text("format") != "greentag-meeting/1")
        r.fault("is of format '" + r.text("format") + "'", "give a document of format greentag-meeting/1");
    else
        (void)r.text("format");
    meeting.id = id_of(r, "id");
    meeting.day =
        parsed(r, "day", "write a moment as 2026-03-02T07:00:00Z", base::parse_instant).value_or(base::Instant{});
    meeting.title = r.text_or("title", "");
    meeting.shop = r.text_or("shop", "");
    meeting.jurisdiction = r.text_or("jurisdiction", "");
    meeting.edition =
        parsed(r, "edition", "2017, 2020, 2023 or 2026", trade::parse_edition).value_or(trade::Edition::e2023);
    meeting.seed = seed_of(r);
    for (const auto& item : r.items("asks")) meeting.asks.push_back(read_ask(item, meeting));
    if (meeting.asks.empty()) r.fault("the meeting has no asks", "give at least one");
    read_sheets(r, meeting);
    return meeting;
}

}  // namespace

base::Checked<Meeting> read_meeting(std::string_view text, const std::string& file) {
    const auto located = base::parse_located(text, file);
    if (!located) return tl::unexpected<base::Faults>{located.error()};
    base::Faults faults;
    Meeting meeting = read_document(Reader{*located, file, "", faults});
    if (base::any_errors(faults)) return tl::unexpected<base::Faults>{std::move(faults)};
    return meeting;
}

}  // namespace report
