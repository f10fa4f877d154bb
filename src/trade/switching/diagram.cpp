#include "trade/switching/diagram.hpp"

#include <algorithm>

#include "base/text.hpp"

namespace trade::switching {
namespace {

constexpr std::size_t kWidth = 76;
constexpr std::size_t kInside = kWidth - 4;
constexpr std::size_t kCentre = 20;
constexpr std::size_t kSide = (kInside - kCentre) / 2;

std::string_view short_text(Colour colour) {
    switch (colour) {
        case Colour::black:
            return "blk";
        case Colour::red:
            return "red";
        case Colour::white:
            return "wht";
        case Colour::remarked_white:
            return "wht*";
        case Colour::bare:
            return "bare";
    }
    return "";
}

void framed(std::string& out, const std::string& text) {
    out += "| " + text + std::string(kInside > text.size() ? kInside - text.size() : 0, ' ') + " |\n";
}

/// Long words wrap, with the later lines set in.
void framed_words(std::string& out, const std::string& text) {
    for (const auto& line : base::wrap(text, kInside, 4)) framed(out, line);
}

void ruled(std::string& out, const std::string& name) {
    const std::string head = name.empty() ? "" : " " + name + " ";
    out += "+--" + head + std::string(kWidth - 4 - head.size(), '-') + "+\n";
}

std::string side_text(const Picture::Label& label) {
    return (label.mark.empty() ? "" : "x ") + label.text + " " + std::string{short_text(*label.colour)};
}

std::string centre_text(const Picture::Joint& joint, std::size_t row) {
    if (joint.splice && row == 0) return "(splice)";
    const std::size_t at = joint.splice ? row - 1 : row;
    if (at >= joint.centre.size()) return "|";
    const auto& label = joint.centre[at];
    return "[" + std::string{label.mark.empty() ? "" : "x "} + label.text + "]";
}

void fill_to(std::string& line, std::size_t column, char with) {
    if (line.size() < column) line += std::string(column - line.size(), with);
}

/// One line: conductor in, dashes, what it lands on, dashes, conductor out. A long name moves the middle, it is not
/// cut.
std::string joint_line(const Picture::Joint& joint, std::size_t row, const std::string& middle) {
    const bool in = row < joint.in.size();
    std::string line = in ? side_text(joint.in[row]) + " " : "";
    const std::size_t gap = kCentre > middle.size() ? (kCentre - middle.size()) / 2 : 0;
    fill_to(line, kSide + gap, in ? '-' : ' ');
    line += middle;
    if (row >= joint.out.size()) return line;
    const std::string right = " " + side_text(joint.out[row]);
    fill_to(line, kInside - right.size(), '-');
    return line + right;
}

void draw(std::string& out, const Picture::Joint& joint) {
    const std::size_t centre = joint.centre.size() + (joint.splice ? 1 : 0);
    const std::size_t rows = std::max({joint.in.size(), joint.out.size(), centre});
    // A conductor that nothing holds is capped off.
    const bool alone = centre == 0;
    for (std::size_t row = 0; row < rows; ++row)
        framed(out, joint_line(joint, row, alone && row == 0 ? "(capped)" : centre_text(joint, row)));
}

void draw(std::string& out, const Picture::Cable& cable) {
    // A cable that starts further up is not drawn as if it came from the box above it.
    const std::string side = cable.from_above ? "   ||" : "   ::";
    const std::string head = "cable " + std::to_string(cable.number) + ", " + cable.from + " to " + cable.to + ", " +
                             std::to_string(cable.insulated) + "-wire with ground:";
    out += side + "  " + head + "\n";
    // A conductor is not parted from its colour or its mark.
    std::string line;
    for (const auto& one : cable.conductors) {
        const std::string part =
            one.text + " " + std::string{to_text(*one.colour)} + (one.mark.empty() ? "" : " --x " + one.mark);
        if (!line.empty() && line.size() + 2 + part.size() > kWidth - 10) {
            out += side + "    " + line + ",\n";
            line.clear();
        }
        line += (line.empty() ? "" : ", ") + part;
    }
    out += side + "    " + line + "\n";
}

void draw(std::string& out, const Picture::Box& box) {
    if (box.by) draw(out, *box.by);
    ruled(out, box.name);
    for (const auto& device : box.devices) framed_words(out, device);
    for (const auto& joint : box.joints) draw(out, joint);
    for (const auto& fault : box.faults) framed_words(out, "x " + fault);
    ruled(out, "");
}

bool remarked(const Picture& picture) {
    return std::any_of(picture.boxes.begin(), picture.boxes.end(), [](const Picture::Box& box) {
        return box.by && std::any_of(box.by->conductors.begin(), box.by->conductors.end(),
                                     [](const auto& one) { return one.colour == Colour::remarked_white; });
    });
}

}  // namespace

std::string diagram(const Arrangement& arrangement, const Fault& fault, bool name_fault) {
    const Picture drawn = picture(arrangement, fault);
    std::string out;
    for (const auto& line : base::wrap(drawn.title, kWidth)) out += line + "\n";
    for (const auto& box : drawn.boxes) draw(out, box);
    if (remarked(drawn)) out += "wht* = white, re-marked as a hot\n";
    if (name_fault && !drawn.fault.empty())
        for (const auto& line : base::wrap("x = " + drawn.fault, kWidth)) out += line + "\n";
    return out;
}

}  // namespace trade::switching
