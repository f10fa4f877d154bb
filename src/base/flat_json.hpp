#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

namespace base {

/// Reads simple JSON objects without taking memory for each: the way lines of a batch are read by the hundred thousand.
/// It knows texts of printable ASCII without escapes, numbers, true, false, and lists of such texts. Whatever else a
/// line holds, broken JSON among it, is left to parse_located(), which tells what and where. Where both read a line
/// they read the same.
class FlatObject {
public:
    enum class Kind : std::uint8_t { text, number, flag, list };

    struct Member {
        std::string_view name;
        Kind kind = Kind::text;
        std::string_view text;
        double number = 0.0;
        bool flag = false;
        std::size_t first = 0, count = 0;  ///< list: its items
    };

    /// True when the line was one such object and no name stands twice in it. The members point into the line.
    [[nodiscard]] bool read(std::string_view line);

    [[nodiscard]] const std::vector<Member>& members() const { return members_; }
    [[nodiscard]] std::span<const std::string_view> items(const Member& list) const {
        return std::span{items_}.subspan(list.first, list.count);
    }
    /// Null when there is none of that name.
    [[nodiscard]] const Member* find(std::string_view name) const;

private:
    [[nodiscard]] bool stands_already(std::string_view name);
    void skip_space();
    [[nodiscard]] bool take(char wanted);
    [[nodiscard]] bool take_word(std::string_view word);
    [[nodiscard]] bool read_text(std::string_view& text);
    [[nodiscard]] bool read_number(double& number);
    [[nodiscard]] bool read_list(Member& member);
    [[nodiscard]] bool read_value(Member& member);
    [[nodiscard]] bool read_member();

    std::string_view rest_;
    std::vector<Member> members_;
    std::vector<std::string_view> items_;
    std::uint64_t marks_ = 0;  ///< of the names seen, to tell most of them apart at a glance
};

}  // namespace base
