#include "store/answer_log.hpp"

#include <algorithm>
#include <array>

namespace store {
namespace {

constexpr std::array<std::string_view, 4> kSettings = {"study", "meeting", "exam", "brief"};

}  // namespace

std::string_view to_text(Setting setting) {
    return kSettings.at(static_cast<std::size_t>(setting));
}

std::optional<Setting> parse_setting(std::string_view text) {
    const auto found = std::find(kSettings.begin(), kSettings.end(), text);
    if (found == kSettings.end()) return std::nullopt;
    return static_cast<Setting>(found - kSettings.begin());
}

}  // namespace store
