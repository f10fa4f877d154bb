#pragma once

#include "content/deck.hpp"

namespace practice {

/// How much a point weighs in what is asked: chosen, by what not knowing it can do.
[[nodiscard]] constexpr double stakes_weight(content::Stakes stakes) {
    switch (stakes) {
        case content::Stakes::shock:
            return 1.5;
        case content::Stakes::fire:
            return 1.3;
        case content::Stakes::inspection:
            return 1.0;
        case content::Stakes::paperwork:
            return 0.8;
    }
    return 1.0;
}

}  // namespace practice
