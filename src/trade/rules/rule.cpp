#include "trade/rules/rule.hpp"

#include <algorithm>

namespace trade {

std::string_view to_text(Effect effect) {
    switch (effect) {
        case Effect::requires_:
            return "requires";
        case Effect::permits:
            return "permits";
        case Effect::forbids:
            return "forbids";
    }
    return "";
}

const RuleVersion* Rule::version(Edition edition) const {
    const auto found = std::find_if(versions.begin(), versions.end(),
                                    [&](const RuleVersion& v) { return v.editions.contains(edition); });
    return found == versions.end() ? nullptr : &*found;
}

}  // namespace trade
