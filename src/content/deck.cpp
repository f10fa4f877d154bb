#include "content/deck.hpp"

#include <algorithm>
#include <array>

namespace content {
namespace {

constexpr std::array<std::string_view, 4> kStakes = {"shock", "fire", "inspection", "paperwork"};
constexpr std::array<std::string_view, 6> kForms = {"choose", "choose-all", "number", "article", "order", "recall"};

template <class Enum, std::size_t N>
std::optional<Enum> parse(std::string_view text, const std::array<std::string_view, N>& names) {
    const auto found = std::find(names.begin(), names.end(), text);
    if (found == names.end()) return std::nullopt;
    return static_cast<Enum>(found - names.begin());
}

}  // namespace

std::string_view to_text(Stakes stakes) {
    return kStakes.at(static_cast<std::size_t>(stakes));
}
std::string_view to_text(Form form) {
    return kForms.at(static_cast<std::size_t>(form));
}
std::optional<Stakes> parse_stakes(std::string_view text) {
    return parse<Stakes>(text, kStakes);
}
std::optional<Form> parse_form(std::string_view text) {
    return parse<Form>(text, kForms);
}

const Version* Point::version(trade::Edition edition) const {
    const auto found = std::find_if(versions.begin(), versions.end(),
                                    [edition](const Version& v) { return v.editions.contains(edition); });
    return found == versions.end() ? nullptr : &*found;
}

bool holds_in(const Question& question, const Point& point, trade::Edition edition) {
    if (question.editions && !question.editions->contains(edition)) return false;
    return point.version(edition) != nullptr;
}

std::optional<trade::Edition> Jurisdiction::edition_on(base::Instant day) const {
    std::optional<trade::Edition> edition;
    for (const auto& adoption : adoptions)
        if (adoption.from <= day) edition = adoption.edition;
    return edition;
}

}  // namespace content
