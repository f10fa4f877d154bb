#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "base/instant.hpp"
#include "memory/model.hpp"
#include "memory/state.hpp"

/// In which order a learner should meet the points of a library, when there is never time for everything.
///
/// The rule starts from rotation (longest unasked first) and departs from it in four ways, each of which beat it in
/// rehearsal, in two memories that are not our model:
///   a point is only begun while there is time left to give it and all those begun a few answers each;
///   a point never failed, in a family mostly known, comes round less often, for it was known before: the more so the
///   longer one round of the library takes;
///   stakes decide what is begun first, and by their root how often it comes round;
///   once the model is fitted to the learner, what will last to the horizon comes round a little less often, and the
///   last asks go to points that are neither safe nor lost. At prior parameters this lost, so it is left out then.
namespace memory::schedule {

/// One point as the rule sees it.
struct Candidate {
    const RecallState* state = nullptr;
    double weight = 1.0;                 ///< stakes, > 0; 1 is ordinary
    std::uint32_t family = 0;            ///< points of a family tend to be known together
    const Parameters* params = nullptr;  ///< fitted to this learner's answers; null before there is a fit
};

/// What time a learner has, judged by the pace so far.
struct Pace {
    double asks_a_day = 0;  ///< corrections not counted, days without a sitting counted in, >= 0
    double days_left = 0;   ///< until the horizon, today counted in, >= 0

    [[nodiscard]] double asks_left() const { return asks_a_day * days_left; }
};

/// What is the same for all points at a moment.
struct Outlook {
    base::Instant now{};
    base::Instant horizon{};       ///< until when a point has to last
    double room = 0;               ///< how many more points may be begun while there is time for them, >= 0
    double scarcity = 0;           ///< 0: a round takes no time to speak of; 1: it takes weeks
    bool closing = false;          ///< too few asks are left for another round
    std::vector<double> familiar;  ///< of each family: chance that a point of it was known before, in (0, 1)
};

/// Looks over the library once, for all of its points.
/// Takes   the library in scope, whatever its order. A horizon that has passed counts as now.
/// Gives   what worth() needs.
[[nodiscard]] Outlook look_out(std::span<const Candidate> points, base::Instant now, base::Instant horizon,
                               const Pace& pace);

/// How much a point should come up now.
/// Takes   a candidate whose family was among those looked out upon.
/// Gives   >= 0, higher for sooner; days of waiting, in effect. 0: answered this very moment, or certain to last. A
///         point that there is no room to begin keeps a trifle, so that it comes up when nothing else does.
[[nodiscard]] double worth(const Candidate& point, const Outlook& outlook);

}  // namespace memory::schedule
