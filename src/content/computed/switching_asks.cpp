#include "content/computed/switching_asks.hpp"

#include "base/text.hpp"
#include "trade/switching/diagram.hpp"
#include "trade/switching/outcome.hpp"
#include "trade/switching/solved.hpp"
#include "trade/switching/symptom.hpp"
#include "trade/work/switching.hpp"

namespace content {
namespace {

using base::Checked;
namespace sw = trade::switching;

/// The facts by name, slots filled, a path's over the right ones.
Checked<FactTexts> filled(const Computed& computed, const WrongPath* path, const FactTexts& facts) {
    FactTexts texts;
    const auto add = [&](const FactSlots& slots) -> Checked<void> {
        for (const auto& [name, slot] : slots) {
            auto text = fill(slot, facts);
            if (!text) return tl::unexpected<base::Faults>{text.error()};
            texts[name] = std::move(*text);
        }
        return {};
    };
    if (const auto done = add(computed.facts); !done) return tl::unexpected<base::Faults>{done.error()};
    if (path != nullptr)
        if (const auto done = add(path->facts); !done) return tl::unexpected<base::Faults>{done.error()};
    return texts;
}

sw::Observe observe_of(const std::string& word) {
    if (word == "loads") return sw::Observe::loads;
    return word == "readings" ? sw::Observe::readings : sw::Observe::devices;
}

Checked<trade::Value> value_of(const std::string& wanted, const FactTexts& texts, const sw::Fault& fault,
                               const trade::Setting& setting) {
    if (wanted == "fault") return trade::value_of(fault.title);
    trade::SwitchedCircuit asked;
    const auto text = [&](const char* name) {
        const auto found = texts.find(name);
        return found == texts.end() ? std::string_view{} : std::string_view{found->second};
    };
    asked.arrangement = text("arrangement");
    asked.fault = text("fault");
    asked.positions = text("positions");
    asked.from = text("from");
    asked.to = text("to");
    const auto finding = trade::switched_circuit(asked, setting);
    if (!finding.answer)
        return base::refuse(
            finding.findings.empty() ? "unknown: " + base::join(finding.unknown, ", ") : finding.findings.front(),
            "see 'greentag work switching --help'");
    if (wanted.empty()) return *finding.answer;
    if (const auto* value = finding.find(wanted)) return *value;
    return base::refuse(finding.findings.empty() ? "switching gives no '" + wanted + "'" : finding.findings.front(),
                        "see 'greentag work switching --help' for the values there are");
}

}  // namespace

Checked<Worked> by_switching(const Computed& computed, const WrongPath* path, const FactTexts& facts) {
    const auto texts = filled(computed, path, facts);
    if (!texts) return tl::unexpected<base::Faults>{texts.error()};
    const auto at = [&](const char* name) {
        const auto found = texts->find(name);
        return found == texts->end() ? std::string{} : found->second;
    };
    const auto* arrangement = sw::find_arrangement(at("arrangement"));
    if (arrangement == nullptr)
        return base::refuse("there is no arrangement '" + at("arrangement") + "'",
                            "'greentag work switching --help' names them");
    const auto* solved = sw::find_solved(*arrangement, at("fault"));
    if (solved == nullptr) return tl::unexpected<base::Faults>{sw::find_fault(*arrangement, at("fault")).error()};
    const auto& [fault, table] = *solved;
    const trade::Tables none;
    const std::string& wanted = path != nullptr && !path->value.empty() ? path->value : computed.value;
    auto value = value_of(wanted, *texts, fault, {trade::Edition::e2023, &none, false});
    if (!value) return tl::unexpected<base::Faults>{value.error()};
    Worked worked{std::move(*value), {}, {}, {}, {}};
    // Faults that look the same must not both be offered.
    if (wanted == "fault") worked.key = sw::outcome_key(table, observe_of(at("observe")));
    if (path != nullptr) return worked;
    worked.also["symptom"] = base::join(sw::symptom(table, observe_of(at("observe"))), " ");
    worked.also["diagram"] = "\n" + sw::diagram(*arrangement);
    worked.also["fault_title"] = fault.title;
    worked.also["find"] = fault.find;
    if (!fault.find.empty() && wanted == "fault") worked.steps.push_back("How to find it: " + fault.find);
    return worked;
}

}  // namespace content
