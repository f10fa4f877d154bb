#include "cli/authoring/ask_question.hpp"

#include <optional>
#include <utility>
#include <vector>

#include "base/quantity.hpp"
#include "base/text.hpp"
#include "content/write/sheet_cells.hpp"
#include "content/write/tidy_deck.hpp"
#include "trade/article.hpp"

namespace cli {
namespace {

using nlohmann::ordered_json;
using Fault = std::optional<std::string>;

Fault is_number(const std::string& reply) {
    if (base::parse_typed_quantity(reply)) return std::nullopt;
    return "'" + reply + "' is no number, with its unit or without";
}

Fault is_article(const std::string& reply) {
    if (trade::parse_article(reply)) return std::nullopt;
    return "'" + reply + "' is no code reference; write it like 210.8(A)";
}

/// "Step #" as "Step 2".
std::string numbered(std::string prompt, std::size_t number) {
    const auto sign = prompt.find('#');
    return prompt.replace(sign, 1, std::to_string(number));
}

class Asking {
public:
    Asking(Interview& interview, ordered_json& deck, ordered_json before)
        : interview_{&interview}, deck_{&deck}, before_(std::move(before)) {}

    ordered_json question(const std::string& id) {
        const std::string form =
            interview_->choice("How is it asked?", {"choose", "choose-all", "number", "article", "order", "recall"},
                               kept("form", "choose"));
        // Parts of another form are of no use.
        if (form != kept("form", form)) before_ = {{"text", kept("text", "")}};
        ordered_json one = {{"id", id}, {"form", form}};
        if (form != "article" && interview_->yes("Does it put the learner on a job with facts to weigh?", true))
            one["situation"] = true;
        one["text"] = interview_->ask("The question", at_least(10), kept("text", ""));
        if (form == "choose") choose(one);
        if (form == "choose-all") choose_all(one);
        if (form == "number") number(one);
        if (form == "article") article(one);
        if (form == "order") order(one);
        if (form == "recall") recall(one);
        const std::string why = interview_->ask_or_none("Why is that right? (may stay empty)", {}, kept("why", ""));
        if (!why.empty()) one["why"] = why;
        return one;
    }

private:
    /// What was given before for a part that is a text.
    [[nodiscard]] std::string kept(const char* key, const std::string& otherwise) const {
        return before_.is_object() && before_.contains(key) && before_[key].is_string()
                   ? before_[key].get<std::string>()
                   : otherwise;
    }
    /// The same for one of a list, of texts or of objects with such a member.
    [[nodiscard]] std::string kept(const char* list, std::size_t at, const char* key) const {
        if (!before_.is_object() || !before_.contains(list) || !before_[list].is_array()) return {};
        if (at >= before_[list].size()) return {};
        const auto& one = before_[list][at];
        if (one.is_string()) return one.get<std::string>();
        return one.contains(key) && one[key].is_string() ? one[key].get<std::string>() : std::string{};
    }

    /// The mistake behind a wrong answer: one that the deck has, by its id, or a new one in a sentence.
    std::string mistake(const std::string& before) {
        std::vector<std::string> known;
        for (const auto& [id, line] : (*deck_)["mistakes"].items()) known.push_back(id);
        const auto judge = [&](const std::string& reply) -> Fault {
            const auto cell = content::mistake_of(reply);
            if (cell.line.empty() && !(*deck_)["mistakes"].contains(cell.id)) {
                const auto near = base::nearest(cell.id, known);
                return "there is no mistake '" + cell.id + "'" + (near ? "; did you mean '" + *near + "'?" : "") +
                       " A new one takes a sentence";
            }
            if (!cell.line.empty() && cell.line.size() < 10)
                return "say in a sentence what is thought, and put it right";
            return cell.id.empty() ? Fault{"begin the sentence with a word"} : std::nullopt;
        };
        const auto cell =
            content::mistake_of(interview_->ask("    The wrong idea behind it, and what is true", judge, before));
        if (!cell.line.empty()) (*deck_)["mistakes"][cell.id] = cell.line;
        return cell.id;
    }

    /// One more of a list: needed, or ended by an empty reply.
    std::string one_more(const std::string& prompt, bool needed, const Interview::Judge& judge,
                         const std::string& before) {
        if (needed) return interview_->ask(prompt, judge, before);
        return interview_->ask_or_none(prompt + (before.empty() ? " (empty: no more)" : " (-: no more)"), judge,
                                       before);
    }

