#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "base/instant.hpp"

namespace memory {

/// How sure the learner said to be before seeing the result.
enum class Sure : std::uint8_t { guess, fairly, sure };

[[nodiscard]] constexpr std::string_view to_text(Sure sure) {
    switch (sure) {
        case Sure::guess:
            return "guess";
        case Sure::fairly:
            return "fairly";
        case Sure::sure:
            return "sure";
    }
    return "fairly";
}

[[nodiscard]] constexpr std::optional<Sure> parse_sure(std::string_view text) {
    for (const Sure sure : {Sure::guess, Sure::fairly, Sure::sure})
        if (text == to_text(sure)) return sure;
    return std::nullopt;
}

/// From this mark on, an answer counts as recalled. Below it the point goes on the corrections list:
/// half of a safety rule is not the rule.
inline constexpr double kRecalledFrom = 0.9;

/// Time scales on which an answer wears off, shortest first; docs/model.md.
inline constexpr std::size_t kScales = 4;

/// What the recall model keeps of one learner's answers on one point; a fold over those answers in the order
/// they were given. No answer yet: recalled + failed == 0, and `last` means nothing.
struct RecallState {
    base::Instant last{};        ///< when the last answer was given
    std::uint32_t recalled = 0;  ///< answers marked kRecalledFrom or better
    std::uint32_t failed = 0;    ///< all others

    /// For each time scale how often the lags between answers have spanned it, >= 0: a lag much longer than the scale
    /// counts whole, a shorter one by its share; one that ended in failure counts a little less.
    std::array<float, kScales> spanned{};

    double last_mark = 0.0;         ///< mark of the last answer, 0..1
    Sure last_sure = Sure::fairly;  ///< what the learner said of the last answer

    /// Set to 2 by an answer that was sure and wrong; falls by one with each right answer given on a later day.
    /// While it is above 0 the point comes up early: such a belief survives its first correction.
    std::uint8_t watch = 0;

    [[nodiscard]] std::uint32_t answers() const { return recalled + failed; }
    [[nodiscard]] bool sure_and_wrong() const {
        return answers() > 0 && last_sure == Sure::sure && last_mark < kRecalledFrom;
    }
    friend bool operator==(const RecallState&, const RecallState&) = default;
};

}  // namespace memory
