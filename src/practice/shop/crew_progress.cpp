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

/// By calendar days: an exam that is kept as a day begins at midnight, and is still to come that morning.
std::optional<int> exam_in(const store::Learner& learner, base::Instant now) {
    if (!learner.exam_at) return std::nullopt;
    const auto day = [](base::Instant when) { return std::chrono::floor<std::chrono::days>(when); };
    const auto days = (day(*learner.exam_at) - day(now)).count();
    if (days < 0) return std::nullopt;
    return static_cast<int>(days);
}

/// By calendar days too: what was studied yesterday evening was not studied today.
int idle_days(const store::Learner& learner, const Progress& progress, base::Instant now) {
    const auto day = [](base::Instant when) { return std::chrono::floor<std::chrono::days>(when); };
    return static_cast<int>(std::max<long>(0, (day(now) - day(progress.last.value_or(learner.added_at))).count()));
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
void add_standing(CrewTopic& topic, const TopicStanding& own, std::size_t member, const std::vector<Member>& members) {
    topic.topic = own.topic;
    topic.due += own.due;
    topic.tripped += own.urgent;
    if (own.met == 0) return;
    const auto recall_of = [&](std::size_t other) {
        for (const auto& one : members[other].progress.topics)
            if (one.standing.topic == own.topic) return one.standing.recall;
        return 0.0;
    };
    if (topic.begun == 0 || own.recall < recall_of(topic.weakest)) topic.weakest = member;
    if (topic.begun == 0 || own.recall > recall_of(topic.strongest)) topic.strongest = member;
    topic.recall += own.recall;
    ++topic.begun;
}

std::vector<CrewTopic> topics_of(const std::vector<Member>& members) {
    std::map<std::string, CrewTopic> by_name;
    for (std::size_t n = 0; n < members.size(); ++n)
        for (const auto& one : members[n].progress.topics)
            add_standing(by_name[one.standing.topic], one.standing, n, members);
    std::vector<CrewTopic> topics;
    for (auto& [name, topic] : by_name) {
        if (topic.begun > 0) topic.recall /= static_cast<double>(topic.begun);
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
