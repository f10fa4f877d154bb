#include "trade/tables.hpp"

#include <algorithm>

#include "base/text.hpp"

namespace trade {
namespace {

constexpr double kSlack = 1e-9;

std::optional<double> stated(double value) {
    return value > 0.0 ? std::optional{value} : std::nullopt;
}

std::size_t at(Material material) {
    return static_cast<std::size_t>(material);
}
std::size_t at(Rating rating) {
    return static_cast<std::size_t>(rating);
}

/// A row of a table while its cells are read; what cannot be read is noted with its place.
class Cells {
public:
    Cells(const Table& table, const TableRow& row, std::size_t number, base::Faults& faults)
        : table_{&table}, row_{&row}, number_{number}, faults_{&faults} {}

    /// The cell as it stands; empty when the row has none.
    [[nodiscard]] std::string text(const std::string& name) const {
        const auto key = row_->keys.find(name);
        if (key != row_->keys.end()) return key->second;
        const auto value = row_->values.find(name);
        return value == row_->values.end() ? std::string{} : value->second;
    }
    [[nodiscard]] bool has(const std::string& name) const { return !text(name).empty(); }

    /// A number, fractions and mixed numbers among them; 0 for an empty cell.
    [[nodiscard]] double number(const std::string& name) const {
        const std::string cell = text(name);
        if (cell.empty()) return 0.0;
        const auto typed = base::parse_typed_quantity(cell);
        if (typed && !typed->unit) return typed->value;
        note(name, cell, "a number");
        return 0.0;
    }
    [[nodiscard]] std::optional<Size> size(const std::string& name) const {
        const std::string cell = text(name);
        if (cell.empty()) return std::nullopt;
        auto size = parse_size(cell);
        if (!size) note(name, cell, "a conductor size");
        return size;
    }
    [[nodiscard]] std::optional<Material> material(const std::string& name) const {
        auto material = parse_material(text(name));
        if (!material) note(name, text(name), "cu or al");
        return material;
    }

