#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

#include "base/ids.hpp"
#include "base/instant.hpp"
#include "content/ask.hpp"
#include "memory/state.hpp"
#include "practice/exam/paper.hpp"

namespace practice {

/// What a learner does in a sitting. Looking about, going on and going back leave no trace.
enum class Did : std::uint8_t { answer, flag, unflag, finish };

[[nodiscard]] std::string_view to_text(Did did);
[[nodiscard]] std::optional<Did> parse_did(std::string_view text);

/// One thing done, as it is kept. The events of a sitting, in the order they were done, are all there is to know of it.
struct SittingEvent {
    base::Instant at{};
    std::size_t ask = 0;  ///< place in the paper, from 0; no meaning for finish
    Did did = Did::answer;
    std::string given{};  ///< answer: as typed; "!" is "I do not know", and empty takes an answer back
    memory::Sure sure = memory::Sure::fairly;  ///< answer: how sure, if the learner said

    friend bool operator==(const SittingEvent&, const SittingEvent&) = default;
};

/// What is settled before the first ask is shown.
struct SittingFor {
    base::Id128 id;
    base::Id128 learner;
    std::string jurisdiction;
    Paper paper;
    base::Instant start{};
    base::Milliseconds limit{};  ///< > 0; see time_for

    friend bool operator==(const SittingFor&, const SittingFor&) = default;
};

/// How one ask stands.
struct AskStanding {
    std::string given;  ///< the last answer; empty: none
    memory::Sure sure = memory::Sure::fairly;
    bool flagged = false;
    base::Instant answered_at{};  ///< of the last answer; no meaning without one
    std::int64_t took_ms = 0;     ///< time before its answers, each counted from the event before; >= 0

    [[nodiscard]] bool answered() const { return !given.empty(); }
    friend bool operator==(const AskStanding&, const AskStanding&) = default;
};

/// A fold over the events that were accepted.
struct SittingState {
    std::vector<AskStanding> asks;  ///< in the order of the paper
    base::Instant latest{};         ///< of the last event, or the start: the clock never goes back behind it
    bool finished = false;          ///< handed in by the learner

    friend bool operator==(const SittingState&, const SittingState&) = default;
};

/// Why an event was not accepted.
struct Refused {
    enum class Why : std::uint8_t { time_up, finished, no_such_ask, no_answer };
    Why why = Why::no_answer;
    std::string says;  ///< for the learner; of an answer only what form it should have, never whether it is right
};

struct SittingCounts {
    std::size_t asks = 0, answered = 0, flagged = 0;
};

/// One learner sitting a mock exam. Asks are answered in any order and as often as wished; the last answer counts.
/// The clock runs from the start to the limit whatever happens: leaving, a pause or a crash does not stop it, and a
/// machine's clock that is set back gives no time back. Nothing here tells whether an answer is right: result_of()
/// does, when the sitting is over.
class Sitting {
public:
    /// `asks` are those of the paper, posed in its order (see pose). Their content versions are noted in the paper.
    Sitting(SittingFor what, std::vector<content::Ask> asks);

    /// Accepts an event, or leaves everything as it is. What was accepted has to be kept before the learner sees it
    /// done. An event stamped earlier than the one before counts as done at the same moment as that. Errors  time is up
    /// or the exam handed in; an ask that is not there; text that is no answer to this form.
    tl::expected<void, Refused> apply(const SittingEvent& event);

    /// Applies kept events in order; gives how many were refused, such as ones kept after time was up. The state is
    /// then what it was when the last of them had been applied.
    std::size_t replay(const std::vector<SittingEvent>& events);

    /// The moment as this sitting's clock has it: `now`, but not before the last event. Events are stamped with it.
    [[nodiscard]] base::Instant clock(base::Instant now) const;
    /// >= 0, and 0 once it is over.
    [[nodiscard]] base::Milliseconds time_left(base::Instant now) const;
    /// Handed in, or out of time.
    [[nodiscard]] bool over(base::Instant now) const { return time_left(now) == base::Milliseconds{0}; }
    /// When it was handed in, else when the time is up.
    [[nodiscard]] base::Instant ends_at() const;

    [[nodiscard]] SittingCounts counts() const;
    [[nodiscard]] const SittingFor& what() const { return what_; }
    [[nodiscard]] const SittingState& state() const { return state_; }
    [[nodiscard]] const content::Ask& ask(std::size_t place) const { return asks_.at(place); }
    [[nodiscard]] std::size_t size() const { return asks_.size(); }

private:
    [[nodiscard]] std::optional<Refused> refusal(const SittingEvent& event, base::Instant at) const;
    [[nodiscard]] base::Instant deadline() const { return what_.start + what_.limit; }
    void note_answer(const SittingEvent& event, base::Instant at);

    SittingFor what_;
    std::vector<content::Ask> asks_;
    SittingState state_;
};

}  // namespace practice
