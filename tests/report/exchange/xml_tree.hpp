#pragma once

#include <functional>
#include <map>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "base/text.hpp"

/// A small checker of well-formed XML that knows nothing of the writer: elements, attributes, text and the references
/// that need no document type. Anything else is refused.
namespace xml_tree {

struct Node {
    std::string name;
    std::map<std::string, std::string> attributes;
    std::vector<Node> children;
    std::string text;  ///< of this element alone, references resolved

    [[nodiscard]] std::vector<const Node*> all(const std::string& wanted) const {
        std::vector<const Node*> found;
        const std::function<void(const Node&)> look = [&](const Node& node) {
            if (node.name == wanted) found.push_back(&node);
            for (const auto& child : node.children) look(child);
        };
        look(*this);
        return found;
    }
    /// The only one of that name.
    [[nodiscard]] const Node& one(const std::string& wanted) const {
        const auto found = all(wanted);
        if (found.size() != 1) throw std::runtime_error{std::to_string(found.size()) + " of " + wanted};
        return *found.front();
    }
    [[nodiscard]] std::string at(const std::string& attribute) const { return attributes.at(attribute); }
};

class Reader {
public:
    explicit Reader(std::string_view text) : text_{text} {}

    Node document() {
        if (base::first_bad_utf8(text_)) fail("bytes that are no UTF-8");
        for (const char c : text_)
            if (static_cast<unsigned char>(c) < 0x20 && c != '\n' && c != '\t' && c != '\r')
                fail("a control character");
        expect("<?xml version=\"1.0\" encoding=\"UTF-8\"?>");
        space();
        Node root = element();
        space();
        if (at_ != text_.size()) fail("something behind the end");
        return root;
    }

private:
    [[noreturn]] void fail(const std::string& what) const {
        throw std::runtime_error{what + " at byte " + std::to_string(at_)};
    }
    [[nodiscard]] bool next_is(std::string_view what) const { return text_.substr(at_, what.size()) == what; }
    void expect(std::string_view what) {
        if (!next_is(what)) fail("expected " + std::string{what});
        at_ += what.size();
    }
    bool space() {
        const auto before = at_;
        while (at_ < text_.size() && std::string_view{" \t\r\n"}.find(text_[at_]) != std::string_view::npos) ++at_;
        return at_ > before;
    }
    std::string name() {
        const auto begin = at_;
        const auto is_start = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_'; };
        if (at_ >= text_.size() || !is_start(text_[at_])) fail("no name");
        while (at_ < text_.size() && (is_start(text_[at_]) || (text_[at_] >= '0' && text_[at_] <= '9') ||
                                      std::string_view{"-.:"}.find(text_[at_]) != std::string_view::npos))
            ++at_;
        return std::string{text_.substr(begin, at_ - begin)};
    }
    char reference() {
        static const std::map<std::string, char, std::less<>> kKnown = {
            {"&amp;", '&'}, {"&lt;", '<'}, {"&gt;", '>'}, {"&quot;", '"'}, {"&#39;", '\''}};
        for (const auto& [text, c] : kKnown) {
            if (!next_is(text)) continue;
            at_ += text.size();
            return c;
        }
        fail("an unknown reference");
    }
    std::string characters(std::string_view until) {
        std::string found;
        while (at_ < text_.size() && until.find(text_[at_]) == std::string_view::npos) {
            if (text_[at_] == '<') fail("< within a value");
            if (next_is("]]>")) fail("]]> in text");
            if (text_[at_] == '&')
                found += reference();
            else
                found += text_[at_++];
        }
        return found;
    }
    Node element() {
        Node node;
        expect("<");
        node.name = name();
        while (space() && !next_is("/") && !next_is(">")) {
            const auto attribute = name();
            expect("=\"");
            if (!node.attributes.emplace(attribute, characters("\"")).second) fail("twice: " + attribute);
            expect("\"");
        }
        if (next_is("/>")) {
            at_ += 2;
            return node;
        }
        expect(">");
        while (!next_is("</")) {
            if (at_ >= text_.size()) fail("no end of " + node.name);
            if (next_is("<"))
                node.children.push_back(element());
            else
                node.text += characters("<");
        }
        expect("</" + node.name + ">");
        return node;
    }

    std::string_view text_;
    std::size_t at_ = 0;
};

/// The root element. Throws std::runtime_error when the text is not well-formed.
[[nodiscard]] inline Node read(std::string_view text) {
    return Reader{text}.document();
}

}  // namespace xml_tree
