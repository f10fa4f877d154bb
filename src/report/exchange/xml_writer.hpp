#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace report {

/// The text as XML character data or an attribute's value in double quotes. Characters that XML 1.0 has no place for
/// (section 2.2: controls but tab, line feed and carriage return; surrogates; U+FFFE and U+FFFF) and bytes that are no
/// UTF-8 are left out.
[[nodiscard]] std::string xml_escaped(std::string_view text);

/// A name without colon (NCName of "Namespaces in XML" 1.0) out of any text: ASCII letters, digits and hyphens stay, a
/// period becomes "_", any other byte "_" and two hexadecimal digits. What begins with no letter gets "q-" before it.
[[nodiscard]] std::string xml_name(std::string_view text);

/// Writes one XML document, element by element; everything is escaped on the way, and nothing can be left open.
class XmlWriter {
public:
    using Attributes = std::vector<std::pair<std::string, std::string>>;

    XmlWriter();

    void open(const std::string& name, const Attributes& attributes = {});
    void text(std::string_view text);
    void close();
    /// An element that holds text alone, or nothing when the text is empty.
    void leaf(const std::string& name, const Attributes& attributes, std::string_view text);
    void leaf(const std::string& name, std::string_view text) { leaf(name, {}, text); }
    void empty(const std::string& name, const Attributes& attributes) { leaf(name, attributes, {}); }

    /// The document; closes what is still open.
    [[nodiscard]] std::string finish();

private:
    struct Element {
        std::string name;
        bool has_elements = false;
        bool has_text = false;  ///< then no white space may be put in
    };
    void new_line();
    void end_start_tag();

    std::string out_;
    std::vector<Element> open_;
    bool in_start_tag_ = false;
};

}  // namespace report
