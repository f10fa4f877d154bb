#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <set>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "base/text.hpp"
#include "content/trade_data.hpp"
#include "reference/json_file.hpp"
#include "trade/work/calculator.hpp"

/// Values from outside, held against the calculators and the protection rules on the data as it is shipped.
namespace outside {

using nlohmann::json;

[[nodiscard]] const content::TradeData& data();

/// A fact of a file as it would be typed.
[[nodiscard]] std::string typed(const json& value);

[[nodiscard]] trade::Finding worked(const json& one, trade::Edition edition);

/// Empty when the value is the one wanted, a number to within rounding.
[[nodiscard]] std::string differs(const std::string& name, const trade::Value* got, const json& wanted);

/// What a calculator says otherwise than expected ("answer", "also", "articles"); empty when all agrees.
[[nodiscard]] std::string worked_otherwise(const json& one, trade::Edition edition);

void set(trade::CaseFacts& facts, const std::string& name, const json& value);

[[nodiscard]] trade::Ruling ruled(const json& one, trade::Edition edition);

/// What the rules say otherwise than expected ("requires", "permits"); empty when all agrees.
[[nodiscard]] std::string ruled_otherwise(const json& one, trade::Edition edition);

/// How many of a list have that confidence.
[[nodiscard]] std::ptrdiff_t with_confidence(const json& list, const std::string& confidence);

/// Checks that one says where it comes from, and that only a published one is of high confidence.
void check_source(const json& one);

}  // namespace outside
