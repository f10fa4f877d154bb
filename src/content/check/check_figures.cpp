// Every number with a unit that a card states as true is told in the question itself, worked out again, or stands in
// the register of figures for the editions of the card.
#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <functional>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "base/measures.hpp"
#include "base/text.hpp"
#include "content/check/check.hpp"
#include "content/check/recompute.hpp"
#include "trade/article.hpp"

namespace content {
namespace {

using Editions = std::vector<trade::Edition>;

constexpr double kSlack = 1e-6;

/// The figures by the points that state them.
class Register {
public:
    Register(const Contents& contents, base::Faults& faults) {
        std::map<std::string, const Figure*> seen;
        for (const auto& figure : contents.figures) {
            const auto [at, fresh] = seen.emplace(figure.id, &figure);
            if (!fresh)
                note(faults, figure.place, "the figure '" + figure.id + "' stands twice",
                     "give one of the two another id");
            for (const auto& id : figure.points) {
                by_point_[id.text].push_back(&figure);
                if (contents.point(id) == nullptr)
                    note(faults, figure.place, "there is no point '" + id.text + "'", "correct the id");
            }
        }
    }
    [[nodiscard]] bool has(const Point& point, const base::Quantity& value, trade::Edition edition) const {
        return any(point, [&](const Figure& f) { return f.editions.contains(edition) && same_amount(f.value, value); });
    }
    [[nodiscard]] bool has_number(const Point& point, double number) const {
        return any(point, [&](const Figure& f) { return std::abs(f.value.value - number) <= kSlack; });
    }

private:
    [[nodiscard]] bool any(const Point& point, const std::function<bool(const Figure&)>& fits) const {
        const auto found = by_point_.find(point.id.text);
        return found != by_point_.end() &&
               std::any_of(found->second.begin(), found->second.end(), [&](const Figure* f) { return fits(*f); });
    }
    std::map<std::string, std::vector<const Figure*>> by_point_;
};

bool holds(const std::vector<base::Measure>& measures, const base::Quantity& value) {
    return std::any_of(measures.begin(), measures.end(),
                       [&](const base::Measure& m) { return same_amount(m.quantity, value); });
}

/// Numbers that belong to arithmetic itself: units of time and length, percent, the root of three.
bool is_arithmetic(double number) {
    constexpr std::array kPlain = {0.0, 1.0, 2.0, 3.0, 10.0, 12.0, 60.0, 100.0, 144.0, 746.0, 1000.0, 1.732};
    return std::any_of(kPlain.begin(), kPlain.end(), [&](double p) { return std::abs(p - number) <= kSlack; });
}

/// The voltages that systems are named by.
bool is_usual_voltage(const base::Quantity& value) {
    constexpr std::array kUsual = {120.0, 208.0, 240.0, 277.0, 480.0};
    return value.unit == base::Unit::volt && std::find(kUsual.begin(), kUsual.end(), value.value) != kUsual.end();
}

/// True when a number as it is told is a value, rounded to the decimals it is told with.
bool agrees(const base::Quantity& value, const base::Measure& told) {
    const auto here = base::convert(value.value, value.unit, told.quantity.unit);
    if (!here) return false;
    // A fraction is told to the full.
    if (told.text.find('/') != std::string::npos) return same_amount(value, told.quantity);
    const auto point = told.text.find('.');
    const auto end = point == std::string::npos ? point : told.text.find_first_not_of("0123456789", point + 1);
    const double decimals =
        point == std::string::npos ? 0.0 : static_cast<double>(std::min(end, told.text.size()) - point - 1);
    return std::abs(*here - told.quantity.value) <= 0.5 * std::pow(10.0, -decimals) + kSlack;
}

/// The numbers that a sum is written with.
std::vector<double> literals_in(const std::string& sum) {
    std::vector<double> literals;
    for (std::size_t at = 0; at < sum.size();) {
        const std::size_t begin = sum.find_first_of("0123456789", at);
        if (begin == std::string::npos) break;
        double value = 0.0;
        const auto read = std::from_chars(sum.data() + begin, sum.data() + sum.size(), value, std::chars_format::fixed);
        at = static_cast<std::size_t>(read.ptr - sum.data());
        literals.push_back(value);
    }
    return literals;
}

/// Every number that a text tells; the parts of a fraction count too.
std::vector<double> told_numbers(const std::string& text) {
    auto told = base::numbers_in(text);
    for (const double part : literals_in(text)) told.push_back(part);
    return told;
}

class NumbersOnCards {
public:
    NumbersOnCards(const Contents& contents, const trade::Tables* tables, base::Faults& faults)
        : contents_{&contents}, tables_{tables}, faults_{&faults}, figures_{contents, faults} {
        for (const auto& figure : contents.figures) registered_.insert(root_of(figure.place.file));
    }

