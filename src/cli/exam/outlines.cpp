#include <ostream>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "cli/context.hpp"
#include "cli/crew_edition.hpp"
#include "cli/exam/exam.hpp"
#include "content/outline.hpp"
#include "report/exam/outline_json.hpp"
#include "report/exam/outline_text.hpp"

namespace cli {

base::Exit run_exam_outlines(Context& context) {
    const auto outlines = load_outlines(context);
    if (!context.has("ID")) {
        if (context.json())
            context.out() << report::outlines_json(outlines).dump(2) << '\n';
        else
            context.print(report::outlines_text(outlines, context.page()));
        return base::Exit::fine;
    }
    const auto& outline = find_outline(outlines, context.value("ID"));
    const auto edition = edition_meant(context);
    const auto library = context.open_library();
    const auto parts = practice::parts_of(outline, content::traits_in(library, edition));
    if (context.json())
        context.out() << report::outline_json(outline, parts, edition).dump(2) << '\n';
    else
        context.print(report::outline_text(outline, parts, edition, context.page()));
    return base::Exit::fine;
}

}  // namespace cli
