#include "store/sqlite/take_in.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <unordered_map>
#include <utility>

#include "store/crew_union.hpp"
#include "store/log_lines.hpp"
#include "store/sqlite/answers.hpp"
#include "store/sqlite/learners.hpp"
#include "store/sqlite/recall.hpp"

namespace store::sqlite {
namespace {

constexpr std::size_t kMostFaults = 50;

/// What there is to write.
struct Plan {
    CrewUnion crew;
    std::vector<const Arriving*> fresh;
    std::vector<const Relearn*> due;
    TakenIn told;
};

/// The same answer. An exported line shows bytes that are no UTF-8 replaced: what is equal as lines is equal.
bool same(const AnswerRecord& a, const AnswerRecord& b) {
    return a == b || (a.given != b.given && to_line(a, {}) == to_line(b, {}));
}

class Planner {
public:
    Planner(Db& db, const LogPart& part) : db_{&db}, part_{&part} {}

    base::Checked<Plan> plan() {
        const auto ours = learners(*db_);
        plan_.crew = unite(ours, part_->crew, part_->details);
        for (const auto& one : ours) known_.insert(one.id);
        for (const auto& one : plan_.crew.added) known_.insert(one.id);
        gather();
        leave_out_ours();
        look_for_strangers();
        find_due();
        if (!faults_.empty()) return tl::unexpected<base::Faults>{std::move(faults_)};
        put_in_order();
        return std::move(plan_);
    }

private:
    void fault(const Arriving& one, std::string what, std::string mend) {
        if (faults_.size() < kMostFaults)
            faults_.push_back({part_->file, "", one.line, std::move(what), std::move(mend)});
    }
    void differs(const Arriving& one, const std::string& where) {
        fault(one, "the answer " + base::to_text(one.record.id) + " is " + where + " with other content",
              "an answer never changes: find out which is right, and take the other out of this file");
    }
    void gather() {
        for (const auto& one : part_->answers) {
            const auto [other, first] = arriving_.try_emplace(one.record.id, &one);
            if (!first && !same(other->second->record, one.record))
                differs(one,
                        "in this file" + (other->second->line > 0 ? " on line " + std::to_string(other->second->line)
                                                                  : std::string{}));
        }
        plan_.told.answers = static_cast<std::int64_t>(arriving_.size());
    }
    void leave_out_ours() {
        for_each_answer(*db_, [&](const AnswerRecord& record) {
            const auto found = arriving_.find(record.id);
            if (found == arriving_.end()) return;
            if (!same(record, found->second->record)) differs(*found->second, "in the log");
            arriving_.erase(found);
        });
    }
    void look_for_strangers() {
        for (const auto& one : part_->answers)
            if (!known_.contains(one.record.learner))
                fault(one, "an answer of a learner who is in nobody's crew: " + base::to_text(one.record.learner),
                      part_->details ? "merge the store that knows them first" : "give the line their name");
    }
    void find_due() {
        std::map<std::pair<base::Id128, std::string>, std::pair<std::int64_t, std::string>> ours;
        auto rows = db_->prepare("SELECT learner, point, since, why FROM relearn");
        while (rows.step()) ours[{rows.id(0), rows.text(1)}] = {rows.integer(2), rows.text(3)};
        for (const auto& one : part_->relearn) {
            const auto found = ours.find({one.learner, one.point.text});
            // The later change holds; of two at one moment the same on every machine.
            if (found == ours.end() || found->second < std::pair{base::to_milliseconds(one.since), one.why})
                plan_.due.push_back(&one);
        }
    }
    void put_in_order() {
        for (const auto& [id, one] : arriving_) plan_.fresh.push_back(one);
        std::sort(plan_.fresh.begin(), plan_.fresh.end(), [](const Arriving* a, const Arriving* b) {
            return std::pair{a->record.asked_at, a->record.id} < std::pair{b->record.asked_at, b->record.id};
        });
        auto& told = plan_.told;
        told.fresh = static_cast<std::int64_t>(plan_.fresh.size());
        told.relearn = static_cast<std::int64_t>(plan_.due.size());
        told.added = plan_.crew.added;
        told.told = plan_.crew.told;
        if (!plan_.fresh.empty()) told.latest = plan_.fresh.back()->record.asked_at;
    }

    Db* db_;
    const LogPart* part_;
    Plan plan_;
    std::set<base::Id128> known_;
    std::unordered_map<base::Id128, const Arriving*> arriving_;  ///< what is not known to be here
    base::Faults faults_;
};

void write_due(Db& db, const std::vector<const Relearn*>& due) {
    auto put = db.prepare("INSERT OR REPLACE INTO relearn(learner, point, since, why) VALUES (?1, ?2, ?3, ?4)");
    for (const Relearn* one : due) {
        put.bind(1, one->learner);
        put.bind(2, one->point.text);
        put.bind(3, base::to_milliseconds(one->since));
        put.bind(4, one->why);
        put.run();
    }
}

void write(Db& db, const Plan& plan) {
    for (const auto& one : plan.crew.added) insert_learner(db, one);
    for (const auto& one : plan.crew.changed) update_learner(db, one);
    AnswerInsert insert{db};
    for (const Arriving* one : plan.fresh) insert.run(one->record);
    write_due(db, plan.due);
}

}  // namespace

base::Checked<TakenIn> would_take_in(Db& db, const LogPart& part) {
    const Reading reading{db};
    auto plan = Planner{db, part}.plan();
    if (!plan) return tl::unexpected<base::Faults>{std::move(plan.error())};
    return std::move(plan->told);
}

base::Checked<TakenIn> take_in(Db& db, const LogPart& part, Advance advance) {
    Writing writing{db};
    auto plan = Planner{db, part}.plan();
    if (!plan) return tl::unexpected<base::Faults>{std::move(plan.error())};
    if (!plan->told.anything()) return std::move(plan->told);
    write(db, *plan);
    // In the same transaction: a disk too full for the states is too full for the answers.
    if (plan->told.fresh > 0) rebuild_within(db, advance);
    writing.commit();
    return std::move(plan->told);
}

}  // namespace store::sqlite
