#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace trade {

/// The year of the electrical code that a jurisdiction has adopted. The code comes out every third year.
enum class Edition : std::uint16_t { e2017 = 2017, e2020 = 2020, e2023 = 2023, e2026 = 2026 };

inline constexpr std::array kEditions = {Edition::e2017, Edition::e2020, Edition::e2023, Edition::e2026};

[[nodiscard]] std::string to_text(Edition edition);
/// Nothing unless the text is one of the four years.
[[nodiscard]] std::optional<Edition> parse_edition(std::string_view text);

/// A run of editions, both ends included.
struct EditionRange {
    Edition first = Edition::e2017;
    Edition last = Edition::e2026;

    [[nodiscard]] bool contains(Edition edition) const { return first <= edition && edition <= last; }
    [[nodiscard]] bool contains(const EditionRange& other) const {
        return contains(other.first) && contains(other.last);
    }
    friend bool operator==(const EditionRange&, const EditionRange&) = default;
};

/// "2020" or "2017-2023".
[[nodiscard]] std::string to_text(const EditionRange& range);
/// Nothing when a year is unknown or the run ends before it starts.
[[nodiscard]] std::optional<EditionRange> parse_edition_range(std::string_view text);

/// The editions in a run, oldest first.
[[nodiscard]] std::vector<Edition> editions_in(const EditionRange& range);

}  // namespace trade
