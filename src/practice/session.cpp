#include "practice/session.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <set>
#include <unordered_map>

#include "content/compose.hpp"
#include "content/look_up.hpp"
#include "memory/due.hpp"

namespace practice {
namespace {

using content::Ask;

// A guess at the time one ask takes, for not beginning one that the budget will not hold.
constexpr std::chrono::seconds kLikelyTime{25}, kLikelySearch{60};
constexpr std::size_t kAsksBeforeCall = 5;
constexpr std::size_t kShortestWithCall = 10;
// Corrections come once more even if the time is up, but not for ever.
constexpr std::size_t kCorrectionsBeyondTime = 5;
constexpr double kHelpedMark = 0.5;

std::chrono::seconds elapsed(base::Instant start, base::Instant now) {
    return std::max(std::chrono::seconds{0}, std::chrono::duration_cast<std::chrono::seconds>(now - start));
}

/// Goes round the questions of a point, so that the next time the rule is met in other words.
std::size_t turn_of(const base::PointId& id, std::uint32_t answers, std::size_t questions) {
    return static_cast<std::size_t>((base::stable_hash(id.text) + answers) % questions);
}

bool last_word(const std::vector<Outcome>& outcomes, std::size_t at) {
    return std::none_of(outcomes.begin() + static_cast<std::ptrdiff_t>(at) + 1, outcomes.end(),
                        [&](const Outcome& o) { return o.record.point == outcomes[at].record.point; });
}

}  // namespace

Session::Session(const content::Library& library, store::AnswerLog& log, store::Advance advance, SessionFor what)
    : library_{&library},
      log_{&log},
      advance_{advance},
      what_{std::move(what)},
      picker_{library.index(), log.states(what_.learner.id), what_.pick} {
    if (!what_.plan.open_book) return;
    const auto& filter = what_.pick.filter;
    look_ups_.emplace(library, LookUpPicker::For{what_.pick.edition, filter.topics, filter.tags, what_.seed},
                      what_.look_ups);
}

bool Session::over(base::Instant now) const {
    const auto& plan = what_.plan;
    if (plan.most_asks > 0 && outcomes_.size() >= plan.most_asks) return true;
    return elapsed(what_.start, now) + (plan.open_book ? kLikelySearch : kLikelyTime) > plan.budget;
}

bool Session::time_for_call(base::Instant now) const {
    const auto& plan = what_.plan;
    if (!plan.calls || plan.open_book || had_call_ || over(now) || outcomes_.size() < kAsksBeforeCall) return false;
    if (plan.most_asks > 0 && plan.most_asks < kShortestWithCall) return false;
    return elapsed(what_.start, now) + 5 * kLikelyTime <= plan.budget;
}

void Session::queue_call(const content::ScenarioEntry& call) {
    had_call_ = true;
    const auto seed = base::derive_seed(what_.seed, "call");
    auto asks = content::compose_scenario(*library_, call, what_.pick.edition, seed);
    call_asks_.assign(std::make_move_iterator(asks.begin()), std::make_move_iterator(asks.end()));
}

std::optional<Choice> Session::choose(base::Instant now) {
    if (look_ups_) {
        const auto* place = over(now) ? nullptr : look_ups_->next(now);
        return place == nullptr ? std::nullopt : std::optional{Choice{place, nullptr, Reason::look_up}};
    }
    if (!over(now)) return picker_.next(now);
    const std::size_t beyond = outcomes_.size() >= what_.plan.most_asks ? outcomes_.size() - what_.plan.most_asks : 0;
    const bool room = what_.plan.most_asks == 0 ? true : beyond < kCorrectionsBeyondTime;
    return room ? picker_.correction_left() : std::nullopt;
}

std::optional<Posed> Session::pose(const Choice& choice) {
    if (look_ups_) {
        const auto seed = base::derive_seed(what_.seed, "ask " + std::to_string(posed_));
        return Posed{content::compose_look_up(*library_, *choice.point, what_.pick.edition,
                                              look_ups_->times(choice.point->id), seed),
                     ++posed_, choice.reason};
    }
    const auto& point = library_->point(*choice.point);
    const auto fitting = content::questions_for(point, what_.pick.edition);
    if (fitting.empty()) return std::nullopt;
    const auto turn = turn_of(point.id, picker_.state(point.id).answers(), fitting.size());
    const auto seed = base::derive_seed(what_.seed, "ask " + std::to_string(posed_));
    return Posed{content::compose(*library_, *choice.point, *fitting[turn], what_.pick.edition, seed), ++posed_,
                 choice.reason};
}

void Session::pass_over(const base::PointId& point) {
    if (const auto place = content::looked_up(point); place && look_ups_) look_ups_->passed_over(*place);
    if (const auto* dropped = library_->find(point)) picker_.passed_over(*dropped);
}

std::optional<Posed> Session::next(base::Instant now) {
    if (open_) pass_over(open_->ask.question.point);
    open_.reset();
    if (call_asks_.empty() && time_for_call(now))
        if (const auto call = picker_.call(now)) queue_call(*call->call);
    if (!call_asks_.empty()) {
        open_ = Posed{std::move(call_asks_.front()), ++posed_, Reason::call};
        call_asks_.pop_front();
        return open_;
    }
    while (!open_) {
        const auto choice = choose(now);
        if (!choice) break;
        open_ = pose(*choice);
        // A point without a question for the edition must not end the session.
        if (!open_) picker_.passed_over(*choice->point);
    }
    return open_;
}

store::AnswerRecord Session::record_of(const Outcome& outcome, base::Instant now) const {
    const Ask& ask = outcome.posed.ask;
    const Reply& reply = outcome.reply;
    store::AnswerRecord record;
    record.learner = what_.learner.id;
    record.point = ask.question.point;
    record.question = ask.id;
    record.content = ask.content;
    record.seed = ask.seed;
    record.edition = static_cast<int>(ask.edition);
    record.jurisdiction = what_.jurisdiction;
    record.setting = what_.plan.setting;
    record.asked_at = now;
    record.took_ms = std::max<std::int64_t>(0, reply.took_ms);
    record.mark = outcome.mark.mark;
    record.sure = reply.gave_up ? memory::Sure::guess : reply.sure;
    record.given = reply.gave_up ? "!" : reply.text;
    return record;
}

tl::expected<Outcome, std::string> Session::answer(const Reply& reply, base::Instant now) {
    assert(open_);
    Outcome outcome{*open_, reply, {}, {}};
    if (!reply.gave_up) {
        auto marked = mark(open_->ask, reply.text);
        if (!marked) return tl::unexpected<std::string>{marked.error()};
        outcome.mark = std::move(*marked);
    }
    if (reply.looked_up && !look_ups_ && outcome.mark.mark > kHelpedMark) {
        outcome.mark.mark = kHelpedMark;
        outcome.mark.notes.emplace_back("looked up: counts half, and comes back");
    }
    // Everything that can fail comes before the append: what is kept is acknowledged, once.
    content::explain(*library_, outcome.posed.ask, outcome.mark.mistakes);
    outcome.record = log_->append(record_of(outcome, now));
    const auto after = advance_(picker_.state(outcome.record.point), now, outcome.mark.mark, outcome.record.sure);
    if (const auto* entry = library_->find(outcome.record.point))
        picker_.answered(*entry, after, open_->reason == Reason::correction);
    if (const auto place = look_up_in(outcome.record); place && look_ups_) note_look_up(*place, outcome);
    open_.reset();
    outcomes_.push_back(outcome);
    return outcome;
}

void Session::note_look_up(const LookUp& one, Outcome& outcome) {
    look_ups_->answered(one);
    const auto family = look_ups_->family_of(one.point);
    const auto whole = [](double seconds) { return std::to_string(std::lround(seconds)) + " s"; };
    outcome.mark.notes.push_back("took " + whole(static_cast<double>(one.took_ms) / 1000.0) + "; Article " +
                                 std::to_string(family.article) + " takes you about " + whole(family.seconds));
}

std::vector<TopicStanding> Session::topics(base::Instant now) const {
    std::map<std::string, TopicStanding> by_topic;
    for (const auto* point : picker_.in_scope()) {
        auto& topic = by_topic[point->topic];
        topic.topic = point->topic;
        ++topic.points;
        const auto& state = picker_.state(point->id);
        if (state.answers() == 0) continue;
        ++topic.met;
        const auto params = what_.pick.recall.of(*point);
        topic.recall += memory::recall_probability(state, now, params);
        if (is_due(state, now, what_.pick.targets.of(point->stakes), params)) ++topic.due;
        if (state.watch > 0) ++topic.urgent;
    }
    std::vector<TopicStanding> all;
    for (auto& [name, topic] : by_topic) {
        if (topic.met > 0) topic.recall /= static_cast<double>(topic.met);
        all.push_back(std::move(topic));
    }
    return all;
}

Summary Session::summary(base::Instant now) const {
    Summary summary;
    summary.outcomes = outcomes_;
    std::set<std::string> wrong_before;
    for (std::size_t i = 0; i < summary.outcomes.size(); ++i) {
        const Outcome& outcome = summary.outcomes[i];
        summary.marks += outcome.mark.mark;
        auto& tally = summary.sure[outcome.record.sure];
        ++tally.answers;
        tally.right += outcome.recalled() ? 1 : 0;
        const std::string& id = outcome.record.point.text;
        if (!outcome.recalled()) wrong_before.insert(id);
        if (!last_word(summary.outcomes, i)) continue;
        if (!outcome.recalled())
            summary.corrections.push_back(&outcome);
        else if (wrong_before.contains(id))
            ++summary.put_right;
        const auto& state = picker_.state(outcome.record.point);
        if (state.watch > 0) ++summary.back_tomorrow;
        const auto* point = library_->find(outcome.record.point);
        const auto due = point == nullptr ? std::nullopt : due_at(state, *point, what_.pick);
        const double days = due ? base::days_between(now, *due) : 0.0;
        ++(days <= 1.0 ? summary.due_tomorrow : days <= 7.0 ? summary.due_this_week : summary.due_later);
    }
    summary.standing = picker_.standing(now);
    summary.topics = topics(now);
    if (look_ups_) summary.look_ups = look_ups_->families();
    return summary;
}

trade::Edition edition_for(const store::Learner& learner, const std::vector<content::Jurisdiction>& jurisdictions,
                           base::Instant now) {
    if (learner.edition)
        if (const auto own = trade::parse_edition(std::to_string(*learner.edition))) return *own;
    for (const auto& one : jurisdictions)
        if (one.id == learner.jurisdiction)
            if (const auto adopted = one.edition_on(now)) return *adopted;
    return trade::Edition::e2023;
}

}  // namespace practice
