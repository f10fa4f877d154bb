#include "practice/exam/paper.hpp"

#include <algorithm>
#include <numeric>
#include <unordered_map>
#include <unordered_set>

#include "content/compose.hpp"
#include "practice/exam/section_draw.hpp"

namespace practice {
namespace {

std::size_t sum_of(const Division& division) {
    return std::accumulate(division.begin(), division.end(), std::size_t{0});
}

Division to_division(const std::vector<int>& counts) {
    Division division;
    division.reserve(counts.size());
    for (const int count : counts) division.push_back(static_cast<std::size_t>(count));
    return division;
}

bool all_have(const Division& there, const Division& full) {
    for (std::size_t n = 0; n < there.size(); ++n)
        if (there[n] == 0 && full[n] > 0) return false;
    return true;
}

/// `total` in the proportion of `full`, no section over its own; nothing when that is too much.
std::optional<Division> in_proportion(const Division& full, std::size_t total) {
    std::vector<content::QuestionCount> ranges;
    ranges.reserve(full.size());
    for (const auto most : full) ranges.push_back({0, static_cast<int>(most)});
    const auto counts = content::divide_questions(ranges, static_cast<int>(total));
    if (!counts) return std::nullopt;
    return to_division(*counts);
}

bool fits(const Division& asked, const Division& there) {
    for (std::size_t n = 0; n < asked.size(); ++n)
        if (asked[n] > there[n]) return false;
    return true;
}

/// The longest division in proportion to what was asked that the candidates suffice for.
Division longest(const Division& asked, const Division& there) {
    Division shape = asked;
    for (std::size_t n = 0; n < shape.size(); ++n)
        if (there[n] == 0) shape[n] = 0;
    for (std::size_t total = sum_of(shape); total > 0; --total)
        if (auto division = in_proportion(shape, total); division && fits(*division, there)) return *division;
    return Division(asked.size(), 0);
}

/// Sorted by id, so that the paper does not hang on the order they came in, and each id once.
std::vector<std::vector<Candidate>> tidied(const std::vector<std::vector<Candidate>>& candidates,
                                           std::size_t sections) {
    std::vector<std::vector<Candidate>> tidy(sections);
    std::unordered_set<base::QuestionId> met;
    for (std::size_t n = 0; n < std::min(sections, candidates.size()); ++n) {
        for (const auto& one : candidates[n])
            if (met.insert(one.id).second) tidy[n].push_back(one);
        std::sort(tidy[n].begin(), tidy[n].end(), [](const auto& a, const auto& b) { return a.id < b.id; });
    }
    return tidy;
}

std::string call_of(const base::QuestionId& id) {
    return id.text.substr(0, id.text.rfind('#'));
}

PaperItem item_of(const Candidate& one, std::size_t section, base::Seed seed) {
    const base::Seed own =
        one.call ? base::derive_seed(seed, "call " + call_of(one.id)) : base::derive_seed(seed, "ask " + one.id.text);
    return {section, one.id, one.point, one.call, own, one.chance, {}};
}

std::string offer(const TooFew& refusal, const content::Outline& outline) {
    const std::size_t total = sum_of(refusal.possible);
    if (total == 0) return "add verified questions, or sit another outline";
    std::string left_out;
    for (std::size_t n = 0; n < refusal.possible.size(); ++n) {
        const bool lacks = std::any_of(refusal.lacks.begin(), refusal.lacks.end(),
                                       [&](const Lack& lack) { return lack.section == n && lack.there == 0; });
        if (lacks) left_out += (left_out.empty() ? ", without '" : ", '") + outline.sections[n].title + "'";
    }
    return "add verified questions, or sit the longest exam there can be, of " + std::to_string(total) +
           (total == 1 ? " question" : " questions") + left_out;
}

/// Poses the items of a paper one after another; the asks of a call are composed once.
class Poser {
public:
    Poser(const content::Library& library, const Paper& paper) : library_{&library}, paper_{&paper} {}

    base::Checked<std::vector<content::Ask>> made() {
        std::vector<content::Ask> asks;
        for (const auto& item : paper_->items) {
            auto ask = item.call ? from_call(item) : plain(item);
            if (!ask)
                fault(item, "is not in the library any more");
            else if (!item.content.empty() && item.content != ask->content)
                fault(item, "has been changed since the exam was begun");
            else
                asks.push_back(std::move(*ask));
        }
        if (!faults_.empty()) return tl::unexpected<base::Faults>{std::move(faults_)};
        return asks;
    }

private:
    void fault(const PaperItem& item, const std::string& what) {
        base::Fault fault;
        fault.what = "question " + item.question.text + " " + what;
        fault.mend = "begin a new exam, or go back to the library it was begun with";
        faults_.push_back(std::move(fault));
    }

