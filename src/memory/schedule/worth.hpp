#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "base/instant.hpp"
#include "memory/state.hpp"

/// In which order a learner should meet the points of a library, when there is
/// never time for everything.
///
/// The rule starts from rotation (longest unasked first) and departs from it in
/// three ways, each of which beat it in rehearsal, in two memories that are not
/// our model, on seeds it was not tuned on:
///   a point is only begun while there is time left to give it and all those
///   begun a few answers each; a point never failed, in a family mostly known,
///   comes round less often: it was known before; stakes decide what is begun
///   first, and by their root how often it comes round.
/// It asks the learner's answers and no parameters, so that it holds before
/// anything is fitted.
namespace memory::schedule {

/// One point as the rule sees it.
struct Candidate {
    const RecallState* state = nullptr;
    double weight = 1.0;       ///< stakes, > 0; 1 is ordinary
    std::uint32_t family = 0;  ///< points of a family tend to be known together
};

/// What is the same for all points at a moment.
struct Outlook {
    base::Instant now{};
    double room = 0;               ///< how many more points may be begun, >= 0 as far as there is time
    std::vector<double> familiar;  ///< of each family: how likely a point of it
                                   ///< was known before it was asked, in (0, 1)
};

/// Takes   the library in scope, whatever its order; the number of asks that
/// the learner will still manage before the
///         horizon, corrections not counted, >= 0.
/// Gives   what worth() needs. One pass over the points.
[[nodiscard]] Outlook look_out(std::span<const Candidate> points, base::Instant now, double asks_left);

/// How much a point should come up now. Takes a candidate whose family was
/// among those looked out upon. Gives   >= 0, higher for sooner; days of
/// waiting, in effect. 0: answered this very moment. A point that there is no
///         room to begin keeps a trifle, so that it comes up when nothing else
///         does.
[[nodiscard]] double worth(const Candidate& point, const Outlook& outlook);

}  // namespace memory::schedule
