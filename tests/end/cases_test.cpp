#include <doctest/doctest.h>

#include <cstdlib>

#include "end/case_file.hpp"

using namespace end;

namespace {

/// Where two texts part, told by the first line that differs.
std::string parting(const std::string& expected, const std::string& got) {
    std::istringstream a{expected}, b{got};
    for (std::string left, right;;) {
        const bool more_left = static_cast<bool>(std::getline(a, left));
        const bool more_right = static_cast<bool>(std::getline(b, right));
        if (!more_left) left = "(nothing more)";
        if (!more_right) right = "(nothing more)";
        if (left != right || (!more_left && !more_right)) return "expected " + left + "\n     got " + right;
    }
}

void compare(const std::string& path, const Step& expected, const Step& got) {
    const std::string where = path + ":" + std::to_string(expected.line) + "\n";
    CHECK_MESSAGE(expected.exit == got.exit, where, got.complains);
    CHECK_MESSAGE(expected.shows == got.shows, where, parting(expected.shows, got.shows));
    CHECK_MESSAGE(expected.complains == got.complains, where, parting(expected.complains, got.complains));
}

}  // namespace

TEST_CASE("cases: every case file comes out as it is written down") {
    const bool accepting = std::getenv("GREENTAG_ACCEPT") != nullptr;
    for (const auto& path : case_files()) {
        CaseFile file = CaseReader{path}.read();
        REQUIRE_MESSAGE(!file.steps.empty(), path);
        CasePlayer player;
        for (auto& step : file.steps) {
            const Step got = player.play(step);
            if (!accepting) compare(path, step, got);
            step = got;
        }
        if (accepting) write_file(path, to_text(file));
    }
}

TEST_CASE("cases: a case file that is read and written is the same to the byte") {
    CHECK(case_files().size() >= 10);
    for (const auto& path : case_files()) CHECK_MESSAGE(to_text(CaseReader{path}.read()) == read_file(path), path);
}

TEST_CASE("cases: the reader keeps ends, escapes and empty lines apart") {
    CHECK(as_lines("a\n\nb") == "| a\n| \n\\ b\n");
    CHECK(as_lines("\x1b[1mx\r\n") == "| ␛[1mx␍\n");
    CHECK(words_of("crew add \"Ada Volt\" --edition 2020") == Words{"crew", "add", "Ada Volt", "--edition", "2020"});
}
