#include "base/flat_json.hpp"

#include <algorithm>
#include <array>
#include <charconv>

namespace base {
namespace {

/// Printable ASCII but quotes and backslashes.
constexpr auto kPlain = [] {
    std::array<bool, 256> plain{};
    for (std::size_t c = 0x20; c < 0x7f; ++c) plain.at(c) = c != '"' && c != '\\';
    return plain;
}();

bool is_plain(char c) {
    return kPlain[static_cast<unsigned char>(c)];
}

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

std::size_t digits_at(std::string_view text, std::size_t at) {
    std::size_t end = at;
    while (end < text.size() && is_digit(text[end])) ++end;
    return end - at;
}

/// How much of the text is a number as RFC 8259, section 6, has it; 0 when it begins with none.
std::size_t number_length(std::string_view text) {
    std::size_t at = !text.empty() && text[0] == '-' ? 1 : 0;
    const std::size_t whole = digits_at(text, at);
    if (whole == 0 || (whole > 1 && text[at] == '0')) return 0;
    at += whole;
    if (at < text.size() && text[at] == '.') {
        const std::size_t part = digits_at(text, at + 1);
        if (part == 0) return 0;
        at += 1 + part;
    }
    if (at < text.size() && (text[at] == 'e' || text[at] == 'E')) {
        ++at;
        if (at < text.size() && (text[at] == '+' || text[at] == '-')) ++at;
        const std::size_t power = digits_at(text, at);
        if (power == 0) return 0;
        at += power;
    }
    return at;
}

}  // namespace

bool FlatObject::read(std::string_view line) {
    rest_ = line;
    members_.clear();
    items_.clear();
    marks_ = 0;
    skip_space();
    if (!take('{')) return false;
    skip_space();
    if (!take('}')) {
        do {
            if (!read_member()) return false;
        } while (take(','));
        if (!take('}')) return false;
    }
    skip_space();
    return rest_.empty();
}

const FlatObject::Member* FlatObject::find(std::string_view name) const {
    const auto found = std::find_if(members_.begin(), members_.end(), [&](const Member& m) { return m.name == name; });
    return found == members_.end() ? nullptr : &*found;
}

bool FlatObject::stands_already(std::string_view name) {
    // Names that differ in length and ends need no closer look.
    const auto ends = name.empty() ? 0U : static_cast<unsigned>(name.front()) * 7U + static_cast<unsigned>(name.back());
    const std::uint64_t mark = std::uint64_t{1} << (name.size() * 13U + ends) % 64U;
    const bool maybe = (marks_ & mark) != 0;
    marks_ |= mark;
    return maybe && find(name) != nullptr;
}

void FlatObject::skip_space() {
    std::size_t first = 0;
    const auto is_space = [](char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; };
    while (first < rest_.size() && is_space(rest_[first])) ++first;
    rest_.remove_prefix(first);
}

bool FlatObject::take(char wanted) {
    if (rest_.empty() || rest_.front() != wanted) return false;
    rest_.remove_prefix(1);
    return true;
}

bool FlatObject::take_word(std::string_view word) {
    if (!rest_.starts_with(word)) return false;
    rest_.remove_prefix(word.size());
    return true;
}

bool FlatObject::read_text(std::string_view& text) {
    if (!take('"')) return false;
    std::size_t end = 0;
    while (end < rest_.size() && is_plain(rest_[end])) ++end;
    text = rest_.substr(0, end);
    rest_.remove_prefix(end);
    return take('"');
}

bool FlatObject::read_number(double& number) {
    const std::size_t length = number_length(rest_);
    if (length == 0) return false;
    const auto done = std::from_chars(rest_.data(), rest_.data() + length, number);
    if (done.ec != std::errc{} || done.ptr != rest_.data() + length) return false;
    rest_.remove_prefix(length);
    return true;
}

bool FlatObject::read_list(Member& member) {
    member.kind = Kind::list;
    member.first = items_.size();
    skip_space();
    if (take(']')) return true;
    do {
        std::string_view item;
        skip_space();
        if (!read_text(item)) return false;
        items_.push_back(item);
        ++member.count;
        skip_space();
    } while (take(','));
    return take(']');
}

bool FlatObject::read_value(Member& member) {
    if (rest_.empty()) return false;
    switch (rest_.front()) {
        case '"':
            member.kind = Kind::text;
            return read_text(member.text);
        case '[':
            rest_.remove_prefix(1);
            return read_list(member);
        case 't':
            member.flag = true;
            member.kind = Kind::flag;
            return take_word("true");
        case 'f':
            member.kind = Kind::flag;
            return take_word("false");
        default:
            member.kind = Kind::number;
            return read_number(member.number);
    }
}

bool FlatObject::read_member() {
    Member member;
    skip_space();
    if (!read_text(member.name) || stands_already(member.name)) return false;
    skip_space();
    if (!take(':')) return false;
    skip_space();
    if (!read_value(member)) return false;
    members_.push_back(member);
    skip_space();
    return true;
}

}  // namespace base
