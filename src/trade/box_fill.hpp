#pragma once

#include <optional>
#include <string>
#include <vector>

#include "trade/edition.hpp"
#include "trade/finding.hpp"
#include "trade/table.hpp"

namespace trade {

/// What is found in one box. Sizes are AWG, written as in the table ("14").
struct BoxContents {
    struct Conductors {
        std::string size;
        int count = 0;  ///< allowances: one per conductor that ends, is spliced or passes through; two per long loop
    };
    struct Device {
        std::string size;  ///< the largest conductor on the device
        int gangs = 1;     ///< gangs of mounting space the device needs
        int count = 1;
    };
    std::vector<Conductors> conductors;  ///< without equipment grounds
    bool clamps = false;                 ///< one or more clamps inside the box
    int fittings = 0;                    ///< kinds of support fittings present (stud, hickey)
    std::vector<Device> devices;
    std::optional<Conductors> grounds;  ///< equipment grounds and bonding jumpers, at the largest size among them
};

/// Volume that the contents of one box take up.
/// Takes   the counts as found; fittings, clamps and grounds are counted here, not by the caller.
/// Gives   cubic inches, >= 0, with the counting as steps. A size missing from the table is listed as unknown.
/// Source  Section 314.16(B) as recalled and as worked in trade magazines (see tests/reference): each conductor once,
///         clamps once and each kind of support fitting once at the largest conductor, two per gang of a device at the
///         largest conductor on it; all grounds together once through 2017, from 2020 once for the first four and a
///         quarter for each one more.
[[nodiscard]] Finding box_fill(const BoxContents& found, Edition edition, const Table& volumes);

}  // namespace trade
