#include "trade/loads/range_load.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace trade {
namespace {

using base::Unit;

constexpr double kSlack = 1e-9;
constexpr double kPerThousand = 1000.0;
constexpr double kPlainTo = 12.0;      ///< kW up to which column C needs no note
constexpr double kLargestKw = 27.0;    ///< kW beyond which the table says nothing
constexpr double kCoveredOver = 1.75;  ///< kW that a cooking appliance has to be over
constexpr double kColumnAUnder = 3.5;  ///< kW
constexpr double kColumnBTo = 8.75;    ///< kW
constexpr double kStepPercent = 5.0;
constexpr double kMajorFraction = 0.5;
constexpr double kLeastDryerVa = 5000.0;
constexpr std::size_t kMostOnOneCircuit = 3;  ///< a cooktop and two wall ovens
constexpr double kLeastRangeCircuit = 40.0;   ///< A, for a range of 8.75 kW or more

double sum(const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0);
}

const Tables::RangeRow* row_for(const Tables& tables, std::size_t appliances) {
    const auto found = std::find_if(tables.range_demand.begin(), tables.range_demand.end(),
                                    [&](const auto& row) { return row.appliances == static_cast<double>(appliances); });
    return found == tables.range_demand.end() ? nullptr : &*found;
}

const Tables::DemandRow* dryer_row(const Tables& tables, std::size_t dryers) {
    const auto found = std::find_if(tables.dryer_demand.begin(), tables.dryer_demand.end(),
                                    [&](const auto& row) { return row.count == static_cast<double>(dryers); });
    return found == tables.dryer_demand.end() ? nullptr : &*found;
}

bool covered(const std::vector<double>& kw) {
    return std::all_of(kw.begin(), kw.end(), [](double one) { return one > kCoveredOver + kSlack; });
}

/// Mean of the ratings with those under 12 kW counted as 12. Where some are over 12, the ones to 8.75 kW stay out of
/// it.
double average_of(const std::vector<double>& kw) {
    const bool over = *std::max_element(kw.begin(), kw.end()) > kPlainTo + kSlack;
    double counted = 0.0;
    double count = 0.0;
    for (const double one : kw) {
        if (over && one <= kColumnBTo + kSlack) continue;
        counted += std::max(one, kPlainTo);
        count += 1.0;
    }
    return counted / count;
}

struct ColumnC {
    double base = 0.0, average = 0.0, steps = 0.0, kw = 0.0;
};

std::optional<ColumnC> column_c(const std::vector<double>& kw, const Tables& tables) {
    const auto* row = row_for(tables, kw.size());
    const double largest = *std::max_element(kw.begin(), kw.end());
    if (row == nullptr || row->c <= 0.0 || largest > kLargestKw + kSlack || !covered(kw)) return std::nullopt;
    ColumnC c;
    c.base = row->c;
    c.average = average_of(kw);
    c.steps = std::floor(c.average - kPlainTo + kMajorFraction + kSlack);
    c.kw = c.base * (1.0 + kStepPercent / 100.0 * c.steps);
    return c;
}

/// The sum and the count of one column.
struct Group {
    double kw = 0.0;
    std::size_t count = 0;

    void add(double one) {
        kw += one;
        ++count;
    }
};

/// Columns A and B: percents of the ratings, each group by its own count. Nothing for ratings over 8.75 kW.
std::optional<double> columns_ab(const std::vector<double>& kw, const Tables& tables) {
    Group a, b;
    for (const double one : kw) {
        if (one > kColumnBTo + kSlack || one <= kCoveredOver + kSlack) return std::nullopt;
        (one < kColumnAUnder - kSlack ? a : b).add(one);
    }
    double demand = 0.0;
    for (const auto& [group, percent] : {std::pair{a, &Tables::RangeRow::a}, std::pair{b, &Tables::RangeRow::b}}) {
        if (group.count == 0) continue;
        const auto* row = row_for(tables, group.count);
        if (row == nullptr || row->*percent <= 0.0) return std::nullopt;
        demand += group.kw * row->*percent / 100.0;
    }
    return demand;
}

/// From 2026 the tables of loads stand in another article, whose notes have not been confirmed.
void cite_note(Edition edition, std::string_view number, Finding& finding) {
    if (edition < Edition::e2026) finding.articles.push_back("Table 220.55 Note " + std::string{number});
}

/// The notes that the demand went by; without `c` it is that of columns A and B.
void cite_notes_used(const std::vector<double>& kw, const ColumnC* c, Edition edition, Finding& finding) {
    if (c == nullptr) return cite_note(edition, "3", finding);
    if (c->steps <= 0.0) return;
    const auto [least, largest] = std::minmax_element(kw.begin(), kw.end());
    cite_note(edition, *largest - *least > kSlack ? "2" : "1", finding);
}

