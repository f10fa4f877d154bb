#pragma once

#include <chrono>
#include <cstdint>
#include <deque>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

#include "content/ask.hpp"
#include "content/library.hpp"
#include "practice/look_up.hpp"
#include "practice/mark.hpp"
#include "practice/pick.hpp"
#include "store/answer_log.hpp"
#include "store/crew.hpp"

namespace practice {

struct SessionPlan {
    std::chrono::seconds budget{600};  ///< no ask is begun that would likely end after it
    std::size_t most_asks = 0;         ///< 0: as many as the budget holds
    bool calls = true;                 ///< a longer session holds one service call
    bool open_book = false;            ///< places to find in the own book, instead of points to recall
    store::Setting setting = store::Setting::study;
};

/// An ask together with its place in the session.
struct Posed {
    content::Ask ask;
    std::size_t number = 0;  ///< counted from 1
    Reason reason = Reason::rotation;
};

/// What the learner did with an ask.
struct Reply {
    std::string text;  ///< as typed; ignored when gave_up
    memory::Sure sure = memory::Sure::fairly;
    std::int64_t took_ms = 0;
    bool gave_up = false;    ///< said "I do not know"
    bool looked_up = false;  ///< asked where to look first: recall with help counts half at most
};

/// What came of an ask.
struct Outcome {
    Posed posed;
    Reply reply;
    Mark mark;
    store::AnswerRecord record;  ///< as kept
    [[nodiscard]] bool recalled() const { return mark.mark >= memory::kRecalledFrom; }
};

/// Share right by how sure the learner was.
struct SureTally {
    std::size_t answers = 0, right = 0;
};

struct TopicStanding {
    std::string topic;
    std::size_t points = 0, met = 0, due = 0, urgent = 0;
    double recall = 0.0;  ///< mean predicted recall now over the points met; 0 when none
};

struct Summary {
    std::vector<Outcome> outcomes;
    double marks = 0.0;
    std::vector<const Outcome*> corrections;  ///< last word on each point answered wrong, still wrong at the end
    std::size_t put_right = 0;                ///< wrong first, right when asked again
    std::map<memory::Sure, SureTally> sure;
    std::size_t due_tomorrow = 0, due_this_week = 0, due_later = 0;  ///< of the points asked: when they next fall due
    std::size_t back_tomorrow = 0;                                   ///< sure and wrong: asked again the next day
    Standing standing;                                               ///< of everything in scope, now
    std::vector<TopicStanding> topics;                               ///< in order of name
    std::vector<LookUpFamily> look_ups;  ///< with an open book: of all time, the slowest article first
    [[nodiscard]] bool green() const { return !outcomes.empty() && corrections.empty(); }
};

/// Everything a session needs to know before it starts.
struct SessionFor {
    store::Learner learner;
    PickFor pick;
    SessionPlan plan;
    std::string jurisdiction;
    base::Instant start{};
    base::Seed seed = 0;
    std::vector<LookUp> look_ups;  ///< so far; with an open book alone
};

/// One learner working through asks. The screen that shows them is somebody else's: next() gives an ask, answer() marks
/// it, keeps it in the log, and only then tells the outcome. Leaving at any moment loses nothing that was answered.
class Session {
public:
    Session(const content::Library& library, store::AnswerLog& log, store::Advance advance, SessionFor what);

    /// The next ask, or nothing when the session is over. An ask that was not answered is dropped.
    [[nodiscard]] std::optional<Posed> next(base::Instant now);

    /// Marks a reply to the ask that is open and makes it durable. Throws Failure when it cannot be kept.
    /// Errors: text that is no answer; the ask stays open and nothing is kept.
    [[nodiscard]] tl::expected<Outcome, std::string> answer(const Reply& reply, base::Instant now);

    [[nodiscard]] Summary summary(base::Instant now) const;
    [[nodiscard]] Standing standing(base::Instant now) const { return picker_.standing(now); }
    [[nodiscard]] std::optional<base::Instant> latest() const { return picker_.latest(); }
    /// What there is to find with an open book; null without.
    [[nodiscard]] const LookUpPicker* look_ups() const { return look_ups_ ? &*look_ups_ : nullptr; }
    [[nodiscard]] const SessionFor& what() const { return what_; }

private:
    [[nodiscard]] bool over(base::Instant now) const;
    [[nodiscard]] bool time_for_call(base::Instant now) const;
    [[nodiscard]] std::optional<Choice> choose(base::Instant now);
    std::optional<Posed> pose(const Choice& choice);
    /// Tells the picker of what was found, and the learner how long it took.
    void note_look_up(const LookUp& one, Outcome& outcome);
    void pass_over(const base::PointId& point);
    /// What the log keeps of an outcome; id and device are the log's to give.
    [[nodiscard]] store::AnswerRecord record_of(const Outcome& outcome, base::Instant now) const;
    void queue_call(const content::ScenarioEntry& call);
    [[nodiscard]] std::vector<TopicStanding> topics(base::Instant now) const;

    const content::Library* library_;
    store::AnswerLog* log_;
    store::Advance advance_;
    SessionFor what_;
    Picker picker_;
    std::optional<LookUpPicker> look_ups_;
    std::optional<Posed> open_;
    std::deque<content::Ask> call_asks_;
    std::vector<Outcome> outcomes_;
    std::size_t posed_ = 0;
    bool had_call_ = false;
};

/// The edition that counts for a learner on a day: their own, else their jurisdiction's, else the newest that most
/// places have adopted (2023).
[[nodiscard]] trade::Edition edition_for(const store::Learner& learner,
                                         const std::vector<content::Jurisdiction>& jurisdictions, base::Instant now);

}  // namespace practice
