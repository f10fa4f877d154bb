// The arrows between the source folders, enforced: what docs/how-it-works.md says of folders holds in the sources.
//
// The judging is a pure function over (path, text) pairs, so the rules are tried on small made-up trees before they are
// let loose on the real one. A rule that cannot fail proves nothing.
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <optional>
#include <set>
#include <sstream>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace {

using Tree = std::map<std::string, std::string>;  // path below src/ -> file text
using Findings = std::vector<std::string>;
using Names = std::vector<std::string>;

const Names kOrder = {"base", "trade", "memory", "content", "store", "practice", "report", "web", "cli"};

// Folders that must not know each other although one stands above the other.
const std::vector<std::pair<std::string, std::string>> kStrangers = {
    {"memory", "trade"}, {"memory", "content"}, {"store", "trade"}, {"store", "content"}};

// From the first folder only these headers of the second may be known.
const std::map<std::pair<std::string, std::string>, Names> kNarrow = {
    {{"store", "memory"}, {"memory/state.hpp"}},
    {{"practice", "store"}, {"store/answer_log.hpp", "store/crew.hpp", "store/fit_record.hpp"}}};

// Sub-folders that only their parent may look into.
const Names kPrivate = {"store/sqlite", "web/pages", "content/read"};

// Headers from outside, and the places that may know them.
const std::map<std::string, Names> kConfined = {
    {"sqlite3.h", {"store/sqlite"}},
    {"nlohmann/json.hpp", {"base", "content", "store", "report", "web", "cli"}},
    {"httplib.h", {"web"}},
    {"CLI/CLI.hpp", {"cli"}},
    {"iostream", {"cli", "main.cpp"}},
    {"fstream", {"content", "store", "report", "cli"}},
    {"random", {}}};

// Words that let the world in, and the places where it may come in.
const std::map<std::string, Names> kWords = {{"system_clock::now", {"main.cpp"}},
                                             {"steady_clock::now", {"main.cpp", "web"}},
                                             {"random_device", {"main.cpp"}},
                                             {"getenv", {"main.cpp", "cli"}}};

std::string layer_of(std::string_view path) {
    return std::string{path.substr(0, path.find('/'))};
}

// Position in kOrder; main.cpp and anything unknown stand above every layer.
std::size_t rank(const std::string& layer) {
    return static_cast<std::size_t>(std::find(kOrder.begin(), kOrder.end(), layer) - kOrder.begin());
}

bool within(const std::string& path, const Names& places) {
    return std::any_of(places.begin(), places.end(),
                       [&](const std::string& place) { return path == place || path.starts_with(place + "/"); });
}

struct Include {
    std::string header;
    bool ours = false;
};

std::string_view without_blanks(std::string_view text) {
    const auto first = text.find_first_not_of(" \t");
    return first == std::string_view::npos ? std::string_view{} : text.substr(first);
}

/// What one line includes, if it does; comments that speak of including do not.
std::optional<Include> include_in(std::string_view line) {
    line = without_blanks(line);
    if (!line.starts_with("#")) return std::nullopt;
    line = without_blanks(line.substr(1));
    if (!line.starts_with("include")) return std::nullopt;
    line = without_blanks(line.substr(7));
    if (line.empty() || (line.front() != '"' && line.front() != '<')) return std::nullopt;
    const auto end = line.find(line.front() == '"' ? '"' : '>', 1);
    if (end == std::string_view::npos) return std::nullopt;
    return Include{std::string{line.substr(1, end - 1)}, line.front() == '"'};
}

std::vector<Include> includes_of(const std::string& text) {
    std::vector<Include> found;
    std::istringstream lines{text};
    for (std::string line; std::getline(lines, line);)
        if (auto include = include_in(line)) found.push_back(std::move(*include));
    return found;
}

bool strangers(const std::string& a, const std::string& b) {
    return std::any_of(kStrangers.begin(), kStrangers.end(), [&](const auto& pair) {
        return pair == std::pair{a, b} || pair == std::pair{b, a};
    });
}

void judge_ours(const std::string& path, const std::string& header, Findings& out) {
    const auto from = layer_of(path);
    const auto to = layer_of(header);
    const auto narrow = kNarrow.find({from, to});
    const bool let_through =
        narrow != kNarrow.end() && std::count(narrow->second.begin(), narrow->second.end(), header) > 0;
    if (header.find('/') == std::string::npos) out.push_back(path + ": " + header + " is not written from src/");
    if (rank(to) > rank(from)) out.push_back(path + " reaches up to " + header);
    if (strangers(from, to)) out.push_back(path + " knows " + header + ", a stranger");
    if (narrow != kNarrow.end() && !let_through) out.push_back(path + " knows " + header + ", which is not its door");
    for (const auto& inside : kPrivate)
        if (header.starts_with(inside + "/") && layer_of(inside) != from) out.push_back(path + " looks into " + inside);
}

void judge(const std::string& path, const std::string& text, Findings& out) {
    for (const auto& [header, ours] : includes_of(text)) {
        if (const auto confined = kConfined.find(header);
            confined != kConfined.end() && !within(path, confined->second))
            out.push_back(path + " includes " + header);
        if (ours) judge_ours(path, header, out);
    }
    for (const auto& [word, places] : kWords)
        if (text.find(word) != std::string::npos && !within(path, places)) out.push_back(path + " says " + word);
    if (path.ends_with(".hpp") && text.find("using namespace") != std::string::npos)
        out.push_back(path + " opens a namespace for whoever includes it");
}

