#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/random.hpp"
#include "content/ask.hpp"
#include "content/computed/computing.hpp"
#include "content/library.hpp"

namespace content {

/// The questions of a point that may be asked under an edition, in the order of the deck.
[[nodiscard]] std::vector<const Question*> questions_for(const Point& point, trade::Edition edition);

/// Poses a question of a point. The same content, question and seed give the same ask, to the letter.
/// Needs a question that holds in the edition (see questions_for).
[[nodiscard]] Ask compose(const Library& library, const PointEntry& entry, const Question& question,
                          trade::Edition edition, base::Seed seed);

/// Poses the asks of a scenario that hold in the edition, slots filled from one draw of its facts.
/// Asks whose point is not in the library or in a gap are left out. Computed asks are worked out under the library's
/// place; facts that leave one without an answer are drawn again.
[[nodiscard]] std::vector<Ask> compose_scenario(const Library& library, const ScenarioEntry& entry,
                                                trade::Edition edition, base::Seed seed);

/// One draw of a scenario's facts: number `attempt` of those a seed gives. Errors: of the sums among them.
[[nodiscard]] base::Checked<FactTexts> draw_facts(const Scenario& scenario, base::Seed seed, int attempt);

/// The same draw with another value for one of the facts, and what is worked out from it worked out again.
/// Errors: as draw_facts().
[[nodiscard]] base::Checked<FactTexts> with_fact(const Scenario& scenario, const FactTexts& facts,
                                                 const std::string& name, const std::string& value);

/// True when the sums of "only" hold for these facts.
[[nodiscard]] bool draw_counts(const Scenario& scenario, const FactTexts& facts);

/// Looks up the lines that explain these mistakes of an ask. Apart from composing, since most answers need none.
void explain(const Library& library, Ask& ask, const std::vector<std::string>& mistakes);

/// The usual caution for work where someone can be hurt; empty for inspection and paperwork.
[[nodiscard]] std::string usual_caution(Stakes stakes);

/// A short text that changes whenever what is asked, or its right answer, changes.
[[nodiscard]] std::string content_version(const Question& question, const Version& version);

}  // namespace content
