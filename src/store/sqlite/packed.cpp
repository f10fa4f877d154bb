#include "store/sqlite/packed.hpp"

#include <array>
#include <bit>
#include <cstdint>
#include <cstring>

namespace store::sqlite {
namespace {

constexpr char kVersion = 2;

/// Everything of a state but its point, as it lies in the file.
struct Fixed {
    std::int64_t last = 0;
    std::array<float, memory::kScales> spanned{};
    double last_mark = 0.0;
    std::uint32_t recalled = 0, failed = 0;
    std::uint8_t sure = 0, watch = 0;
    std::uint16_t name_size = 0;
    std::uint32_t spare = 0;  // fills the structure, so that no unset byte gets into the file
};
static_assert(sizeof(Fixed) == 48);
static_assert(std::endian::native == std::endian::little, "the file's order of bytes is little-endian");

Fixed fixed_of(const memory::RecallState& state, std::size_t name_size) {
    Fixed fixed;
    fixed.last = base::to_milliseconds(state.last);
    fixed.spanned = state.spanned;
    fixed.last_mark = state.last_mark;
    fixed.recalled = state.recalled;
    fixed.failed = state.failed;
    fixed.sure = static_cast<std::uint8_t>(state.last_sure);
    fixed.watch = state.watch;
    fixed.name_size = static_cast<std::uint16_t>(name_size);
    return fixed;
}

memory::RecallState state_of(const Fixed& fixed) {
    memory::RecallState state;
    state.last = base::from_milliseconds(fixed.last);
    state.recalled = fixed.recalled;
    state.failed = fixed.failed;
    state.spanned = fixed.spanned;
    state.last_mark = fixed.last_mark;
    state.last_sure = static_cast<memory::Sure>(fixed.sure);
    state.watch = fixed.watch;
    return state;
}

}  // namespace

std::string pack(const StateList& states) {
    std::string bytes(1, kVersion);
    bytes.reserve(1 + states.size() * (sizeof(Fixed) + 32));
    for (const auto& [point, state] : states) {
        const Fixed fixed = fixed_of(state, point.size());
        bytes.append(reinterpret_cast<const char*>(&fixed), sizeof fixed);
        bytes += point;
    }
    return bytes;
}

std::optional<StateList> unpack(std::string_view bytes) {
    if (bytes.empty() || bytes.front() != kVersion) return std::nullopt;
    bytes.remove_prefix(1);
    StateList states;
    states.reserve(bytes.size() / sizeof(Fixed));
    while (!bytes.empty()) {
        Fixed fixed;
        if (bytes.size() < sizeof fixed) return std::nullopt;
        std::memcpy(&fixed, bytes.data(), sizeof fixed);
        bytes.remove_prefix(sizeof fixed);
        if (bytes.size() < fixed.name_size || fixed.sure > static_cast<std::uint8_t>(memory::Sure::sure))
            return std::nullopt;
        states.emplace_back(std::string{bytes.substr(0, fixed.name_size)}, state_of(fixed));
        bytes.remove_prefix(fixed.name_size);
    }
    return states;
}

}  // namespace store::sqlite
