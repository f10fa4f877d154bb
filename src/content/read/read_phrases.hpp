#pragma once

#include <string_view>
#include <vector>

#include "base/located_json.hpp"
#include "content/originality.hpp"

namespace content {

inline constexpr std::string_view kPhrasesFormat = "greentag-phrases/1";

/// Stock phrases over a whole document. A phrase of one word and a missing reason are noted through the reader.
[[nodiscard]] std::vector<StockPhrase> read_phrases(const base::Reader& document);

}  // namespace content
