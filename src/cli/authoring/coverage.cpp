#include <ostream>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "cli/context.hpp"
#include "practice/coverage.hpp"
#include "report/coverage_text.hpp"

namespace cli {

base::Exit run_library_coverage(Context& context) {
    const auto contents = context.load_contents();
    if (base::any_errors(contents.faults)) {
        tell(context.err(), contents.faults);
        throw base::Failure{base::Exit::bad_data, "the library has faults",
                            "mend the places named above; 'greentag library check' tells all"};
    }
    const auto coverage = practice::coverage_of(contents);
    if (context.json())
        context.out() << report::coverage_json(coverage).dump(2) << '\n';
    else
        context.out() << report::coverage_page(coverage);
    return base::Exit::fine;
}

}  // namespace cli
