#include "report/wiring_svg.hpp"

#include <algorithm>

#include "base/text.hpp"

namespace report {
namespace {

using trade::switching::Colour;
using trade::switching::Picture;

constexpr int kWidth = 360;
constexpr int kMargin = 6;
constexpr int kMiddle = kWidth / 2;
constexpr int kLine = 15;
constexpr int kWire = 24;  // a conductor with its name above it
// Room for a wide sans-serif face; headings and faults are bold.
constexpr std::size_t kColumns = 52;
constexpr std::size_t kBoldColumns = 42;

std::string escaped(std::string_view text) {
    std::string out;
    for (const char c : text) switch (c) {
            case '&':
                out += "&amp;";
                break;
            case '<':
                out += "&lt;";
                break;
            case '>':
                out += "&gt;";
                break;
            case '"':
                out += "&quot;";
                break;
            default:
                out += c;
        }
    return out;
}

/// Class of the stroke, of the style sheet below.
std::string_view stroke(Colour colour) {
    switch (colour) {
        case Colour::black:
            return "k";
        case Colour::red:
            return "r";
        case Colour::white:
            return "w";
        case Colour::remarked_white:
            return "m";
        case Colour::bare:
            return "b";
    }
    return "k";
}

std::string_view colour_text(Colour colour) {
    return colour == Colour::remarked_white ? "white*" : trade::switching::to_text(colour);
}

std::string label_text(const Picture::Label& label) {
    return (label.mark.empty() ? "" : "x ") + label.text +
           (label.colour ? ", " + std::string{colour_text(*label.colour)} : "");
}

/// Writes shapes downwards and knows how far down it is.
class Sheet {
public:
    [[nodiscard]] int y() const { return y_; }
    [[nodiscard]] const std::string& shapes() const { return shapes_; }
    void down(int by) { y_ += by; }

