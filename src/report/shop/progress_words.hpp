#pragma once

#include <string>
#include <vector>

#include "practice/shop/crew_progress.hpp"
#include "report/shop/progress_page.hpp"

namespace report {

/// Sentences that terminal and page share, in plain text.

/// "1,234 answers on 87 days since 2026-01-05, the last on 2026-11-29; 82 % right. 220 of 310 points met, 12 due."
[[nodiscard]] std::string overview(const practice::Progress& progress);

/// "Red tag: 3 corrections open, 1 of them tripped", "Green tag: no corrections open", or that nothing was answered.
[[nodiscard]] std::string tag_words(const practice::Progress& progress);

/// "shock stakes, sure and wrong, last answered 2026-11-29".
[[nodiscard]] std::string correction_words(const practice::OpenCorrection& one);

/// How often sure answers were right, and what was sure and wrong; that there is too little to tell under twenty sure
/// answers.
[[nodiscard]] std::string calibration_words(const practice::Progress& progress);

/// "in 30 days"; "today" and "tomorrow" for the first two.
[[nodiscard]] std::string ahead_words(int days);

/// What a need is about, without the name: "no study for 12 days".
[[nodiscard]] std::string need_words(const practice::Need& need, const practice::Member& member);
/// What the lead can do about it.
[[nodiscard]] std::string need_step(practice::NeedKind kind);

/// "in 9 days, 54 % to pass"; "none set".
[[nodiscard]] std::string exam_words(const practice::Member& member);
/// "today", "3 days ago", "not begun".
[[nodiscard]] std::string last_words(const practice::Member& member);

/// What load and the four states of a circuit mean.
[[nodiscard]] std::string circuit_legend();
/// Mean recall as the panel tells it: "93 %", "-" when no point was met.
[[nodiscard]] std::string load_words(double recall, std::size_t met);
/// So many points are listed under one need; the learner's own page has them all.
inline constexpr std::size_t kMostNeedPoints = 5;
/// "and 12 more".
[[nodiscard]] std::string more_words(std::size_t left);
/// "weakest Cy Lund, strongest Ada Ferris"; a single learner is named alone.
[[nodiscard]] std::string ends_words(const practice::CrewTopic& topic, const std::vector<practice::Member>& members);
/// A forecast of a chance, never certain: "over 99 %".
[[nodiscard]] std::string chance_words(double chance);

}  // namespace report
