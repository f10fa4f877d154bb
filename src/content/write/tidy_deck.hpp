#pragma once

#include <string>

#include <nlohmann/json_fwd.hpp>

namespace content {

/// A deck as text that a person can read and mend: a line for each mistake, version and question.
/// Takes a document of the format greentag-deck/1; what it holds is not judged.
[[nodiscard]] std::string tidy_deck(const nlohmann::ordered_json& deck);

/// A value on one line, with spaces after commas and colons.
[[nodiscard]] std::string one_line(const nlohmann::ordered_json& value);

/// A number the way people write it: 3, never 3.0.
[[nodiscard]] nlohmann::ordered_json plain_number(double number);

}  // namespace content
