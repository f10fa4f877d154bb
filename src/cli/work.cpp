#include <ostream>

#include <nlohmann/json.hpp>

#include "base/text.hpp"
#include "cli/batch.hpp"
#include "cli/context.hpp"
#include "cli/whole_file.hpp"
#include "report/finding_json.hpp"
#include "report/finding_text.hpp"
#include "report/wiring_svg.hpp"
#include "trade/switching/solved.hpp"
#include "trade/work/calculator.hpp"
#include "trade/work/switching.hpp"

namespace cli {
namespace {

using base::Exit;
using base::Failure;
using nlohmann::ordered_json;
using trade::Calculator;
using trade::Facts;

const std::vector<std::string> kBeside = {"id", "edition", "jurisdiction", "date"};

[[noreturn]] void refuse(Context& context, Exit exit, const base::Faults& faults) {
    tell(context.err(), faults);
    throw Failure{exit, "the facts cannot be used", "mend what is named above; --help lists the facts"};
}

/// Facts of a file, if one was named, with those typed as options over them.
Facts facts_given(Context& context, const Calculator& calculator, const content::TradeData& data, Place& place) {
    Facts facts;
    base::Faults faults;
    if (context.has("--facts")) {
        const auto located = base::parse_located(facts_text(context), context.value("--facts"));
        if (!located) refuse(context, Exit::bad_data, located.error());
        const base::Reader object{*located, context.value("--facts"), "", faults};
        facts = trade::read_facts(calculator.facts, object, kBeside);
        if (!context.has("--edition") && !context.has("--jurisdiction")) place.under = under_for(object, place, data);
        if (base::any_errors(faults)) refuse(context, Exit::bad_data, faults);
    }
    for (const auto& spec : calculator.facts) {
        const std::string option = trade::flag_name(spec.name);
        if (!context.has(option)) continue;
        if (context.values(option).size() > 1) {
            faults.push_back({"", "", 0, option + " is said twice", "say it once", false});
            continue;
        }
        auto value = trade::parse_fact(spec, context.value(option));
        if (value)
            facts.set(spec.name, std::move(*value));
        else
            faults.insert(faults.end(), value.error().begin(), value.error().end());
    }
    if (!faults.empty()) refuse(context, Exit::usage, faults);
    return facts;
}

Exit run_many(Context& context, const Calculator& calculator, const content::TradeData& data) {
    const Place here = place_for(context, data);
    return run_batch(context, [&](const base::Reader& object, std::string& line) {
        const Facts facts = trade::read_facts(calculator.facts, object, kBeside);
        const auto under = under_for(object, here, data);
        const auto finding = calculator.run(facts, {under.edition, &data.tables(), false});
        auto json = report::finding_json(finding);
        json.erase("steps");
        const std::string text = json.dump();
        line.append(text, 1, text.size() - 2);
    });
}

/// Draws the wiring that was worked out, as a picture in a file; "-" is standard output.
void write_wiring(Context& context, const Facts& facts) {
    const auto* arrangement = trade::switching::find_arrangement(facts.choice("arrangement"));
    const auto* solved = trade::switching::find_solved(*arrangement, facts.choice("fault"));
    const std::string svg = report::wiring_svg(*arrangement, solved->fault);
    const std::string path = context.value("--svg");
    if (path == "-")
        context.out() << svg;
    else
        write_whole(path, [&](std::ostream& out) { out << svg; });
}

Exit run_one(Context& context, const Calculator& calculator, const content::TradeData& data) {
    Place place = place_for(context, data);
    const Facts facts = facts_given(context, calculator, data, place);
    const content::Under& under = place.under;
    const auto finding = calculator.run(facts, {under.edition, &data.tables(), true});
    if (context.has("--svg") && finding.answer) {
        write_wiring(context, facts);
        if (context.value("--svg") == "-") return Exit::fine;
    }
    if (context.json()) {
        ordered_json out = {{"ok", finding.answer.has_value()},
                            {"calculator", calculator.name},
                            {"edition", trade::to_text(under.edition)}};
        out.update(report::finding_json(finding));
        context.out() << out.dump(2) << '\n';
    } else {
        context.print(report::finding_text(calculator, finding, under, context.page()));
    }
    return finding.answer ? Exit::fine : Exit::problems;
}

}  // namespace

std::vector<OptionSpec> work_options(const Verb& verb) {
    std::vector<OptionSpec> options = {
        {"--facts", "FILE", "facts as a JSON object (with --batch: as JSON Lines); - is standard input", false, {}},
        {"--batch", "", "JSON Lines in, JSON Lines out, one answer for each line", false, {}},
        {"--edition", "YEAR", "edition to work under", false, {"2017", "2020", "2023", "2026"}},
        {"--jurisdiction", "ID", "whose adopted edition counts", false, {}}};
    if (verb.name == trade::switching_calculator().name)
        options.push_back(
            {"--svg", "FILE", "the wiring as a picture, written to a file; - is standard output", false, {}});
    for (const auto& spec : trade::find_calculator(verb.name)->facts)
        options.push_back({trade::flag_name(spec.name),
                           "X",
                           std::string{spec.does} + " (" + trade::range_text(spec) + ")",
                           true,  // so that one said twice can be refused
                           {}});
    return options;
}

Exit run_work(Context& context) {
    const auto* calculator = trade::find_calculator(context.verb().name);
    const auto data = load_trade(context);
    if (context.has("--batch") && context.has("--svg"))
        throw Failure{Exit::usage, "--svg draws one circuit, --batch works out many", "leave one of them out"};
    return context.has("--batch") ? run_many(context, *calculator, data) : run_one(context, *calculator, data);
}

Exit run_work_list(Context& context) {
    ordered_json list = ordered_json::array();
    for (const auto& one : trade::calculators()) {
        if (!context.json()) {
            context.out() << report::padded(one.name, 20) << ' ' << one.does << '\n';
            continue;
        }
        ordered_json facts = ordered_json::array();
        for (const auto& spec : one.facts)
            facts.push_back({{"name", spec.name}, {"does", spec.does}, {"may_be", trade::range_text(spec)}});
        list.push_back({{"calculator", one.name}, {"does", one.does}, {"answers", one.answers}, {"facts", facts}});
    }
    if (context.json()) context.out() << ordered_json{{"ok", true}, {"calculators", list}}.dump(2) << '\n';
    return Exit::fine;
}

}  // namespace cli
