#include "trade/work/protection.hpp"

#include <algorithm>
#include <cmath>

namespace trade {
namespace {

using base::Unit;

constexpr double kSlack = 1e-9;
constexpr double kContinuous = 1.25;
/// Over this the next standard rating up is not allowed.
constexpr double kRoundUpTo = 800.0;
constexpr double kLeastOrdinary = 15.0;
constexpr double kTen = 10.0;
constexpr std::size_t kUsualText = 128;

std::optional<double> lesser(std::optional<double> a, std::optional<double> b) {
    if (!a || !b) return a ? a : b;
    return std::min(*a, *b);
}

std::optional<double> most_of(const Protection& found, bool receptacles) {
    const bool up = !receptacles && found.up && *found.up <= kRoundUpTo + kSlack;
    const auto device = up ? found.up : found.below;
    if (!device || (receptacles && *device < kLeastOrdinary)) return std::nullopt;
    return lesser(device, found.small);
}

}  // namespace

Protection protection_for(double ampacity, std::optional<Material> material, std::optional<Size> size,
                          const ProtectionFacts& facts, const Setting& setting) {
    Protection found;
    found.below = setting.tables->standard_rating_below(ampacity, setting.edition);
    found.up = setting.tables->next_standard_rating(ampacity, setting.edition);
    found.general = facts.use == Use::general;
    if (!found.general) {
        found.judged = facts.marked.has_value();
        found.strict = found.open = facts.marked;
        return found;
    }
    if (material && size) found.small = setting.tables->small_conductor_limit(*material, *size);
    found.strict = most_of(found, true);
    found.open = most_of(found, false);
    const bool could_be = found.up && *found.up <= kMostReceptacleCircuit + kSlack;
    if (facts.receptacles.value_or(false))
        found.open = found.strict;
    else if (facts.receptacles || !could_be)
        found.strict = found.open;
    return found;
}

std::optional<bool> Protection::allows(double device) const {
    if (!judged) return std::nullopt;
    const auto within = [&](std::optional<double> limit) { return limit && device <= *limit + kSlack; };
    if (within(strict) != within(open)) return std::nullopt;
    return within(strict);
}

double required_amps(double load, double continuous, bool listed_100) {
    return load + continuous * (listed_100 ? 1.0 : kContinuous);
}

std::optional<double> least_device(double required, const Setting& setting) {
    return setting.tables->next_standard_rating(std::max(required, kLeastOrdinary), setting.edition);
}

bool is_standard(double rating, const Tables& tables) {
    return std::any_of(tables.standard_ratings.begin(), tables.standard_ratings.end(),
                       [&](const Tables::StandardRating& one) { return std::abs(one.amps - rating) <= kSlack; });
}

void cite(const Protection& protection, Finding& finding) {
    if (!protection.general) return;
    if (protection.small && protection.open && *protection.open >= *protection.small - kSlack)
        finding.articles.emplace_back("240.4(D)");
    else if (protection.up && *protection.up > kRoundUpTo + kSlack)
        finding.articles.emplace_back("240.4(C)");
    else if (protection.below != protection.up)
        finding.articles.emplace_back("240.4(B)");
}

void explain_ten(double required, const Setting& setting, Working& working) {
    if (required > kTen + kSlack || setting.tables->standard_rating_below(kTen, setting.edition) != kTen) return;
    working.step(
        "10 A breakers are standard in this edition but serve few loads, under conditions of their own: left out");
}

void doubt_size(double rating, const Protection& protection, Finding& finding) {
    if (protection.allows(rating).value_or(true)) return;
    std::string text;
    text.reserve(kUsualText);
    text.append("a ").append(base::number_text(rating)).append(" A device is too large for this conductor");
    if (protection.open) text.append(": ").append(base::number_text(*protection.open)).append(" A is the most");
    text += "; the wire can overheat before the device opens";
    finding.findings.push_back(std::move(text));
}

void doubt_rating(double rating, const Tables& tables, Finding& finding) {
    if (!is_standard(rating, tables))
        finding.findings.push_back(base::number_text(rating) + " A is no standard rating");
    if (rating < kLeastOrdinary)
        finding.findings.emplace_back("circuits under 15 A are allowed for few loads only, and not for receptacles");
}

void add_values(const Protection& protection, Finding& finding) {
    auto& also = finding.also;
    if (protection.below) also.push_back({"standard_below", value_of(*protection.below, Unit::amp)});
    if (protection.up) also.push_back({"standard_up", value_of(*protection.up, Unit::amp)});
    if (protection.small) also.push_back({"small_limit", value_of(*protection.small, Unit::amp)});
}

std::vector<FactSpec> protection_facts() {
    return {
        {"load", FactKind::number, "load that is over within three hours; 0 for none (motor, ac: circuit ampacity)",
         Unit::amp, 0, 6000},
        {"continuous", FactKind::number, "load that runs for three hours or more; 0 for none", Unit::amp, 0, 6000},
        {"listed_100", FactKind::flag, "is the assembly listed for 100 % of its rating? (left out: no)"},
        {"receptacles", FactKind::flag,
         "several receptacles for cord-and-plug loads? a duplex is two (left out: asked for up to 50 A, no over that)"},
        {"use", FactKind::choice, "what is fed (left out: general, which limits 14, 12 and 10 AWG)", Unit::count, 0, 0,
         false, "general|motor|ac"},
        {"marked", FactKind::number, "motor, ac: largest device marked on the equipment or found for the motor",
         Unit::amp, 1, 6000}};
}  // namespace trade

ProtectionFacts protection_in(const Facts& facts) {
    ProtectionFacts found;
    found.receptacles = facts.flag("receptacles");
    if (facts.choice("use") == "motor") found.use = Use::motor;
    if (facts.choice("use") == "ac") found.use = Use::ac;
    found.marked = facts.number("marked");
    return found;
}

}  // namespace trade
