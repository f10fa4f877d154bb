#pragma once

#include <string>

#include "store/answer_log.hpp"

namespace store {

/// One answer as a line of JSON, without its end. docs/formats/answer-log.md gives the fields.
[[nodiscard]] std::string to_line(const AnswerRecord& record, const std::string& learner_name);

}  // namespace store