/// Where a large range's branch circuit has its 40 A. The section moved in 2023 (a trade forum); 2026 not confirmed.
std::string_view range_circuit_article(Edition edition) {
    if (edition >= Edition::e2026) return "Article 210";
    return edition >= Edition::e2023 ? "210.19(C)" : "210.19(A)(3)";
}

void add_branch_rating(const RangeFacts& facts, double kw, const Setting& setting, Finding& finding, Working& working) {
    if (!facts.branch || !facts.volts) return;
    const bool large_range =
        facts.kind != "dryer" && !facts.built_in.value_or(false) && sum(facts.kw) + kSlack >= kColumnBTo;
    const double amps = std::max(kw * kPerThousand / *facts.volts, large_range ? kLeastRangeCircuit : 0.0);
    const auto rating = setting.tables->next_standard_rating(amps, setting.edition);
    if (!rating) return;
    finding.also.push_back({"branch_rating", value_of(*rating, Unit::amp)});
    if (large_range) finding.articles.emplace_back(range_circuit_article(setting.edition));
    if (large_range) working.step("a range of ", kColumnBTo, " kW or more: a circuit of 40 A at least");
    working.step("least standard rating for the branch circuit: ", *rating, " A");
}

void finish(const RangeFacts& facts, double kw, const Setting& setting, Finding& finding, Working& working) {
    finding.answer = value_of(kw, Unit::kilowatt);
    finding.also.push_back({"va", value_of(kw * kPerThousand, Unit::voltamp)});
    if (facts.volts) {
        const double amps = kw * kPerThousand / *facts.volts;
        finding.also.push_back({"amps", value_of(amps, Unit::amp)});
        working.step(kw * kPerThousand, " VA / ", *facts.volts, " V = ", amps, " A");
    }
    add_branch_rating(facts, kw, setting, finding, working);
}

void dryers(const RangeFacts& facts, const Setting& setting, Finding& finding) {
    Working working{finding.steps, setting.explain};
    const auto va = dryer_demand(facts.kw, *setting.tables);
    if (!va) {
        finding.refuse("beyond our table of dryers: " + std::to_string(facts.kw.size()) + " of them; see " +
                       (setting.edition >= Edition::e2026 ? "Article 120" : "220.54") + " in the book");
        return;
    }
    const double percent = dryer_row(*setting.tables, facts.kw.size())->percent;
    finding.also.push_back({"percent", value_of(percent, Unit::percent)});
    working.step("each dryer counts with 5000 VA or its nameplate, whichever is larger");
    working.step(facts.kw.size(), " in all, at ", percent, " %: ", *va, " VA");
    finish(facts, *va / kPerThousand, setting, finding, working);
}

/// By the table: column C with its notes, or columns A and B.
void by_table(const RangeFacts& facts, const std::vector<double>& kw, const Setting& setting, Finding& finding,
              Working& working) {
    const auto c = column_c(kw, *setting.tables);
    const auto ab = columns_ab(kw, *setting.tables);
    const bool use_ab = facts.column == "ab" || (facts.column != "c" && ab && (!c || *ab < c->kw));
    if (use_ab ? !ab.has_value() : !c.has_value()) {
        finding.refuse(why_no_range_demand(kw, use_ab, *setting.tables));
        return;
    }
    cite_notes_used(kw, use_ab ? nullptr : &*c, setting.edition, finding);
    if (c) {
        finding.also.push_back({"column_c", value_of(c->base, Unit::kilowatt)});
        finding.also.push_back({"average", value_of(c->average, Unit::kilowatt)});
        finding.also.push_back({"over", value_of(c->steps, Unit::count)});
        finding.also.push_back({"by_c", value_of(c->kw, Unit::kilowatt)});
        working.step("column C for ", kw.size(), ": ", c->base, " kW");
        if (c->steps > 0.0)
            working.step("rating ", c->average, " kW, over 12 by ", c->steps,
                         " (a larger part counts as one): ", c->steps * kStepPercent, " % more = ", c->kw, " kW");
    }
    if (ab) {
        finding.also.push_back({"by_ab", value_of(*ab, Unit::kilowatt)});
        finding.also.push_back({"percent", value_of(100.0 * *ab / sum(kw), Unit::percent)});
        working.step("columns A and B for ", kw.size(), ": ", 100.0 * *ab / sum(kw), " % of ", sum(kw), " kW = ", *ab,
                     " kW");
    }
    if (c && ab) working.step(use_ab ? "columns A and B count" : "column C counts");
    finish(facts, use_ab ? *ab : c->kw, setting, finding, working);
}

