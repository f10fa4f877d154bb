#include "cli/study/session_setup.hpp"

#include <algorithm>

#include "base/exit_status.hpp"
#include "base/text.hpp"
#include "report/style.hpp"

namespace cli {
namespace {

constexpr double kClockSlackDays = 5.0 / (24 * 60);

/// Refuses a word that no point bears: an empty session would hide the slip.
void check_known(const std::string& kind, const std::vector<std::string>& wanted, std::vector<std::string> known) {
    std::sort(known.begin(), known.end());
    known.erase(std::unique(known.begin(), known.end()), known.end());
    for (const auto& word : wanted) {
        if (std::binary_search(known.begin(), known.end(), word)) continue;
        const auto near = base::nearest(word, known);
        throw base::Failure{base::Exit::no_input, "there is no " + kind + " '" + word + "'",
                            near ? "did you mean '" + *near + "'?" : "there are: " + base::join(known, ", ")};
    }
}

void check_topics(const content::Library& library, const std::vector<std::string>& topics) {
    if (topics.empty()) return;
    std::vector<std::string> known;
    for (const auto& point : library.index().points) known.push_back(point.topic);
    check_known("topic", topics, std::move(known));
}

void check_tags(const content::Library& library, const std::vector<std::string>& tags) {
    if (tags.empty()) return;
    std::vector<std::string> known;
    for (const auto& point : library.index().points) known.insert(known.end(), point.tags.begin(), point.tags.end());
    check_known("tag", tags, std::move(known));
}

}  // namespace

std::vector<practice::LookUp> look_ups_of(store::Store& store, const base::Id128& learner) {
    std::vector<practice::LookUp> all;
    store.for_each_answer([&](const store::AnswerRecord& record) {
        if (record.learner != learner) return;
        if (auto one = practice::look_up_in(record)) all.push_back(std::move(*one));
    });
    return all;
}

practice::SessionFor session_for(const Context& context, content::Library& library, store::Store& store,
                                 const store::Learner& learner) {
    check_topics(library, context.values("--topic"));
    check_tags(library, context.values("--tag"));
    practice::SessionFor what;
    what.learner = learner;
    what.pick = context.pick_for(learner);
    what.pick.filter = {context.values("--topic"), context.values("--tag"), {}};
    what.plan.budget = std::chrono::minutes{context.number("--minutes", 10, 1, 240)};
    what.plan.most_asks = static_cast<std::size_t>(context.number("--count", 0, 0, 10000));
    // A number of asks alone means that many asks, however long they take.
    if (context.has("--count") && !context.has("--minutes")) what.plan.budget = std::chrono::hours{24};
    what.pick.joined = learner.added_at;
    what.pick.session_seconds =
        std::chrono::duration<double>{std::min<std::chrono::seconds>(what.plan.budget, std::chrono::hours{4})}.count();
    what.plan.calls = !context.has("--no-call");
    what.plan.open_book = context.has("--open-book");
    if (what.plan.open_book) what.look_ups = look_ups_of(store, learner.id);
    what.jurisdiction = learner.jurisdiction;
    what.pick.changed = store.relearn(learner.id);
    what.pick.recall = practice::Recall{store.fitted(learner.id), learner.id};
    what.start = context.now();
    // Whose amendments count in what is computed.
    library.set_place(learner.jurisdiction, base::date_text(what.start));
    what.seed = what.pick.seed;
    return what;
}

std::string clock_warning(const practice::Session& session, base::Instant now) {
    const auto latest = session.latest();
    if (!latest) return {};
    const double behind = base::days_between(now, *latest);
    if (behind <= kClockSlackDays) return {};
    return "The clock is " + report::stretch(behind) +
           " behind your last answer. Answers are kept, but what is due may be wrong until the date is set right.";
}

}  // namespace cli
