#include "trade/work/box_fill.hpp"

#include <algorithm>

namespace trade {
namespace {

using base::Unit;

/// Volumes are exact to two decimals; sums of quarters of them are not always, in binary.
constexpr double kSlack = 1e-9;

int count_of(const std::vector<Item>& items) {
    int count = 0;
    for (const auto& item : items) count += item.count;
    return count;
}

/// Adds up allowances and keeps the working.
class Count {
public:
    Count(const Setting& setting, Finding& finding)
        : volumes_{&setting.tables->box_volume}, finding_{&finding}, working_{finding.steps, setting.explain} {}

    void add(double allowances, Size size, std::string_view what) {
        if (allowances == 0.0) return;
        const double each = (*volumes_)[index_of(size)];
        if (each == 0.0) {
            finding_->refuse("beyond our table of volumes, which has 18 to 6 AWG: a conductor of " + to_text(size) +
                             "; see 314.28 for larger ones");
            return;
        }
        total_ += allowances * each;
        allowances_ += allowances;
        working_.step(what, ": ", allowances, " x ", each, " (", size, ") = ", allowances * each, " in3");
    }

    void add_each(const std::vector<Item>& items, double allowances, std::string_view what) {
        for (const auto& item : items) add(allowances * item.count, item.size, what);
    }

