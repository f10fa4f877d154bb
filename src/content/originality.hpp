#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "content/deck.hpp"

namespace content {

struct Contents;

/// Words that anybody in the trade would use in that order, such as the title of an article: not a sign of copying.
struct StockPhrase {
    std::string text, reason;
    Place place;
};

/// A piece of content that people read.
struct Passage {
    std::string name;  ///< "box.accessible, says", "call.crawl-space, story"
    std::string text;
    Place place;
};

/// Everything in the contents that people read: titles, rules, questions, options, explanations, mistakes, stories.
[[nodiscard]] std::vector<Passage> passages(const Contents& contents);

/// Words in a row that a passage shares with a text.
struct SharedRun {
    std::size_t passage = 0;  ///< number in the list given
    std::size_t words = 0;    ///< that are the same
    bool changed = false;     ///< one word in between is another, is missing, or is added
    std::string shared;       ///< the run as the passage has it, in lower case and without punctuation
    int line = 0;             ///< of the text, on which the run begins there, from 1
};

/// Fewer shared words than this say nothing.
inline constexpr std::size_t kLeastSharedWords = 8;

/// Runs of `least` words or more that a passage shares with a text, whatever its line breaks, case and punctuation; one
/// word may be changed, left out or put in. Stock phrases count for nothing, and end a run. At most one run for each
/// stretch of a passage: the longest.
/// Takes   least >= 4.
/// Source  common four-word runs, grown as far as they go; so no run is missed, which sampling fingerprints would
/// allow.
[[nodiscard]] std::vector<SharedRun> shared_runs(const std::vector<Passage>& passages, std::string_view text,
                                                 const std::vector<StockPhrase>& stock,
                                                 std::size_t least = kLeastSharedWords);

}  // namespace content