    void check() {
        for (const auto& figure : contents_->figures)
            if (figure.check) see(figure);
        for (const auto& deck : contents_->decks)
            for (const auto& point : deck.points)
                if (kept(point.place))
                    see(point);
                else
                    see_sums(point);
        for (const auto& family : contents_->families)
            for (const auto& scenario : family.scenarios)
                if (kept(scenario.place)) see(scenario);
    }

private:
    [[nodiscard]] std::uint32_t root_of(const std::string& file) const {
        for (const auto& source : contents_->files)
            if (source.path == file) return source.root;
        return 0;
    }
    /// A shop's own content need keep no register.
    [[nodiscard]] bool kept(const Place& place) const { return registered_.contains(root_of(place.file)); }

    void see(const Figure& figure) {
        for (const auto edition : trade::editions_in(figure.editions)) {
            const auto value = recompute(*contents_, tables_, *figure.check, edition);
            if (!value) {
                for (const auto& fault : value.error())
                    note(*faults_, figure.place, figure.id + ": " + fault.what, fault.mend);
                return;
            }
            if (same_amount({value->value, value->unit.value_or(figure.value.unit)}, figure.value)) continue;
            note(*faults_, figure.place,
                 "the figure '" + figure.id + "' is " + base::to_text(figure.value) + ", but under " +
                     trade::to_text(edition) + " it works out to " + base::number_text(value->value),
                 "correct the figure, its check, or its editions");
        }
    }

    void see(const Point& point) {
        for (const auto& version : point.versions)
            for (const auto& measure : base::measures_in(version.says))
                for (const auto edition : trade::editions_in(version.editions))
                    if (!figures_.has(point, measure.quantity, edition)) {
                        unbacked(point.place, point.id.text, measure.text, edition);
                        break;
                    }
        for (const auto& question : point.questions) see(point, question, point.id.text, question.text);
    }

    /// Where no register is kept, a sum still works only with what its question tells.
    void see_sums(const Point& point) {
        for (const auto& question : point.questions)
            if (question.check && !question.check->sum.empty())
                see_sum(point, question.place, point.id.text + "#" + question.id, question.check->sum,
                        told_numbers(question.text));
    }

    void see(const Scenario& scenario) {
        std::string told = scenario.story;
        for (const auto& ask : scenario.asks) {
            told += "\n" + ask.text;
            const Point* point = contents_->point(ask.point);
            if (point != nullptr && !ask.computed) see(*point, ask, scenario.id, told);
        }
    }

    void see(const Point& point, const Question& question, const std::string& owner, const std::string& told) {
        const std::string name = owner + "#" + question.id;
        Editions editions;
        for (const auto edition : trade::kEditions)
            if (holds_in(question, point, edition)) editions.push_back(edition);
        const auto given = base::measures_in(told);
        if (question.check && !question.check->sum.empty())
            see_sum(point, question.place, name, question.check->sum, told_numbers(told));
        if (question.form == Form::number && !question.check && !holds_everywhere(point, question.answer, editions))
            unbacked(question.place, name, base::to_text(question.answer), editions.front());
        see_why(point, question, name, told, editions);
        if (question.form != Form::choose && question.form != Form::choose_all) return;
        for (const auto& right : question.right)
            for (const auto& measure : base::measures_in(right)) {
                if (holds(given, measure.quantity) || holds_everywhere(point, measure.quantity, editions)) continue;
                if (question.check && recomputes(question, measure.quantity, editions)) continue;
                unbacked(question.place, name, measure.text, editions.front());
            }
    }

