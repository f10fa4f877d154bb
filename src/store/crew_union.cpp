#include "store/crew_union.hpp"

#include <algorithm>
#include <utility>

#include "base/text.hpp"

namespace store {
namespace {

using What = CrewDifference::What;

std::string day(const std::optional<base::Instant>& when) {
    return when ? base::date_text(*when) : "none";
}
std::string year(const std::optional<int>& edition) {
    return edition ? std::to_string(*edition) : "none";
}
std::string place(const std::string& jurisdiction) {
    return jurisdiction.empty() ? "none" : jurisdiction;
}

bool nothing_said(const Learner& learner) {
    return !learner.edition && learner.jurisdiction.empty() && !learner.exam_at;
}

/// One learner as two stores know them.
class Pair {
public:
    Pair(Learner here, const Learner& there, CrewUnion& all) : here_{std::move(here)}, there_{&there}, all_{&all} {}

    void settle(bool details) {
        compare(What::name, here_.name, there_->name, false);
        if (details) settle_details();
        if (changed_) all_->changed.push_back(here_);
    }

private:
    void settle_details() {
        const bool fills = nothing_said(here_) && !nothing_said(*there_);
        compare(What::edition, year(here_.edition), year(there_->edition), fills);
        compare(What::jurisdiction, place(here_.jurisdiction), place(there_->jurisdiction), fills);
        compare(What::exam, day(here_.exam_at), day(there_->exam_at), fills);
        if (fills) {
            here_.edition = there_->edition;
            here_.jurisdiction = there_->jurisdiction;
            here_.exam_at = there_->exam_at;
        }
        const bool later = here_.retired_at && there_->retired_at && *here_.retired_at < *there_->retired_at;
        compare(What::left, day(here_.retired_at), day(there_->retired_at), later);
        if (later) here_.retired_at = there_->retired_at;
        changed_ = fills || later;
    }
    void compare(What what, const std::string& here, const std::string& there, bool taken) {
        if (here == there) return;
        // Of two days of leaving the later one holds, whichever side has it: nothing there is left to decide.
        if (what == What::left && !taken && here != "none" && there != "none") return;
        all_->told.push_back({what, here_.id, here_.name, here, there, taken});
    }

    Learner here_;
    const Learner* there_;
    CrewUnion* all_;
    bool changed_ = false;
};

void add(const std::vector<Learner>& ours, const Learner& one, CrewUnion& all) {
    for (const auto& other : ours)
        if (base::lower(other.name) == base::lower(one.name))
            all.told.push_back(
                {What::same_name, one.id, other.name, base::to_text(other.id), base::to_text(one.id), false});
    all.added.push_back(one);
}

}  // namespace

CrewUnion unite(const std::vector<Learner>& ours, const std::vector<Learner>& theirs, bool details) {
    CrewUnion all;
    for (const auto& one : theirs) {
        const auto known = std::find_if(ours.begin(), ours.end(), [&](const Learner& l) { return l.id == one.id; });
        if (known == ours.end())
            add(ours, one, all);
        else
            Pair{*known, one, all}.settle(details);
    }
    return all;
}

}  // namespace store
