#include <algorithm>

#include "trade/loads/dwelling_load.hpp"
#include "trade/loads/motor_circuit.hpp"
#include "trade/loads/range_load.hpp"
#include "trade/loads/voltage_drop.hpp"
#include "trade/work/bonding_jumper.hpp"
#include "trade/work/box_fill.hpp"
#include "trade/work/burial_depth.hpp"
#include "trade/work/calculator.hpp"
#include "trade/work/conductor.hpp"
#include "trade/work/equipment_ground.hpp"
#include "trade/work/grounding_electrode.hpp"
#include "trade/work/overcurrent.hpp"
#include "trade/work/raceway_fill.hpp"
#include "trade/work/support.hpp"
#include "trade/work/switching.hpp"
#include "trade/work/working_space.hpp"

namespace trade {

const std::vector<Calculator>& calculators() {
    static const std::vector<Calculator> kAll = {
        box_fill_calculator(),
        raceway_fill_calculator(),
        conductor_calculator(),
        overcurrent_calculator(),
        voltage_drop_calculator(),
        equipment_ground_calculator(),
        grounding_electrode_calculator(),
        bonding_jumper_calculator(),
        dwelling_load_calculator(),
        range_load_calculator(),
        motor_circuit_calculator(),
        burial_depth_calculator(),
        working_space_calculator(),
        support_calculator(),
        switching_calculator(),
    };
    return kAll;
}

const Calculator* find_calculator(std::string_view name) {
    const auto& all = calculators();
    const auto found = std::find_if(all.begin(), all.end(), [&](const Calculator& c) { return c.name == name; });
    return found == all.end() ? nullptr : &*found;
}

}  // namespace trade
