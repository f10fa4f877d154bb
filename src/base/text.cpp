#include "base/text.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <numeric>

namespace base {
namespace {

struct Decoded {
    char32_t code = 0;
    std::size_t bytes = 0;  // 0: not well-formed here
};

std::size_t sequence_length(unsigned char lead) {
    if (lead < 0x80U) return 1;
    if (lead >= 0xC2U && lead <= 0xDFU) return 2;
    if (lead >= 0xE0U && lead <= 0xEFU) return 3;
    if (lead >= 0xF0U && lead <= 0xF4U) return 4;
    return 0;
}

bool allowed(char32_t code, std::size_t bytes) {
    static constexpr std::array<char32_t, 5> kLeast = {0, 0, 0x80, 0x800, 0x10000};
    return code >= kLeast.at(bytes) && code <= 0x10FFFF && !(code >= 0xD800 && code <= 0xDFFF);
}

Decoded decode(std::string_view text) {
    const auto lead = static_cast<unsigned char>(text.front());
    const std::size_t length = sequence_length(lead);
    if (length == 0 || length > text.size()) return {};
    if (length == 1) return {lead, 1};
    char32_t code = lead & (0xFFU >> (length + 1));
    for (std::size_t i = 1; i < length; ++i) {
        const auto next = static_cast<unsigned char>(text[i]);
        if ((next & 0xC0U) != 0x80U) return {};
        code = (code << 6U) | (next & 0x3FU);
    }
    return allowed(code, length) ? Decoded{code, length} : Decoded{};
}

struct Range {
    char32_t first, last;
};

// Wide and zero-width blocks that can turn up in names; our own words are Latin. From Unicode 15 EastAsianWidth.
constexpr std::array kWide = {Range{0x1100, 0x115F},   Range{0x2E80, 0x303E},  Range{0x3041, 0xA4CF},
                              Range{0xAC00, 0xD7A3},   Range{0xF900, 0xFAFF},  Range{0xFE30, 0xFE6F},
                              Range{0xFF00, 0xFF60},   Range{0xFFE0, 0xFFE6},  Range{0x1F300, 0x1F64F},
                              Range{0x1F900, 0x1F9FF}, Range{0x20000, 0x3FFFD}};
constexpr std::array kZero = {Range{0x0300, 0x036F}, Range{0x200B, 0x200F}, Range{0x20D0, 0x20FF},
                              Range{0xFE00, 0xFE0F}, Range{0xFE20, 0xFE2F}};

template <class Ranges>
bool within(char32_t code, const Ranges& ranges) {
    return std::any_of(ranges.begin(), ranges.end(),
                       [code](const Range& r) { return code >= r.first && code <= r.last; });
}

std::size_t columns(char32_t code) {
    if (code < 0x20 || (code >= 0x7F && code < 0xA0)) return 0;
    if (within(code, kZero)) return 0;
    return within(code, kWide) ? 2 : 1;
}

/// The longest beginning of a text that fits into `width` columns, in bytes; at least one character.
std::size_t fitting_prefix(std::string_view text, std::size_t width) {
    std::size_t used = 0;
    std::size_t at = 0;
    while (at < text.size()) {
        const Decoded here = decode(text.substr(at));
        const std::size_t bytes = std::max<std::size_t>(1, here.bytes);
        const std::size_t wide = here.bytes == 0 ? 1 : columns(here.code);
        if (at > 0 && used + wide > width) break;
        used += wide;
        at += bytes;
    }
    return at;
}

class Wrapper {
public:
    Wrapper(std::size_t width, std::size_t indent) : width_{width}, indent_{indent} {}

    void word(std::string_view word) {
        const std::size_t wide = display_width(word);
        if (has_words_ && used_ + 1 + wide > width_) end_line();
        if (has_words_) put(" ");
        while (used_ + display_width(word) > width_) {
            const std::size_t cut = fitting_prefix(word, width_ - used_);
            put(word.substr(0, cut));
            word.remove_prefix(cut);
            if (word.empty()) break;
            end_line();
        }
        put(word);
        has_words_ = true;
    }

    void end_line() {
        lines_.push_back(std::move(line_));
        line_ = std::string(indent_, ' ');
        used_ = indent_;
        has_words_ = false;
    }

    std::vector<std::string> finish() {
        lines_.push_back(std::move(line_));
        return std::move(lines_);
    }

private:
    void put(std::string_view text) {
        line_ += text;
        used_ += display_width(text);
    }

