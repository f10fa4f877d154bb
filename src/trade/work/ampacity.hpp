#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "trade/work/calculator.hpp"

namespace trade {

/// What bears on the ampacity of a conductor beside its size. Empty: not said.
struct Conditions {
    std::optional<Material> material;
    std::optional<Rating> insulation;  ///< 90 C when not said of nonmetallic-sheathed cable
    std::optional<Rating> terminals;   ///< the lowest rating among the terminations at both ends
    std::optional<double> ambient;     ///< C around the wires, without what a roof adds
    std::optional<double> ccc;         ///< current-carrying conductors together, from 1
    std::optional<double> above_roof;  ///< in; empty: not in sunlight on a roof
    double clear_of_roof = 0.0;        ///< in; from this height on a roof adds no heat
    bool nm = false;                   ///< nonmetallic-sheathed cable
    double sets = 1.0;                 ///< parallel sets
};

/// The two columns and the factors that conditions lead to.
struct Factors {
    Rating insulation = Rating::c60;  ///< the column that correction and adjustment start from
    Rating lowest = Rating::c60;      ///< the column that the result may not be above
    double ambient_c = 0.0;           ///< with what a roof adds
    double ambient = 1.0;             ///< correction for temperature
    double percent = 100.0;           ///< adjustment for conductors together

    [[nodiscard]] double product() const { return ambient * percent / 100.0; }
};

/// Amperes; `table` of one conductor, the others of all parallel sets together.
struct Ampacity {
    double table = 0.0;     ///< in the column of the insulation
    double adjusted = 0.0;  ///< after correction and adjustment
    double limit = 0.0;     ///< in the column of the lowest rating: terminations, or 60 C for nonmetallic sheath
    double usable = 0.0;    ///< the lesser of the two
};

/// The factors for these conditions.
/// Errors  what is missing goes to the finding as unknown, heat or a count beyond the tables is refused;
///         `insulation_fact` is what the caller's facts call the rating of the insulation. A rating of the terminations
///         is only asked for where it can change the answer.
/// Source  ambient and adjustment tables; 33 C more under 7/8 in above a roof (from memory), from 2023 on under 3/4 in
///         (continuing-education page on 310.15(B)(2), vendor not named).
[[nodiscard]] std::optional<Factors> factors_for(const Conditions& conditions, std::string_view insulation_fact,
                                                 const Tables& tables, Finding& finding);

/// The ampacity of a size; nothing where a table has no value for it. Takes conditions that gave the factors.
[[nodiscard]] std::optional<Ampacity> ampacity_of(const Conditions& conditions, const Factors& factors, Size size,
                                                  const Tables& tables);

/// The same for the size that a caller names.
/// Errors  refused with a finding: a size that the table has no value for, and one too small to be run in parallel.
[[nodiscard]] std::optional<Ampacity> rate(const Conditions& conditions, const Factors& factors, Size size,
                                           const Tables& tables, Finding& finding);

/// Writes the working from table to usable ampacity.
void explain(const Conditions& conditions, const Factors& factors, Size size, const Ampacity& ampacity,
             Working& working);

/// Adds the references for ampacity under these conditions.
void cite_ampacity(const Conditions& conditions, Edition edition, Finding& finding);

/// Adds what is wrong about the conditions or the size under them: a cable that is not made so large, and so on.
void doubt(const Conditions& conditions, std::optional<Size> size, Finding& finding);

/// Values on the way: table, ambient_used, ambient_factor, adjustment, factor, adjusted, terminal_limit.
void add_values(const Factors& factors, const Ampacity& ampacity, Finding& finding);

/// The facts that conditions are read from; the rating of the insulation under the name given.
[[nodiscard]] std::vector<FactSpec> condition_facts(std::string_view insulation_fact);
[[nodiscard]] Conditions conditions_in(const Facts& facts, std::string_view insulation_fact, Edition edition);

/// Copper or aluminium, as a choice of cu and al; nothing when the fact was not given.
[[nodiscard]] std::optional<Material> material_in(const Facts& facts, std::string_view name);

}  // namespace trade
