#pragma once

#include <functional>
#include <string>

#include "base/exit_status.hpp"
#include "base/flat_json.hpp"
#include "base/located_json.hpp"
#include "cli/context.hpp"
#include "content/trade_data.hpp"

namespace cli {

/// Where and when the trade engine is asked.
struct Place {
    content::Under under;
    bool edition_said = false;  ///< by --edition or for the learner; else it is the one in force there on the day
};

/// What --edition and --jurisdiction say, else what holds for the learner, else the edition of most
/// of the crew.
/// Throws Failure (no_input) for a jurisdiction there is not, or that has no edition in force.
[[nodiscard]] Place place_for(const Context& context, const content::TradeData& data);

/// The same with an object's own "edition", "jurisdiction" and "date" over it; faults go to the reader.
/// A day or jurisdiction of its own brings the edition in force there then, unless an edition was said.
[[nodiscard]] content::Under under_for(const base::Reader& object, const Place& otherwise,
                                       const content::TradeData& data);

/// Tables, rules and jurisdictions. Throws Failure (bad_data) after telling every fault.
[[nodiscard]] content::TradeData load_trade(const Context& context);

/// The text of the file that --facts names; "-" is standard input. Throws Failure (no_input).
[[nodiscard]] std::string facts_text(const Context& context);

/// Runs `judge` on each line of --facts FILE or standard input that holds a JSON object, writing one line for each.
/// `judge` appends the members of the answer after "id". A line that is no object, or whose facts make no sense, is
/// answered with an "error" that names the line; the rest go on.
/// Gives bad_data when there was such a line, else fine.
base::Exit run_batch(Context& context, const std::function<void(const base::Reader&, std::string&)>& judge);

/// The same with a quick way for simple lines: `quick` appends the members of the answer, or gives false, having
/// appended what it likes, when `judge` has to look. Both answer alike.
base::Exit run_batch(Context& context, const std::function<bool(const base::FlatObject&, std::string&)>& quick,
                     const std::function<void(const base::Reader&, std::string&)>& judge);

}  // namespace cli