    std::optional<content::Ask> plain(const PaperItem& item) const {
        const auto* entry = library_->find(item.point);
        if (entry == nullptr) return std::nullopt;
        const std::string own = item.question.text.substr(item.question.text.rfind('#') + 1);
        for (const auto* question : content::questions_for(library_->point(*entry), paper_->edition))
            if (question->id == own) return content::compose(*library_, *entry, *question, paper_->edition, item.seed);
        return std::nullopt;
    }

    std::optional<content::Ask> from_call(const PaperItem& item) {
        const std::string id = call_of(item.question);
        auto known = calls_.find(id);
        if (known == calls_.end()) known = calls_.emplace(id, compose_call(id, item.seed)).first;
        for (const auto& ask : known->second)
            if (ask.id == item.question) return ask;
        return std::nullopt;
    }

    std::vector<content::Ask> compose_call(const std::string& id, base::Seed seed) const {
        for (const auto& call : library_->index().scenarios)
            if (call.id == id && call.editions.contains(paper_->edition))
                return content::compose_scenario(*library_, call, paper_->edition, seed);
        return {};
    }

    const content::Library* library_;
    const Paper* paper_;
    std::unordered_map<std::string, std::vector<content::Ask>> calls_;
    base::Faults faults_;
};

}  // namespace

Division full_length(const content::Outline& outline) {
    const auto totals = content::possible_totals(outline);
    const auto counts = totals ? content::questions_per_section(outline, totals->most) : std::nullopt;
    return counts ? to_division(*counts) : Division(outline.sections.size(), 0);
}

std::optional<Division> division_of(const content::Outline& outline, std::size_t total, const Division& there) {
    Division full = full_length(outline);
    if (total == 0 || total > sum_of(full)) return std::nullopt;
    if (all_have(there, full)) {
        const auto totals = content::possible_totals(outline);
        if (totals && totals->contains(static_cast<int>(total)))
            if (const auto counts = content::questions_per_section(outline, static_cast<int>(total)))
                return to_division(*counts);
    }
    for (std::size_t n = 0; n < std::min(full.size(), there.size()); ++n)
        if (there[n] == 0) full[n] = 0;
    return in_proportion(full, total);
}

base::Milliseconds time_for(const content::Outline& outline, std::size_t asked) {
    const auto full = static_cast<std::int64_t>(sum_of(full_length(outline)));
    if (full == 0) return base::Milliseconds{0};
    const auto minutes = (std::int64_t{outline.minutes} * static_cast<std::int64_t>(asked) + full - 1) / full;
    return std::chrono::minutes{minutes};
}

tl::expected<Paper, TooFew> assemble(const PaperFor& what, const std::vector<std::vector<Candidate>>& candidates) {
    auto tidy = tidied(candidates, what.asked.size());
    Division there;
    for (const auto& section : tidy) there.push_back(section.size());
    TooFew refusal;
    for (std::size_t n = 0; n < what.asked.size(); ++n)
        if (there[n] < what.asked[n]) refusal.lacks.push_back({n, what.asked[n], there[n]});
    if (!refusal.lacks.empty()) {
        refusal.possible = longest(what.asked, there);
        return tl::unexpected<TooFew>{std::move(refusal)};
    }
    Paper paper{what.outline->id, what.edition, what.seed, {}};
    for (std::size_t n = 0; n < tidy.size(); ++n) {
        const auto seed = base::derive_seed(what.seed, "section " + std::to_string(n));
        for (const auto& one : draw_section(std::move(tidy[n]), what.asked[n], seed))
            paper.items.push_back(item_of(one, n, what.seed));
    }
    return paper;
}

base::Faults to_faults(const TooFew& refusal, const content::Outline& outline) {
    base::Faults faults;
    const std::string mend = offer(refusal, outline);
    for (const auto& lack : refusal.lacks) {
        base::Fault fault;
        fault.what = "section '" + outline.sections[lack.section].title + "' should ask " + std::to_string(lack.asked) +
                     (lack.asked == 1 ? " question" : " questions") + " and has " + std::to_string(lack.there) +
                     " to draw from";
        fault.mend = mend;
        faults.push_back(std::move(fault));
    }
    return faults;
}

base::Checked<std::vector<content::Ask>> pose(const content::Library& library, const Paper& paper) {
    return Poser{library, paper}.made();
}

}  // namespace practice
