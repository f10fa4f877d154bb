#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>
#include <vector>

#include <doctest/doctest.h>

#include "base/located_json.hpp"
#include "reference/json_file.hpp"
#include "trade/shipped_tables.hpp"
#include "trade/work/calculator.hpp"

/// Worked examples from outside, run through a calculator by fact names, on the tables as they are shipped.
namespace worked {

using nlohmann::json;
using trade::Calculator;
using trade::Edition;
using trade::Facts;
using trade::Finding;

/// Facts as a file has them; a fact that the calculator does not know fails the test.
[[nodiscard]] Facts facts_of(const Calculator& calculator, const json& object);

[[nodiscard]] Finding find(const Calculator& calculator, const json& facts, Edition edition = Edition::e2023);

[[nodiscard]] std::vector<Edition> editions_of(const json& example);

/// Printed numbers are rounded: `within` is what they may be off by.
void check_value(const trade::Value& value, const json& wanted, double within);

void check_example(const Calculator& calculator, const json& example, Edition edition);

/// Every example of a file under every edition it holds for; each names its source and basis.
void check_all(const Calculator& calculator, const std::string& file, std::size_t least);

/// Without any one of these facts it is asked for by name, and there is no answer.
void check_needs(const Calculator& calculator, const json& facts, const std::vector<std::string>& needed);

/// No text at all is made when nobody asked for the working.
void check_silent(const Calculator& calculator, const json& facts);

/// The names in the `answers` line are the names that come.
void check_names(const Calculator& calculator, const Finding& finding);

[[nodiscard]] bool cites(const Finding& finding, std::string_view article);

}  // namespace worked
