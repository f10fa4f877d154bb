#include <algorithm>
#include <ostream>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "base/text.hpp"
#include "cli/authoring/ask_question.hpp"
#include "cli/authoring/interview.hpp"
#include "cli/authoring/own_deck.hpp"
#include "cli/authoring/trial.hpp"
#include "cli/context.hpp"
#include "content/write/sheet_cells.hpp"
#include "content/write/tidy_deck.hpp"
#include "report/point_text.hpp"
#include "trade/article.hpp"

namespace cli {
namespace {

using base::Exit;
using nlohmann::ordered_json;
using Fault = std::optional<std::string>;

constexpr const char* kDeck = "shop";

Fault is_article(const std::string& reply) {
    if (trade::parse_article(reply)) return std::nullopt;
    return "'" + reply + "' is no code reference; write it like 210.8(A) or Article 590";
}

Fault is_editions(const std::string& reply) {
    if (trade::parse_edition_range(reply)) return std::nullopt;
    return "'" + reply + "' is no run of editions; write it like 2017-2026 or 2023";
}

std::string range_text(std::size_t first, std::size_t last) {
    return trade::to_text(trade::EditionRange{trade::kEditions.at(first), trade::kEditions.at(last)});
}

/// The editions on either side of a run, as runs.
std::vector<std::string> outside(const std::string& editions) {
    const auto range = *trade::parse_edition_range(editions);
    const auto place = [](trade::Edition edition) {
        return static_cast<std::size_t>(std::find(trade::kEditions.begin(), trade::kEditions.end(), edition) -
                                        trade::kEditions.begin());
    };
    std::vector<std::string> runs;
    if (const auto first = place(range.first); first > 0) runs.push_back(range_text(0, first - 1));
    if (const auto last = place(range.last); last + 1 < trade::kEditions.size())
        runs.push_back(range_text(last + 1, trade::kEditions.size() - 1));
    return runs;
}

class NewPoint {
public:
    NewPoint(Context& context, std::string library)
        : context_{&context}, interview_{context}, library_{std::move(library)} {}

    Exit run() {
        open_deck();
        ask_head();
        ask_says();
        do ask_one_question();
        while (interview_.yes("Another question for this point?", false));
        return finish();
    }

private:
    void open_deck() {
        name_ = context_->has("--deck") ? context_->value("--deck") : kDeck;
        if (content::id_of(name_, 8) != name_)
            throw base::Failure{Exit::usage, "'" + name_ + "' is no name for a deck", "write it like shop or our-jobs"};
        deck_ = own_deck(library_, name_);
        if (deck_.is_null())
            deck_ = {{"format", "greentag-deck/1"},
                     {"deck", name_},
                     {"title", name_},
                     {"topic", name_},
                     {"mistakes", ordered_json::object()},
                     {"points", ordered_json::array()}};
        interview_.say("A new point for " + deck_path(library_, name_) +
                       ". One point is one thing to know; docs/authoring.md says what makes a good one.");
        for (const auto& deck : context_->load_contents().decks)
            for (const auto& point : deck.points) taken_.push_back(point.id.text);
    }

    void ask_head() {
        const std::string title = interview_.ask("What has to be known, in a few words", at_least(3));
        const auto free_id = [&](const std::string& id) -> Fault {
            const auto dot = id.find('.');
            if (dot == std::string::npos || dot == 0 || dot + 1 == id.size() || id.find(' ') != std::string::npos)
                return "an id has a dot and no spaces, such as shop.ladder-check";
            if (std::find(taken_.begin(), taken_.end(), id) == taken_.end()) return std::nullopt;
            return "'" + id + "' is taken; 'greentag library show " + id + "' tells by what";
        };
        point_["id"] = interview_.ask("Its id, for ever", free_id, name_ + "." + content::id_of(title));
        point_["title"] = title;
        point_["stakes"] =
            interview_.choice("What happens when it is not known?", {"shock", "fire", "inspection", "paperwork"});
        point_["tags"] = content::parts_of(interview_.ask("Tags, with commas between", {}, name_), ',');
    }

