#pragma once

#include <nlohmann/json_fwd.hpp>

#include "base/exit_status.hpp"
#include "base/fault.hpp"
#include "practice/session.hpp"

namespace report {

// The documents of docs/formats/study-lines.md. One shape for every verb: {"ok": true, ...} or {"ok": false, "faults":
// [...]}.

[[nodiscard]] nlohmann::ordered_json ask_json(const practice::Posed& posed, bool reveal);
[[nodiscard]] nlohmann::ordered_json outcome_json(const practice::Outcome& outcome);
[[nodiscard]] nlohmann::ordered_json summary_json(const practice::Summary& summary, const practice::SessionFor& what);
[[nodiscard]] nlohmann::ordered_json look_ups_json(const std::vector<practice::LookUpFamily>& families);
[[nodiscard]] nlohmann::ordered_json standing_json(const practice::Standing& standing);
[[nodiscard]] nlohmann::ordered_json faults_json(const base::Faults& faults);
[[nodiscard]] nlohmann::ordered_json failure_json(const base::Faults& faults, base::Exit exit);

}  // namespace report
