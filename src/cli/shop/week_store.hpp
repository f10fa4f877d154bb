#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/context.hpp"
#include "practice/shop/week_plan.hpp"

namespace cli {

/// How the shop wants its year, as the lead has said so far. Kept beside the plan.
struct WeekWishes {
    std::string outline;  ///< empty: everything the library has
    std::string edition;  ///< a year
    std::string start;    ///< a day
    int weeks = 52;
    std::string meets = "monday";
    std::vector<std::string> holidays;  ///< as typed: "2026-12-24..2027-01-02=winter"
    std::vector<std::string> pins;      ///< as typed: "2027-03-01=250"
    unsigned revision = 0;              ///< raised whenever the plan changes
};

/// The year of a shop as kept in the data home.
struct KeptYear {
    WeekWishes wishes;
    practice::WeekPlan plan;
};

/// Nothing when no plan has been made. Throws Failure (bad_data) when the file cannot be read.
[[nodiscard]] std::optional<KeptYear> load_year(const Context& context);
/// Written whole or not at all.
void keep_year(const Context& context, const KeptYear& year);

}  // namespace cli
