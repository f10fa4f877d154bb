#pragma once

#include "base/instant.hpp"
#include "memory/state.hpp"

namespace memory {

/// What the recall model believes of one learner and one point, in natural-log units of the odds of recall.
/// The defaults are the means of the priors; `sd` is the spread a fit may start from. "Log fit": estimated on the
/// answers of 239 learners of a public classroom practice study; "chosen": set by judgement, no data behind it.
/// docs/model.md tells where that leaves us.
struct Parameters {
    double base = 1.13;           ///< log odds just after a first meeting; any finite value. Log fit, sd 1
    double recalled_gain = 1.25;  ///< log odds per ln(1 + recalled); >= 0. Log fit, sd .5
    double failed_gain = 0.30;    ///< log odds per ln(1 + failed), the worth of the correction; >= 0. Log fit, sd .3
    double log_decay =
        -0.7985076962177716;       ///< ln of the decay exponent before any spacing, ln .45; finite. Log fit, sd .4
    double recalled_slows = 0.30;  ///< fall of ln decay per ln(1 + spacing_recalled); >= 0. Chosen, sd .10
    double failed_slows = 0.10;    ///< fall of ln decay per ln(1 + spacing_failed); >= 0. Chosen, sd .05
    double unseen = -1.06;         ///< log odds of a right answer before the first one; finite. Chosen, sd 1
    double learner_ease = 0.0;     ///< added to the log odds for this learner; finite. Chosen, sd .8
    double point_ease = 0.0;       ///< added to the log odds for this point; finite. Chosen, sd .9
    double learner_forgets = 0.0;  ///< added to ln decay for this learner; finite. Chosen, sd .3

    friend bool operator==(const Parameters&, const Parameters&) = default;
};

/// How far a delay has worn recall down: ln(1 + h * delay / 60 s).
/// Takes   days, >= 0.
/// Gives   >= 0, growing without bound.
/// Source  power-law decay of the odds, p = m (1 + h t)^-f in Wixted & Carpenter 2007 (seen second-hand); h = .025 is
///         the between-session time scale of Pavlik & Anderson 2005 (from memory, not verified).
[[nodiscard]] double log_delay(double days);

/// Log odds of recall at the moment of the last answer.
/// Gives   base + eases + recalled_gain ln(1 + recalled) + failed_gain ln(1 + failed); finite. For a point never
///         answered this is the worth of a first meeting, which recall_after does not use: see there.
/// Source  own equation, docs/model.md.
[[nodiscard]] double base_activation(const RecallState& state, const Parameters& params);

/// Exponent by which the odds of recall fall with 1 + h * delay / 60 s.
/// Gives   > 0 and finite, held within e^-700 and e^700; smaller after answers given further apart.
/// Source  own equation, docs/model.md.
[[nodiscard]] double decay(const RecallState& state, const Parameters& params);

/// Chance of a right answer `days` after the last one.
/// Takes   days, >= 0; infinity is allowed.
/// Gives   [0, 1], never growing with days. No answers yet: the chance for a point never met, whatever the days.
/// Source  logistic(base_activation - decay * log_delay); docs/model.md.
[[nodiscard]] double recall_after(const RecallState& state, double days, const Parameters& params);

/// Chance of a right answer at `when`, in [0, 1].
/// Takes   any moment; one earlier than the last answer counts as no time passed, as clocks get set back.
/// Source  recall_after.
[[nodiscard]] double recall_probability(const RecallState& state, base::Instant when, const Parameters& params);

/// Time from the last answer until recall has fallen to `target`.
/// Takes   target in (0, 1).
/// Gives   days, >= 0; 0 when recall starts at or below the target; infinity when the time is beyond double, and for a
///         point never answered whose chance, which does not fall, lies above the target.
/// Source  recall_after solved for days: (60 s / h) (exp((base_activation - logit target) / decay) - 1).
[[nodiscard]] double days_to(double target, const RecallState& state, const Parameters& params);

/// Time from the last answer until recall is one half, in days: days_to(1/2), with its zero and its infinity.
[[nodiscard]] double half_life_days(const RecallState& state, const Parameters& params);

/// The state after one more answer; constant time, no parameters, so that a new fit needs no new fold.
/// Takes   the mark in [0, 1] (kRecalledFrom and better is recalled) and when it was given. A moment earlier than the
///         last answer adds no spacing and is kept as the last one: one answer under a clock running ahead must not
///         freeze the point until that date comes.
/// Gives   one answer more; neither spacing sum ever falls; a first answer adds no spacing.
[[nodiscard]] RecallState advance(RecallState state, base::Instant at, double mark, Sure sure);

}  // namespace memory
