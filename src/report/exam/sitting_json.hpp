#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "base/fault.hpp"
#include "practice/exam/result.hpp"
#include "practice/exam/sitting.hpp"

namespace report {

// A sitting as lines of JSON, to be kept append-only: first what was settled before it began, then an event a line.
// docs/formats/sitting.md gives the fields.

/// One line, without its end. Ids, seeds and times come back exactly as they were.
[[nodiscard]] std::string to_line(const practice::SittingFor& what);
[[nodiscard]] std::string to_line(const practice::SittingEvent& event);

/// Errors  everything wrong with the line; `line` is its number in the file, for the faults.
[[nodiscard]] base::Checked<practice::SittingFor> sitting_from_line(std::string_view text, const std::string& file = "",
                                                                    int line = 1);
[[nodiscard]] base::Checked<practice::SittingEvent> event_from_line(std::string_view text, const std::string& file = "",
                                                                    int line = 1);

/// A sitting as it was kept.
struct KeptSitting {
    practice::SittingFor what;
    std::vector<practice::SittingEvent> events;
    bool torn = false;  ///< the last line has no end: it was being written when the machine stopped, and does not count
};

/// Reads a whole kept sitting. Lines with nothing in them are passed over.
/// Errors  a first line that is no sitting, whole lines that are no event: all of them, with their lines.
[[nodiscard]] base::Checked<KeptSitting> read_sitting(std::string_view text, const std::string& file);

/// The result as one document.
[[nodiscard]] nlohmann::ordered_json result_json(const practice::Sitting& sitting, const content::Outline& outline,
                                                 const practice::SittingResult& result);

}  // namespace report
