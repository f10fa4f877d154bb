#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/fault.hpp"
#include "trade/edition.hpp"
#include "trade/table.hpp"
#include "trade/wire.hpp"

namespace trade {

/// One value a conductor size; 0 where the table has none.
using BySize = std::array<double, kSizes>;

/// The tables of the calculators, typed for fast reading. Made from table data by typed_tables; a table that is not
/// there leaves its member empty, and the calculators then say that they cannot know.
struct Tables {
    struct AmbientBand {
        double top_c = 0.0;                      ///< the band ends here, in degrees Celsius
        std::array<double, kRatings> factors{};  ///< 0: not permitted
    };
    struct AdjustmentBand {
        double from = 0.0;     ///< least count of current-carrying conductors
        double percent = 0.0;  ///< of the ampacity that is left
    };
    struct StandardRating {
        double amps = 0.0;
        Edition from = Edition::e2017;  ///< the first edition that lists it
        bool fuse_only = false;
    };
    struct Insulation {
        std::string name;
        BySize area{}, diameter{};  ///< in2, in
    };
    struct Raceway {
        std::string kind, trade_size;
        double diameter = 0.0, area = 0.0;  ///< in, in2
    };
    struct Resistance {
        double cmil = 0.0;                                   ///< area in circular mils
        std::array<double, kMaterials> solid{}, stranded{};  ///< ohm per 1000 ft at 75 C
    };
    /// Where the wires run, for reactance and alternating-current resistance.
    enum class Run : std::uint8_t { pvc, aluminium, steel };
    struct Impedance {
        std::array<double, 3> reactance{};                           ///< by Run, ohm to neutral per 1000 ft
        std::array<std::array<double, 3>, kMaterials> resistance{};  ///< by Run
    };
    struct GroundRow {
        double device = 0.0;  ///< rating or setting of the overcurrent device, not exceeding
        std::array<std::optional<Size>, kMaterials> size;
    };
    struct ElectrodeRow {
        std::array<double, kMaterials> largest{};  ///< area of the largest service conductor, circular mils; 0: over
        std::array<std::optional<Size>, kMaterials> size;
    };
    struct ElectrodeLimit {
        std::string electrode;
        std::array<std::optional<Size>, kMaterials> size;  ///< nothing: no lesser size in this material
    };
    struct ReceptacleLoad {
        double circuit = 0.0, receptacle = 0.0, most = 0.0;  ///< A; `most` of a cord-and-plug load
    };
    struct ReceptacleRating {
        double circuit = 0.0, least = 0.0, most = 0.0;  ///< A; what is allowed where a circuit has several
    };
    struct MotorCurrent {
        int phase = 1;
        double volts = 0.0, hp = 0.0, amps = 0.0;
    };
    struct MotorProtection {
        std::string type;
        double fuse = 0.0, dual_element_fuse = 0.0, instantaneous = 0.0, inverse_time = 0.0;  ///< percent
    };
    struct RangeRow {
        double appliances = 0.0;
        double a = 0.0, b = 0.0, c = 0.0;  ///< percent, percent, kW; 0 where not known
    };
    struct DemandRow {
        double count = 0.0, percent = 0.0;
    };
    struct LoadRule {
        std::string rule;
        EditionRange editions;
        double value = 0.0;
    };
    struct Cover {
        std::string place;
        double direct_burial = 0.0, rmc_imc = 0.0, nonmetallic_raceway = 0.0, gfci_branch = 0.0, low_voltage = 0.0;
        std::optional<double> gfci_branch_in_raceway, low_voltage_in_raceway;
    };
    struct Depth {
        double least_volts = 0.0, most_volts = 0.0;  ///< to ground, both included
        int condition = 1;
        double feet = 0.0;
    };
    struct Support {
        std::string method;
        double spacing_ft = 0.0, from_box_in = 0.0;  ///< 0 where not known
    };
    struct Box {
        std::string family, size;
        double volume = 0.0;
    };

    BySize box_volume{};  ///< in3
    std::array<std::array<BySize, kRatings>, kMaterials> ampacity{};
    std::vector<AmbientBand> ambient;        ///< rising
    std::vector<AdjustmentBand> adjustment;  ///< rising
    std::array<BySize, kMaterials> small_conductor{};
    std::vector<StandardRating> standard_ratings;  ///< rising
    std::vector<Insulation> insulations;
    std::vector<Raceway> raceways;  ///< each kind from small to large
    std::array<Resistance, kSizes> resistance{};
    std::array<Impedance, kSizes> impedance{};
    std::array<double, kMaterials> k{};       ///< ohm circular mils per ft at 75 C; 0 where not known
    double advised_drop_percent = 0.0;        ///< along a branch circuit or a feeder, as advice; 0 where not known
    std::vector<GroundRow> equipment_ground;  ///< rising
    std::vector<ElectrodeRow> grounding_electrode;  ///< rising, "over" last
    std::vector<ElectrodeLimit> electrode_limits;
    std::vector<ReceptacleLoad> receptacle_loads;
    std::vector<ReceptacleRating> receptacle_ratings;  ///< rising by circuit
    std::vector<MotorCurrent> motor_currents;
    std::vector<MotorProtection> motor_protection;
    std::vector<RangeRow> range_demand;   ///< rising
    std::vector<DemandRow> dryer_demand;  ///< rising
    std::vector<LoadRule> dwelling_load;
    std::vector<Cover> covers;
    std::vector<Depth> depths;
    std::vector<Support> supports;
    std::vector<Box> boxes;  ///< each family from small to large

    /// Allowable ampacity at 30 C, three current-carrying conductors at most; nothing where the table has no value.
    [[nodiscard]] std::optional<double> ampacity_of(Material material, Rating rating, Size size) const;
    /// Factor for an ambient temperature in degrees Celsius; nothing above the table or where the rating ends.
    [[nodiscard]] std::optional<double> ambient_factor(Rating rating, double ambient_c) const;
    /// Percent of the ampacity for a count of current-carrying conductors, from 1 up.
    [[nodiscard]] std::optional<double> adjustment_percent(double conductors) const;
    /// The largest device for a small conductor in general use; nothing for sizes without such a limit.
    [[nodiscard]] std::optional<double> small_conductor_limit(Material material, Size size) const;
    /// The least standard rating (of a breaker, or of a fuse) that is `amps` or more; nothing beyond the list.
    [[nodiscard]] std::optional<double> next_standard_rating(double amps, Edition edition, bool fuse = false) const;
    /// The greatest standard rating that is not over `amps`.
    [[nodiscard]] std::optional<double> standard_rating_below(double amps, Edition edition) const;
    /// Circular mils; nothing for a size that the table lacks.
    [[nodiscard]] std::optional<double> cmil(Size size) const;
    [[nodiscard]] const Insulation* insulation(std::string_view name) const;
    /// A value of the dwelling load rules under an edition.
    [[nodiscard]] std::optional<double> load_rule(std::string_view rule, Edition edition) const;
};

/// The typed tables out of table data. Tables of other names are passed over.
/// Errors  cells that are no number or size where one is needed, each with table, row and column.
[[nodiscard]] base::Checked<Tables> typed_tables(const std::vector<Table>& tables);

}  // namespace trade
