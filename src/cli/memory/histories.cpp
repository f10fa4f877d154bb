#include "cli/memory/histories.hpp"

#include <algorithm>
#include <tuple>

#include <nlohmann/json.hpp>

#include "base/located_json.hpp"
#include "base/text.hpp"
#include "content/deck.hpp"
#include "memory/model.hpp"
#include "practice/crew_log.hpp"

namespace cli {
namespace {

using base::Reader;
using memory::FitAnswer;

constexpr double kFarthestDays = 365'000.0;

std::uint32_t number_of(std::vector<std::string>& names, std::unordered_map<std::string, std::uint32_t>& numbers,
                        const std::string& name) {
    const auto [found, is_new] = numbers.try_emplace(name, static_cast<std::uint32_t>(names.size()));
    if (is_new) names.push_back(name);
    return found->second;
}

/// An ISO 8601 instant, or days since whatever the history counts from.
base::Instant moment(const Reader& value) {
    if (const auto* days = std::get_if<double>(&value.node().value)) {
        if (*days >= -kFarthestDays && *days <= kFarthestDays) return base::after_days({}, *days);
        value.fault("a thousand years is as far as days go", "count the days from the first answer");
        return {};
    }
    const auto instant = base::parse_instant(value.as_text());
    if (!instant) value.fault("this is no moment", "write 2026-03-02T07:00Z, or a number of days");
    return instant.value_or(base::Instant{});
}

std::uint8_t form_of(const Reader& answer) {
    const std::string text = answer.text_or("form", "choose");
    if (text == "call") return practice::kCallForm;
    if (const auto form = content::parse_form(text)) return static_cast<std::uint8_t>(*form);
    answer.member("form").fault("'" + text + "' is no form",
                                "write choose, choose-all, number, article, order, recall or call");
    return 0;
}

FitAnswer answer_from(const Reader& object) {
    object.only({"at", "mark", "told", "sure", "took_ms", "form", "held_back"});
    FitAnswer answer;
    answer.at = moment(object.member("at"));
    answer.told = object.flag_or("told", false);
    const double mark = answer.told ? object.number_or("mark", 0) : object.number("mark");
    if (!(mark >= 0 && mark <= 1)) object.member("mark").fault("a mark lies between 0 and 1", "1 is right, 0 is wrong");
    answer.mark = static_cast<float>(mark);
    const auto sure = memory::parse_sure(object.text_or("sure", "fairly"));
    if (!sure) object.member("sure").fault("this says nothing of how sure", "write guess, fairly or sure");
    answer.sure = sure.value_or(memory::Sure::fairly);
    const double took = object.number_or("took_ms", 0);
    if (!(took >= 0 && took < 1e15)) object.member("took_ms").fault("time taken is never below 0", "milliseconds");
    answer.took_ms = took >= 0 && took < 1e15 ? static_cast<std::int64_t>(took) : 0;
    answer.form = form_of(object);
    answer.held_back = object.flag_or("held_back", false);
    return answer;
}

std::string json_of(const base::Located* value) {
    if (value == nullptr) return "null";
    if (const auto* number = std::get_if<double>(&value->value)) return base::number_text(*number, 9);
    if (const auto* text = std::get_if<std::string>(&value->value)) return nlohmann::json(*text).dump();
    return "null";
}

std::string name_or(const Reader& object, const char* key, const std::string& otherwise) {
    if (!object.has(key)) return otherwise;
    const Reader member = object.member(key);
    return std::holds_alternative<double>(member.node().value) ? base::number_text(member.as_number(), 9)
                                                               : member.as_text();
}

auto key(const FitAnswer& answer) {
    return std::tuple{answer.learner, answer.point, answer.at};
}

}  // namespace

void Histories::add(const std::string& text) {
    ++count_;
    if (base::trim(text).empty()) return;
    Line& line = lines_.emplace_back();
    line.id = "null";
    const auto parsed = base::parse_located(text, "");
    if (!parsed || !std::holds_alternative<base::Located::Members>(parsed->value)) {
        line.faults =
            parsed ? base::Faults{{"", "", 0, "a line holds one JSON object", "begin it with {"}} : parsed.error();
        for (auto& fault : line.faults) fault.line = static_cast<int>(count_);
        return;
    }
    line.id = json_of(parsed->find("id"));
    const Reader object{*parsed, "", "", line.faults};
    object.only({"id", "learner", "point", "family", "answers", "times"});
    const std::string own = "line " + std::to_string(count_);
    std::vector<FitAnswer> answers;
    for (const auto& item : object.items_or_none("answers")) answers.push_back(answer_from(item));
    for (const auto& item : object.items_or_none("times")) {
        line.times.push_back(moment(item));
        line.times_as_given.push_back(json_of(&item.node()));
    }
    const std::string learner = name_or(object, "learner", own);
    const std::string point = name_or(object, "point", own);
    const std::string family = name_or(object, "family", "");
    std::erase_if(line.faults, [](const base::Fault& fault) { return fault.warning; });
    for (auto& fault : line.faults) fault.line = static_cast<int>(count_);
    if (line.faults.empty()) take(line, answers, {learner, point, family});
}

void Histories::take(Line& line, std::vector<FitAnswer>& answers, const Names& names) {
    line.learner = number_of(learners_, learner_numbers_, names.learner);
    line.point = number_of(points_, point_numbers_, names.point);
    if (line.point == family_of_point_.size())
        family_of_point_.push_back(number_of(families_, family_numbers_, names.family));
    for (auto& answer : answers) {
        answer.learner = line.learner;
        answer.point = line.point;
        answers_.push_back(answer);
    }
}

void Histories::settle() {
    std::stable_sort(answers_.begin(), answers_.end(),
                     [](const FitAnswer& a, const FitAnswer& b) { return key(a) < key(b); });
    const auto same = [](const FitAnswer& a, const FitAnswer& b) { return key(a) == key(b); };
    const auto last = std::unique(answers_.begin(), answers_.end(), same);
    repeated_ = static_cast<std::size_t>(answers_.end() - last);
    answers_.erase(last, answers_.end());
}

memory::RecallState Histories::state(std::uint32_t learner, std::uint32_t point, base::Instant until) const {
    memory::RecallState state;
    const auto below = [](const FitAnswer& answer, const std::pair<std::uint32_t, std::uint32_t>& wanted) {
        return std::pair{answer.learner, answer.point} < wanted;
    };
    auto at = std::lower_bound(answers_.begin(), answers_.end(), std::pair{learner, point}, below);
    for (; at != answers_.end() && at->learner == learner && at->point == point && at->at <= until; ++at)
        state = memory::advance(state, at->at, at->told ? 0 : static_cast<double>(at->mark), at->sure);
    return state;
}

}  // namespace cli
