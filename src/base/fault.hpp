#pragma once

#include <string>
#include <vector>

#include <tl/expected.hpp>

namespace base {

/// One thing wrong with what was given, told so that a person can mend it.
struct Fault {
    std::string file;      ///< as the caller named it; empty when no file is involved
    std::string pointer;   ///< JSON pointer into the file, such as "/points/3/versions/0"; may be empty
    int line = 0;          ///< counted from 1; 0 when there is no line to name
    std::string what;      ///< the fault
    std::string mend;      ///< the way out
    bool warning = false;  ///< true: told, but nothing is refused because of it

    friend bool operator==(const Fault&, const Fault&) = default;
};

using Faults = std::vector<Fault>;

/// A value, or every fault that kept us from having it.
template <class T>
using Checked = tl::expected<T, Faults>;

/// One line for people: "decks/boxes.json:12: /points/3: what; mend".
[[nodiscard]] std::string to_text(const Fault& fault);

/// A single fault without a place, ready to be returned.
[[nodiscard]] tl::unexpected<Faults> refuse(std::string what, std::string mend);

/// True when at least one entry is more than a warning.
[[nodiscard]] bool any_errors(const Faults& faults);

}  // namespace base
