#include "trade/switching/arrangement.hpp"

#include <algorithm>

#include "trade/switching/arrangements.hpp"

namespace trade::switching {

const std::vector<Arrangement>& arrangements() {
    static const std::vector<Arrangement> all = [] {
        std::vector<Arrangement> made = single_pole_arrangements();
        for (auto& one : multi_point_arrangements()) made.push_back(std::move(one));
        for (auto& one : receptacle_arrangements()) made.push_back(std::move(one));
        return made;
    }();
    return all;
}

const Arrangement* find_arrangement(std::string_view id) {
    const auto& all = arrangements();
    const auto found = std::find_if(all.begin(), all.end(), [&](const Arrangement& one) { return one.id == id; });
    return found == all.end() ? nullptr : &*found;
}

}  // namespace trade::switching
