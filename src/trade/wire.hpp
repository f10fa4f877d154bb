#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace trade {

/// A conductor size, thin to thick: 18 to 1 AWG, 1/0 to 4/0 AWG, then 250 to 2000 kcmil.
enum class Size : std::uint8_t {
    awg18,
    awg16,
    awg14,
    awg12,
    awg10,
    awg8,
    awg6,
    awg4,
    awg3,
    awg2,
    awg1,
    awg1_0,
    awg2_0,
    awg3_0,
    awg4_0,
    k250,
    k300,
    k350,
    k400,
    k500,
    k600,
    k700,
    k750,
    k800,
    k900,
    k1000,
    k1250,
    k1500,
    k1750,
    k2000
};

inline constexpr std::size_t kSizes = 30;

[[nodiscard]] constexpr std::size_t index_of(Size size) {
    return static_cast<std::size_t>(size);
}
[[nodiscard]] constexpr Size size_at(std::size_t index) {
    return static_cast<Size>(index);
}

/// As the tables write it: "12", "3/0", "250".
[[nodiscard]] std::string_view name_of(Size size);
/// With its unit, for people: "12 AWG", "3/0 AWG", "250 kcmil".
[[nodiscard]] std::string to_text(Size size);
/// Reads "12", "#12", "12 AWG", "3/0", "3/0 AWG", "250", "250 kcmil", "250 MCM". Nothing when there is no such size.
[[nodiscard]] std::optional<Size> parse_size(std::string_view text);

enum class Material : std::uint8_t { cu, al };
inline constexpr std::size_t kMaterials = 2;
[[nodiscard]] std::string_view to_text(Material material);
/// "cu", "copper", "al", "aluminium", "aluminum".
[[nodiscard]] std::optional<Material> parse_material(std::string_view text);

/// Temperature rating of an insulation or a termination: one column of the ampacity table.
enum class Rating : std::uint8_t { c60, c75, c90 };
inline constexpr std::size_t kRatings = 3;
/// 60, 75 or 90 degrees Celsius.
[[nodiscard]] int degrees(Rating rating);
/// Nothing unless it is 60, 75 or 90.
[[nodiscard]] std::optional<Rating> rating_of(double degrees);

}  // namespace trade
