#pragma once

#include "base/fault.hpp"
#include "content/contents.hpp"
#include "content/trade_data.hpp"

namespace content {

/// Everything wrong with contents beyond what reading finds: dead references, cycles of needs, editions that are
/// neither covered nor declared as gaps, questions outside their point's editions, unknown or unused mistakes, options
/// that stand twice, numbers that differ from what the tables and calculators say, near-duplicate questions and
/// explanations, right answers that give themselves away by length, computed calls that cannot be drawn and mistakes in
/// them that lead nowhere or answers that hang on a fact nobody is told, differences between editions that no change
/// list declares and declared ones that are none, exam outlines that cannot be filled, jobs that lead
/// nowhere. The faults found while reading
/// come first.
[[nodiscard]] base::Faults check_contents(const Contents& contents);

// The parts, one noun each; each adds to the faults.
void check_points(const Contents& contents, base::Faults& faults);
void check_questions(const Contents& contents, base::Faults& faults);
void check_scenarios(const Contents& contents, base::Faults& faults);
void check_likeness(const Contents& contents, base::Faults& faults);
void check_jurisdictions(const Contents& contents, base::Faults& faults);
/// Outlines of exams: ids, sums, names that no point has, sections without points that are not declared so. The values
/// themselves are judged on reading.
void check_outlines(const Contents& contents, base::Faults& faults);
/// Jobs whose facts the vocabulary does not take, or whose tags, topics and references no point has.
void check_jobs(const Contents& contents, base::Faults& faults);
void check_computed(const Contents& contents, const TradeData& data, base::Faults& faults);
void check_told(const Contents& contents, const TradeData& data, base::Faults& faults);
/// Sums that use numbers nobody tells; in roots that keep a register of figures, every number that nothing backs.
void check_figures(const Contents& contents, base::Faults& faults);
/// Questions that no second reader has answered as they stand, as warnings. Only for roots that keep readings.
void check_readings(const Contents& contents, base::Faults& faults);
void check_changes(const Contents& contents, const TradeData& data, base::Faults& faults);

/// Notes a finding at a place.
void note(base::Faults& faults, const Place& place, std::string what, std::string mend);

}  // namespace content