    template <class Make>
    ordered_json wrongs(const std::string& prompt, std::size_t needed, const Interview::Judge& judge,
                        const Make& make) {
        ordered_json all = ordered_json::array();
        while (all.size() < content::kMostWrong) {
            const std::size_t at = all.size();
            const std::string ask = "  " + numbered(prompt, at + 1);
            const std::string reply = one_more(ask, at < needed, judge, kept("wrong", at, "text"));
            if (reply.empty()) break;
            ordered_json one = make(reply);
            const std::string before = kept("wrong", at, "mistake");
            one["mistake"] = mistake(before.empty() ? kept("mistakes", at, "mistake") : before);
            all.push_back(std::move(one));
        }
        return all;
    }

    std::vector<std::string> several(const std::string& prompt, const char* list, std::size_t needed,
                                     std::size_t most) {
        std::vector<std::string> all;
        while (all.size() < most) {
            const std::string ask = "  " + numbered(prompt, all.size() + 1);
            const std::string reply = one_more(ask, all.size() < needed, {}, kept(list, all.size(), "idea"));
            if (reply.empty()) break;
            all.push_back(reply);
        }
        return all;
    }

    static ordered_json option(const std::string& text) { return {{"text", text}}; }

    void choose(ordered_json& one) {
        one["right"] = interview_->ask("  The right answer", {}, kept("right", ""));
        one["wrong"] = wrongs("Wrong answer #", 2, {}, option);
    }
    void choose_all(ordered_json& one) {
        one["right"] = several("Right answer #", "right", 1, 6);
        one["wrong"] = wrongs("Wrong answer #", 1, {}, option);
    }
    void number(ordered_json& one) {
        const auto typed =
            base::parse_typed_quantity(interview_->ask("  The right answer with its unit, such as 20 A", is_number));
        one["answer"] = {{"value", content::plain_number(typed->value)},
                         {"unit", base::symbol(typed->unit.value_or(base::Unit::count))}};
        one["mistakes"] = wrongs("Wrong number # that people get", 1, is_number, [](const std::string& reply) {
            return ordered_json{{"value", content::plain_number(base::parse_typed_quantity(reply)->value)}};
        });
        const auto sum =
            interview_->ask_or_none("  The sum that gives it, from numbers in the question (empty: it is looked up)");
        if (!sum.empty()) {
            one["check"] = {{"sum", sum}};
            return;
        }
        one["basis"] = basis_of(*interview_);
    }
    void article(ordered_json& one) {
        if (const auto enough =
                interview_->ask_or_none("  The shortest reference that is fully right (empty: the whole)", is_article);
            !enough.empty())
            one["enough"] = enough;
        auto wrong = wrongs("Wrong reference # that people give", 0, is_article, [](const std::string& reply) {
            return ordered_json{{"article", reply}};
        });
        if (!wrong.empty()) one["mistakes"] = std::move(wrong);
    }
    void order(ordered_json& one) {
        one["steps"] = several("Step #", "steps", 3, 8);
        const auto steps = one["steps"].size();
        const auto judge = [steps](const std::string& reply) -> Fault {
            const auto parts = content::parts_of(reply, ' ');
            const auto number = [](const std::string& part) {
                // No question has ten steps, so one digit says it.
                return part.size() == 1 && part[0] >= '1' && part[0] <= '9' ? static_cast<std::size_t>(part[0] - '0')
                                                                            : std::size_t{0};
            };
            if (parts.size() != 2 || number(parts[0]) < 1 || number(parts[0]) >= number(parts[1]) ||
                number(parts[1]) > steps)
                return "name two steps by number, the earlier first, such as 1 3";
            return std::nullopt;
        };
        one["mistakes"] =
            wrongs("Pair # of steps that must not change places, like 1 3", 1, judge, [](const std::string& reply) {
                const auto parts = content::parts_of(reply, ' ');
                return ordered_json{{"before", std::stoi(parts[0])}, {"after", std::stoi(parts[1])}};
            });
    }
    void recall(ordered_json& one) {
        one["answer"] = interview_->ask("  A full answer", {});
        ordered_json ideas = ordered_json::array();
        for (const auto& idea : several("Idea # that it must have", "ideas", 1, 4))
            ideas.push_back({{"idea", idea},
                             {"words", content::parts_of(
                                           interview_->ask("    Words that show it, with commas between", {}), ',')}});
        one["ideas"] = std::move(ideas);
    }

    Interview* interview_;
    ordered_json* deck_;
    ordered_json before_;
};

}  // namespace

ordered_json basis_of(Interview& interview) {
    ordered_json basis = {{"kind", interview.choice("Where is it from?", {"published", "practice", "memory"})}};
    if (basis["kind"] == "published") basis["source"] = interview.ask("  Title and place of what you saw", at_least(3));
    return basis;
}

ordered_json ask_question(Interview& interview, ordered_json& deck, const std::string& id, const ordered_json& before) {
    return Asking{interview, deck, before}.question(id);
}

}  // namespace cli
