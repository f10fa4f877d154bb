#pragma once

#include <cmath>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

#include "content/contents.hpp"

/// The trade tables that are shipped, and the little that tests ask of their rows.
namespace shipped {

[[nodiscard]] inline const std::vector<trade::Table>& tables() {
    static const auto contents = content::load_contents(std::vector<std::string>{PROJECT_FOLDER});
    return contents.value().tables;
}

/// A test that names no table has failed.
[[nodiscard]] inline const trade::Table& table(const std::string& id) {
    for (const auto& one : tables())
        if (one.id == id) return one;
    throw std::runtime_error("no table " + id);
}

[[nodiscard]] inline bool has(const trade::TableRow& row, const std::string& column) {
    return row.values.contains(column);
}
/// The cell as a number; throws when it is missing or none.
[[nodiscard]] inline double number(const trade::TableRow& row, const std::string& column) {
    return std::stod(row.values.at(column));
}
[[nodiscard]] inline double key(const trade::TableRow& row, const std::string& name) {
    return std::stod(row.keys.at(name));
}

/// The gauge number of an AWG size: 12 for "12", 0 for "1/0", -3 for "4/0".
[[nodiscard]] inline int gauge(const std::string& size) {
    const int first = std::stoi(size);
    return size.ends_with("/0") ? 1 - first : first;
}
/// From "250" on sizes are in thousands of circular mils.
[[nodiscard]] inline bool in_kcmil(const std::string& size) {
    return !size.ends_with("/0") && std::stoi(size) >= 250;
}
/// Inches, by the gauge law d = 0.005 x 92^((36 - n) / 39).
[[nodiscard]] inline double gauge_diameter(int gauge_number) {
    return 0.005 * std::pow(92.0, (36.0 - gauge_number) / 39.0);
}
/// Circular mils by the gauge law, or by the name of the size.
[[nodiscard]] inline double circular_mils(const std::string& size) {
    return in_kcmil(size) ? 1000.0 * std::stoi(size) : std::pow(1000.0 * gauge_diameter(gauge(size)), 2);
}

}  // namespace shipped