// Headers that reach themselves by way of others.
void judge_cycles(const Tree& tree, Findings& out) {
    for (const auto& [start, text] : tree) {
        std::set<std::string> seen;
        Names open = {start};
        while (!open.empty()) {
            const auto path = open.back();
            open.pop_back();
            const auto file = tree.find(path);
            if (file == tree.end()) continue;
            for (const auto& [header, ours] : includes_of(file->second)) {
                if (header == start) out.push_back(start + " includes itself by way of " + path);
                if (ours && seen.insert(header).second) open.push_back(header);
            }
        }
    }
}

Findings findings(const Tree& tree) {
    Findings out;
    for (const auto& [path, text] : tree) judge(path, text, out);
    judge_cycles(tree, out);
    return out;
}

Tree read_tree(const std::filesystem::path& root) {
    Tree tree;
    for (const auto& entry : std::filesystem::recursive_directory_iterator{root}) {
        const auto ext = entry.path().extension();
        if (ext != ".hpp" && ext != ".cpp") continue;
        std::ifstream in{entry.path(), std::ios::binary};
        tree[entry.path().lexically_relative(root).generic_string()] =
            std::string{std::istreambuf_iterator<char>{in}, {}};
    }
    return tree;
}

std::size_t lines_in(const std::string& text) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

}  // namespace

TEST_CASE("layout: arrows that are right pass") {
    CHECK(findings({{"cli/study.cpp", "#include \"practice/session.hpp\"\n"}}).empty());
    CHECK(findings({{"main.cpp", "#include \"cli/verbs.hpp\"\n getenv(\"HOME\") system_clock::now()"}}).empty());
    CHECK(findings({{"store/sqlite/db.cpp", "#include <sqlite3.h>\n"}}).empty());
    CHECK(findings({{"store/store.cpp", "#include \"store/sqlite/db.hpp\"\n#include \"memory/state.hpp\"\n"}}).empty());
    CHECK(findings({{"practice/session.hpp", "#include \"store/answer_log.hpp\"\n"}}).empty());
}

TEST_CASE("layout: each kind of wrong arrow is caught") {
    CHECK(findings({{"trade/box_fill.cpp", "#include \"content/deck.hpp\"\n"}}).size() == 1);
    CHECK(findings({{"memory/fit.hpp", "#include \"trade/edition.hpp\"\n"}}).size() == 1);
    CHECK(findings({{"store/store.cpp", "#include \"content/deck.hpp\"\n"}}).size() == 1);
    CHECK(findings({{"store/store.cpp", "#include \"memory/model.hpp\"\n"}}).size() == 1);
    CHECK(findings({{"practice/pick.cpp", "#include \"store/store.hpp\"\n"}}).size() == 1);
    CHECK(findings({{"practice/pick.cpp", "#include <sqlite3.h>\n"}}).size() == 1);
    CHECK(findings({{"cli/find.cpp", "#include \"store/sqlite/db.hpp\"\n"}}).size() == 1);
    CHECK(findings({{"report/panel.cpp", "#include <iostream>\n"}}).size() == 1);
    CHECK(findings({{"memory/fit.cpp", "#include <random>\n"}}).size() == 1);
    CHECK(findings({{"practice/pick.cpp", "std::chrono::system_clock::now()"}}).size() == 1);
    CHECK(findings({{"base/text.hpp", "using namespace std;"}}).size() == 1);
    CHECK(findings({{"base/text.cpp", "#include \"text.hpp\"\n"}}).size() >= 1);
    CHECK(findings({{"base/a.hpp", "#include \"base/b.hpp\"\n"}, {"base/b.hpp", "#include \"base/a.hpp\"\n"}}).size() ==
          2);
}

TEST_CASE("layout: the source tree has no wrong arrow") {
    const auto tree = read_tree(PROJECT_SOURCE_FOLDER);
    REQUIRE_MESSAGE(tree.size() >= 40, "read nothing: is PROJECT_SOURCE_FOLDER right?");
    const auto found = findings(tree);
    for (const auto& f : found) MESSAGE(f);
    CHECK(found.empty());
}

TEST_CASE("layout: a source file includes its own header first, so that the header is known to stand alone") {
    const auto first = [](const std::string& text) {
        const auto includes = includes_of(text);
        return includes.empty() ? std::string{} : includes.front().header;
    };
    CHECK(first("#include \"base/a.hpp\"\n\n#include <map>\n") == "base/a.hpp");
    CHECK(first("#include <map>\n#include \"base/a.hpp\"\n") == "map");
    const auto tree = read_tree(PROJECT_SOURCE_FOLDER);
    std::size_t held = 0;
    for (const auto& [path, text] : tree) {
        const std::string header = path.substr(0, path.rfind('.')) + ".hpp";
        if (!path.ends_with(".cpp") || !tree.contains(header)) continue;
        ++held;
        CHECK_MESSAGE(first(text) == header, path);
    }
    CHECK(held >= 80);
}

TEST_CASE("layout: no file over 500 lines, no folder over 30 files") {
    std::map<std::string, std::size_t> folders;
    for (const auto& [path, text] : read_tree(PROJECT_SOURCE_FOLDER)) {
        CHECK_MESSAGE(lines_in(text) <= 500, path);
        ++folders[path.substr(0, path.rfind('/'))];
    }
    for (const auto& [folder, files] : folders) CHECK_MESSAGE(files <= 30, folder);
}
