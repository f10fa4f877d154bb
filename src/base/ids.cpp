#include "base/ids.hpp"

#include <algorithm>

namespace base {
namespace {

constexpr std::uint32_t kCountLimit = 1U << 12U;
constexpr std::string_view kDashed = "00000000-0000-0000-0000-000000000000";

int hex_digit(char c) {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    if (c >= 'A' && c <= 'F') return c - 'A' + 10;
    return -1;
}

}  // namespace

std::string to_text(const Id128& id) {
    static constexpr std::string_view kHex = "0123456789abcdef";
    std::string text;
    for (std::size_t i = 0; i < id.bytes.size(); ++i) {
        if (i == 4 || i == 6 || i == 8 || i == 10) text += '-';
        text += kHex[id.bytes[i] >> 4U];
        text += kHex[id.bytes[i] & 15U];
    }
    return text;
}

std::optional<Id128> parse_id(std::string_view text) {
    std::string digits{text};
    if (text.size() == kDashed.size())
        for (const std::size_t dash : {23U, 18U, 13U, 8U})
            if (digits[dash] == '-') digits.erase(dash, 1);
    if (digits.size() != 32) return std::nullopt;
    Id128 id;
    for (std::size_t i = 0; i < id.bytes.size(); ++i) {
        const int high = hex_digit(digits[2 * i]);
        const int low = hex_digit(digits[2 * i + 1]);
        if (high < 0 || low < 0) return std::nullopt;
        id.bytes[i] = static_cast<std::uint8_t>(high * 16 + low);
    }
    return id;
}

Id128 IdMaker::make(Instant now) {
    const std::int64_t ms = std::max<std::int64_t>(0, to_milliseconds(now));
    // A clock that stands still or steps back must not make ids fall: the counter carries them on.
    if (ms > last_ms_) {
        last_ms_ = ms;
        count_ = 0;
    } else if (++count_ == kCountLimit) {
        ++last_ms_;
        count_ = 0;
    }
    Id128 id;
    for (unsigned i = 0; i < 6; ++i) id.bytes[i] = static_cast<std::uint8_t>(last_ms_ >> (40U - 8U * i));
    id.bytes[6] = static_cast<std::uint8_t>(0x70U | (count_ >> 8U));
    id.bytes[7] = static_cast<std::uint8_t>(count_ & 0xffU);
    const std::uint64_t tail = random_.next();
    for (unsigned i = 0; i < 8; ++i) id.bytes[8 + i] = static_cast<std::uint8_t>(tail >> (56U - 8U * i));
    id.bytes[8] = static_cast<std::uint8_t>(0x80U | (id.bytes[8] & 0x3fU));
    return id;
}

}  // namespace base

std::size_t std::hash<base::Id128>::operator()(const base::Id128& id) const noexcept {
    return static_cast<std::size_t>(
        base::stable_hash(std::string_view{reinterpret_cast<const char*>(id.bytes.data()), id.bytes.size()}));
}
