#include "practice/shop/meeting_plan.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "content/compose.hpp"
#include "practice/stakes_weight.hpp"

namespace practice {
namespace {

using base::PointId;
using content::Form;
using content::PointEntry;
using content::Question;
using Points = std::vector<PointId>;

// Shares of a meeting that each source may take before the week's points have had their turn.
constexpr double kSureAndWrongShare = 0.3;
constexpr double kCorrectionShare = 0.3;
constexpr double kJobShare = 0.2;
// A question of more letters than this, options among them, takes much of a sheet: a shorter one of the point's is
// preferred.
constexpr std::size_t kMostLetters = 300;

/// A share in (0, 1) that is fixed for a name and a seed.
double lot(base::Seed seed, const std::string& name) {
    return (static_cast<double>(base::derive_seed(seed, name) >> 11U) + 0.5) * 0x1.0p-53;
}

struct Ranked {
    PointId point;
    double rank = 0.0, tie = 0.0;
};

Points in_order(std::vector<Ranked> all) {
    std::ranges::sort(all, [](const Ranked& a, const Ranked& b) {
        if (a.rank != b.rank) return a.rank > b.rank;
        return a.tie != b.tie ? a.tie > b.tie : a.point < b.point;
    });
    Points points;
    for (auto& one : all) points.push_back(std::move(one.point));
    return points;
}

std::size_t letters_in(const Question& question) {
    std::size_t count = question.text.size();
    for (const auto& text : question.right) count += text.size();
    for (const auto& wrong : question.wrong) count += wrong.text.size();
    return count;
}

class Planner {
public:
    Planner(const content::Library& library, const MeetingFor& what) : library_{library}, what_{what} {
        for (const auto& one : what.recent) {
            recent_points_.insert(one.point);
            recent_questions_.insert(one.question);
        }
    }

    MeetingPlan plan();

private:
    struct Allowed {
        bool unverified = false, recent = false;
    };

    [[nodiscard]] double stakes_of(const PointId& id) const {
        const auto* entry = library_.find(id);
        return entry == nullptr ? 1.0 : stakes_weight(entry->stakes);
    }
    [[nodiscard]] Points by_weight(const std::vector<Weighted>& points) const;
    [[nodiscard]] Points by_lot(const Points& points) const;
    [[nodiscard]] Points everything() const;
    [[nodiscard]] bool form_allowed(Form form) const;
    [[nodiscard]] const Question* choose_question(const content::Point& point) const;
    void tell(const PointId& id, const std::string& what, const std::string& mend);
    void check_known(const Points& points);
    [[nodiscard]] bool take(const PointId& id, MeetingReason reason, Allowed allowed);
    void take_some(const Points& points, std::size_t most, MeetingReason reason, bool recent = false);
    void add(const PointEntry& entry, const Question& question, MeetingReason reason);
    [[nodiscard]] std::size_t room() const { return what_.asks - asks_.size(); }
    [[nodiscard]] std::size_t share(double of_asks) const {
        return static_cast<std::size_t>(std::ceil(of_asks * static_cast<double>(what_.asks) - 1e-9));
    }
    void tell_of_asks();