    [[nodiscard]] bool holds_everywhere(const Point& point, const base::Quantity& value,
                                        const Editions& editions) const {
        return std::all_of(editions.begin(), editions.end(),
                           [&](trade::Edition edition) { return figures_.has(point, value, edition); });
    }

    [[nodiscard]] bool recomputes(const Question& question, const base::Quantity& value,
                                  const Editions& editions) const {
        return std::all_of(editions.begin(), editions.end(), [&](trade::Edition edition) {
            const auto again = recompute(*contents_, tables_, *question.check, edition);
            return again && same_amount({again->value, again->unit.value_or(value.unit)}, value);
        });
    }

    /// A sum works with what the question tells, with figures of its point and with plain arithmetic.
    void see_sum(const Point& point, const Place& place, const std::string& name, const std::string& sum,
                 std::vector<double> given) {
        for (const double number : literals_in(sum)) {
            const auto same = [&](double other) { return std::abs(other - number) <= kSlack * std::max(1.0, number); };
            if (is_arithmetic(number) || std::any_of(given.begin(), given.end(), same)) continue;
            if (figures_.has_number(point, number) || figures_.has_number(point, 100 * number)) continue;
            note(*faults_, place,
                 name + ": the sum uses " + base::number_text(number) +
                     ", which the question does not tell and no figure of the point gives",
                 "tell it in the question, or enter it in decks/figures");
        }
    }

    /// What the steps of an explanation come to, each from what is told and from the steps before it.
    std::vector<base::Typed> steps_of(const Point& point, const Question& question, const std::string& name,
                                      const std::string& told, const Editions& editions) {
        std::vector<base::Typed> steps;
        std::vector<double> given = told_numbers(told);
        if (question.form == Form::number) given.push_back(question.answer.value);
        for (const auto& step : question.worked) {
            if (!step.sum.empty()) see_sum(point, question.place, name, step.sum, given);
            const auto value = recompute(*contents_, tables_, step, editions.front());
            if (!value) {
                for (const auto& fault : value.error())
                    note(*faults_, question.place, name + ": " + fault.what, fault.mend);
                continue;
            }
            given.push_back(value->value);
            steps.push_back(*value);
        }
        return steps;
    }

    /// An explanation may name what is told, what stands on the card, figures, usual voltages, and its own steps.
    void see_why(const Point& point, const Question& question, const std::string& name, const std::string& told,
                 const Editions& editions) {
        if (question.why.empty()) return;
        std::string card = told;
        for (const auto& right : question.right) card += "\n" + right;
        for (const auto& wrong : question.wrong) card += "\n" + wrong.text;
        auto known = base::measures_in(card);
        known.push_back({question.answer, ""});
        const auto steps = steps_of(point, question, name, told, editions);
        for (const auto& measure : base::measures_in(question.why)) {
            const auto& value = measure.quantity;
            const bool stepped = std::any_of(steps.begin(), steps.end(), [&](const base::Typed& step) {
                return agrees({step.value, step.unit.value_or(value.unit)}, measure);
            });
            if (stepped || holds(known, value) || is_usual_voltage(value) || holds_everywhere(point, value, editions))
                continue;
            if (question.check && recomputes(question, value, editions)) continue;
            note(*faults_, question.place, name + ": nothing backs the number " + measure.text + " in its explanation",
                 "give the step that leads to it in \"worked\", enter it in decks/figures, or leave it out");
        }
    }

    void unbacked(const Place& place, const std::string& name, const std::string& number, trade::Edition edition) {
        note(*faults_, place, name + ": nothing backs the number " + number + " (" + trade::to_text(edition) + ")",
             "tell it in the question, add a \"check\", or enter it in decks/figures with its basis");
    }

    const Contents* contents_;
    const trade::Tables* tables_;
    base::Faults* faults_;
    Register figures_;
    std::set<std::uint32_t> registered_;
};

}  // namespace

void check_figures(const Contents& contents, base::Faults& faults) {
    const auto tables = trade::typed_tables(contents.tables);
    NumbersOnCards{contents, tables ? &*tables : nullptr, faults}.check();
}

}  // namespace content
