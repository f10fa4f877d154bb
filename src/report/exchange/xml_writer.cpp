#include "report/exchange/xml_writer.hpp"

#include <array>
#include <cstdint>

#include "base/text.hpp"

namespace report {
namespace {

bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

std::string hex(unsigned char byte) {
    constexpr std::string_view kDigits = "0123456789abcdef";
    return {kDigits[byte >> 4U], kDigits[byte & 0xFU]};
}

/// Bytes of the UTF-8 character that begins here; 1 for what begins none.
std::size_t length_at(std::string_view text, std::size_t at) {
    const auto first = static_cast<unsigned char>(text[at]);
    const std::size_t length = first < 0xC0 ? 1 : first < 0xE0 ? 2 : first < 0xF0 ? 3 : 4;
    return at + length <= text.size() ? length : 1;
}

/// Well-formed UTF-8 that XML 1.0 allows (production 2, Char). Surrogates are no UTF-8 to begin with.
bool is_allowed(std::string_view character) {
    if (character.size() == 1) {
        const auto byte = static_cast<unsigned char>(character[0]);
        return (byte >= 0x20 && byte < 0x80) || byte == '\t' || byte == '\n' || byte == '\r';
    }
    return !base::first_bad_utf8(character) && character != "\xEF\xBF\xBE" && character != "\xEF\xBF\xBF";
}

std::string_view reference_for(char c) {
    switch (c) {
        case '&':
            return "&amp;";
        case '<':
            return "&lt;";
        case '>':
            return "&gt;";
        case '"':
            return "&quot;";
        case '\'':
            return "&#39;";
        default:
            return {};
    }
}

}  // namespace

std::string xml_escaped(std::string_view text) {
    std::string escaped;
    escaped.reserve(text.size());
    for (std::size_t at = 0; at < text.size();) {
        const auto character = text.substr(at, length_at(text, at));
        const bool allowed = is_allowed(character);
        if (allowed) {
            const auto reference = character.size() == 1 ? reference_for(character[0]) : std::string_view{};
            escaped += reference.empty() ? character : reference;
        }
        at += allowed ? character.size() : 1;
    }
    return escaped;
}

std::string xml_name(std::string_view text) {
    std::string name;
    for (const char c : text) {
        if (is_letter(c) || (c >= '0' && c <= '9') || c == '-')
            name += c;
        else
            name += c == '.' ? "_" : "_" + hex(static_cast<unsigned char>(c));
    }
    return !name.empty() && is_letter(name.front()) ? name : "q-" + name;
}

XmlWriter::XmlWriter() : out_{"<?xml version=\"1.0\" encoding=\"UTF-8\"?>"} {}

void XmlWriter::new_line() {
    out_ += '\n';
    out_.append(2 * open_.size(), ' ');
}

void XmlWriter::end_start_tag() {
    if (in_start_tag_) out_ += '>';
    in_start_tag_ = false;
}

void XmlWriter::open(const std::string& name, const Attributes& attributes) {
    end_start_tag();
    if (open_.empty() || !open_.back().has_text) new_line();
    if (!open_.empty()) open_.back().has_elements = true;
    out_ += '<' + name;
    for (const auto& [attribute, value] : attributes) out_ += ' ' + attribute + "=\"" + xml_escaped(value) + '"';
    open_.push_back({name, false, false});
    in_start_tag_ = true;
}

void XmlWriter::text(std::string_view text) {
    if (text.empty() || open_.empty()) return;
    end_start_tag();
    open_.back().has_text = true;
    out_ += xml_escaped(text);
}

void XmlWriter::close() {
    if (open_.empty()) return;
    const Element element = open_.back();
    open_.pop_back();
    if (in_start_tag_) {
        out_ += "/>";
        in_start_tag_ = false;
        return;
    }
    if (element.has_elements && !element.has_text) new_line();
    out_ += "</" + element.name + '>';
}

void XmlWriter::leaf(const std::string& name, const Attributes& attributes, std::string_view content) {
    open(name, attributes);
    text(content);
    close();
}

std::string XmlWriter::finish() {
    while (!open_.empty()) close();
    return out_ + '\n';
}

}  // namespace report