    const content::Library& library_;
    const MeetingFor& what_;
    std::set<PointId> recent_points_, taken_, told_;
    std::set<base::QuestionId> recent_questions_;
    std::size_t choose_alls_ = 0, numbers_ = 0;
    std::vector<MeetingAsk> asks_;
    base::Faults faults_;
};

Points Planner::by_weight(const std::vector<Weighted>& points) const {
    std::vector<Ranked> all;
    for (const auto& one : points)
        all.push_back({one.point, one.weight * stakes_of(one.point), lot(what_.seed, one.point.text)});
    return in_order(std::move(all));
}

Points Planner::by_lot(const Points& points) const {
    std::vector<Ranked> all;
    for (const auto& id : points) all.push_back({id, std::log(lot(what_.seed, id.text)) / stakes_of(id), 0.0});
    return in_order(std::move(all));
}

Points Planner::everything() const {
    Points points;
    for (const auto& entry : library_.index().points)
        if (entry.editions.contains(what_.edition)) points.push_back(entry.id);
    return by_lot(points);
}

bool Planner::form_allowed(Form form) const {
    if (form == Form::choose_all) return choose_alls_ < what_.most_choose_all;
    if (form == Form::number) return numbers_ < what_.most_numbers;
    return form == Form::choose;
}

/// Drawn by lot, short ones first; one that the last meetings asked only when the point has no other.
const Question* Planner::choose_question(const content::Point& point) const {
    const Question* best = nullptr;
    double best_rank = -1.0;
    for (const auto* question : content::questions_for(point, what_.edition)) {
        if (question->computed || !form_allowed(question->form)) continue;
        const base::QuestionId id{point.id.text + "#" + question->id};
        const double rank = lot(what_.seed, id.text) + (letters_in(*question) > kMostLetters ? 0.0 : 1.0) +
                            (recent_questions_.contains(id) ? 0.0 : 2.0);
        if (rank <= best_rank) continue;
        best = question;
        best_rank = rank;
    }
    return best;
}

void Planner::tell(const PointId& id, const std::string& what, const std::string& mend) {
    if (told_.insert(id).second) faults_.push_back({"", "", 0, id.text + ": " + what, mend, true});
}

/// A point that a list names and the library cannot ask is told once, not passed over in silence.
void Planner::check_known(const Points& points) {
    for (const auto& id : points) {
        const auto* entry = library_.find(id);
        if (entry == nullptr)
            tell(id, "there is no such point in the library", "see 'greentag library list' for the points there are");
        else if (!entry->editions.contains(what_.edition))
            tell(id, "says nothing for the " + trade::to_text(what_.edition) + " edition", "it is left out");
    }
}

void Planner::add(const PointEntry& entry, const Question& question, MeetingReason reason) {
    MeetingAsk one;
    one.reason = reason;
    one.ask = content::compose(library_, entry, question, what_.edition, what_.seed);
    std::vector<content::Option> authored;
    if (has_options(question.form)) {
        for (const auto& text : question.right) authored.push_back({text, true, 0, ""});
        for (const auto& wrong : question.wrong) authored.push_back({wrong.text, false, 0, wrong.mistake});
    }
    one.ask.options = std::move(authored);
    std::vector<std::string> mistakes;
    for (const auto& wrong : question.wrong) mistakes.push_back(wrong.mistake);
    for (const auto& wrong : question.wrong_numbers) mistakes.push_back(wrong.mistake);
    content::explain(library_, one.ask, mistakes);
    choose_alls_ += question.form == Form::choose_all ? 1 : 0;
    numbers_ += question.form == Form::number ? 1 : 0;
    asks_.push_back(std::move(one));
}

bool Planner::take(const PointId& id, MeetingReason reason, Allowed allowed) {
    if (taken_.contains(id) || (recent_points_.contains(id) && !allowed.recent)) return false;
    const auto* entry = library_.find(id);
    if (entry == nullptr || !entry->editions.contains(what_.edition)) return false;
    const auto& point = library_.point(*entry);
    const auto* version = point.version(what_.edition);
    if (version == nullptr || (version->unverified && !allowed.unverified)) return false;
    const auto* question = choose_question(point);
    if (question == nullptr) return false;
    taken_.insert(id);
    add(*entry, *question, reason);
    return true;
}

void Planner::take_some(const Points& points, std::size_t most, MeetingReason reason, bool recent) {
    most = std::min(most, room());
    for (const bool unverified : {false, true})
        for (const auto& id : points) {
            if (most == 0) return;
            most -= take(id, reason, {unverified, recent}) ? 1 : 0;
        }
}

void Planner::tell_of_asks() {
    for (const auto& one : asks_)
        if (one.ask.version.unverified)
            tell(one.ask.question.point, "nobody has verified this point for the edition; the sheet's key says so",
                 "check it in your own book before the meeting");
    if (asks_.size() < what_.asks)
        faults_.push_back({"", "", 0,
                           "only " + std::to_string(asks_.size()) + " of " + std::to_string(what_.asks) +
                               " asks could be found for the " + trade::to_text(what_.edition) + " edition",
                           "hold the meeting with these, or add points of your own", true});
}

MeetingPlan Planner::plan() {
    const Points sure = by_weight(what_.sure_and_wrong);
    const Points corrections = by_weight(what_.corrections);
    const Points jobs = by_lot(what_.jobs);
    const Points week = by_lot(what_.week);
    for (const auto* list : {&sure, &corrections, &jobs, &week}) check_known(*list);
    take_some(sure, share(kSureAndWrongShare), MeetingReason::sure_and_wrong);
    take_some(corrections, share(kCorrectionShare), MeetingReason::correction);
    take_some(jobs, share(kJobShare), MeetingReason::job);
    for (const bool recent : {false, true}) {
        take_some(week, room(), MeetingReason::week, recent);
        take_some(sure, room(), MeetingReason::sure_and_wrong, recent);
        take_some(corrections, room(), MeetingReason::correction, recent);
        take_some(jobs, room(), MeetingReason::job, recent);
        if (room() > 0) take_some(everything(), room(), MeetingReason::rotation, recent);
    }
    tell_of_asks();
    base::Random random{base::derive_seed(what_.seed, "asks")};
    random.shuffle(asks_);
    MeetingPlan plan;
    plan.meeting = {{}, what_.day, what_.title, what_.shop, what_.jurisdiction, what_.edition, what_.seed, {}, {}};
    plan.meeting.asks = std::move(asks_);
    plan.meeting.id = meeting_id(plan.meeting);
    plan.told = std::move(faults_);
    return plan;
}

}  // namespace

base::Checked<MeetingPlan> plan_meeting(const content::Library& library, const MeetingFor& what) {
    if (what.asks < kFewestAsks || what.asks > kMostAsks)
        return base::refuse("a meeting of " + std::to_string(what.asks) + " asks", "give a number from 8 to 12");
    MeetingPlan plan = Planner{library, what}.plan();
    if (plan.meeting.asks.empty())
        return base::refuse("nothing can be asked on paper in the " + trade::to_text(what.edition) + " edition",
                            "add points with choose questions to the library");
    return plan;
}

}  // namespace practice
