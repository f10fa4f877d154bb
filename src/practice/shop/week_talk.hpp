#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "content/contents.hpp"
#include "practice/shop/week_plan.hpp"
#include "trade/edition.hpp"

namespace practice {

/// One thing to say, in our words.
struct TalkPoint {
    base::PointId point;
    std::string article, says;
    bool unverified = false;

    friend bool operator==(const TalkPoint&, const TalkPoint&) = default;
};

/// What a lead says before the questions, in about two minutes.
struct WeekTalk {
    std::string title;
    std::vector<TalkPoint> points;  ///< three to five, the weightiest first; fewer when the week has no more
    std::string mistake;            ///< the commonest, in the words of its deck; empty when no wrong answer names one
    std::string caution;            ///< empty where nobody can be hurt
    std::size_t words = 0;          ///< in all of these
};

/// Times a mistake was made, by deck and id of the mistake.
using MistakeCounts = std::map<std::pair<std::string, std::string>, std::size_t>;

/// Words that take two minutes at 140 a minute (chosen: slow speech, with a pause after each point).
inline constexpr std::size_t kTalkWords = 280;

/// Takes   a week of a plan for this edition; the crew's mistakes, or none.
/// Gives   the points of most stakes that fit into kTalkWords together with the rest, five at most; the shortest ones
///         fill up to three even where that takes longer. Points that contents no longer have in the edition are passed
///         over. The commonest mistake is the one the crew has made most often on the week's points; without any, the
///         one that most wrong answers to their questions lead to; equals by stakes of the point, then by id. The
///         caution is the own one of the first point of the talk that has one, else of the week, and the usual one of
///         the week's highest stakes.
[[nodiscard]] WeekTalk week_talk(const PlannedWeek& week, const content::Contents& contents, trade::Edition edition,
                                 const MistakeCounts& made = {});

/// The talk as lines of plain text, one for each thing to say, not wrapped.
[[nodiscard]] std::vector<std::string> talk_lines(const WeekTalk& talk);

}  // namespace practice
