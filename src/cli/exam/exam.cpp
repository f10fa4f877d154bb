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

}  // namespace cli
