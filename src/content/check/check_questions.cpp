#include <algorithm>
#include <cmath>
#include <functional>
#include <set>

#include "base/measures.hpp"
#include "base/text.hpp"
#include "content/check/check.hpp"
#include "content/check/recompute.hpp"
#include "trade/article.hpp"
#include "trade/work/calculator.hpp"

namespace content {
namespace {

constexpr double kNumberSlack = 1e-9;

/// One question under the eye, with what surrounds it.
struct Subject {
    const Contents& contents;
    const trade::Tables* tables;  ///< null when they have faults
    const Point& point;
    const Question& question;
    std::string name;
    base::Faults& faults;

    void note(const std::string& what, std::string mend) const {
        content::note(faults, question.place, name + ": " + what, std::move(mend));
    }
    [[nodiscard]] std::vector<trade::Edition> editions() const {
        std::vector<trade::Edition> held;
        for (const auto edition : trade::kEditions)
            if (holds_in(question, point, edition)) held.push_back(edition);
        return held;
    }
};

void check_editions(const Subject& s) {
    if (!s.question.editions) return;
    for (const auto edition : trade::editions_in(*s.question.editions))
        if (s.point.version(edition) == nullptr)
            s.note("it is asked under " + trade::to_text(edition) + ", where its point says nothing",
                   "narrow its editions");
}

void check_options(const Subject& s) {
    std::set<std::string> seen;
    const auto add = [&](const std::string& text) {
        if (base::trim(text).empty()) {
            s.note("one of its options is empty", "write it, or leave it out");
            return;
        }
        if (!seen.insert(base::lower(base::trim(text))).second)
            s.note("the option '" + text + "' stands twice", "reword one of the two");
    };
    for (const auto& text : s.question.right) add(text);
    for (const auto& wrong : s.question.wrong) add(wrong.text);
    const std::size_t options = s.question.right.size() + s.question.wrong.size();
    const bool chosen = s.question.form == Form::choose || s.question.form == Form::choose_all;
    if (chosen && (options < 3 || s.question.wrong.empty() || options > 10))
        s.note("there are " + std::to_string(options) + " options", "offer three to ten, at least one of them wrong");
    if (s.question.form == Form::order && (options < 3 || options > 8))
        s.note("there are " + std::to_string(options) + " steps", "give three to eight");
}

/// What the question's check gives, in the unit of the answer.
std::optional<double> recomputed(const Subject& s, trade::Edition edition) {
    const auto value = recompute(s.contents, s.tables, *s.question.check, edition);
    if (!value) {
        for (const auto& fault : value.error()) s.note(fault.what, fault.mend);
        return std::nullopt;
    }
    return base::convert(value->value, value->unit.value_or(s.question.answer.unit), s.question.answer.unit);
}

void check_number(const Subject& s) {
    const auto& q = s.question;
    if (!q.check && !q.basis) s.note("a number needs a check or a basis of its own", "add \"check\" or \"basis\"");
    for (const auto& wrong : q.wrong_numbers)
        if (std::abs(wrong.value - q.answer.value) <= q.within + kNumberSlack)
            s.note("the wrong value " + base::number_text(wrong.value) + " counts as right", "change or remove it");
    if (!q.check) return;
    for (const auto edition : s.editions()) {
        const auto value = recomputed(s, edition);
        if (!value) return;
        if (std::abs(*value - q.answer.value) > kNumberSlack)
            s.note("the answer is " + base::to_text(q.answer) + " but under " + trade::to_text(edition) +
                       " it works out to " + base::number_text(*value),
                   "correct the answer, the check, or the editions");
    }
}

/// A chosen answer that is worked out again has the number in it.
void check_chosen_number(const Subject& s) {
    if (!s.question.check || s.question.right.empty()) return;
    const auto measures = base::measures_in(s.question.right.front());
    const auto numbers = base::numbers_in(s.question.right.front());
    for (const auto edition : s.editions()) {
        const auto value = recompute(s.contents, s.tables, *s.question.check, edition);
        if (!value) {
            for (const auto& fault : value.error()) s.note(fault.what, fault.mend);
            return;
        }
        const bool stated = value->unit ? std::any_of(measures.begin(), measures.end(),
                                                      [&](const auto& m) {
                                                          return same_amount({value->value, *value->unit}, m.quantity);
                                                      })
                                        : false;
        const bool bare = std::any_of(numbers.begin(), numbers.end(),
                                      [&](double n) { return std::abs(n - value->value) <= kNumberSlack; });
        if (!stated && !bare)
            s.note("the right option does not have the number that the check works out under " +
                       trade::to_text(edition) + ": " + base::number_text(value->value),
                   "correct the option, the check, or the editions");
    }
}

void check_article(const Subject& s) {
    const auto enough = trade::parse_article(s.question.enough);
    for (const auto edition : s.editions()) {
        const auto wanted = trade::parse_article(s.point.version(edition)->article);
        if (!wanted || s.question.enough.empty()) continue;
        const auto match = enough ? compare(*enough, *wanted) : trade::ArticleMatch::apart;
        const bool fine = match == trade::ArticleMatch::exact || match == trade::ArticleMatch::shorter ||
                          (match == trade::ArticleMatch::article && enough->section == 0);
        if (!fine)
            s.note("'" + s.question.enough + "' is not on the way to " + trade::to_text(*wanted) + " (" +
                       trade::to_text(edition) + ")",
                   "shorten it or narrow the editions");
    }
}

void check_recall(const Subject& s) {
    if (s.question.right.empty() || base::trim(s.question.right.front()).empty())
        s.note("it has no full answer", "write what a good answer says");
    for (const auto& idea : s.question.ideas)
        if (idea.words.empty()) s.note("the idea '" + idea.idea + "' has no words", "add words that show it");
}

void check_form(const Subject& s) {
    // Computed answers are tried out with the scenario as a whole.
    if (s.question.computed) return;
    switch (s.question.form) {
        case Form::choose:
        case Form::choose_all:
        case Form::order:
            check_options(s);
            check_chosen_number(s);
            break;
        case Form::number:
            check_number(s);
            break;
        case Form::article:
            check_article(s);
            break;
        case Form::recall:
            check_recall(s);
            break;
    }
}

std::vector<std::string> mistakes_used(const Question& q) {
    std::vector<std::string> ids;
    for (const auto& w : q.wrong) ids.push_back(w.mistake);
    for (const auto& w : q.wrong_numbers) ids.push_back(w.mistake);
    for (const auto& w : q.wrong_articles) ids.push_back(w.mistake);
    for (const auto& w : q.wrong_orders) ids.push_back(w.mistake);
    for (const auto& w : q.wrong_words) ids.push_back(w.mistake);
    if (q.computed)
        for (const auto& path : q.computed->paths) ids.push_back(path.mistake);
    return ids;
}

/// Every mistake named is explained, every explanation is used.
class MistakeBook {
public:
    MistakeBook(const Mistakes& known, Place place) : known_{&known}, place_{std::move(place)} {}

