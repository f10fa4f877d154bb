#include "trade/wire.hpp"

#include <algorithm>

#include "base/text.hpp"

namespace trade {
namespace {

constexpr std::array<std::string_view, kSizes> kNames = {
    "18",  "16",  "14",  "12",  "10",  "8",   "6",   "4",   "3",   "2",   "1",    "1/0",  "2/0",  "3/0",  "4/0",
    "250", "300", "350", "400", "500", "600", "700", "750", "800", "900", "1000", "1250", "1500", "1750", "2000"};

std::string_view without(std::string_view text, std::string_view ending) {
    return text.ends_with(ending) ? base::trim(text.substr(0, text.size() - ending.size())) : text;
}

}  // namespace

std::string_view name_of(Size size) {
    return kNames.at(index_of(size));
}

std::string to_text(Size size) {
    return std::string{name_of(size)} + (size < Size::k250 ? " AWG" : " kcmil");
}

std::optional<Size> parse_size(std::string_view text) {
    const std::string small = base::lower(base::trim(text));
    std::string_view rest = small;
    if (rest.starts_with('#')) rest.remove_prefix(1);
    const bool gauge = rest.ends_with("awg");
    const bool area = rest.ends_with("kcmil") || rest.ends_with("mcm");
    for (const std::string_view unit : {"awg", "kcmil", "mcm"}) rest = without(rest, unit);
    const auto found = std::find(kNames.begin(), kNames.end(), rest);
    if (found == kNames.end()) return std::nullopt;
    const Size size = size_at(static_cast<std::size_t>(found - kNames.begin()));
    // "250 AWG" and "12 kcmil" are slips that must not pass for another size.
    if ((gauge && size >= Size::k250) || (area && size < Size::k250)) return std::nullopt;
    return size;
}

std::string_view to_text(Material material) {
    return material == Material::cu ? "copper" : "aluminum";
}

std::optional<Material> parse_material(std::string_view text) {
    const std::string small = base::lower(base::trim(text));
    if (small == "cu" || small == "copper") return Material::cu;
    if (small == "al" || small == "aluminium" || small == "aluminum") return Material::al;
    return std::nullopt;
}

int degrees(Rating rating) {
    constexpr std::array<int, kRatings> kDegrees = {60, 75, 90};
    return kDegrees.at(static_cast<std::size_t>(rating));
}

std::optional<Rating> rating_of(double degrees_wanted) {
    for (const auto rating : {Rating::c60, Rating::c75, Rating::c90})
        if (degrees(rating) == degrees_wanted) return rating;
    return std::nullopt;
}

}  // namespace trade
