#include "practice/exam/sitting.hpp"

#include <algorithm>
#include <array>
#include <cassert>

#include "base/text.hpp"
#include "practice/mark.hpp"

namespace practice {
namespace {

constexpr std::array<std::string_view, 4> kDid = {"answer", "flag", "unflag", "finish"};
constexpr std::string_view kNotKnown = "!";

Refused refused(Refused::Why why, std::string says) {
    return {why, std::move(says)};
}

/// Only the form is judged here: whether the answer is right is nobody's business before the end.
std::optional<Refused> wrong_form(const content::Ask& ask, const std::string& given) {
    if (given.empty() || given == kNotKnown) return std::nullopt;
    if (base::first_bad_utf8(given))
        return refused(Refused::Why::no_answer, "the answer has characters that cannot be kept; type it again");
    if (const auto marked = mark(ask, given); !marked) return refused(Refused::Why::no_answer, marked.error());
    return std::nullopt;
}

}  // namespace

std::string_view to_text(Did did) {
    return kDid.at(static_cast<std::size_t>(did));
}

std::optional<Did> parse_did(std::string_view text) {
    const auto found = std::find(kDid.begin(), kDid.end(), text);
    if (found == kDid.end()) return std::nullopt;
    return static_cast<Did>(found - kDid.begin());
}

Sitting::Sitting(SittingFor what, std::vector<content::Ask> asks) : what_{std::move(what)}, asks_{std::move(asks)} {
    assert(asks_.size() == what_.paper.items.size());
    for (std::size_t n = 0; n < asks_.size(); ++n) what_.paper.items[n].content = asks_[n].content;
    state_.asks.resize(asks_.size());
    state_.latest = what_.start;
}

std::optional<Refused> Sitting::refusal(const SittingEvent& event, base::Instant at) const {
    if (state_.finished) return refused(Refused::Why::finished, "the exam has been handed in");
    if (at >= deadline()) return refused(Refused::Why::time_up, "time is up; what was answered before counts");
    if (event.did == Did::finish) return std::nullopt;
    if (event.ask >= asks_.size())
        return refused(Refused::Why::no_such_ask, "the exam has asks 1 to " + std::to_string(asks_.size()));
    if (event.did != Did::answer) return std::nullopt;
    return wrong_form(asks_[event.ask], event.given);
}

void Sitting::note_answer(const SittingEvent& event, base::Instant at) {
    auto& ask = state_.asks[event.ask];
    ask.given = event.given;
    ask.sure = event.sure;
    ask.answered_at = at;
    ask.took_ms += (at - state_.latest).count();
}

tl::expected<void, Refused> Sitting::apply(const SittingEvent& event) {
    const auto at = clock(event.at);
    if (auto why = refusal(event, at)) return tl::unexpected<Refused>{std::move(*why)};
    switch (event.did) {
        case Did::answer:
            note_answer(event, at);
            break;
        case Did::flag:
        case Did::unflag:
            state_.asks[event.ask].flagged = event.did == Did::flag;
            break;
        case Did::finish:
            state_.finished = true;
            break;
    }
    state_.latest = at;
    return {};
}

std::size_t Sitting::replay(const std::vector<SittingEvent>& events) {
    std::size_t refused_count = 0;
    for (const auto& event : events) refused_count += apply(event) ? 0 : 1;
    return refused_count;
}

base::Instant Sitting::clock(base::Instant now) const {
    return std::max(now, state_.latest);
}

base::Milliseconds Sitting::time_left(base::Instant now) const {
    if (state_.finished) return base::Milliseconds{0};
    return std::max(base::Milliseconds{0}, deadline() - clock(now));
}

base::Instant Sitting::ends_at() const {
    return state_.finished ? state_.latest : deadline();
}

SittingCounts Sitting::counts() const {
    SittingCounts counts;
    counts.asks = asks_.size();
    for (const auto& ask : state_.asks) {
        counts.answered += ask.answered() ? 1 : 0;
        counts.flagged += ask.flagged ? 1 : 0;
    }
    return counts;
}

}  // namespace practice
