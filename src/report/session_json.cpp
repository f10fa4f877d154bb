#include "report/session_json.hpp"

#include <nlohmann/json.hpp>

#include "report/rounded.hpp"

namespace report {
namespace {

using nlohmann::ordered_json;

ordered_json options_json(const content::Ask& ask) {
    ordered_json options = ordered_json::array();
    for (std::size_t i = 0; i < ask.options.size(); ++i)
        options.push_back({{"letter", content::letter(i)}, {"text", ask.options[i].text}});
    return options;
}

ordered_json mistakes_json(const practice::Outcome& outcome) {
    ordered_json mistakes = ordered_json::array();
    for (const auto& id : outcome.mark.mistakes) {
        const auto found = outcome.posed.ask.mistakes.find(id);
        mistakes.push_back({{"id", id}, {"says", found == outcome.posed.ask.mistakes.end() ? "" : found->second}});
    }
    return mistakes;
}

ordered_json basis_json(const content::Ask& ask) {
    const auto& basis = ask.question.basis ? *ask.question.basis : ask.version.basis;
    ordered_json out = {{"kind", trade::to_text(basis.kind)}};
    if (!basis.source.empty()) out["source"] = basis.source;
    return out;
}

}  // namespace

ordered_json ask_json(const practice::Posed& posed, bool reveal) {
    const auto& ask = posed.ask;
    ordered_json out = {{"type", "ask"},
                        {"n", posed.number},
                        {"reason", practice::to_text(posed.reason)},
                        {"point", ask.question.point.text},
                        {"question", ask.id.text},
                        {"form", content::to_text(ask.question.form)},
                        {"topic", ask.topic},
                        {"stakes", content::to_text(ask.stakes)},
                        {"edition", trade::to_text(ask.edition)}};
    if (!ask.call.empty()) {
        out["call"] = ask.call;
        out["story"] = ask.story;
    }
    out["text"] = ask.question.text;
    if (ask.question.form == content::Form::number) out["unit"] = base::symbol(ask.question.answer.unit);
    out["options"] = options_json(ask);
    if (reveal) out["right"] = content::right_answer(ask);
    return out;
}

ordered_json outcome_json(const practice::Outcome& outcome) {
    const auto& ask = outcome.posed.ask;
    ordered_json out = {{"type", "result"},
                        {"n", outcome.posed.number},
                        {"accepted", true},
                        {"id", base::to_text(outcome.record.id)},
                        {"mark", rounded<4>(outcome.mark.mark)},
                        {"recalled", outcome.recalled()},
                        {"given", outcome.record.given},
                        {"sure", memory::to_text(outcome.record.sure)},
                        {"right", content::right_answer(ask)},
                        {"why", ask.question.why.empty() ? ask.version.says : ask.question.why},
                        {"says", ask.version.says},
                        {"articles", ordered_json::array({ask.version.article})},
                        {"mistakes", mistakes_json(outcome)},
                        {"notes", outcome.mark.notes},
                        {"basis", basis_json(ask)}};
    if (ask.version.unverified) out["unverified"] = true;
    if (!ask.caution.empty()) out["caution"] = ask.caution;
    return out;
}

ordered_json standing_json(const practice::Standing& standing) {
    return {{"points", standing.in_scope},
            {"new", standing.fresh},
            {"due", standing.due},
            {"changed", standing.changed},
            {"urgent", standing.urgent}};
}

ordered_json summary_json(const practice::Summary& summary, const practice::SessionFor& what) {
    ordered_json corrections = ordered_json::array();
    for (const auto* outcome : summary.corrections)
        corrections.push_back({{"point", outcome->record.point.text},
                               {"title", outcome->posed.ask.title},
                               {"article", outcome->posed.ask.version.article},
                               {"stakes", content::to_text(outcome->posed.ask.stakes)}});
    ordered_json sure = ordered_json::object();
    for (const auto& [level, tally] : summary.sure)
        sure[std::string{memory::to_text(level)}] = {{"answers", tally.answers}, {"right", tally.right}};
    ordered_json topics = ordered_json::array();
    for (const auto& topic : summary.topics)
        topics.push_back({{"topic", topic.topic},
                          {"points", topic.points},
                          {"met", topic.met},
                          {"due", topic.due},
                          {"urgent", topic.urgent},
                          {"recall", rounded<4>(topic.recall)}});
    ordered_json out = {{"type", "summary"},
                        {"learner", what.learner.name},
                        {"edition", trade::to_text(what.pick.edition)},
                        {"answers", summary.outcomes.size()},
                        {"marks", rounded<4>(summary.marks)},
                        {"tag", summary.outcomes.empty() ? "none"
                                : summary.green()        ? "green"
                                                         : "red"},
                        {"corrections", corrections},
                        {"put_right", summary.put_right},
                        {"sure", sure},
                        {"next_due",
                         {{"by_tomorrow", summary.due_tomorrow},
                          {"within_a_week", summary.due_this_week},
                          {"later", summary.due_later},
                          {"sure_and_wrong", summary.back_tomorrow}}},
                        {"standing", standing_json(summary.standing)},
                        {"topics", topics}};
    if (what.plan.open_book) out["look_ups"] = look_ups_json(summary.look_ups);
    return out;
}

ordered_json look_ups_json(const std::vector<practice::LookUpFamily>& families) {
    ordered_json list = ordered_json::array();
    for (const auto& one : families)
        list.push_back({{"article", one.article},
                        {"places", one.places},
                        {"asked", one.asked},
                        {"found", one.found},
                        {"seconds", rounded<1>(one.seconds)}});
    return list;
}

ordered_json faults_json(const base::Faults& faults) {
    ordered_json list = ordered_json::array();
    for (const auto& f : faults)
        list.push_back({{"file", f.file},
                        {"line", f.line},
                        {"pointer", f.pointer},
                        {"what", f.what},
                        {"mend", f.mend},
                        {"warning", f.warning}});
    return list;
}

ordered_json failure_json(const base::Faults& faults, base::Exit exit) {
    return {{"ok", false}, {"exit", static_cast<int>(exit)}, {"faults", faults_json(faults)}};
}

}  // namespace report
