#pragma once

#include <cstddef>
#include <vector>

#include "base/random.hpp"
#include "practice/exam/candidates.hpp"

namespace practice {

/// How far a section's expected score may lie from its target, in questions, wherever exchanging questions can bring it
/// so near.
inline constexpr double kScoreBand = 0.1;

/// Expected score, in questions, of `asked` questions when every point counts alike, however many questions it has, and
/// every question of a point alike: the mean over papers drawn without an eye to difficulty, and what a drawn section
/// is held to. More asked than there are candidates counts as all of them.
[[nodiscard]] double target_score(const std::vector<Candidate>& candidates, std::size_t asked);

/// The sum of their chances.
[[nodiscard]] double expected_score(const std::vector<Candidate>& drawn);

/// Draws the questions of one section.
/// Takes   candidates with unlike ids, in any order.
/// Gives   `asked` of them, or all when there are fewer, in the order of the paper. No point has two while another has
/// none, nor three while another
///         that has two questions has one, and so on. |expected - target| <= kScoreBand where exchanges get there.
/// Source  Points in order of their mean chance are drawn by ordered pivotal sampling: each has the same chance to be
///         drawn, and every stretch of them that should hold m questions holds nearly m. It is stratified sampling with
///         one draw from each quantile (G. Chauvet, On a characterization of ordered pivotal sampling, Bernoulli 18(4),
///         2012: the same design as Deville's systematic sampling). Then questions are exchanged at random until the
///         expected score lies in the band. docs/decisions/exam-paper.md has the figures.
[[nodiscard]] std::vector<Candidate> draw_section(std::vector<Candidate> candidates, std::size_t asked,
                                                  base::Seed seed);

}  // namespace practice
