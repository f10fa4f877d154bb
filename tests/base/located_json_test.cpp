#include "base/located_json.hpp"

#include <algorithm>
#include <map>

#include <doctest/doctest.h>

#include "base/random.hpp"
#include "base/text.hpp"

namespace {

using base::Faults;
using base::Located;
using base::Reader;

const std::string kSample =
    "{\n"
    "  \"text\": \"one\\ntwo\",\n"
    "  \"number\": 12\n"
    "  ,\n"
    "  \"list\": [true,\n"
    "    false, null,\r\n"
    "    -3.5e2\n"
    "  ],\n"
    "  \"in\": {\"a\": 1, \"b\":\n"
    "2}, \"last\": \"\xC3\xA9\"\n"
    "}\n";

Located parsed(const std::string& text) {
    auto located = base::parse_located(text, "t.json");
    REQUIRE(located.has_value());
    return std::move(*located);
}

void gather_lines(const Located& node, const std::string& at, std::map<std::string, int>& lines) {
    lines[at] = node.line;
    if (const auto* members = std::get_if<Located::Members>(&node.value))
        for (const auto& [key, value] : *members) gather_lines(value, at + "/" + key, lines);
    if (const auto* list = std::get_if<Located::List>(&node.value))
        for (std::size_t i = 0; i < list->size(); ++i) gather_lines((*list)[i], at + "/" + std::to_string(i), lines);
}

Faults faults_of(const std::string& text) {
    const auto located = base::parse_located(text, "t.json");
    return located ? Faults{} : located.error();
}

std::string blank(base::Random& random) {
    static const std::vector<std::string> kBlanks = {"", " ", "\n", "\r\n", " \n\n ", "\t"};
    return kBlanks[random.below(kBlanks.size())];
}

/// Writes random JSON and notes on which line each of its values begins: the line is counted while writing.
class Author {
public:
    explicit Author(base::Seed seed) : random_{seed} {}

    void value(const std::string& at, int depth) {
        put(blank(random_));
        lines[at] = 1 + static_cast<int>(std::count(text.begin(), text.end(), '\n'));
        const auto kind = random_.below(depth > 3 ? 4 : 6);
        if (kind < 4)
            put(std::vector<std::string>{"12", "-0.5e1", "\"x y\"", "null"}[kind]);
        else
            several(at, depth, kind == 4);
        put(blank(random_));
    }

    std::string text;
    std::map<std::string, int> lines;

private:
    void put(const std::string& more) { text += more; }
    void several(const std::string& at, int depth, bool list) {
        put(list ? "[" : "{");
        const auto count = random_.below(4);
        for (std::uint64_t i = 0; i < count; ++i) {
            if (i > 0) put(",");
            const std::string name = list ? std::to_string(i) : "k" + std::to_string(i);
            if (!list) put(blank(random_) + "\"" + name + "\"" + blank(random_) + ":");
            value(at + "/" + name, depth + 1);
        }
        put(list ? "]" : "}");
    }
    base::Random random_;
};

std::vector<std::string> texts_of(const Faults& faults) {
    std::vector<std::string> texts;
    for (const auto& fault : faults)
        texts.push_back(fault.pointer + ":" + std::to_string(fault.line) + " " + fault.what);
    return texts;
}

}  // namespace

TEST_CASE("json: every value of a sample has its line") {
    std::map<std::string, int> lines;
    gather_lines(parsed(kSample), "", lines);
    const std::map<std::string, int> expected = {{"", 1},        {"/text", 2},   {"/number", 3}, {"/list", 5},
                                                 {"/list/0", 5}, {"/list/1", 6}, {"/list/2", 6}, {"/list/3", 7},
                                                 {"/in", 9},     {"/in/a", 9},   {"/in/b", 10},  {"/last", 10}};
    CHECK(lines == expected);
}

TEST_CASE("json: property: lines are right in random documents") {
    for (base::Seed seed = 1; seed <= 1000; ++seed) {
        CAPTURE(seed);
        Author author{seed};
        author.value("", 0);
        std::map<std::string, int> lines;
        gather_lines(parsed(author.text), "", lines);
        CHECK(lines == author.lines);
    }
}

