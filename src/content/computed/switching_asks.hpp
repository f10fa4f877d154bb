#pragma once

#include "content/computed/computing.hpp"

namespace content {

/// What the switching solver makes of an arrangement and a fault named by the facts "arrangement" and "fault".
/// Errors  names there are not, faults that cannot be told apart by what is seen.
[[nodiscard]] base::Checked<Worked> by_switching(const Computed& computed, const WrongPath* path,
                                                 const FactTexts& facts);

}  // namespace content
