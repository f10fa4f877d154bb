#include "cli/memory/progress.hpp"

#include <algorithm>
#include <cmath>
#include <ostream>

namespace cli {
namespace {

constexpr int kCells = 24;

}  // namespace

void Progress::show(double share) {
    if (!context_->world().output_is_terminal) return;
    const int percent = static_cast<int>(std::floor(100 * std::clamp(share, 0.0, 1.0)));
    if (percent == shown_) return;
    shown_ = percent;
    const auto full = static_cast<std::size_t>(percent * kCells / 100);
    context_->err() << '\r' << what_ << " [" << std::string(full, '#') << std::string(kCells - full, '.') << "] "
                    << percent << " %" << std::flush;
}

void Progress::clear() {
    if (shown_ < 0) return;
    context_->err() << '\r' << std::string(what_.size() + kCells + 9, ' ') << '\r' << std::flush;
    shown_ = -1;
}

}  // namespace cli
