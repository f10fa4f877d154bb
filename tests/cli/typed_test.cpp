#include "cli/typed.hpp"

#include <vector>

#include <doctest/doctest.h>

namespace {

using cli::TypedLine;
using memory::Sure;
using Kind = cli::TypedLine::Kind;

struct Row {
    std::string_view line;
    Kind kind;
    std::string_view text;
    std::optional<Sure> sure;
};

}  // namespace

TEST_CASE("typed line: is taken apart") {
    const std::vector<Row> rows = {{"", Kind::empty, "", {}},
                                   {"  \r", Kind::empty, "", {}},
                                   {"?", Kind::look, "", {}},
                                   {" ! ", Kind::give_up, "", {}},
                                   {"q", Kind::leave, "", {}},
                                   {"QUIT", Kind::leave, "", {}},
                                   {"b", Kind::answer, "b", {}},
                                   {" b /s ", Kind::answer, "b", Sure::sure},
                                   {"b /Sure", Kind::answer, "b", Sure::sure},
                                   {"a c /f", Kind::answer, "a c", Sure::fairly},
                                   {"18 in3 /guess", Kind::answer, "18 in3", Sure::guess},
                                   {"1/2", Kind::answer, "1/2", {}},
                                   {"3 /4", Kind::answer, "3 /4", {}},
                                   {"b/s", Kind::answer, "b", Sure::sure},
                                   {"a/c", Kind::answer, "a/c", {}},
                                   {"b /x /g", Kind::answer, "b /x", Sure::guess},
                                   {"quite so", Kind::answer, "quite so", {}},
                                   {"?!", Kind::answer, "?!", {}}};
    for (const auto& row : rows) {
        CAPTURE(row.line);
        const TypedLine typed = cli::parse_typed_line(row.line);
        CHECK(typed.kind == row.kind);
        CHECK(typed.text == row.text);
        CHECK(typed.sure == row.sure);
    }
    CHECK(cli::parse_typed_line("b /maybe").unread == "maybe");
    CHECK(cli::parse_typed_line("b /s").unread.empty());
    CHECK(cli::parse_typed_line("3 /4").unread.empty());
}

TEST_CASE("typed line: how sure is said by word or by first letter") {
    for (const auto sure : {Sure::guess, Sure::fairly, Sure::sure}) {
        CHECK(cli::parse_sure_word(memory::to_text(sure)) == sure);
        CHECK(cli::parse_sure_word(memory::to_text(sure).substr(0, 1)) == sure);
    }
    CHECK(cli::parse_sure_word(" S ") == Sure::sure);
    for (const std::string_view none : {"", "su", "x", "very sure"})
        CHECK_FALSE(cli::parse_sure_word(none).has_value());
}