    void ask_says() {
        ordered_json version = {{"editions", interview_.ask("For which editions", is_editions, "2017-2026")}};
        version["article"] = interview_.ask("Which article governs", is_article);
        version["says"] = interview_.ask("What it says, in your own words", at_least(10));
        version["basis"] = basis_of(interview_);
        ordered_json gaps = ordered_json::array();
        for (const auto& run : outside(version["editions"].get<std::string>()))
            gaps.push_back(
                {{"editions", run}, {"why", interview_.ask("Why does it not hold in " + run + "?", at_least(5))}});
        point_["versions"] = ordered_json::array({version});
        if (!gaps.empty()) point_["gaps"] = gaps;
        point_["questions"] = ordered_json::array();
    }

    void ask_one_question() {
        const std::string id(1, static_cast<char>('a' + static_cast<char>(point_["questions"].size() % 26)));
        ordered_json before;
        for (;;) {
            ordered_json trial = deck_;
            point_["questions"].push_back(ask_question(interview_, trial, id, before));
            before = point_["questions"].back();
            const auto faults = faults_of(trial);
            for (const auto& fault : faults) interview_.say("  Not so: " + fault.what + "; " + fault.mend + ".");
            if (!base::any_errors(faults)) {
                deck_["mistakes"] = trial["mistakes"];
                return;
            }
            const bool of_question = std::any_of(faults.begin(), faults.end(), [](const base::Fault& fault) {
                return !fault.warning && fault.pointer.find("/questions/") != std::string::npos;
            });
            if (!interview_.person())
                throw base::Failure{Exit::bad_data, "the point has faults",
                                    "nothing was written; mend what is named above"};
            if (of_question) {
                point_["questions"].erase(point_["questions"].size() - 1);
                // What was said of mistakes is kept for another go.
                deck_["mistakes"] = trial["mistakes"];
                interview_.say(
                    "The question does not stand like that. Once more; an empty reply keeps what is in [ ].");
            } else {
                deck_["mistakes"] = trial["mistakes"];
                point_["versions"][0]["says"] = interview_.ask("What the point says, in other words", at_least(10));
                if (!base::any_errors(faults_of(deck_))) return;
                point_["questions"].erase(point_["questions"].size() - 1);
            }
        }
    }

    [[nodiscard]] ordered_json with_point(ordered_json deck) const {
        deck["points"].push_back(point_);
        return deck;
    }

    /// What `library check` finds in the new point; older points of the deck have been checked before.
    [[nodiscard]] base::Faults faults_of(const ordered_json& deck) const {
        const auto whole = with_point(deck);
        const std::string own = "/points/" + std::to_string(whole["points"].size() - 1);
        base::Faults faults;
        for (auto& fault : try_decks(*context_, library_, {{name_, content::tidy_deck(whole)}}))
            if (fault.pointer == own || fault.pointer.starts_with(own + "/")) faults.push_back(std::move(fault));
        return faults;
    }

    Exit finish() {
        const std::string text = content::tidy_deck(with_point(deck_));
        content::Contents alone;
        content::add_document(alone, text, {name_ + ".json", 0, 0, 0});
        context_->out() << '\n';
        context_->print(report::point_text(alone.decks.front().points.back(), context_->page()));
        if (!interview_.yes("Write it?", true)) {
            interview_.say("Nothing was written.");
            return Exit::fine;
        }
        write_decks(library_, {{name_, text}});
        interview_.say("Written to " + deck_path(library_, name_) + ". 'greentag study' asks it from now on.");
        return Exit::fine;
    }

    Context* context_;
    Interview interview_;
    std::string library_, name_;
    ordered_json deck_, point_;
    std::vector<std::string> taken_;
};

}  // namespace

base::Exit run_library_new(Context& context) {
    if (context.json())
        throw base::Failure{Exit::usage, "this verb talks with a person and has no JSON",
                            "use 'greentag library import' from a program"};
    return NewPoint{context, own_library(context)}.run();
}

}  // namespace cli
