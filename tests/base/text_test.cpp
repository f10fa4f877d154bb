#include "base/text.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "base/random.hpp"

namespace {

using base::Random;
using base::Seed;

/// Words of one to thirty characters, narrow, wide and combining, with a broken byte now and then.
std::string random_word(Random& random) {
    static const std::vector<std::string> kPieces = {
        "a", "z", "7", "-", "\xC3\xA9", "\xE2\x84\xA6", "\xE9\x9B\xBB", "\xF0\x9F\x94\x8C", "e\xCC\x81", "\xFF"};
    std::string word;
    for (auto left = 1 + random.below(30); left > 0; --left) word += kPieces[random.below(kPieces.size())];
    return word;
}

std::vector<std::string> random_words(Random& random) {
    std::vector<std::string> words(1 + random.below(12));
    for (auto& word : words) word = random_word(random);
    return words;
}

std::string without_spaces(const std::string& text) {
    std::string kept = text;
    std::erase(kept, ' ');
    return kept;
}

/// Short texts over two letters, so that edits of every kind come up.
std::string random_letters(Random& random) {
    std::string text(random.below(6), 'a');
    for (char& c : text) c = "ab"[random.below(2)];
    return text;
}

/// The definition, word for word: the last sign was replaced, taken out, put in, or swapped with its neighbour.
std::size_t slow_distance(std::string_view a, std::string_view b) {
    if (a.empty() || b.empty()) return a.size() + b.size();
    const auto a1 = a.substr(0, a.size() - 1);
    const auto b1 = b.substr(0, b.size() - 1);
    std::size_t least = slow_distance(a1, b1) + (a.back() == b.back() ? 0 : 1);
    least = std::min({least, slow_distance(a1, b) + 1, slow_distance(a, b1) + 1});
    const bool swapped = !a1.empty() && !b1.empty() && a.back() == b1.back() && b.back() == a1.back();
    if (swapped) least = std::min(least, slow_distance(a1.substr(0, a1.size() - 1), b1.substr(0, b1.size() - 1)) + 1);
    return least;
}

}  // namespace

TEST_CASE("text: well-formed UTF-8 is taken, up to the last code point of each length") {
    for (const std::string good : {"", "a", "\x7F", "\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xED\x9F\xBF",
                                   "\xEE\x80\x80", "\xEF\xBF\xBF", "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF"}) {
        CAPTURE(good.size());
        CHECK_FALSE(base::first_bad_utf8(good).has_value());
    }
}

TEST_CASE("text: the first bad byte of ill-formed UTF-8 is found") {
    struct Row {
        std::string text;
        std::size_t at;
    };
    const std::vector<Row> rows = {{"\x80", 0},               // a follower without a lead
                                   {"ab\xBF", 2},             // the same, later
                                   {"\xC0\x80", 0},           // overlong zero
                                   {"\xC1\xBF", 0},           // overlong, two bytes
                                   {"\xE0\x9F\xBF", 0},       // overlong, three bytes
                                   {"\xF0\x8F\xBF\xBF", 0},   // overlong, four bytes
                                   {"\xED\xA0\x80", 0},       // first surrogate
                                   {"\xED\xBF\xBF", 0},       // last surrogate
                                   {"\xF4\x90\x80\x80", 0},   // past the last code point
                                   {"\xF5\x80\x80\x80", 0},   // no lead at all
                                   {"\xFF", 0},               //
                                   {"x\xC3", 1},              // cut short
                                   {"x\xE2\x84", 1},          //
                                   {"x\xF0\x9F\x94", 1},      //
                                   {"\xC3\xA9\xC3\x28", 2}};  // a follower that is none
    for (const auto& row : rows) {
        CAPTURE(row.at);
        CHECK(base::first_bad_utf8(row.text) == row.at);
    }
}

TEST_CASE("text: width counts columns, not bytes") {
    struct Row {
        std::string text;
        std::size_t width;
    };
    const std::vector<Row> rows = {{"", 0},
                                   {"abc", 3},
                                   {"\xC3\xA9", 1},
                                   {"e\xCC\x81", 1},
                                   {"\xE9\x9B\xBB", 2},
                                   {"\t\x1b\n", 0},
                                   {"\xF0\x9F\x94\x8C", 2},
                                   {"\xC2\x85", 0},
                                   {"\xFF", 1},
                                   {"\xEF\xBD\x81", 1 + 1}};
    for (const auto& row : rows) {
        CAPTURE(row.text);
        CHECK(base::display_width(row.text) == row.width);
    }
}