    void see(const Subject& s) {
        for (const auto& id : mistakes_used(s.question)) {
            used_.insert(id);
            if (known_->contains(id)) continue;
            std::vector<std::string> names;
            for (const auto& [name, line] : *known_) names.push_back(name);
            const auto near = base::nearest(id, names);
            s.note("the mistake '" + id + "' is not explained",
                   near ? "did you mean '" + *near + "'?" : "add it to \"mistakes\" with one line");
        }
    }
    void close(base::Faults& faults) const {
        constexpr std::size_t kShortest = 10;
        for (const auto& [id, line] : *known_)
            if (base::display_width(line) < kShortest)
                faults.push_back({place_.file, place_.pointer, place_.line,
                                  "the line of the mistake '" + id + "' explains nothing: '" + line + "'",
                                  "say what is thought, and put it right", false});
        for (const auto& [id, line] : *known_)
            if (!used_.contains(id))
                faults.push_back({place_.file, place_.pointer, place_.line, "the mistake '" + id + "' is never used",
                                  "remove it or name it behind a wrong option", true});
    }

private:
    const Mistakes* known_;
    Place place_;
    std::set<std::string> used_;
};

void check_one(const Subject& s, std::set<std::string>& ids) {
    if (!ids.insert(s.question.id).second)
        s.note("the question id '" + s.question.id + "' is taken", "give one of the two another id");
    if (base::trim(s.question.text).empty()) s.note("it asks nothing", "write its text");
    check_editions(s);
    check_form(s);
}

}  // namespace

void check_questions(const Contents& contents, base::Faults& faults) {
    const auto tables = trade::typed_tables(contents.tables);
    const trade::Tables* const usable = tables ? &*tables : nullptr;
    for (const auto& deck : contents.decks) {
        MistakeBook book{deck.mistakes, deck.mistakes_place};
        for (const auto& point : deck.points) {
            std::set<std::string> ids;
            for (const auto& question : point.questions) {
                const Subject subject{contents, usable, point, question, point.id.text + "#" + question.id, faults};
                check_one(subject, ids);
                book.see(subject);
            }
        }
        // What the points that gave way had used is not seen any more.
        if (!deck.overlaid) book.close(faults);
    }
}

void check_scenarios(const Contents& contents, base::Faults& faults) {
    const auto tables = trade::typed_tables(contents.tables);
    const trade::Tables* const usable = tables ? &*tables : nullptr;
    for (const auto& family : contents.families) {
        MistakeBook book{family.mistakes, family.mistakes_place};
        for (const auto& scenario : family.scenarios) {
            std::set<std::string> ids;
            for (const auto& ask : scenario.asks) {
                const Point* point = contents.point(ask.point);
                if (point == nullptr) {
                    note(faults, ask.place, scenario.id + "#" + ask.id + ": there is no point '" + ask.point.text + "'",
                         "correct the id");
                    continue;
                }
                const Subject subject{contents, usable, *point, ask, scenario.id + "#" + ask.id, faults};
                check_one(subject, ids);
                book.see(subject);
            }
            for (const auto edition : trade::editions_in(scenario.editions)) {
                const auto held = std::count_if(scenario.asks.begin(), scenario.asks.end(), [&](const Question& ask) {
                    const Point* point = contents.point(ask.point);
                    return point != nullptr && holds_in(ask, *point, edition);
                });
                if (held < 3)
                    note(faults, scenario.place,
                         "'" + scenario.id + "' has " + std::to_string(held) + " asks under " +
                             trade::to_text(edition) + "; a call has three or more",
                         "add asks or narrow its editions");
            }
        }
        if (!family.overlaid) book.close(faults);
    }
}

}  // namespace content