void on_one_branch_circuit(const RangeFacts& facts, const Setting& setting, Finding& finding) {
    Working working{finding.steps, setting.explain};
    if (facts.kw.size() > kMostOnOneCircuit) {
        finding.refuse(
            "one branch circuit feeds one appliance, or a cooktop and at most two wall ovens: tell fewer, or a "
            "feeder");
        return;
    }
    if (facts.kw.size() > 1) {
        cite_note(setting.edition, "4", finding);
        working.step("a cooktop with ovens in the same room counts as one range of ", sum(facts.kw), " kW");
        by_table(facts, {sum(facts.kw)}, setting, finding, working);
        return;
    }
    if (!facts.built_in) {
        finding.lacks("built_in");
        return;
    }
    if (!*facts.built_in) {
        by_table(facts, facts.kw, setting, finding, working);
        return;
    }
    cite_note(setting.edition, "4", finding);
    working.step("one wall oven or cooktop on a branch circuit: its nameplate, ", facts.kw.front(), " kW");
    finish(facts, facts.kw.front(), setting, finding, working);
}

Finding run(const Facts& facts, const Setting& setting) {
    RangeFacts asked;
    asked.kind = facts.choice("kind");
    if (const auto* kw = facts.numbers("kw")) asked.kw = *kw;
    asked.column = facts.choice("column");
    asked.volts = facts.number("volts");
    asked.branch = facts.flag("branch").value_or(false);
    asked.built_in = facts.flag("built_in");
    return range_load(asked, setting);
}

}  // namespace

std::string why_no_range_demand(const std::vector<double>& kw, bool by_ab, const Tables& tables) {
    const auto [least, largest] = std::minmax_element(kw.begin(), kw.end());
    if (*least <= kCoveredOver + kSlack)
        return "the demand table is for ratings over 1.75 kW: " + base::number_text(*least) + " kW counts in full";
    if (by_ab && *largest > kColumnBTo + kSlack)
        return "columns A and B of the demand table end at 8.75 kW: " + base::number_text(*largest) + " kW";
    if (*largest > kLargestKw + kSlack) return "the demand table ends at 27 kW: " + base::number_text(*largest) + " kW";
    const std::string end = tables.range_demand.empty()
                                ? ""
                                : ", which ends at " + base::number_text(tables.range_demand.back().appliances);
    return "beyond our demand table" + end + ": " + std::to_string(kw.size()) +
           " appliances; see Table 220.55 in the book";
}

std::optional<double> range_demand(const std::vector<double>& kw, const Tables& tables) {
    if (kw.empty()) return 0.0;
    const auto c = column_c(kw, tables);
    const auto ab = columns_ab(kw, tables);
    if (c && ab) return std::min(c->kw, *ab);
    return c ? std::optional{c->kw} : ab;
}

std::optional<double> dryer_demand(const std::vector<double>& kw, const Tables& tables) {
    if (kw.empty()) return 0.0;
    const auto* row = dryer_row(tables, kw.size());
    if (row == nullptr || row->percent <= 0.0) return std::nullopt;
    double va = 0.0;
    for (const double one : kw) va += std::max(kLeastDryerVa, one * kPerThousand);
    return va * row->percent / 100.0;
}

Finding range_load(const RangeFacts& facts, const Setting& setting) {
    Finding finding;
    const bool dryer = facts.kind == "dryer";
    finding.articles.emplace_back(setting.edition >= Edition::e2026 ? "Article 120" : dryer ? "220.54" : "220.55");
    if (facts.kw.empty())
        finding.lacks("kw");
    else if (dryer)
        dryers(facts, setting, finding);
    else if (facts.branch)
        on_one_branch_circuit(facts, setting, finding);
    else {
        Working working{finding.steps, setting.explain};
        by_table(facts, facts.kw, setting, finding, working);
    }
    return finding;
}

Calculator range_load_calculator() {
    return {"range-load",
            "demand of household ranges, ovens and cooktops, or of clothes dryers",
            "kW; also va, amps (with volts), by_c and by_ab (kW either way), column_c (kW before the notes), average "
            "(kW), over (steps over 12 kW), percent, branch_rating (branch circuit, with volts)",
            {{"kind", FactKind::choice, "what they are (left out: ranges, ovens and cooktops)", Unit::count, 0, 0,
              false, "range|dryer"},
             {"kw", FactKind::numbers, "nameplate of each", Unit::kilowatt, 0.1, 100},
             {"column", FactKind::choice, "column to use (left out: the one that gives less)", Unit::count, 0, 0, false,
              "c|ab"},
             {"volts", FactKind::number, "voltage of the single-phase circuit, for the current", Unit::volt, 100, 600},
             {"branch", FactKind::flag, "is it a branch circuit? (left out: a feeder or service)"},
             {"built_in", FactKind::flag, "branch circuit for one: is it a wall oven or a cooktop, not a range?"}},
            run};
}

}  // namespace trade
