#pragma once

#include <string>

#include "cli/context.hpp"

namespace cli {

/// A bar on the error stream of a terminal, for work that takes seconds. Nothing is drawn where output goes to a file.
class Progress {
public:
    Progress(const Context& context, std::string what) : context_{&context}, what_{std::move(what)} {}

    /// Takes the share done, 0 to 1. Draws only when a whole percent has been added.
    void show(double share);
    /// Takes the bar away again.
    void clear();

private:
    const Context* context_;
    std::string what_;
    int shown_ = -1;
};

}  // namespace cli
