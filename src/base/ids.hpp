#pragma once

#include <array>
#include <compare>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "base/instant.hpp"
#include "base/random.hpp"

namespace base {

/// A name that cannot be confused with a name of another kind.
template <class Tag>
struct TextId {
    std::string text;

    friend auto operator<=>(const TextId&, const TextId&) = default;
};

using PointId = TextId<struct PointTag>;        ///< "box.accessible"
using QuestionId = TextId<struct QuestionTag>;  ///< "box.accessible#a", or "call.crawl-space#b" for a scenario's ask

/// 128 bits that sort by the time they were made (layout of a version 7 UUID, RFC 9562 section 5.7).
struct Id128 {
    std::array<std::uint8_t, 16> bytes{};

    friend auto operator<=>(const Id128&, const Id128&) = default;
};

/// "018f3c2e-7d2a-7cc1-8f00-0123456789ab".
[[nodiscard]] std::string to_text(const Id128& id);

/// Nothing unless the text is 32 hexadecimal digits, with or without the usual dashes.
[[nodiscard]] std::optional<Id128> parse_id(std::string_view text);

/// Hands out ids that rise, even within a millisecond and when the clock steps back.
class IdMaker {
public:
    explicit IdMaker(Seed entropy) : random_{entropy} {}
    [[nodiscard]] Id128 make(Instant now);

private:
    Random random_;
    std::int64_t last_ms_ = -1;
    std::uint32_t count_ = 0;
};

}  // namespace base

template <class Tag>
struct std::hash<base::TextId<Tag>> {
    std::size_t operator()(const base::TextId<Tag>& id) const noexcept { return std::hash<std::string>{}(id.text); }
};

template <>
struct std::hash<base::Id128> {
    std::size_t operator()(const base::Id128& id) const noexcept;
};
