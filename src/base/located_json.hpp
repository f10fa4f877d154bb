#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "base/fault.hpp"

namespace base {

/// A JSON value that remembers where it stood.
struct Located {
    using List = std::vector<Located>;
    using Members = std::vector<std::pair<std::string, Located>>;

    std::variant<std::nullptr_t, bool, double, std::string, List, Members> value;
    int line = 0;           ///< on which it began, counted from 1
    std::size_t begin = 0;  ///< bytes of the text, for lists and objects: [begin, end)
    std::size_t end = 0;

    // Out of line: clang 14 looks into these while the list of members above is still incomplete.
    Located();
    Located(const Located&);
    Located(Located&&) noexcept;
    Located& operator=(const Located&);
    Located& operator=(Located&&) noexcept;
    ~Located();

    [[nodiscard]] const Located* find(std::string_view key) const;
    /// "an object", "a list", "text", "a number", "true or false", "null".
    [[nodiscard]] std::string_view kind() const;
};

/// Reads one JSON document (RFC 8259). A byte-order mark is passed over.
/// Errors: broken JSON, bytes that are not UTF-8, and keys that stand twice in one object, each with its line.
[[nodiscard]] Checked<Located> parse_located(std::string_view text, const std::string& file);

/// Walks a located document, turning it into values of ours and noting every fault on the way.
/// Missing and mistyped values are noted once and give an empty value, so that the walk can go on.
class Reader {
public:
    Reader(const Located& node, std::string file, std::string pointer, Faults& faults)
        : node_{&node}, file_{std::move(file)}, pointer_{std::move(pointer)}, faults_{&faults} {}

    [[nodiscard]] const Located& node() const { return *node_; }
    [[nodiscard]] const std::string& pointer() const { return pointer_; }
    [[nodiscard]] const std::string& file() const { return file_; }
    [[nodiscard]] int line() const { return node_->line; }
    [[nodiscard]] bool has(std::string_view key) const { return node_->find(key) != nullptr; }
    /// True when the member is there and is text: what it says can then be judged.
    [[nodiscard]] bool has_text(std::string_view key) const;

    /// Notes a warning, with the nearest known name, for each member that is not in the list.
    void only(const std::vector<std::string>& known) const;

    [[nodiscard]] std::string text(std::string_view key) const;
    [[nodiscard]] std::string text_or(std::string_view key, std::string otherwise) const;
    [[nodiscard]] double number(std::string_view key) const;
    [[nodiscard]] double number_or(std::string_view key, double otherwise) const;
    [[nodiscard]] bool flag_or(std::string_view key, bool otherwise) const;
    [[nodiscard]] std::vector<std::string> texts(std::string_view key) const;
    [[nodiscard]] std::vector<std::string> texts_or_none(std::string_view key) const;
    /// The items of a list; empty, and noted, when it is not a list.
    [[nodiscard]] std::vector<Reader> items(std::string_view key) const;
    [[nodiscard]] std::vector<Reader> items_or_none(std::string_view key) const;
    /// The member as a reader of its own; a reader over an empty object when it is missing.
    [[nodiscard]] Reader member(std::string_view key) const;
    /// Members of this object in the order of the file.
    [[nodiscard]] std::vector<std::pair<std::string, Reader>> members() const;

    /// This value itself as text or number; noted when it is something else.
    [[nodiscard]] std::string as_text() const;
    [[nodiscard]] double as_number() const;

    void fault(std::string what, std::string mend) const;
    void warn(std::string what, std::string mend) const;

private:
    void note(std::string what, std::string mend, bool warning) const;
    [[nodiscard]] const Located* need(std::string_view key) const;
    [[nodiscard]] Reader child(std::string_view key, const Located& node) const;

    const Located* node_;
    std::string file_, pointer_;
    Faults* faults_;
};

}  // namespace base
