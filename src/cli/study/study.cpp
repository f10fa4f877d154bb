#include <algorithm>
#include <chrono>
#include <ostream>

#include "base/exit_status.hpp"
#include "cli/context.hpp"
#include "cli/memory/tune.hpp"
#include "cli/study/session_setup.hpp"
#include "cli/study/study_lines.hpp"
#include "cli/study/study_screen.hpp"
#include "memory/model.hpp"

namespace cli {
namespace {

constexpr const char* kDemoName = "Robin Feld";
constexpr int kDemoEdition = 2023;

/// The invented learner of the demonstration, added on first use.
store::Learner demo_learner(store::Store& store, base::Instant now) {
    for (const auto& one : store.learners())
        if (one.name == kDemoName) return one;
    store::Learner robin;
    robin.name = kDemoName;
    robin.edition = kDemoEdition;
    return store.add_learner(robin, now);
}

/// Answers may bear a pretended time; none of this session counts as given after now.
void fit_anew(Context& context, const content::Library& library, store::Store& store,
              const practice::Session& session) {
    const auto now = std::max(context.now(), session.latest().value_or(context.now()));
    const auto told = tune_if_due(library, store, now);
    if (told && !told->empty() && !context.has("--lines") && !context.json()) context.out() << *told << '\n';
}

}  // namespace

base::Exit run_study(Context& context) {
    content::Library library = context.open_library();
    store::Store store = context.open_store(true);
    const auto learner = context.has("--demo") ? demo_learner(store, context.now()) : context.learner(store);
    const auto what = session_for(context, library, store, learner);
    practice::Session session{library, store, memory::advance, what};
    const std::string warning = clock_warning(session, what.start);
    if (!warning.empty()) context.err() << "greentag: " << warning << '\n';
    const auto exit = context.has("--lines") ? study_by_lines(context, session) : study_on_screen(context, session);
    store.settle();
    fit_anew(context, library, store, session);
    return exit;
}

}  // namespace cli
