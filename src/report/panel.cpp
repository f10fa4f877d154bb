#include "report/panel.hpp"

#include <algorithm>
#include <cmath>

#include "base/text.hpp"

namespace report {
namespace {

constexpr std::size_t kNarrow = 64;
constexpr std::size_t kTooNarrow = 30;
constexpr std::size_t kWidestCell = 44;

std::string number_text(std::size_t number) {
    return (number < 10 ? " " : "") + std::to_string(number) + " ";
}

std::string load_text(const practice::TopicStanding& topic) {
    return topic.met == 0 ? "-" : std::to_string(std::lround(100 * topic.recall)) + "%";
}

std::string cell(std::size_t number, const practice::TopicStanding& topic, std::size_t width) {
    const std::string head = number_text(number);
    const std::string load = load_text(topic);
    std::string tail =
        std::string(load.size() < 4 ? 4 - load.size() : 0, ' ') + load + " " + padded(circuit_state(topic), 8);
    const std::size_t room = width - base::display_width(head) - base::display_width(tail) - 1;
    return head + padded(base::wrap(topic.topic, room).front(), room) + " " + tail;
}

Ink ink_of(const practice::TopicStanding& topic) {
    const std::string state = circuit_state(topic);
    if (state == "tripped") return Ink::bad;
    if (state == "due") return Ink::warn;
    return state == "closed" ? Ink::good : Ink::faint;
}

}  // namespace

std::string circuit_state(const practice::TopicStanding& topic) {
    if (topic.urgent > 0) return "tripped";
    if (topic.met == 0) return "spare";
    return topic.due > 0 ? "due" : "closed";
}

std::vector<std::string> panel_directory(const std::vector<practice::TopicStanding>& topics, const Page& page) {
    std::vector<std::string> lines;
    if (page.width < kTooNarrow) {
        for (std::size_t i = 0; i < topics.size(); ++i)
            add_hanging(lines, page, number_text(i + 1),
                        topics[i].topic + ": " + load_text(topics[i]) + " " + circuit_state(topics[i]),
                        ink_of(topics[i]));
        return lines;
    }
    const bool narrow = page.width < kNarrow;
    const std::size_t columns = narrow ? 1 : 2;
    const std::size_t width = std::min(kWidestCell, narrow ? page.width - 4 : (page.width - 7) / 2);
    std::string rule = "+";
    for (std::size_t i = 0; i < columns; ++i) rule += std::string(width + 2, '-') + "+";
    lines.push_back(rule);
    for (std::size_t i = 0; i < topics.size(); i += columns) {
        std::string line = "|";
        for (std::size_t j = i; j < i + columns; ++j) {
            const std::string text = j < topics.size() ? cell(j + 1, topics[j], width) : std::string(width, ' ');
            line += " " + (j < topics.size() ? inked(page, ink_of(topics[j]), text) : text) + " |";
        }
        lines.push_back(line);
    }
    lines.push_back(rule);
    return lines;
}

}  // namespace report