TEST_CASE("json: values come through unchanged, and objects know their bytes") {
    const Located root = parsed(kSample);
    CHECK(std::get<std::string>(root.find("text")->value) == "one\ntwo");
    CHECK(std::get<double>(root.find("number")->value) == 12);
    CHECK(std::get<double>(std::get<Located::List>(root.find("list")->value).at(3).value) == -350);
    const Located& in = *root.find("in");
    CHECK(kSample.substr(in.begin, in.end - in.begin) == "{\"a\": 1, \"b\":\n2}");
    CHECK(kSample.substr(root.begin, root.end - root.begin) == kSample.substr(0, kSample.size() - 1));
    CHECK(root.find("none") == nullptr);
    CHECK(root.find("text")->find("none") == nullptr);
}

TEST_CASE("json: kinds have names a person uses") {
    for (const auto& [text, kind] : std::map<std::string, std::string>{{"null", "null"},
                                                                       {"true", "true or false"},
                                                                       {"1", "a number"},
                                                                       {"\"\"", "text"},
                                                                       {"[]", "a list"},
                                                                       {"{}", "an object"}})
        CHECK(parsed(text).kind() == kind);
}

TEST_CASE("json: a document cut at any byte is a fault with a line, in well-formed words") {
    const std::size_t whole = kSample.size() - 1;
    for (std::size_t cut = 0; cut < whole; ++cut) {
        CAPTURE(cut);
        const auto faults = faults_of(kSample.substr(0, cut));
        REQUIRE(faults.size() == 1);
        CHECK(faults[0].line >= 1);
        CHECK(faults[0].line <= 11);
        CHECK_FALSE(base::first_bad_utf8(faults[0].what).has_value());
    }
}

TEST_CASE("json: property: a damaged byte never does more than give a fault") {
    std::size_t refused = 0;
    for (base::Seed seed = 1; seed <= 3000; ++seed) {
        CAPTURE(seed);
        base::Random random{seed};
        std::string text = kSample;
        text[random.below(text.size())] = static_cast<char>(random.below(256));
        const auto faults = faults_of(text);
        for (const auto& fault : faults) CHECK_FALSE(base::first_bad_utf8(fault.what).has_value());
        refused += faults.empty() ? 0 : 1;
    }
    CHECK(refused > 1000);
}

TEST_CASE("json: broken documents by table, each with its line") {
    struct Row {
        std::string text;
        int line;
    };
    const std::vector<Row> rows = {{"", 1},
                                   {"{", 1},
                                   {"[1,\n2,\n]", 3},
                                   {"{\"a\" 1}", 1},
                                   {"{} {}", 1},
                                   {"[\n\"a\xFF\"]", 2},
                                   {"[\"\xED\xA0\x80\"]", 1},
                                   {"[1e999]", 1},
                                   {"[01]", 1},
                                   {"[\"\t\"]", 1},
                                   {"'a'", 1},
                                   {"// a\n1", 1}};
    for (const auto& row : rows) {
        CAPTURE(row.text);
        const auto faults = faults_of(row.text);
        REQUIRE(faults.size() == 1);
        CHECK(faults[0].line == row.line);
        CHECK(faults[0].file == "t.json");
        CHECK(faults[0].what.find("exception") == std::string::npos);
        CHECK_FALSE(base::first_bad_utf8(faults[0].what).has_value());
    }
}

TEST_CASE("json: every key that stands twice is told, with its line") {
    const auto faults = faults_of("{\"a\": 1,\n\"a\": 2, \"in\": {\"b\": 1,\n\"b\": 1}}");
    REQUIRE(faults.size() == 2);
    CHECK(faults[0].line == 2);
    CHECK(faults[0].what.find("\"a\"") != std::string::npos);
    CHECK(faults[1].line == 3);
    CHECK(faults_of("[{\"a\": 1}, {\"a\": 2}]").empty());
}

TEST_CASE("json: a byte-order mark is passed over") {
    const Located root = parsed("\xEF\xBB\xBF{\n\"a\": 1}");
    CHECK(root.find("a")->line == 2);
    CHECK(root.begin == 3);
    CHECK_FALSE(faults_of("\xEF\xBB{}").empty());
}

