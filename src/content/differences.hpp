#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "content/computed/computing.hpp"
#include "content/contents.hpp"
#include "content/trade_data.hpp"

namespace content {

/// How something stands on the other side of a change of edition.
enum class Change : std::uint8_t {
    added,    ///< new: nothing before
    removed,  ///< gone: nothing after
    changed,  ///< says something else
    moved,    ///< says the same under another article
};
[[nodiscard]] std::string_view to_text(Change change);

/// One point, rule or table that differs.
struct Difference {
    using Kind = Differs;

    Kind kind = Kind::point;
    Change change = Change::changed;
    std::string id, title, topic;
    std::string article_before, article_after;  ///< empty where there is nothing
    std::string before, after;                  ///< what a point says; for a table, the rows that differ
    std::vector<std::string> says;              ///< what is different, as the change lists put it
    bool local = false;                         ///< comes from an amendment on one of the sides
    bool unverified = false;                    ///< not confirmed on the newer side
};

/// Everything that differs between two editions, or two places and days: points, rules and tables, by topic and id.
/// A point differs as well when an amendment changes the rule behind its article. Where only the edition goes up, each
/// tells what the change lists of the steps between say of it.
[[nodiscard]] std::vector<Difference> differences(const Contents& contents, const TradeData& data, const Under& from,
                                                  const Under& to);

}  // namespace content
