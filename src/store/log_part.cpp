#include "store/log_part.hpp"

#include <algorithm>
#include <array>

namespace store {
namespace {

constexpr std::array<std::string_view, 6> kWhats = {"name", "edition", "jurisdiction", "exam", "left", "same name"};

}  // namespace

std::string_view to_text(CrewDifference::What what) {
    return kWhats.at(static_cast<std::size_t>(what));
}

bool TakenIn::anything() const {
    return fresh > 0 || relearn > 0 || !added.empty() ||
           std::any_of(told.begin(), told.end(), [](const CrewDifference& d) { return d.taken; });
}

}  // namespace store
