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
    // A slash after a space says how sure; "1/2" has none before it and "3 /4" is no word for being sure.
    const auto slash = text.rfind(" /");
    if (slash != std::string_view::npos) {
        typed.sure = parse_sure_word(text.substr(slash + 2));
        if (typed.sure) typed.text = base::trim(text.substr(0, slash));
    }
    return typed;
}

}  // namespace cli