    [[nodiscard]] Working& working() { return working_; }
    [[nodiscard]] double total() const { return total_; }
    [[nodiscard]] double allowances() const { return allowances_; }

private:
    const BySize* volumes_;
    Finding* finding_;
    Working working_;
    double total_ = 0.0, allowances_ = 0.0;
};

void widen(std::optional<Size>& largest, const std::vector<Item>& items) {
    for (const auto& item : items)
        if (item.count > 0 && (!largest || item.size > *largest)) largest = item.size;
}

/// The largest conductor of any kind in the box: clamps and support fittings go by it.
std::optional<Size> largest_of(const BoxFill& facts) {
    std::optional<Size> largest;
    for (const auto* items :
         {&*facts.conductors, &facts.pass_through, &facts.loops, &*facts.grounds, &facts.isolated_grounds})
        widen(largest, *items);
    return largest;
}

double ground_allowances(int grounds, Edition edition) {
    if (grounds <= 0) return 0.0;
    return edition < Edition::e2020 ? 1.0 : 1.0 + 0.25 * std::max(0, grounds - 4);
}

void add_grounds(const BoxFill& facts, Edition edition, Count& count) {
    std::optional<Size> plain, isolated, any;
    widen(plain, *facts.grounds);
    widen(isolated, facts.isolated_grounds);
    widen(any, *facts.grounds);
    widen(any, facts.isolated_grounds);
    if (edition < Edition::e2020) {
        if (plain) count.add(1, *plain, "equipment grounds, all together");
        if (isolated) count.add(1, *isolated, "isolated equipment grounds, a set of their own");
        return;
    }
    const int grounds = count_of(*facts.grounds) + count_of(facts.isolated_grounds);
    if (any)
        count.add(ground_allowances(grounds, edition), *any, "equipment grounds, first four and a quarter each after");
}

void add_parts_of_the_box(const BoxFill& facts, Finding& finding, Count& count) {
    if (!*facts.clamps && facts.fittings == 0) return;
    const auto largest = largest_of(facts);
    if (!largest) {
        finding.lacks("conductors");
        return;
    }
    if (*facts.clamps) count.add(1, *largest, "clamps");
    count.add(facts.fittings, *largest, "support fittings");
}

void compare_with_box(const BoxFill& facts, double needed, Finding& finding, Working& working) {
    if (!facts.box) return;
    const double available = *facts.box + facts.ring + facts.extension;
    const bool fits = available + kSlack >= needed;
    finding.also.push_back({"available", value_of(available, Unit::in3)});
    finding.also.push_back({"spare", value_of(available - needed, Unit::in3)});
    finding.also.push_back({"fits", value_of(fits ? "yes" : "no")});
    working.step("box ", *facts.box, " + ring ", facts.ring, " + extension ", facts.extension, " = ", available,
                 " in3: ", fits ? "enough" : "too small");
    if (!fits) finding.findings.emplace_back("the box is too small for what is in it");
}

void choose_box(const BoxFill& facts, double needed, const Setting& setting, Finding& finding, Working& working) {
    if (facts.family.empty()) return;
    const Tables::Box* least = nullptr;
    for (const auto& box : setting.tables->boxes)
        if (box.family == facts.family && box.volume + kSlack >= needed && (!least || box.volume < least->volume))
            least = &box;
    if (least == nullptr) {
        finding.findings.emplace_back("no standard box of that family is large enough");
        return;
    }
    finding.also.push_back({"least_box", value_of(least->size)});
    working.step("least ", facts.family, " box: ", least->size, " in with ", least->volume, " in3");
}

std::vector<Item> items_or_none(const Facts& facts, std::string_view name) {
    const auto* items = facts.items(name);
    return items == nullptr ? std::vector<Item>{} : *items;
}

std::optional<std::vector<Item>> items_if_said(const Facts& facts, std::string_view name) {
    const auto* items = facts.items(name);
    return items == nullptr ? std::nullopt : std::optional{*items};
}

Finding run(const Facts& facts, const Setting& setting) {
    BoxFill box;
    box.conductors = items_if_said(facts, "conductors");
    box.pass_through = items_or_none(facts, "pass_through");
    box.loops = items_or_none(facts, "loops");
    box.grounds = items_if_said(facts, "grounds");
    box.isolated_grounds = items_or_none(facts, "isolated_grounds");
    box.devices = items_if_said(facts, "devices");
    box.clamps = facts.flag("clamps");
    box.fittings = static_cast<int>(facts.number("fittings").value_or(0));
    box.box = facts.number("box");
    box.ring = facts.number("ring").value_or(0.0);
    box.extension = facts.number("extension").value_or(0.0);
    box.family = facts.choice("family");
    return box_fill(box, setting);
}

}  // namespace

Finding box_fill(const BoxFill& facts, const Setting& setting) {
    Finding finding;
    finding.articles = {"314.16(B)"};
    if (!facts.conductors) finding.lacks("conductors");
    if (!facts.grounds) finding.lacks("grounds");
    if (!facts.devices) finding.lacks("devices");
    if (!facts.clamps) finding.lacks("clamps");
    if (!finding.unknown.empty()) return finding;

    Count count{setting, finding};
    count.add_each(*facts.conductors, 1, "conductors");
    count.add_each(facts.pass_through, 1, "passing through unbroken");
    count.add_each(facts.loops, 2, "long loops, unbroken");
    add_parts_of_the_box(facts, finding, count);
    for (const auto& device : *facts.devices) count.add(2.0 * device.gangs * device.count, device.size, "devices");
    add_grounds(facts, setting.edition, count);
    if (finding.blocked()) return finding;

    finding.answer = value_of(count.total(), Unit::in3);
    finding.also.push_back({"allowances", value_of(count.allowances(), Unit::count)});
    count.working().step("together ", count.total(), " in3");
    compare_with_box(facts, count.total(), finding, count.working());
    choose_box(facts, count.total(), setting, finding, count.working());
    return finding;
}

Calculator box_fill_calculator() {
    return {"box-fill",
            "the volume that the contents of a box need",
            "volume in in3; also allowances, available, spare, fits (with box), least_box (with family)",
            {{"conductors", FactKind::wires, "conductors that end or are spliced in the box, without grounds; or none"},
             {"pass_through", FactKind::wires, "conductors that run through unbroken (left out: none)"},
             {"loops", FactKind::wires, "unbroken conductors with a long loop, twice the free length (left out: none)"},
             {"grounds", FactKind::wires, "equipment grounds that enter; or none"},
             {"isolated_grounds", FactKind::wires, "grounds of isolated receptacles that enter (left out: none)"},
             {"devices", FactKind::devices, "devices, each by the largest conductor on it; or none"},
             {"clamps", FactKind::flag, "are there cable clamps inside the box?"},
             {"fittings", FactKind::number, "kinds of support fittings: stud, hickey (left out: none)", Unit::count, 0,
              2, true},
             {"box", FactKind::number, "volume marked on the box", Unit::in3, 1, 1000},
             {"ring", FactKind::number, "volume marked on the plaster ring", Unit::in3, 0, 100},
             {"extension", FactKind::number, "volume marked on the extension ring", Unit::in3, 0, 100},
             {"family", FactKind::choice, "standard boxes to choose from", Unit::count, 0, 0, false,
              "round|square|device|masonry"}},
            run};
}

}  // namespace trade