    void note(const std::string& column, const std::string& cell, const std::string& wanted) const {
        faults_->push_back({"", "/rows/" + std::to_string(number_) + "/" + column, 0,
                            "table '" + table_->id + "': '" + cell + "' should be " + wanted,
                            "correct the cell in decks/tables/" + table_->id + ".json", false});
    }

private:
    const Table* table_;
    const TableRow* row_;
    std::size_t number_;
    base::Faults* faults_;
};

void set_by_size(BySize& values, const Cells& row, const std::string& column) {
    if (const auto size = row.size("size")) values[index_of(*size)] = row.number(column);
}

void read_box_volume(Tables& to, const Cells& row) {
    set_by_size(to.box_volume, row, "volume");
}

void read_ampacity(Tables& to, const Cells& row) {
    const auto material = row.material("material");
    if (!material) return;
    auto& columns = to.ampacity[at(*material)];
    set_by_size(columns[0], row, "c60");
    set_by_size(columns[1], row, "c75");
    set_by_size(columns[2], row, "c90");
}

void read_ambient(Tables& to, const Cells& row) {
    to.ambient.push_back({row.number("top_c"), {row.number("f60"), row.number("f75"), row.number("f90")}});
}

void read_adjustment(Tables& to, const Cells& row) {
    to.adjustment.push_back({row.number("from"), row.number("percent")});
}

void read_small_conductor(Tables& to, const Cells& row) {
    if (const auto material = row.material("material")) set_by_size(to.small_conductor[at(*material)], row, "most");
}

void read_standard_rating(Tables& to, const Cells& row) {
    const auto from = parse_edition(row.text("editions_from"));
    if (!from && row.has("editions_from")) row.note("editions_from", row.text("editions_from"), "an edition");
    to.standard_ratings.push_back({row.number("rating"), from.value_or(Edition::e2017), row.number("fuse_only") > 0});
}

void read_conductor_area(Tables& to, const Cells& row) {
    const std::string name = base::lower(row.text("insulation"));
    auto found = std::find_if(to.insulations.begin(), to.insulations.end(),
                              [&](const Tables::Insulation& i) { return i.name == name; });
    if (found == to.insulations.end()) {
        to.insulations.push_back({name, {}, {}});
        found = to.insulations.end() - 1;
    }
    set_by_size(found->area, row, "area");
    set_by_size(found->diameter, row, "diameter");
}

void read_raceway(Tables& to, const Cells& row) {
    to.raceways.push_back(
        {base::lower(row.text("raceway")), row.text("trade_size"), row.number("diameter"), row.number("area")});
}

void read_resistance(Tables& to, const Cells& row) {
    if (const auto size = row.size("size"))
        to.resistance[index_of(*size)] = {row.number("cmil"),
                                          {row.number("cu_solid"), row.number("al_solid")},
                                          {row.number("cu_stranded"), row.number("al_stranded")}};
}

void read_impedance(Tables& to, const Cells& row) {
    const auto size = row.size("size");
    if (!size) return;
    Tables::Impedance& z = to.impedance[index_of(*size)];
    z.reactance = {row.number("x_pvc"), row.number("x_pvc"), row.number("x_steel")};
    z.resistance[0] = {row.number("r_cu_pvc"), row.number("r_cu_al"), row.number("r_cu_steel")};
    z.resistance[1] = {row.number("r_al_pvc"), row.number("r_al_al"), row.number("r_al_steel")};
}

void read_drop_constant(Tables& to, const Cells& row) {
    const std::string name = row.text("name");
    if (name == "k-copper-75c") to.k[at(Material::cu)] = row.number("value");
    if (name == "k-aluminium-75c") to.k[at(Material::al)] = row.number("value");
    if (name == "branch-limit") to.advised_drop_percent = row.number("value");
}

void read_equipment_ground(Tables& to, const Cells& row) {
    to.equipment_ground.push_back({row.number("device"), {row.size("cu"), row.size("al")}});
}

/// "3/0" through the resistance table, "1100" as kcmil, "over" as 0.
double area_of(const Cells& row, const std::string& column, const Tables& tables) {
    const std::string cell = row.text(column);
    if (cell == "over") return 0.0;
    if (const auto size = parse_size(cell)) return tables.cmil(*size).value_or(0.0);
    return row.number(column) * 1000.0;
}

void read_electrode(Tables& to, const Cells& row) {
    to.grounding_electrode.push_back(
        {{area_of(row, "largest_cu", to), area_of(row, "largest_al", to)}, {row.size("cu"), row.size("al")}});
}

void read_electrode_limit(Tables& to, const Cells& row) {
    to.electrode_limits.push_back({row.text("electrode"), {row.size("cu"), row.size("al")}});
}

void read_receptacle_load(Tables& to, const Cells& row) {
    to.receptacle_loads.push_back({row.number("circuit"), row.number("receptacle"), row.number("most")});
}

void read_receptacle_rating(Tables& to, const Cells& row) {
    to.receptacle_ratings.push_back({row.number("circuit"), row.number("least"), row.number("most")});
}

void read_motor_current(Tables& to, const Cells& row) {
    to.motor_currents.push_back(
        {static_cast<int>(row.number("phase")), row.number("volts"), row.number("hp"), row.number("amps")});
}

void read_motor_protection(Tables& to, const Cells& row) {
    to.motor_protection.push_back({row.text("motor_type"), row.number("nontime_delay_fuse"),
                                   row.number("dual_element_fuse"), row.number("instantaneous_breaker"),
                                   row.number("inverse_time_breaker")});
}

void read_range(Tables& to, const Cells& row) {
    to.range_demand.push_back({row.number("appliances"), row.number("a"), row.number("b"), row.number("c")});
}

void read_dryer(Tables& to, const Cells& row) {
    to.dryer_demand.push_back({row.number("dryers"), row.number("percent")});
}

void read_load_rule(Tables& to, const Cells& row) {
    const auto editions = parse_edition_range(row.text("editions"));
    if (!editions) row.note("editions", row.text("editions"), "an edition or a run of editions");
    to.dwelling_load.push_back({row.text("rule"), editions.value_or(EditionRange{}), row.number("value")});
}

void read_cover(Tables& to, const Cells& row) {
    Tables::Cover cover{row.text("place"),
                        row.number("direct_burial"),
                        row.number("rmc_imc"),
                        row.number("nonmetallic_raceway"),
                        row.number("gfci_branch"),
                        row.number("low_voltage"),
                        std::nullopt,
                        std::nullopt};
    if (row.has("gfci_branch_in_raceway")) cover.gfci_branch_in_raceway = row.number("gfci_branch_in_raceway");
    if (row.has("low_voltage_in_raceway")) cover.low_voltage_in_raceway = row.number("low_voltage_in_raceway");
    to.covers.push_back(std::move(cover));
}

void read_depth(Tables& to, const Cells& row) {
    const auto ends = base::split(row.text("volts_to_ground"), '-');
    const auto least = ends.size() == 2 ? base::parse_typed_quantity(ends[0]) : std::nullopt;
    const auto most = ends.size() == 2 ? base::parse_typed_quantity(ends[1]) : std::nullopt;
    if (!least || !most) {
        row.note("volts_to_ground", row.text("volts_to_ground"), "a band such as 0-150");
        return;
    }
    to.depths.push_back({least->value, most->value, static_cast<int>(row.number("condition")), row.number("depth")});
}

void read_support(Tables& to, const Cells& row) {
    to.supports.push_back({row.text("method"), row.number("spacing"), row.number("from_box")});
}

void read_box(Tables& to, const Cells& row) {
    to.boxes.push_back({row.text("family"), row.text("size"), row.number("volume")});
}

struct Known {
    std::string_view id;
    void (*read)(Tables&, const Cells&);
};

/// In an order where what a table needs of another comes first: electrode rows need the areas of conductors.
constexpr std::array kKnown = {
    Known{"box-volume", read_box_volume},
    Known{"ampacity", read_ampacity},
    Known{"ambient-correction", read_ambient},
    Known{"conductor-adjustment", read_adjustment},
    Known{"small-conductor", read_small_conductor},
    Known{"standard-overcurrent", read_standard_rating},
    Known{"conductor-area", read_conductor_area},
    Known{"raceway-area", read_raceway},
    Known{"conductor-resistance", read_resistance},
    Known{"conductor-impedance", read_impedance},
    Known{"voltage-drop-constant", read_drop_constant},
    Known{"equipment-ground", read_equipment_ground},
    Known{"grounding-electrode", read_electrode},
    Known{"grounding-electrode-limit", read_electrode_limit},
    Known{"receptacle-load", read_receptacle_load},
    Known{"receptacle-rating", read_receptacle_rating},
    Known{"motor-current", read_motor_current},
    Known{"motor-protection", read_motor_protection},
    Known{"range-demand", read_range},
    Known{"dryer-demand", read_dryer},
    Known{"dwelling-load", read_load_rule},
    Known{"burial-cover", read_cover},
    Known{"working-space", read_depth},
    Known{"support", read_support},
    Known{"standard-box", read_box},
};

}  // namespace

std::optional<double> Tables::ampacity_of(Material material, Rating rating, Size size) const {
    return stated(ampacity[at(material)][at(rating)][index_of(size)]);
}

std::optional<double> Tables::ambient_factor(Rating rating, double ambient_c) const {
    for (const auto& band : ambient)
        if (ambient_c <= band.top_c + kSlack) return stated(band.factors[at(rating)]);
    return std::nullopt;
}

std::optional<double> Tables::adjustment_percent(double conductors) const {
    std::optional<double> percent;
    for (const auto& band : adjustment)
        if (conductors + kSlack >= band.from) percent = band.percent;
    return percent;
}

std::optional<double> Tables::small_conductor_limit(Material material, Size size) const {
    return stated(small_conductor[at(material)][index_of(size)]);
}

std::optional<double> Tables::next_standard_rating(double amps, Edition edition, bool fuse) const {
    for (const auto& rating : standard_ratings)
        if ((fuse || !rating.fuse_only) && rating.from <= edition && rating.amps + kSlack >= amps) return rating.amps;
    return std::nullopt;
}

std::optional<double> Tables::standard_rating_below(double amps, Edition edition) const {
    std::optional<double> found;
    for (const auto& rating : standard_ratings)
        if (!rating.fuse_only && rating.from <= edition && rating.amps <= amps + kSlack) found = rating.amps;
    return found;
}

std::optional<double> Tables::cmil(Size size) const {
    return stated(resistance[index_of(size)].cmil);
}

const Tables::Insulation* Tables::insulation(std::string_view name) const {
    const auto found =
        std::find_if(insulations.begin(), insulations.end(), [&](const Insulation& i) { return i.name == name; });
    return found == insulations.end() ? nullptr : &*found;
}

std::optional<double> Tables::load_rule(std::string_view rule, Edition edition) const {
    for (const auto& row : dwelling_load)
        if (row.rule == rule && row.editions.contains(edition)) return row.value;
    return std::nullopt;
}

base::Checked<Tables> typed_tables(const std::vector<Table>& tables) {
    Tables typed;
    base::Faults faults;
    for (const auto& known : kKnown) {
        const auto found = std::find_if(tables.begin(), tables.end(), [&](const Table& t) { return t.id == known.id; });
        if (found == tables.end()) continue;
        for (std::size_t i = 0; i < found->rows.size(); ++i) known.read(typed, {*found, found->rows[i], i, faults});
    }
    if (!faults.empty()) return tl::unexpected<base::Faults>{std::move(faults)};
    return typed;
}

}  // namespace trade
