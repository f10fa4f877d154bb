#pragma once

#include "base/instant.hpp"
#include "memory/state.hpp"

namespace memory {

/// What the recall model believes of one learner and one point, in natural-log units of the odds of recall.
/// The defaults are the means of the priors; `sd` is the spread a fit may start from. "Checks": chosen so that the
/// published findings on spacing come out, near to what the answers of 239 learners of a public classroom practice
/// study allow. docs/model.md tells where that leaves us.
struct Parameters {
    double base = 0.95;            ///< log odds after a first meeting, without freshness and wear; finite. Checks, sd 1
    double asked_gain = 0.32;      ///< log odds per ln(1 + answers), recalled or not; >= 0. Checks, sd .3
    double recalled_gain = 0.61;   ///< the same per ln(1 + recalled), on top; >= 0. Checks, sd .3
    double last_recalled = 0.2;    ///< log odds when the last answer was recalled; >= 0. Chosen, sd .05
    double fresh = 2.4;            ///< log odds at the answer itself, most of it gone in an hour; >= 0. Checks, sd .6
    double log_decay = -1.01;      ///< ln of the log odds lost per unit of wear; finite. Checks, sd .4
    double unseen = -1.06;         ///< log odds of a right answer before the first one; finite. Chosen, sd 1
    double learner_ease = 0.0;     ///< added to the log odds for this learner; finite. Chosen, sd .8
    double point_ease = 0.0;       ///< added to the log odds for this point; finite. Chosen, sd .9
    double learner_forgets = 0.0;  ///< added to ln decay for this learner; finite. Chosen, sd .3

    friend bool operator==(const Parameters&, const Parameters&) = default;
};

/// What is left of the freshness of an answer: (1 + days / 2 minutes)^-1/2.
/// Takes   days, >= 0; infinity is allowed.
/// Gives   (0, 1] falling with days; 0 at infinity.
/// Source  own choice of a power law; its minutes chosen so that the seven savings of 1885 come out (1 would suit the
///         practice log a little better).
[[nodiscard]] double freshness(double days);

/// How far a delay has worn a point down: ln(1 + days / T0) + sum of weight (1 - e^(-days / scale)) / (1 + c spanned).
/// Takes   days, >= 0; infinity is allowed.
/// Gives   >= 0, growing without bound with days; never more after one more answer. Free of any parameter.
/// Source  own equation, docs/model.md: a power law of the odds, and on top a loss on each time scale that is the
///         smaller the more often earlier lags have spanned that scale.
[[nodiscard]] double wear(const RecallState& state, double days);

/// Log odds of recall right after the last answer, without its freshness.
/// Gives   base + eases + asked_gain ln(1 + answers) + recalled_gain ln(1 + recalled) + last_recalled if so; finite.
///         For a point never answered the worth of a first meeting, which recall_after does not use: see there.
/// Source  own equation, docs/model.md.
[[nodiscard]] double base_activation(const RecallState& state, const Parameters& params);

/// Log odds lost per unit of wear.
/// Gives   > 0 and finite, held within e^-700 and e^700.
[[nodiscard]] double decay(const Parameters& params);

/// Log odds of recall `days` after the last answer, as for a point that was met even when nothing was answered.
/// Gives   base_activation + fresh freshness - decay wear; -infinity at infinity.
[[nodiscard]] double log_odds_after(const RecallState& state, double days, const Parameters& params);

/// Chance of a right answer `days` after the last one.
/// Takes   days, >= 0; infinity is allowed.
/// Gives   [0, 1], never growing with days. No answers yet: the chance for a point never met, whatever the days.
/// Source  logistic(log_odds_after); docs/model.md.
[[nodiscard]] double recall_after(const RecallState& state, double days, const Parameters& params);

/// Chance of a right answer at `when`, in [0, 1].
/// Takes   any moment; one earlier than the last answer counts as no time passed, as clocks get set back.
/// Source  recall_after.
[[nodiscard]] double recall_probability(const RecallState& state, base::Instant when, const Parameters& params);

/// Time from the last answer until recall has fallen to `target`.
/// Takes   target in (0, 1).
/// Gives   days, >= 0; 0 when recall starts at or below the target; infinity when the time is beyond double, and for a
///         point never answered whose chance, which does not fall, lies above the target.
/// Source  log_odds_after, which falls strictly, solved for days by halving an interval of ln(1 + days / 1 minute), to
/// the
///         last bit of it; it has no closed form.
[[nodiscard]] double days_to(double target, const RecallState& state, const Parameters& params);

/// Time from the last answer until recall is one half, in days: days_to(1/2), with its zero and its infinity.
[[nodiscard]] double half_life_days(const RecallState& state, const Parameters& params);

/// The state after one more answer; constant time, no parameters, so that a new fit needs no new fold.
/// Takes   the mark in [0, 1] (kRecalledFrom and better is recalled) and when it was given. A moment earlier than the
///         last answer spans nothing and is kept as the last one: one answer under a clock running ahead must not
///         freeze the point until that date comes.
/// Gives   one answer more; no entry of `spanned` ever falls; a first answer spans nothing.
[[nodiscard]] RecallState advance(RecallState state, base::Instant at, double mark, Sure sure);

}  // namespace memory