    void text(int x, int y, std::string_view words, const std::string& attributes = {}) {
        shapes_ += "<text x=\"" + std::to_string(x) + "\" y=\"" + std::to_string(y) + "\"" +
                   (attributes.empty() ? "" : " " + attributes) + ">" + escaped(words) + "</text>\n";
    }
    void line(int x1, int y1, int x2, int y2, std::string_view name) {
        shapes_ += "<path d=\"M" + std::to_string(x1) + " " + std::to_string(y1) + "L" + std::to_string(x2) + " " +
                   std::to_string(y2) + "\" class=\"" + std::string{name} + "\"/>\n";
    }
    void dot(int x, int y) {
        shapes_ += "<circle cx=\"" + std::to_string(x) + "\" cy=\"" + std::to_string(y) + "\" r=\"4\"/>\n";
    }
    /// White and re-marked conductors get a dark edge, so that they show on white paper.
    void wire(int x1, int x2, int y, Colour colour) {
        if (colour == Colour::white || colour == Colour::remarked_white) line(x1, y, x2, y, "e");
        line(x1, y, x2, y, stroke(colour));
    }
    void words(const std::string& told, const std::string& attributes = {}) {
        for (const auto& one : base::wrap(told, attributes.empty() ? kColumns : kBoldColumns, 2)) {
            y_ += kLine;
            text(kMargin + 8, y_, one, attributes);
        }
    }
    /// A frame round what was written since `top`; it goes behind.
    void frame(int top) {
        shapes_ += "<rect x=\"" + std::to_string(kMargin) + "\" y=\"" + std::to_string(top) + "\" width=\"" +
                   std::to_string(kWidth - 2 * kMargin) + "\" height=\"" + std::to_string(y_ - top) +
                   "\" rx=\"4\" class=\"f\"/>\n";
    }

private:
    std::string shapes_;
    int y_ = 0;
};

std::string marked(const Picture::Label& label) {
    return label.mark.empty() ? "" : "class=\"x\"";
}

void draw(Sheet& sheet, const Picture::Joint& joint) {
    const int first = sheet.y() + kWire - 4;
    int last = first;
    for (std::size_t row = 0; row < std::max(joint.in.size(), joint.out.size()); ++row) {
        sheet.down(kWire);
        const int y = last = sheet.y() - 4;
        if (row < joint.in.size()) {
            const auto& in = joint.in[row];
            sheet.wire(kMargin, kMiddle, y, *in.colour);
            sheet.text(kMargin + 6, y - 5, label_text(in), marked(in));
        }
        if (row < joint.out.size()) {
            const auto& out = joint.out[row];
            sheet.wire(kMiddle, kWidth - kMargin, y, *out.colour);
            sheet.text(kWidth - kMargin - 6, y - 5, label_text(out),
                       "text-anchor=\"end\"" + (out.mark.empty() ? "" : " " + marked(out)));
        }
        sheet.dot(kMiddle, y);
    }
    if (joint.centre.empty() && !joint.splice) {
        sheet.down(kLine);
        sheet.text(kMiddle, sheet.y(), "capped", "text-anchor=\"middle\" class=\"x\"");
    }
    for (const auto& centre : joint.centre) {
        sheet.down(kLine + 2);
        last = sheet.y() - 4;
        sheet.text(kMiddle + 10, sheet.y(), label_text(centre), marked(centre));
        sheet.dot(kMiddle, last);
    }
    if (last > first) sheet.line(kMiddle, first, kMiddle, last, "k");
}

void draw(Sheet& sheet, const Picture::Cable& cable) {
    const int top = sheet.y();
    sheet.words("cable " + std::to_string(cable.number) + ": " + cable.from + " to " + cable.to + ", " +
                std::to_string(cable.insulated) + "-wire with ground");
    for (const auto& one : cable.conductors) {
        sheet.down(kLine);
        sheet.wire(kMargin + 20, kMargin + 60, sheet.y() - 4, *one.colour);
        sheet.text(kMargin + 68, sheet.y(), label_text(one) + (one.mark.empty() ? "" : ": " + one.mark), marked(one));
    }
    sheet.down(6);
    if (cable.from_above) sheet.line(kMargin + 3, top, kMargin + 3, sheet.y(), "c");
}

void draw(Sheet& sheet, const Picture::Box& box) {
    if (box.by) draw(sheet, *box.by);
    const int top = sheet.y();
    sheet.words(box.name, "class=\"h\"");
    for (const auto& device : box.devices) sheet.words(device, device.starts_with("x ") ? "class=\"x\"" : "");
    for (const auto& joint : box.joints) draw(sheet, joint);
    for (const auto& fault : box.faults) sheet.words("x " + fault, "class=\"x\"");
    sheet.down(8);
    sheet.frame(top);
}

void tell(std::vector<std::string>& parts, const std::vector<Picture::Label>& labels) {
    for (const auto& one : labels) {
        std::string text = one.text;
        if (one.colour) text += " " + std::string{trade::switching::to_text(*one.colour)};
        if (!one.mark.empty()) text += " (" + one.mark + ")";
        parts.push_back(std::move(text));
    }
}

/// The drawing in words: what is joined with what, box by box.
std::string told(const Picture& picture) {
    std::string out = picture.about;
    for (const auto& box : picture.boxes) {
        std::vector<std::string> joints;
        for (const auto& joint : box.joints) {
            std::vector<std::string> parts;
            for (const auto* labels : {&joint.in, &joint.centre, &joint.out}) tell(parts, *labels);
            joints.push_back(base::join(parts, " with "));
        }
        for (const auto& fault : box.faults) joints.push_back("fault: " + fault);
        out += " In " + box.name + ": " + base::join(joints, "; ") + ".";
        if (!box.by) continue;
        for (const auto& one : box.by->conductors)
            if (!one.mark.empty())
                out += " " + one.text + " is " + one.mark + " between " + box.by->from + " and " + box.by->to + ".";
    }
    return out;
}

// Every rule is bound to the drawing, since a page that holds it has rules of its own.
constexpr std::string_view kStyle =
    "<style>.wiring text{font:11px sans-serif;fill:#111}.wiring .h{font-weight:bold;font-size:12px}"
    ".wiring .x{fill:#8c0014;font-weight:bold}.wiring path{fill:none}.wiring .k{stroke:#111;stroke-width:3}"
    ".wiring .r{stroke:#b00020;stroke-width:3}.wiring .e{stroke:#444;stroke-width:5}"
    ".wiring .w{stroke:#fff;stroke-width:3}.wiring .m{stroke:#fff;stroke-width:3;stroke-dasharray:8 6}"
    ".wiring .b{stroke:#8a5a00;stroke-width:3}.wiring .c{stroke:#666;stroke-width:5}"
    ".wiring .f{fill:none;stroke:#111;stroke-width:1.5}</style>\n";

bool remarked(const Picture& picture) {
    return std::any_of(picture.boxes.begin(), picture.boxes.end(), [](const Picture::Box& box) {
        return box.by && std::any_of(box.by->conductors.begin(), box.by->conductors.end(),
                                     [](const auto& one) { return one.colour == Colour::remarked_white; });
    });
}

}  // namespace

std::string wiring_svg(const trade::switching::Arrangement& arrangement, const trade::switching::Fault& fault,
                       bool name_fault) {
    const Picture drawn = picture(arrangement, fault);
    Sheet sheet;
    sheet.words(drawn.title, "class=\"h\"");
    sheet.down(6);
    for (const auto& box : drawn.boxes) draw(sheet, box);
    if (remarked(drawn)) sheet.words("white* = white, re-marked as a hot");
    const bool named = name_fault && !drawn.fault.empty();
    if (named) sheet.words("x = " + drawn.fault, "class=\"x\"");
    sheet.down(10);
    const std::string height = std::to_string(sheet.y());
    const std::string id = escaped("wiring-" + arrangement.id + "-" + (named ? fault.id : "drawing"));
    return "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"wiring\" viewBox=\"0 0 " + std::to_string(kWidth) + " " +
           height + "\" role=\"img\" aria-labelledby=\"" + id + "-title " + id + "-desc\">\n<title id=\"" + id +
           "-title\">" + escaped(drawn.title + (named ? "; fault: " + drawn.fault : "")) + "</title>\n<desc id=\"" +
           id + "-desc\">" + escaped(told(drawn)) + "</desc>\n" + std::string{kStyle} + "<rect width=\"" +
           std::to_string(kWidth) + "\" height=\"" + height + "\" fill=\"#fff\"/>\n" + sheet.shapes() + "</svg>\n";
}

}  // namespace report
