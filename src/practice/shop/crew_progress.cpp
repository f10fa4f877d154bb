#include "practice/shop/crew_progress.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

namespace practice {
namespace {

std::chrono::sys_days day_of(base::Instant when) {
    return std::chrono::floor<std::chrono::days>(when);
}

/// By calendar days: an exam that is kept as a day begins at midnight, and is still to come that morning.
std::optional<int> exam_in(const store::Learner& learner, base::Instant now) {
    if (!learner.exam_at) return std::nullopt;
    const auto days = (day_of(*learner.exam_at) - day_of(now)).count();
    if (days < 0) return std::nullopt;
    return static_cast<int>(days);
}

/// By calendar days too: what was studied yesterday evening was not studied today.
int idle_days(const store::Learner& learner, const Progress& progress, base::Instant now) {
    const auto days = (day_of(now) - day_of(progress.last.value_or(learner.added_at))).count();
    return std::max(0, static_cast<int>(days));
}

Member member_of(const content::Index& index, const CrewLog& log, const MemberFor& one, base::Instant now) {
    ProgressFor what = one.what;
    what.now = now;
    Member member{one.learner, one.pass, exam_in(one.learner, now), 0, progress(index, log, one.learner.id, what)};
    member.idle = idle_days(one.learner, member.progress, now);
    return member;
}

void add_tripped(std::vector<Need>& needs, const Member& member, std::size_t number) {
    for (const auto& [kind, stakes] :
         {std::pair{NeedKind::shock, content::Stakes::shock}, std::pair{NeedKind::fire, content::Stakes::fire}}) {
        Need need{kind, number, {}, 0};
        for (const auto& one : member.progress.corrections)
            if (one.tripped() && one.stakes == stakes) need.points.push_back(one);
        if (!need.points.empty()) needs.push_back(std::move(need));
    }
}

bool exam_worries(const Member& member, const NeedRules& rules) {
    if (!member.exam_in || *member.exam_in > rules.exam_days) return false;
    return !member.pass || *member.pass < rules.least_pass;
}

/// Adds one learner's standing to a topic.
void add_standing(CrewTopic& topic, const TopicStanding& own) {
    topic.topic = own.topic;
    topic.due += own.due;
    topic.tripped += own.urgent;
    if (own.met == 0) return;
    topic.recall += own.recall;
    ++topic.begun;
}

/// Who is weakest and strongest, of those who have met at least half as many points of the topic as anybody: one point
/// answered well makes nobody the one to ask.
void set_ends(CrewTopic& topic, const std::vector<Member>& members) {
    std::vector<std::pair<std::size_t, TopicStanding>> those;
    std::size_t most = 0;
    for (std::size_t n = 0; n < members.size(); ++n)
        for (const auto& one : members[n].progress.topics)
            if (one.standing.topic == topic.topic && one.standing.met > 0) {
                those.emplace_back(n, one.standing);
                most = std::max(most, one.standing.met);
            }
    std::erase_if(those, [&](const auto& one) { return 2 * one.second.met < most; });
    if (those.empty()) return;
    const auto less = [](const auto& a, const auto& b) { return a.second.recall < b.second.recall; };
    topic.weakest = std::min_element(those.begin(), those.end(), less)->first;
    topic.strongest = std::max_element(those.begin(), those.end(), less)->first;
}

std::vector<CrewTopic> topics_of(const std::vector<Member>& members) {
    std::map<std::string, CrewTopic> by_name;
    for (const auto& member : members)
        for (const auto& one : member.progress.topics) add_standing(by_name[one.standing.topic], one.standing);
    std::vector<CrewTopic> topics;
    for (auto& [name, topic] : by_name) {
        if (topic.begun > 0) topic.recall /= static_cast<double>(topic.begun);
        set_ends(topic, members);
        topics.push_back(std::move(topic));
    }
    const auto rank = [](const CrewTopic& topic) { return std::pair{topic.begun == 0, topic.recall}; };
    std::stable_sort(topics.begin(), topics.end(), [&](const auto& a, const auto& b) { return rank(a) < rank(b); });
    return topics;
}

std::vector<Need> needs_of(const std::vector<Member>& members, const NeedRules& rules) {
    std::vector<Need> needs;
    for (std::size_t n = 0; n < members.size(); ++n) {
        add_tripped(needs, members[n], n);
        if (members[n].idle >= rules.overdue_days) needs.push_back({NeedKind::overdue, n, {}, members[n].idle});
        if (exam_worries(members[n], rules)) needs.push_back({NeedKind::exam, n, {}, *members[n].exam_in});
    }
    const auto rank = [](const Need& need) {
        const int first = need.kind == NeedKind::overdue ? -need.days : need.days;
        return std::tuple{need.kind, -static_cast<std::ptrdiff_t>(need.points.size()), first, need.member};
    };
    std::sort(needs.begin(), needs.end(), [&](const auto& a, const auto& b) { return rank(a) < rank(b); });
    return needs;
}

}  // namespace

std::string_view to_text(NeedKind kind) {
    static constexpr std::array<std::string_view, 4> kNames{"shock", "fire", "overdue", "exam"};
    return kNames.at(static_cast<std::size_t>(kind));
}

CrewProgress crew_progress(const content::Index& index, const CrewLog& log, const std::vector<MemberFor>& crew,
                           base::Instant now, const NeedRules& rules) {
    CrewProgress found{now, rules, {}, {}, {}};
    for (const auto& one : crew)
        if (!one.learner.retired_at || *one.learner.retired_at > now)
            found.members.push_back(member_of(index, log, one, now));
    std::stable_sort(found.members.begin(), found.members.end(),
                     [](const Member& a, const Member& b) { return a.learner.name < b.learner.name; });
    found.topics = topics_of(found.members);
    found.needs = needs_of(found.members, rules);
    return found;
}

}  // namespace practice
