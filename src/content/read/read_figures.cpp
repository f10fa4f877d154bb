#include "content/read/read_figures.hpp"

#include "base/measures.hpp"
#include "content/read/read_question.hpp"

namespace content {
namespace {

using base::Reader;

/// A plain number, or the text of a wire size past 1 AWG.
double read_value(const Reader& item) {
    if (!item.has_text("value")) return item.number("value");
    const std::string text = item.text("value");
    const auto numbers = base::measures_in(text + " AWG");
    if (numbers.size() == 1) return numbers.front().quantity.value;
    item.member("value").fault("'" + text + "' is no number", "write a number, or a wire size such as \"4/0\"");
    return 0.0;
}

Figure read_figure(const Reader& item) {
    item.only({"id", "what", "value", "unit", "article", "editions", "basis", "check", "points"});
    Figure figure;
    figure.place = place_of(item);
    figure.id = item.text("id");
    figure.what = item.text("what");
    figure.value.value = read_value(item);
    const std::string unit = item.text("unit");
    if (const auto known = base::parse_unit(unit))
        figure.value.unit = *known;
    else if (item.has_text("unit"))
        item.fault("there is no unit '" + unit + "'", "see the units in docs/formats/deck.schema.json");
    figure.article = item.text_or("article", "");
    figure.editions = read_editions(item, "editions");
    figure.basis = read_basis(item.member("basis"));
    if (item.has("check")) figure.check = read_check(item.member("check"));
    for (const auto& id : item.texts("points")) figure.points.push_back({id});
    if (figure.points.empty() && item.has("points"))
        item.fault("no point states it", "name the points whose texts have this number");
    return figure;
}

}  // namespace

std::vector<Figure> read_figures(const Reader& document) {
    document.only({"format", "title", "figures"});
    std::vector<Figure> figures;
    for (const auto& item : document.items("figures")) figures.push_back(read_figure(item));
    return figures;
}

}  // namespace content
