#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "trade/work/calculator.hpp"

namespace trade {

/// What a circuit serves, as far as it bears on the largest overcurrent device.
enum class Use : std::uint8_t { general, motor, ac };

struct ProtectionFacts {
    /// More than one receptacle for cord-and-plug loads: then the next rating up is not allowed.
    std::optional<bool> receptacles;
    Use use = Use::general;
    std::optional<double> marked;  ///< A, motor or ac: largest device that the equipment or its article allows
};

/// Circuits with several receptacles end at this device, outside of industry.
inline constexpr double kMostReceptacleCircuit = 50.0;

/// Overcurrent devices around an ampacity, A.
struct Protection {
    std::optional<double> below, up;     ///< standard ratings: greatest not over it, least not under it
    std::optional<double> small;         ///< general use: what 14, 12 and 10 AWG are limited to
    std::optional<double> strict, open;  ///< largest device where several receptacles are fed and where not; once that
                                         ///< is said both are the same; nothing: none is small enough
    bool judged = true;                  ///< false: motor or ac, and nothing was said to be marked
    bool general = true;                 ///< false: motor or ac

    [[nodiscard]] bool depends() const { return strict != open; }
    /// The largest device; nothing when there is none, or when it depends.
    [[nodiscard]] std::optional<double> most() const { return depends() ? std::nullopt : strict; }
    /// Whether a device is small enough; nothing when it depends or could not be judged.
    [[nodiscard]] std::optional<bool> allows(double device) const;
};

/// The largest device for conductors of an ampacity.
/// Takes   ampacity in A after correction and adjustment; size and material of small conductors, empty for others.
/// Gives   general use: the next standard rating up through 800 A, or the one below where several receptacles are fed
///         or the next one up is over 800 A, and never over the small-conductor limit; motor and ac: what is marked.
///         Unsaid `receptacles` count as no where the next rating up is over 50 A.
/// Source  240.4(B) to (D) and (G), 240.6(A); the values are in the tables, the rules are common practice.
[[nodiscard]] Protection protection_for(double ampacity, std::optional<Material> material, std::optional<Size> size,
                                        const ProtectionFacts& facts, const Setting& setting);

/// Amperes that a device and the terminations must be rated for: 125 % of what runs three hours or more and the rest;
/// 100 % of both for an assembly listed for that.
[[nodiscard]] double required_amps(double load, double continuous, bool listed_100);

/// The least standard rating from 15 A up that carries so much; nothing beyond the list.
[[nodiscard]] std::optional<double> least_device(double required, const Setting& setting);

[[nodiscard]] bool is_standard(double rating, const Tables& tables);

/// Adds the part of 240.4 that decided: (D) for small conductors, (C) over 800 A, (B) where the ampacity is no standard
/// rating.
void cite(const Protection& protection, Finding& finding);
/// Says in the steps that a 10 A device was passed over, where the edition lists one and it would carry so much.
void explain_ten(double required, const Setting& setting, Working& working);
/// Says that a device is too large for the conductor.
void doubt_size(double rating, const Protection& protection, Finding& finding);
/// Says that a rating is no standard one or has few uses.
void doubt_rating(double rating, const Tables& tables, Finding& finding);

/// Values on the way: standard_below, standard_up, small_limit.
void add_values(const Protection& protection, Finding& finding);

/// load, continuous, listed_100, receptacles, use, marked.
[[nodiscard]] std::vector<FactSpec> protection_facts();
[[nodiscard]] ProtectionFacts protection_in(const Facts& facts);

}  // namespace trade
