#include "practice/shop/meeting_slots.hpp"

#include <algorithm>
#include <cctype>

#include "base/text.hpp"

namespace practice {
namespace {

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/// The character at a place, whole where it takes several bytes.
std::string character_at(std::string_view text, std::size_t at) {
    std::size_t end = at + 1;
    while (end < text.size() && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) ++end;
    const auto whole = text.substr(at, end - at);
    const auto first = static_cast<unsigned char>(whole.front());
    if (base::first_bad_utf8(whole) || first < 0x20U || first == 0x7fU) return "a byte that is no letter";
    return "'" + std::string{whole} + "'";
}

/// What stands between "[" and "]": letters without blanks, or a number as written.
Slot group(std::string_view inside) {
    Slot slot;
    slot.grouped = true;
    slot.text = std::string{base::trim(inside)};
    const bool letters = std::ranges::all_of(slot.text, [](char c) { return is_letter(c) || c == ' ' || c == ','; });
    if (letters) std::erase_if(slot.text, [](char c) { return !is_letter(c); });
    if (slot.text == "-" || slot.text == ".") slot.text.clear();
    return slot;
}

}  // namespace

tl::expected<SheetLine, LineFault> read_line(std::string_view line) {
    SheetLine read;
    std::size_t at = 0;
    while (at < line.size() && is_digit(line[at])) read.sheet += line[at++];
    if (read.sheet.empty())
        return tl::unexpected<LineFault>{{"does not begin with a sheet number", "write it as: 12 bacd-a"}};
    if (at < line.size() && line[at] == ':') ++at;
    for (; at < line.size(); ++at) {
        const char c = line[at];
        if (c == ' ' || c == '\t' || c == ',') continue;
        if (c == '-' || c == '.') {
            read.slots.emplace_back();
        } else if (is_letter(c)) {
            read.slots.push_back({base::lower(line.substr(at, 1)), false, false});
        } else if (c == '[') {
            const auto close = line.find(']', at);
            if (close == std::string_view::npos)
                return tl::unexpected<LineFault>{
                    {"sheet " + read.sheet + ": a bracket is left open", "close it with ]"}};
            read.slots.push_back(group(line.substr(at + 1, close - at - 1)));
            at = close;
        } else if (c == '+' && !read.slots.empty() && !read.slots.back().sure) {
            read.slots.back().sure = true;
        } else {
            return tl::unexpected<LineFault>{
                {"sheet " + read.sheet + ": " + character_at(line, at) + " is no answer (after answer " +
                     std::to_string(read.slots.size()) + ")",
                 "write a letter, '-' for none, [ac] for several boxes, [18] for a number"}};
        }
    }
    return read;
}

Slot slot_in_cell(std::string_view cell, bool number) {
    cell = base::trim(cell);
    if (cell.starts_with('\'')) cell.remove_prefix(1);
    bool sure = false;
    if (cell.ends_with('+')) {
        sure = true;
        cell = base::trim(cell.substr(0, cell.size() - 1));
    }
    const bool bracketed = cell.size() >= 2 && cell.front() == '[' && cell.back() == ']';
    if (bracketed) cell = cell.substr(1, cell.size() - 2);
    Slot slot = group(cell);
    slot.grouped = bracketed || number;
    slot.sure = sure;
    return slot;
}

}  // namespace practice
