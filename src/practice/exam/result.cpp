#include "practice/exam/result.hpp"

#include <algorithm>
#include <tuple>

#include "memory/score/exam.hpp"
#include "memory/state.hpp"
#include "practice/exam_parts.hpp"

namespace practice {
namespace {

constexpr std::string_view kNotKnown = "!";

bool is_right(const Mark& mark) {
    return mark.mark >= memory::kRecalledFrom;
}

/// No answer and "I do not know" are marked 0. An accepted answer has the right form, so it can be marked.
Mark mark_of(const Sitting& sitting, std::size_t place) {
    const auto& ask = sitting.state().asks[place];
    if (!ask.answered() || ask.given == kNotKnown) return {};
    return mark(sitting.ask(place), ask.given).value_or(Mark{});
}

std::vector<Mark> marks_of(const Sitting& sitting) {
    std::vector<Mark> marks;
    marks.reserve(sitting.size());
    for (std::size_t place = 0; place < sitting.size(); ++place) marks.push_back(mark_of(sitting, place));
    return marks;
}

std::size_t needed_of(const content::OutlineSection& section, double exam_share, std::size_t asked) {
    return memory::right_for_share(section.pass.value_or(exam_share), asked);
}

/// By place in the outline; sections that were not asked stay out.
std::vector<SectionScore> scores_of(const Sitting& sitting, const content::Outline& outline,
                                    const std::vector<Mark>& marks) {
    std::vector<SectionScore> all(outline.sections.size());
    for (std::size_t place = 0; place < marks.size(); ++place) {
        auto& score = all.at(sitting.what().paper.items[place].section);
        ++score.asked;
        score.right += is_right(marks[place]) ? 1 : 0;
        score.unanswered += sitting.state().asks[place].answered() ? 0 : 1;
    }
    const double share = pass_share_of(outline, marks.size());
    for (std::size_t n = 0; n < all.size(); ++n) {
        all[n].section = n;
        all[n].must_pass = outline.sections[n].pass.has_value();
        all[n].needed = needed_of(outline.sections[n], share, all[n].asked);
    }
    std::erase_if(all, [](const SectionScore& score) { return score.asked == 0; });
    return all;
}

void sort_weakest_first(std::vector<SectionScore>& scores) {
    // Whole numbers: 2 of 6 and 1 of 3 are equally weak.
    std::stable_sort(scores.begin(), scores.end(), [](const SectionScore& a, const SectionScore& b) {
        return a.right * b.asked < b.right * a.asked;
    });
}

/// The points of one section that went wrong, in the order asked.
std::vector<Correction> corrections_in(const Sitting& sitting, std::size_t section, const std::vector<Mark>& marks) {
    std::vector<Correction> found;
    for (std::size_t place = 0; place < marks.size(); ++place) {
        const auto& item = sitting.what().paper.items[place];
        if (item.section != section || is_right(marks[place])) continue;
        auto known = std::find_if(found.begin(), found.end(), [&](const auto& c) { return c.point == item.point; });
        if (known == found.end()) known = found.insert(found.end(), {item.point, section, {}, true});
        known->asks.push_back(place);
        known->unanswered = known->unanswered && !sitting.state().asks[place].answered();
    }
    std::stable_sort(found.begin(), found.end(), [&](const Correction& a, const Correction& b) {
        return sitting.ask(a.asks.front()).stakes < sitting.ask(b.asks.front()).stakes;
    });
    return found;
}

store::AnswerRecord record_of(const Sitting& sitting, std::size_t place, const Mark& mark, const base::Id128& device) {
    const auto& what = sitting.what();
    const auto& item = what.paper.items[place];
    const auto& standing = sitting.state().asks[place];
    store::AnswerRecord record;
    record.id = answer_id(what.id, place);
    record.learner = what.learner;
    record.point = item.point;
    record.question = item.question;
    record.content = item.content;
    record.seed = item.seed;
    record.edition = static_cast<int>(what.paper.edition);
    record.jurisdiction = what.jurisdiction;
    record.setting = store::Setting::exam;
    record.asked_at = standing.answered_at;
    record.took_ms = standing.took_ms;
    record.mark = mark.mark;
    record.sure = standing.given == kNotKnown ? memory::Sure::guess : standing.sure;
    record.given = standing.given;
    record.device = device;
    return record;
}

}  // namespace

bool SittingResult::green() const {
    return asked > 0 && right >= needed && std::all_of(sections.begin(), sections.end(), [](const SectionScore& score) {
               return !score.must_pass || score.green();
           });
}

std::optional<SittingResult> result_of(const Sitting& sitting, const content::Outline& outline, base::Instant now) {
    if (!sitting.over(now)) return std::nullopt;
    SittingResult result;
    result.marks = marks_of(sitting);
    result.asked = result.marks.size();
    result.needed = static_cast<std::size_t>(content::right_to_pass(outline, static_cast<int>(result.asked)));
    result.out_of_time = !sitting.state().finished;
    result.sections = scores_of(sitting, outline, result.marks);
    sort_weakest_first(result.sections);
    for (const auto& score : result.sections) {
        result.right += score.right;
        result.unanswered += score.unanswered;
        for (auto& one : corrections_in(sitting, score.section, result.marks))
            result.corrections.push_back(std::move(one));
    }
    return result;
}

base::Id128 answer_id(const base::Id128& sitting, std::size_t place) {
    base::Id128 id = sitting;  // its first 48 bits are the time
    id.bytes[6] = static_cast<std::uint8_t>(0x70U | ((place >> 8U) & 0x0fU));
    id.bytes[7] = static_cast<std::uint8_t>(place & 0xffU);
    const std::uint64_t tail =
        base::derive_seed(base::stable_hash(base::to_text(sitting)), "exam answer " + std::to_string(place));
    for (unsigned i = 0; i < 8; ++i) id.bytes[8 + i] = static_cast<std::uint8_t>(tail >> (56U - 8U * i));
    id.bytes[8] = static_cast<std::uint8_t>(0x80U | (id.bytes[8] & 0x3fU));
    return id;
}

std::vector<store::AnswerRecord> answer_records(const Sitting& sitting, const base::Id128& device, base::Instant now) {
    std::vector<store::AnswerRecord> records;
    if (!sitting.over(now)) return records;
    for (std::size_t place = 0; place < sitting.size(); ++place)
        if (sitting.state().asks[place].answered())
            records.push_back(record_of(sitting, place, mark_of(sitting, place), device));
    return records;
}

}  // namespace practice
