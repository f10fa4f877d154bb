#pragma once

#include <chrono>

#include "cli/context.hpp"
#include "practice/session.hpp"

namespace cli {

/// What a session needs, from the options typed.
[[nodiscard]] practice::SessionFor session_for(const Context& context, content::Library& library, store::Store& store,
                                               const store::Learner& learner);

/// What a learner has looked for in their own book so far, the earliest first.
[[nodiscard]] std::vector<practice::LookUp> look_ups_of(store::Store& store, const base::Id128& learner);

/// The clock a session runs by. With --now it starts there and moves on by the time each answer took; else it is the
/// real one.
class SessionClock {
public:
    explicit SessionClock(const Context& context)
        : context_{&context}, pretended_{context.has("--now")}, start_{context.now()} {}

    [[nodiscard]] base::Instant now() const {
        return pretended_ ? start_ + std::chrono::milliseconds{moved_ms_} : context_->world().clock();
    }
    void took(std::int64_t ms) { moved_ms_ += ms; }
    [[nodiscard]] bool pretended() const { return pretended_; }

private:
    const Context* context_;
    bool pretended_;
    base::Instant start_;
    std::int64_t moved_ms_ = 0;
};

/// A word of warning when the clock stands before the learner's last answer; empty when all is well.
[[nodiscard]] std::string clock_warning(const practice::Session& session, base::Instant now);

}  // namespace cli