TEST_CASE("text: property: no wrapped line is wider than asked, and no word is lost") {
    for (Seed seed = 1; seed <= 2000; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        const auto words = random_words(random);
        const std::size_t width = 8 + random.below(60);
        const auto lines = base::wrap(base::join(words, " "), width, random.below(12));
        for (const auto& line : lines) CHECK(base::display_width(line) <= width);
        CHECK(without_spaces(base::join(lines, "")) == base::join(words, ""));
    }
}

TEST_CASE("text: property: words that fit on a line are never cut") {
    for (Seed seed = 1; seed <= 500; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        std::vector<std::string> words(1 + random.below(30));
        for (auto& word : words) word = std::string(1 + random.below(8), static_cast<char>('a' + random.below(26)));
        const auto lines = base::wrap(base::join(words, " "), 8 + random.below(40));
        CHECK(base::join(lines, " ") == base::join(words, " "));
    }
}

TEST_CASE("text: wrapping keeps line feeds, indents later lines, and gives at least one line") {
    CHECK(base::wrap("", 20) == std::vector<std::string>{""});
    CHECK(base::wrap("one\ntwo", 20, 2) == std::vector<std::string>{"one", "  two"});
    CHECK(base::wrap("aaaa bbbb cccc", 9, 2) == std::vector<std::string>{"aaaa bbbb", "  cccc"});
    CHECK(base::wrap("abcdefghij", 3) == std::vector<std::string>{"abcdefgh", "ij"});
}

TEST_CASE("text: property: edit distance agrees with its definition") {
    for (Seed seed = 1; seed <= 1500; ++seed) {
        Random random{seed};
        const auto a = random_letters(random);
        const auto b = random_letters(random);
        CHECK_MESSAGE(base::edit_distance(a, b) == slow_distance(a, b), a, " / ", b);
    }
}

TEST_CASE("text: the nearest word is the one meant, or none") {
    const std::vector<std::string> known = {"editions", "edition", "wrong", "right", "text"};
    CHECK(base::nearest("editons", known) == "editions");
    CHECK(base::nearest("Wrogn", known) == "wrong");
    CHECK(base::nearest("txet", known) == "text");
    CHECK_FALSE(base::nearest("zzzzzz", known).has_value());
    CHECK_FALSE(base::nearest("ab", {"xy"}).has_value());
    CHECK_FALSE(base::nearest("text", {}).has_value());
}

TEST_CASE("text: property: nearest is the first of the least distance") {
    for (Seed seed = 1; seed <= 300; ++seed) {
        CAPTURE(seed);
        Random random{seed};
        std::vector<std::string> known(1 + random.below(5));
        for (auto& word : known) word = "aa" + random_letters(random);
        const std::string given = "aa" + random_letters(random);
        const auto found = base::nearest(given, known);
        const auto least = std::min_element(known.begin(), known.end(), [&](const auto& a, const auto& b) {
            return slow_distance(given, a) < slow_distance(given, b);
        });
        const bool near = slow_distance(given, *least) <= std::max<std::size_t>(2, given.size() / 3);
        CHECK(found.has_value() == near);
        if (found) CHECK(*found == *least);
    }
}

TEST_CASE("text: numbers are written without idle zeros") {
    struct Row {
        double value;
        int places;
        std::string text;
    };
    const std::vector<Row> rows = {{0, 4, "0"},       {-0.00001, 4, "0"},      {2.25, 4, "2.25"},
                                   {100, 4, "100"},   {100, 0, "100"},         {0.125, 2, "0.12"},
                                   {-1.5, 4, "-1.5"}, {20.3125, 4, "20.3125"}, {1e6, 4, "1000000"}};
    for (const auto& row : rows) CHECK(base::number_text(row.value, row.places) == row.text);
}

TEST_CASE("text: trimming, splitting and joining") {
    CHECK(base::trim(" \t a b \r\n") == "a b");
    CHECK(base::trim(" \n").empty());
    CHECK(base::split("a,,b", ',') == std::vector<std::string>{"a", "", "b"});
    CHECK(base::split("", ',') == std::vector<std::string>{""});
    CHECK(base::join({}, ", ").empty());
    CHECK(base::join({"a", "b"}, ", ") == "a, b");
}

TEST_CASE("text: words are small, and keep the signs of numbers and references") {
    CHECK(base::words("See 210.8(A)(4), OK.") == std::vector<std::string>{"see", "210.8(a)(4)", "ok"});
    CHECK(base::words("1/2 in...") == std::vector<std::string>{"1/2", "in"});
    CHECK(base::words(" ... ").empty());
    CHECK(base::lower("ABC \xC3\x89") == "abc \xC3\x89");
}
