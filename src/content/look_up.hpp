#pragma once

#include <cstddef>
#include <optional>

#include "base/ids.hpp"
#include "base/random.hpp"
#include "content/ask.hpp"
#include "content/library.hpp"

namespace content {

/// Knowing where the book has a rule is another thing than knowing the rule: a look-up is kept in the log under a point
/// of its own, "gfci.kitchen@book", and says nothing of the recall of "gfci.kitchen".
[[nodiscard]] base::PointId look_up_of(const base::PointId& point);
/// The point whose place was looked up; nothing when the id is of no look-up.
[[nodiscard]] std::optional<base::PointId> looked_up(const base::PointId& id);

/// The article that a look-up leads into. 0 where there is no place to find: practice of the trade, a reference that
/// nobody has verified for the edition, a whole article.
[[nodiscard]] int article_to_find(const Version& version);

/// Poses the place of a point as what is to be found: by what it says, or in turn by its own look-up questions. The
/// section with its first subdivision is far enough. Needs a version under the edition with a place to find.
[[nodiscard]] Ask compose_look_up(const Library& library, const PointEntry& entry, trade::Edition edition,
                                  std::size_t turn, base::Seed seed);

}  // namespace content