    std::size_t width_, indent_;
    std::string line_;
    std::size_t used_ = 0;
    bool has_words_ = false;
    std::vector<std::string> lines_;
};

bool is_word_sign(char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || static_cast<unsigned char>(c) >= 0x80U || c == '.' ||
           c == '/' || c == '(' || c == ')';
}

}  // namespace

std::optional<std::size_t> first_bad_utf8(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        // Nearly all of our text is ASCII.
        if (static_cast<unsigned char>(text[at]) < 0x80U) {
            ++at;
            continue;
        }
        const Decoded here = decode(text.substr(at));
        if (here.bytes == 0) return at;
        at += here.bytes;
    }
    return std::nullopt;
}

std::size_t display_width(std::string_view text) {
    std::size_t width = 0;
    for (std::size_t at = 0; at < text.size();) {
        const Decoded here = decode(text.substr(at));
        width += here.bytes == 0 ? 1 : columns(here.code);
        at += std::max<std::size_t>(1, here.bytes);
    }
    return width;
}

std::vector<std::string> wrap(std::string_view text, std::size_t width, std::size_t indent) {
    const std::size_t wide = std::max<std::size_t>(8, width);
    Wrapper wrapper{wide, std::min(indent, wide / 2)};
    bool first = true;
    for (const auto& paragraph : split(text, '\n')) {
        if (!first) wrapper.end_line();
        first = false;
        for (const auto& word : split(paragraph, ' '))
            if (!word.empty()) wrapper.word(word);
    }
    return wrapper.finish();
}

std::string lower(std::string_view text) {
    std::string small{text};
    for (char& c : small)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return small;
}

std::string_view trim(std::string_view text) {
    static constexpr std::string_view kBlank = " \t\r\n\v\f";
    const auto first = text.find_first_not_of(kBlank);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(kBlank) - first + 1);
}

std::vector<std::string> split(std::string_view text, char at) {
    std::vector<std::string> parts;
    for (;;) {
        const auto cut = text.find(at);
        parts.emplace_back(text.substr(0, cut));
        if (cut == std::string_view::npos) return parts;
        text.remove_prefix(cut + 1);
    }
}

std::vector<std::string> words(std::string_view text) {
    std::vector<std::string> found;
    std::string word;
    for (const char c : lower(text) + " ") {
        if (is_word_sign(c)) {
            word += c;
        } else if (!word.empty()) {
            while (!word.empty() && word.back() == '.') word.pop_back();
            if (!word.empty()) found.push_back(word);
            word.clear();
        }
    }
    return found;
}

std::string join(const std::vector<std::string>& parts, std::string_view between) {
    std::string text;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (i > 0) text += between;
        text += parts[i];
    }
    return text;
}

std::size_t edit_distance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> before_last(b.size() + 1);
    std::vector<std::size_t> last(b.size() + 1);
    std::iota(last.begin(), last.end(), std::size_t{0});
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::vector<std::size_t> row(b.size() + 1, i);
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t replace = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
            row[j] = std::min({last[j] + 1, row[j - 1] + 1, replace});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                row[j] = std::min(row[j], before_last[j - 2] + 1);
        }
        before_last = std::move(last);
        last = std::move(row);
    }
    return last.back();
}

std::optional<std::string> nearest(std::string_view given, const std::vector<std::string>& known) {
    const std::size_t near_enough = std::max<std::size_t>(2, given.size() / 3);
    std::optional<std::string> best;
    std::size_t least = near_enough + 1;
    for (const auto& word : known) {
        const std::size_t distance = edit_distance(lower(given), lower(word));
        if (distance < least && distance < std::max(given.size(), word.size())) {
            least = distance;
            best = word;
        }
    }
    return best;
}

std::string number_text(double value, int places) {
    constexpr double kWhole = 1e15;  // below it every whole number has a double of its own
    if (std::abs(value) < kWhole && value == std::trunc(value)) return std::to_string(static_cast<std::int64_t>(value));
    std::array<char, 64> text{};
    std::snprintf(text.data(), text.size(), "%.*f", places, value);
    std::string shown{text.data()};
    if (shown.find('.') != std::string::npos) {
        while (shown.back() == '0') shown.pop_back();
        if (shown.back() == '.') shown.pop_back();
    }
    return shown == "-0" ? "0" : shown;
}

}  // namespace base
