#include <exception>
#include <ostream>

#include <nlohmann/json.hpp>

#include "base/exit_status.hpp"
#include "cli/command_line.hpp"
#include "cli/context.hpp"
#include "cli/world.hpp"
#include "report/session_json.hpp"

namespace cli {
namespace {

using base::Exit;

Exit report_failure(const World& world, bool json, Exit exit, const std::string& what, const std::string& mend) {
    *world.err << "greentag: " << what << '\n';
    if (!mend.empty()) *world.err << "  " << mend << '\n';
    if (json) {
        const base::Faults faults{{"", "", 0, what, mend, false}};
        *world.out << report::failure_json(faults, exit).dump(2) << '\n';
    }
    return exit;
}

/// The one place where failures become words and a status.
Exit guarded(const World& world, Context& context, const Verb& verb) {
    try {
        return verb.run(context);
    } catch (const base::Failure& failure) {
        return report_failure(world, context.json(), failure.status(), failure.what(), failure.mend());
    } catch (const std::exception& error) {
        return report_failure(world, context.json(), Exit::internal, std::string{"internal fault: "} + error.what(),
                              "nothing that was acknowledged is lost; please report this");
    }
}

}  // namespace

int run(const World& world, const std::vector<std::string>& arguments) {
    Exit exit = Exit::usage;
    const auto parsed = parse(arguments, *world.out, *world.err, exit);
    if (parsed && parsed->verb != nullptr) {
        Context context{world, *parsed->verb, parsed->values};
        exit = guarded(world, context, *parsed->verb);
    }
    world.out->flush();
    // A full disk or a closed device behind standard output must not pass for success.
    if (!world.out->good() && exit == Exit::fine) {
        *world.err << "greentag: standard output could not be written\n";
        exit = Exit::io_error;
    }
    return static_cast<int>(exit);
}

}  // namespace cli
