#include "report/finding_text.hpp"

#include <algorithm>

#include "base/text.hpp"

namespace report {
namespace {

using Lines = std::vector<std::string>;

constexpr std::string_view kAid =
    "Training aid: verify against the adopted code and local amendments; the inspector decides.";
constexpr std::string_view kCaution =
    "Before any work: de-energize, lock out, prove dead with a tester checked on a known source before and after.";

void add_closing(Lines& lines, const Page& page) {
    lines.emplace_back();
    add(lines, page, kCaution, 0, Ink::warn);
    add(lines, page, kAid, 0, Ink::faint);
}

std::string names_text(trade::ResultSet set, const trade::Vocabulary& vocabulary) {
    return base::join(trade::names_of(set, vocabulary), ", ");
}

void add_fired(Lines& lines, const trade::Fired& fired, const Page& page) {
    std::string head = std::string{to_text(fired.rule->effect)} + " " + fired.rule->result;
    if (fired.count) head += " x " + base::number_text(*fired.count);
    head += "  (" + fired.version->article + (fired.rule->local ? ", local" : "") +
            (fired.version->unverified ? ", unverified" : "") + ")";
    add(lines, page, head, 2, Ink::bold);
    add(lines, page, fired.rule->title + ". " + fired.rule->why, 4);
}

void add_unknown(Lines& lines, const trade::Ruling& ruling, const trade::Vocabulary& vocabulary, const Page& page) {
    if (ruling.unknown.empty()) return;
    lines.emplace_back();
    add(lines, page, "Still to be told, since it could change the answer:", 0, Ink::warn);
    for (const auto fact : ruling.unknown)
        add_hanging(lines, page, "  " + vocabulary.facts()[fact].name + "  ", vocabulary.facts()[fact].does);
}

/// A line of a drawing keeps its columns; a step is told in words, which are wrapped.
bool is_drawn(const std::string& step) {
    return step.find("  ") != std::string::npos || step.starts_with("+-") || step.starts_with('|');
}

void add_steps(Lines& lines, const Page& page, const std::vector<std::string>& steps) {
    const bool fits = std::none_of(steps.begin(), steps.end(), [&](const std::string& step) {
        return is_drawn(step) && base::display_width(step) + 2 > page.width;
    });
    for (const auto& step : steps)
        if (!is_drawn(step))
            add(lines, page, step, 2);
        else if (fits)
            lines.push_back("  " + step);
    if (!fits) add(lines, page, "The drawing needs a wider screen; --svg FILE writes it as a picture.", 2);
}

}  // namespace

std::string under_text(const content::Under& under) {
    return trade::to_text(under.edition) + " edition" + (under.jurisdiction.empty() ? "" : " in " + under.jurisdiction);
}

Lines finding_text(const trade::Calculator& calculator, const trade::Finding& finding, const content::Under& under,
                   const Page& page) {
    Lines lines;
    if (finding.answer) {
        add(lines, page,
            std::string{calculator.name} + ": " + trade::to_text(*finding.answer) + "  (" + under_text(under) + ")", 0,
            Ink::bold);
    } else {
        add(lines, page,
            std::string{calculator.name} + (finding.unknown.empty()
                                                ? ": no answer, for the reason below  (" + under_text(under) + ")"
                                                : ": cannot be worked out yet. Still to be told:"),
            0, Ink::warn);
        for (const auto& fact : finding.unknown) {
            const auto spec = std::find_if(calculator.facts.begin(), calculator.facts.end(),
                                           [&](const trade::FactSpec& s) { return s.name == fact; });
            if (spec == calculator.facts.end())
                add(lines, page, fact, 2);
            else
                add_hanging(lines, page, "  " + trade::flag_name(fact) + "  ",
                            std::string{spec->does} + " (" + trade::range_text(*spec) + ")");
        }
    }
    add_steps(lines, page, finding.steps);
    if (!finding.also.empty()) lines.emplace_back();
    for (const auto& also : finding.also)
        add_hanging(lines, page, "  " + padded(also.name, 20) + " ", trade::to_text(also.value));
    for (const auto& note : finding.findings) add(lines, page, "Look: " + note, 0, Ink::bad);
    lines.emplace_back();
    add(lines, page, "Governs: " + base::join(finding.articles, ", "));
    add_closing(lines, page);
    return lines;
}

Lines ruling_text(const trade::Ruling& ruling, const trade::Vocabulary& vocabulary, const content::Under& under,
                  const Page& page) {
    Lines lines;
    const std::string under_what = "  (" + under_text(under) + ")";
    const bool open = !ruling.unknown.empty();
    // What is forbidden comes first, and an open case never reads like an answer.
    if (ruling.forbids != 0)
        add(lines, page, "Not allowed: " + names_text(ruling.forbids, vocabulary) + under_what, 0, Ink::bad);
    if (ruling.requires_ != 0)
        add(lines, page, "Required: " + names_text(ruling.requires_, vocabulary) + under_what, 0, Ink::bold);
    if (open)
        add(lines, page,
            "Open: more has to be told" +
                (ruling.may_be == 0 ? std::string{} : " to decide on " + names_text(ruling.may_be, vocabulary)) +
                under_what,
            0, Ink::warn);
    if (!open && ruling.requires_ == 0 && ruling.forbids == 0) add(lines, page, "Nothing required" + under_what);
    if (ruling.permits != 0) add(lines, page, "Permitted: " + names_text(ruling.permits, vocabulary));
    if (ruling.exempt != 0) add(lines, page, "Excused: " + names_text(ruling.exempt, vocabulary));
    for (const auto& clash : ruling.findings) add(lines, page, "Look: " + clash, 0, Ink::bad);
    if (!ruling.fired.empty()) lines.emplace_back();
    for (const auto& fired : ruling.fired) add_fired(lines, fired, page);
    for (const auto& out : ruling.excepted) {
        add(lines, page, "no " + out.rule->result + " under " + out.version->article, 2, Ink::bold);
        add(lines, page, out.rule->title + ", but: " + out.exception->why, 4);
    }
    add_unknown(lines, ruling, vocabulary, page);
    add_closing(lines, page);
    return lines;
}

Lines facts_text(const trade::Calculator& calculator, const Page& page) {
    Lines lines;
    for (const auto& spec : calculator.facts) {
        add(lines, page, trade::flag_name(spec.name), 2, Ink::bold);
        add(lines, page, std::string{spec.does} + " (" + trade::range_text(spec) + ")", 6);
    }
    return lines;
}

}  // namespace report
