#include "practice/shop/meeting_review.hpp"

#include <algorithm>
#include <map>
#include <numeric>
#include <unordered_set>

#include "practice/stakes_weight.hpp"

namespace practice {
namespace {

using Answers = std::vector<const Entry*>;

/// Each id once, by sheet.
std::vector<Answers> by_ask(const Meeting& meeting, const std::vector<Entry>& entries) {
    std::vector<Answers> asks(meeting.asks.size());
    std::unordered_set<base::Id128> seen;
    for (const auto& one : entries)
        if (one.ask < asks.size() && seen.insert(one.id).second) asks[one.ask].push_back(&one);
    for (auto& answers : asks) std::ranges::stable_sort(answers, {}, &Entry::sheet);
    return asks;
}

std::optional<CommonMistake> commonest(const content::Ask& ask, const Answers& answers) {
    std::vector<CommonMistake> met;
    for (const auto* one : answers) {
        std::unordered_set<std::string> own;  // two boxes with one mistake behind them are one learner's mistake
        for (const auto& id : one->mark.mistakes) {
            if (!own.insert(id).second) continue;
            auto found = std::ranges::find(met, id, &CommonMistake::id);
            if (found == met.end()) found = met.insert(met.end(), {id, id, 0});
            ++found->count;
        }
    }
    if (met.empty()) return std::nullopt;
    auto most = *std::ranges::max_element(met, {}, &CommonMistake::count);
    const auto words = ask.mistakes.find(most.id);
    if (words != ask.mistakes.end() && !words->second.empty()) most.words = words->second;
    return most;
}

AskReview review_ask(const MeetingAsk& one, std::size_t place, const Answers& answers) {
    AskReview out;
    out.ask = place;
    out.answers = answers.size();
    for (const auto* answer : answers) {
        out.right += answer->right() ? 1 : 0;
        out.blank += answer->blank() ? 1 : 0;
        if (answer->right()) continue;
        out.wrong.push_back(answer->name);
        if (answer->sure == memory::Sure::sure) out.sure_and_wrong.push_back(answer->name);
    }
    out.mistake = commonest(one.ask, answers);
    if (answers.empty()) return out;
    const auto all = static_cast<double>(answers.size());
    out.share_right = static_cast<double>(out.right) / all;
    out.urgency =
        stakes_weight(one.ask.stakes) * static_cast<double>(out.wrong.size() + out.sure_and_wrong.size()) / all;
    return out;
}

}  // namespace

MeetingReview review(const Meeting& meeting, const std::vector<Entry>& entries) {
    MeetingReview out;
    const auto asks = by_ask(meeting, entries);
    std::map<int, SheetReview> sheets;
    for (std::size_t i = 0; i < asks.size(); ++i) {
        out.asks.push_back(review_ask(meeting.asks[i], i, asks[i]));
        if (!out.asks.back().wrong.empty()) out.talk.push_back(i);
        for (const auto* one : asks[i]) {
            auto& sheet = sheets[one->sheet];
            sheet.sheet = one->sheet;
            sheet.name = one->name;
            ++(one->right() ? sheet.right : sheet.corrections);
        }
    }
    std::ranges::stable_sort(out.talk, std::ranges::greater{}, [&](std::size_t i) { return out.asks[i].urgency; });
    for (const auto& sheet : meeting.sheets)
        if (!sheets.contains(sheet.number)) out.missing.push_back(sheet.name);
    for (auto& [number, sheet] : sheets) out.sheets.push_back(std::move(sheet));
    return out;
}

}  // namespace practice
