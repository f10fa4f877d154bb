#include "base/fault.hpp"

#include <algorithm>
#include <utility>

namespace base {

std::string to_text(const Fault& fault) {
    std::string line;
    if (!fault.file.empty()) line += fault.file + (fault.line > 0 ? ":" + std::to_string(fault.line) : "") + ": ";
    if (!fault.pointer.empty()) line += fault.pointer + ": ";
    if (fault.warning) line += "warning: ";
    line += fault.what;
    if (!fault.mend.empty()) line += "; " + fault.mend;
    return line;
}

tl::unexpected<Faults> refuse(std::string what, std::string mend) {
    Fault fault;
    fault.what = std::move(what);
    fault.mend = std::move(mend);
    return tl::unexpected<Faults>{Faults{std::move(fault)}};
}

bool any_errors(const Faults& faults) {
    return std::any_of(faults.begin(), faults.end(), [](const Fault& f) { return !f.warning; });
}

}  // namespace base
