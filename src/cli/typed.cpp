#include "cli/typed.hpp"

#include "base/text.hpp"

namespace cli {

std::optional<memory::Sure> parse_sure_word(std::string_view word) {
    const std::string small = base::lower(base::trim(word));
    for (const auto sure : {memory::Sure::guess, memory::Sure::fairly, memory::Sure::sure})
        if (small == memory::to_text(sure) || small == memory::to_text(sure).substr(0, 1)) return sure;
    return std::nullopt;
}

TypedLine parse_typed_line(std::string_view line) {
    TypedLine typed;
    const std::string_view text = base::trim(line);
    if (text.empty()) return typed;
    const std::string small = base::lower(text);
    if (small == "q" || small == "quit")
        typed.kind = TypedLine::Kind::leave;
    else if (small == "?")
        typed.kind = TypedLine::Kind::look;
    else if (small == "!")
        typed.kind = TypedLine::Kind::give_up;
    if (typed.kind != TypedLine::Kind::empty) return typed;
    typed.kind = TypedLine::Kind::answer;
    typed.text = text;
    // A slash before a word for being sure says how sure, with a space or without; "1/2" and "3 /4" have no such word.
    const auto slash = text.rfind('/');
    if (slash == std::string_view::npos) return typed;
    const std::string_view word = base::trim(text.substr(slash + 1));
    typed.sure = parse_sure_word(word);
    if (typed.sure)
        typed.text = base::trim(text.substr(0, slash));
    else if (slash > 0 && text[slash - 1] == ' ' && !word.empty() && word.front() >= 'a' && word.front() <= 'z')
        typed.unread = word;
    return typed;
}

}  // namespace cli
