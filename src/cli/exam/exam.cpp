#include "cli/exam/exam.hpp"

#include "base/exit_status.hpp"
#include "base/text.hpp"
#include "content/contents.hpp"

namespace cli {

using base::Exit;
using base::Failure;

std::vector<content::Outline> load_outlines(const Context& context) {
    auto outlines = content::load_outlines(context.library_roots());
    if (outlines) return std::move(*outlines);
    tell(context.err(), outlines.error());
    throw Failure{Exit::bad_data, "the exam outlines have faults",
                  "mend the places named above; 'greentag library check' tells all"};
}

const content::Outline& find_outline(const std::vector<content::Outline>& outlines, const std::string& id) {
    std::vector<std::string> known;
    for (const auto& one : outlines) {
        if (one.id == id) return one;
        known.push_back(one.id);
    }
    const auto near = base::nearest(id, known);
    throw Failure{
        Exit::no_input, "there is no exam outline '" + id + "'",
        near ? "did you mean '" + *near + "'?"
             : "known: " + base::join(known, ", ") + "; your board's own goes into decks/outlines of --library"};
}

trade::Edition exam_edition(const Context& context) {
    if (const auto said = trade::parse_edition(context.value("--edition"))) return *said;
    if (!context.store_exists()) return trade::Edition::e2023;
    auto store = context.open_store(false);
    if (!context.has("--learner")) {
        std::size_t active = 0;
        for (const auto& one : store.learners()) active += one.retired_at ? 0 : 1;
        if (active != 1) return trade::Edition::e2023;
    }
    return context.pick_for(context.learner(store)).edition;
}

}  // namespace cli
