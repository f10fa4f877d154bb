#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "trade/switching/arrangement.hpp"
#include "trade/switching/solve.hpp"

namespace trade::switching {

enum class FaultKind : std::uint8_t {
    none,
    feed_open,
    feed_grounded,
    switch_leg_open,
    switch_leg_grounded,
    neutral_open,
    neutral_loose,
    neutral_grounded,
    foreign_neutral,
    swapped_at_lampholder,
    switch_across,
    switched_neutral,
    lights_in_series,
    traveler_open,
    traveler_grounded,
    travelers_crossed,
    common_interchanged,
    single_pole_fitted,
    four_way_pairs_mixed,
    shared_neutral_open,
    both_legs_on_one,
    tab_unbroken,
    live_box
};

/// What holds for every fault of a kind.
struct KindOfFault {
    FaultKind kind = FaultKind::none;
    std::string_view id;
    std::string_view title;  ///< in trade words
    std::string_view where;  ///< what an arrangement must have for it
    std::string_view find;   ///< how to find it
};

/// All kinds in the order of FaultKind. Every test on opened boxes that they name supposes the usual care: dead work is
/// done locked out and proved dead with a tester checked on a known source; live readings are for a qualified person.
[[nodiscard]] const std::vector<KindOfFault>& kinds_of_fault();
[[nodiscard]] const KindOfFault& about(FaultKind kind);

/// One change to the wiring.
struct Edit {
    enum class Kind : std::uint8_t {
        open,              ///< link `which` is cut
        loosen,            ///< link `which` makes and breaks
        touch,             ///< `a` and `b` touch
        join,              ///< `a` is landed on `b` as well
        move,              ///< the landing `which` goes to `b` instead
        make_single_pole,  ///< switch `which` has a single-pole device; common and first screw are used
        same_leg           ///< both poles of the breaker sit on one leg
    };
    Kind kind = Kind::open;
    std::size_t which = 0;
    Node a = 0;
    Node b = 0;
};

/// A fault at its place in one arrangement. Its effect is computed by `solve`, never stated.
struct Fault {
    FaultKind kind = FaultKind::none;
    std::string id;     ///< "traveler-open.traveler-1"; unique in the arrangement
    std::string title;  ///< "Traveler 1 open between S1 box and S2 box"
    std::string place;
    std::string find;
    Basis basis;  ///< of the way to find it
    std::vector<Edit> edits;
};

/// The sound circuit as a choice among faults: id "sound".
[[nodiscard]] const Fault& nothing_wrong();

/// Every fault that can be made in the arrangement; the order is stable.
[[nodiscard]] std::vector<Fault> faults_for(const Arrangement& arrangement);
/// Refuses an id that the arrangement has no fault for. "sound" gives nothing_wrong().
[[nodiscard]] base::Checked<Fault> find_fault(const Arrangement& arrangement, std::string_view id);

/// The circuit with the fault in it. The fault must be one of this arrangement.
[[nodiscard]] Circuit with_fault(const Circuit& circuit, const Fault& fault);

[[nodiscard]] Table solve(const Arrangement& arrangement, const Fault& fault = nothing_wrong());

}  // namespace trade::switching
