#include "content/read/read_computed.hpp"

#include "base/text.hpp"
#include "content/read/read_question.hpp"

namespace content {
namespace {

using base::Reader;

/// A fact as text with slots: numbers and flags may be written plainly.
std::string slot_text(const Reader& reader) {
    const auto& value = reader.node().value;
    if (std::holds_alternative<double>(value)) return base::number_text(reader.as_number(), 9);
    if (const auto* flag = std::get_if<bool>(&value)) return *flag ? "yes" : "no";
    return reader.as_text();
}

FactSlots read_slots(const Reader& object, const char* key) {
    FactSlots slots;
    if (!object.has(key)) return slots;
    for (const auto& [name, value] : object.member(key).members()) slots.emplace_back(name, slot_text(value));
    return slots;
}

WrongPath read_path(const Reader& reader) {
    reader.only({"facts", "edition", "value", "as", "mistake"});
    WrongPath path;
    path.facts = read_slots(reader, "facts");
    path.value = reader.text_or("value", "");
    if (reader.has("as")) path.as = slot_text(reader.member("as"));
    path.mistake = reader.text("mistake");
    if (reader.has("edition")) {
        path.edition = trade::parse_edition(reader.text("edition"));
        if (!path.edition) reader.fault("this is no edition", "write \"2017\", \"2020\", \"2023\" or \"2026\"");
    }
    if (path.facts.empty() && !path.edition && path.value.empty() && path.as.empty())
        reader.fault("this mistake leads nowhere else", "give \"facts\", \"edition\", \"value\" or \"as\"");
    return path;
}

void read_by(const Reader& compute, Computed& computed) {
    compute.only({"calculator", "rules", "switching", "facts", "value", "asked"});
    if (compute.has("calculator")) {
        computed.by = Computed::By::calculator;
        computed.calculator = compute.text("calculator");
        computed.facts = read_slots(compute, "facts");
    } else if (compute.has("rules")) {
        computed.by = Computed::By::rules;
        computed.facts = read_slots(compute, "rules");
    } else {
        computed.by = Computed::By::switching;
        computed.facts = read_slots(compute, "switching");
        if (!compute.has("switching"))
            compute.fault("nothing says how it is computed",
                          "give \"calculator\" and \"facts\", \"rules\", or \"switching\"");
    }
    computed.value = compute.text_or("value", "");
    computed.asked = compute.texts_or_none("asked");
}

}  // namespace

void read_computed(const Reader& reader, Question& question) {
    auto computed = std::make_shared<Computed>();
    read_by(reader.member("compute"), *computed);
    computed->says = reader.text_or("says", "");
    computed->places = static_cast<int>(reader.number_or("places", 2));
    if (computed->places < 0 || computed->places > 6) reader.fault("\"places\" is 0 to 6", "write a whole number");
    question.within = reader.number_or("within", 0.0);
    if (reader.has("phrases"))
        for (const auto& [value, words] : reader.member("phrases").members())
            computed->phrases[value] = words.as_text();
    for (const auto& item : reader.items("mistakes")) computed->paths.push_back(read_path(item));
    question.computed = std::move(computed);
}

}  // namespace content
