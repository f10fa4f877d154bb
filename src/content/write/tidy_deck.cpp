#include "content/write/tidy_deck.hpp"

#include <cmath>
#include <cstdint>

#include <nlohmann/json.hpp>

namespace content {
namespace {

using nlohmann::ordered_json;

std::string quoted(const std::string& text) {
    return ordered_json(text).dump();
}

/// Members or items, each on a line of its own.
std::string lines_of(const ordered_json& value, const std::string& indent) {
    std::string text;
    const char* before = "\n";
    for (const auto& [key, one] : value.items()) {
        text += before + indent + "  " + (value.is_object() ? quoted(key) + ": " : "") + one_line(one);
        before = ",\n";
    }
    return (value.is_object() ? "{" : "[") + text + "\n" + indent + (value.is_object() ? "}" : "]");
}

std::string tidy_point(const ordered_json& point) {
    std::string text = "    {";
    const char* before = "\n";
    for (const auto& [key, value] : point.items()) {
        const bool listed = (key == "versions" || key == "questions" || key == "gaps") && !value.empty();
        text += before + ("      " + quoted(key) + ": ") + (listed ? lines_of(value, "      ") : one_line(value));
        before = ",\n";
    }
    return text + "\n    }";
}

}  // namespace

std::string one_line(const ordered_json& value) {
    if (!value.is_structured()) return value.dump();
    std::string text;
    for (const auto& [key, one] : value.items()) {
        if (!text.empty()) text += ", ";
        text += (value.is_object() ? quoted(key) + ": " : "") + one_line(one);
    }
    return value.is_object() ? "{" + text + "}" : "[" + text + "]";
}

ordered_json plain_number(double number) {
    constexpr double kExact = 1e15;
    if (std::floor(number) == number && std::abs(number) < kExact) return static_cast<std::int64_t>(number);
    return number;
}

std::string tidy_deck(const ordered_json& deck) {
    std::string text = "{";
    const char* before = "\n";
    for (const auto& [key, value] : deck.items()) {
        text += before + ("  " + quoted(key) + ": ");
        before = ",\n";
        if (key == "mistakes" && !value.empty()) {
            text += lines_of(value, "  ");
        } else if (key == "points") {
            const char* between = "\n";
            text += "[";
            for (const auto& point : value) {
                text += between + tidy_point(point);
                between = ",\n";
            }
            text += "\n  ]";
        } else {
            text += one_line(value);
        }
    }
    return text + "\n}\n";
}

}  // namespace content
