#include "report/meeting/meeting_json.hpp"

#include <algorithm>

#include "base/quantity.hpp"
#include "report/rounded.hpp"

namespace report {
namespace {

using content::Ask;
using nlohmann::ordered_json;
using practice::Meeting;
using practice::MeetingAsk;
using practice::Sheet;

std::string words_of(const Ask& ask, const std::string& mistake) {
    const auto found = ask.mistakes.find(mistake);
    return found == ask.mistakes.end() ? std::string{} : found->second;
}

ordered_json options_json(const Ask& ask) {
    ordered_json list = ordered_json::array();
    for (const auto& option : ask.options) {
        if (option.right)
            list.push_back({{"text", option.text}, {"right", true}});
        else
            list.push_back(
                {{"text", option.text}, {"mistake", option.mistake}, {"means", words_of(ask, option.mistake)}});
    }
    return list;
}

void put_number(ordered_json& out, const Ask& ask) {
    const auto& question = ask.question;
    out["answer"] = {
        {"value", question.answer.value}, {"unit", base::symbol(question.answer.unit)}, {"within", question.within}};
    ordered_json wrong = ordered_json::array();
    for (const auto& one : question.wrong_numbers)
        wrong.push_back({{"value", one.value}, {"mistake", one.mistake}, {"means", words_of(ask, one.mistake)}});
    out["wrong"] = std::move(wrong);
}

ordered_json basis_json(const trade::Basis& basis) {
    ordered_json out = {{"kind", trade::to_text(basis.kind)}};
    if (!basis.source.empty()) out["source"] = basis.source;
    return out;
}

ordered_json ask_json(const MeetingAsk& one) {
    const Ask& ask = one.ask;
    ordered_json out = {{"question", ask.id.text},
                        {"point", ask.question.point.text},
                        {"content", ask.content},
                        {"form", content::to_text(ask.question.form)},
                        {"reason", practice::to_text(one.reason)},
                        {"topic", ask.topic},
                        {"title", ask.title},
                        {"stakes", content::to_text(ask.stakes)},
                        {"article", ask.version.article},
                        {"says", ask.version.says},
                        {"unverified", ask.version.unverified},
                        {"basis", basis_json(ask.question.basis ? *ask.question.basis : ask.version.basis)},
                        {"caution", ask.caution},
                        {"text", ask.question.text},
                        {"why", ask.question.why}};
    if (practice::has_options(ask.question.form))
        out["options"] = options_json(ask);
    else
        put_number(out, ask);
    return out;
}

ordered_json sheet_json(const Sheet& sheet) {
    ordered_json orders = ordered_json::array();
    for (const auto& order : sheet.orders) {
        std::string letters;
        for (const auto place : order) letters += content::letter(place);
        orders.push_back(letters);
    }
    return {{"sheet", sheet.number},
            {"learner", base::to_text(sheet.learner)},
            {"name", sheet.name},
            {"seed", std::to_string(sheet.seed)},
            {"orders", std::move(orders)}};
}

ordered_json mistake_json(const std::optional<practice::CommonMistake>& mistake) {
    if (!mistake) return nullptr;
    return {{"id", mistake->id}, {"words", mistake->words}, {"count", mistake->count}};
}

ordered_json ask_review_json(const Meeting& meeting, const practice::AskReview& one) {
    const auto& ask = meeting.asks.at(one.ask).ask;
    return {{"ask", one.ask + 1},
            {"question", ask.id.text},
            {"title", ask.title},
            {"stakes", content::to_text(ask.stakes)},
            {"answers", one.answers},
            {"right", one.right},
            {"blank", one.blank},
            {"share_right", one.answers == 0 ? ordered_json(nullptr) : ordered_json(rounded<4>(one.share_right))},
            {"mistake", mistake_json(one.mistake)},
            {"wrong", one.wrong},
            {"sure_and_wrong", one.sure_and_wrong},
            {"urgency", rounded<4>(one.urgency)}};
}

}  // namespace

ordered_json meeting_json(const Meeting& meeting) {
    ordered_json asks = ordered_json::array();
    for (const auto& one : meeting.asks) asks.push_back(ask_json(one));
    ordered_json sheets = ordered_json::array();
    for (const auto& sheet : meeting.sheets) sheets.push_back(sheet_json(sheet));
    // Seeds are texts: a reader that takes numbers for doubles would lose their last digits.
    return {{"format", "greentag-meeting/1"},
            {"id", base::to_text(meeting.id)},
            {"day", base::to_text(meeting.day)},
            {"title", meeting.title},
            {"shop", meeting.shop},
            {"edition", trade::to_text(meeting.edition)},
            {"jurisdiction", meeting.jurisdiction},
            {"seed", std::to_string(meeting.seed)},
            {"asks", std::move(asks)},
            {"sheets", std::move(sheets)}};
}

ordered_json plan_json(const practice::MeetingPlan& plan) {
    ordered_json asks = ordered_json::array();
    for (std::size_t i = 0; i < plan.meeting.asks.size(); ++i) {
        const auto& [ask, reason] = plan.meeting.asks[i];
        asks.push_back({{"ask", i + 1},
                        {"question", ask.id.text},
                        {"point", ask.question.point.text},
                        {"title", ask.title},
                        {"article", ask.version.article},
                        {"stakes", content::to_text(ask.stakes)},
                        {"form", content::to_text(ask.question.form)},
                        {"reason", practice::to_text(reason)},
                        {"unverified", ask.version.unverified}});
    }
    ordered_json told = ordered_json::array();
    for (const auto& one : plan.told) told.push_back({{"what", one.what}, {"mend", one.mend}});
    return {{"ok", true},
            {"meeting", base::to_text(plan.meeting.id)},
            {"day", base::date_text(plan.meeting.day)},
            {"edition", trade::to_text(plan.meeting.edition)},
            {"asks", std::move(asks)},
            {"told", std::move(told)}};
}

ordered_json review_json(const Meeting& meeting, const practice::MeetingReview& review) {
    ordered_json asks = ordered_json::array();
    for (const auto& one : review.asks) asks.push_back(ask_review_json(meeting, one));
    ordered_json talk = ordered_json::array();
    for (const auto place : review.talk) talk.push_back(place + 1);
    ordered_json sheets = ordered_json::array();
    for (const auto& one : review.sheets)
        sheets.push_back({{"sheet", one.sheet},
                          {"name", one.name},
                          {"right", one.right},
                          {"corrections", one.corrections},
                          {"tag", one.green() ? "green" : "red"}});
    return {{"ok", true},
            {"meeting", base::to_text(meeting.id)},
            {"day", base::date_text(meeting.day)},
            {"tag", review.sheets.empty() ? ordered_json(nullptr) : ordered_json(review.green() ? "green" : "red")},
            {"asks", std::move(asks)},
            {"talk", std::move(talk)},
            {"sheets", std::move(sheets)},
            {"missing", review.missing}};
}

}  // namespace report