TEST_CASE("json: nesting is read to a depth and refused beyond it") {
    const auto nested = [](std::size_t depth) { return std::string(depth, '[') + std::string(depth, ']'); };
    CHECK(faults_of(nested(64)).empty());
    const auto faults = faults_of(nested(65));
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].what.find("64 deep") != std::string::npos);
    CHECK(faults_of(std::string(1'000'000, '[')).size() == 1);
}

TEST_CASE("reader: tells all problems of a document at once, each at its place") {
    const Located root = parsed("{\"title\": 5,\n\"lst\": [],\n\"items\": [1,\n\"b\", {}],\n\"on\": \"yes\"}");
    Faults faults;
    const Reader reader{root, "t.json", "", faults};
    reader.only({"title", "list", "items", "on"});
    CHECK(reader.text("title").empty());
    CHECK(reader.number("count") == 0.0);
    CHECK(reader.texts("items") == std::vector<std::string>{"", "b", ""});
    CHECK(reader.flag_or("on", true));
    CHECK(texts_of(faults) ==
          std::vector<std::string>{"/lst:2 unknown field \"lst\"", "/title:1 this should be text but is a number",
                                   ":1 \"count\" is missing", "/items/0:3 this should be text but is a number",
                                   "/items/2:4 this should be text but is an object",
                                   "/on:5 this should be true or false but is text"});
}

TEST_CASE("reader: an unknown field is a warning that names the nearest known one") {
    const Located root = parsed("{\"editons\": 1, \"zzz\": 2}");
    Faults faults;
    Reader{root, "t.json", "/p", faults}.only({"editions", "text"});
    REQUIRE(faults.size() == 2);
    CHECK(faults[0].warning);
    CHECK(faults[0].mend == "did you mean \"editions\"?");
    CHECK(faults[1].mend == "known here: editions, text");
    CHECK(faults[1].pointer == "/p/zzz");
}

TEST_CASE("reader: what may be missing is not missed") {
    const Located root = parsed("{\"n\": 2, \"t\": \"x\", \"f\": true, \"l\": [\"a\"]}");
    Faults faults;
    const Reader reader{root, "t.json", "", faults};
    CHECK(reader.number_or("n", 1) == 2);
    CHECK(reader.number_or("no", 1) == 1);
    CHECK(reader.text_or("t", "y") == "x");
    CHECK(reader.text_or("no", "y") == "y");
    CHECK(reader.flag_or("f", false));
    CHECK(reader.texts_or_none("l").size() == 1);
    CHECK(reader.items_or_none("no").empty());
    CHECK(faults.empty());
}

TEST_CASE("reader: a missing member is told once, however much is then asked of it") {
    const Located root = parsed("{}");
    Faults faults;
    const Reader inner = Reader{root, "t.json", "", faults}.member("basis");
    inner.only({"kind"});
    CHECK(inner.text("kind").empty());
    CHECK(inner.member("deeper").items("list").empty());
    CHECK(texts_of(faults) == std::vector<std::string>{":1 \"basis\" is missing"});
}

TEST_CASE("reader: a mistyped member is told once, however much is then asked of it") {
    const Located root = parsed("{\"basis\": \"memory\", \"list\": {}}");
    Faults faults;
    const Reader reader{root, "t.json", "", faults};
    const Reader inner = reader.member("basis");
    inner.only({"kind"});
    CHECK(inner.text("kind").empty());
    CHECK(reader.items("list").empty());
    CHECK(texts_of(faults) == std::vector<std::string>{"/basis:1 this should be an object but is text",
                                                       "/list:1 this should be a list but is an object"});
}

TEST_CASE("reader: pointers escape the two signs that need it") {
    const Located root = parsed("{\"a/b\": {\"c~d\": 1}}");
    Faults faults;
    const Reader reader{root, "t.json", "", faults};
    CHECK(reader.member("a/b").member("c~d").pointer() == "/a~1b/c~0d");
    CHECK(reader.members().size() == 1);
}
