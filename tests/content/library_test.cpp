#include "content/library.hpp"

#include <doctest/doctest.h>

#include "base/exit_status.hpp"
#include "base/random.hpp"
#include "content/index_cache.hpp"
#include "content/sample.hpp"

namespace {

using content::Index;

std::string file_text(const std::string& path) {
    std::ifstream in{path, std::ios::binary};
    return {std::istreambuf_iterator<char>{in}, {}};
}

const Index& shipped_index() {
    static const Index index =
        content::index_of(content::load_contents(std::vector<std::string>{PROJECT_FOLDER}).value());
    return index;
}

Index sample_index() {
    content::Contents contents = sample::contents();
    for (const auto* name : {"deck.json", "calls.json", "table.json", "places.json"})
        contents.files.push_back({name, 1, 77, -12345});
    return content::index_of(contents);
}

content::Library opened(const std::vector<std::string>& roots, const std::string& cache) {
    auto library = content::open_library(roots, cache);
    REQUIRE(library.has_value());
    return std::move(*library);
}

}  // namespace

TEST_CASE("library: the index says what choosing needs, sorted by id") {
    const Index index = sample_index();
    REQUIRE(index.points.size() == 2);
    const auto& volume = index.points[1];
    CHECK(volume.id.text == "box.volume");
    CHECK(volume.topic == "boxes");
    CHECK(volume.needs == std::vector<base::PointId>{{"box.accessible"}});
    CHECK_FALSE(volume.editions.contains(trade::Edition::e2017));
    CHECK(volume.editions.contains(trade::Edition::e2026));
    REQUIRE(index.scenarios.size() == 1);
    CHECK(index.scenarios[0].points.size() == 3);
}

TEST_CASE("index cache: what is written is read back, byte for byte") {
    for (const Index& index : {sample_index(), shipped_index(), Index{}}) {
        const std::string bytes = content::to_bytes(index);
        const auto again = content::from_bytes(bytes);
        REQUIRE(again.has_value());
        CHECK(again->files == index.files);
        CHECK(content::to_bytes(*again) == bytes);
    }
}

TEST_CASE("index cache: every field comes back") {
    const Index index = sample_index();
    const auto again = content::from_bytes(content::to_bytes(index)).value();
    const auto& a = index.points[1];
    const auto& b = again.points.at(1);
    CHECK(b.id == a.id);
    CHECK(b.stakes == a.stakes);
    CHECK(b.editions.bits() == a.editions.bits());
    CHECK(b.tags == a.tags);
    CHECK(b.needs == a.needs);
    CHECK(b.at.end == a.at.end);
    CHECK(b.mistakes.begin == a.mistakes.begin);
    CHECK(again.scenarios.at(0).points == index.scenarios[0].points);
}

TEST_CASE("index cache: cut at any byte it is refused") {
    const std::string bytes = content::to_bytes(sample_index());
    for (std::size_t cut = 0; cut < bytes.size(); ++cut)
        REQUIRE_MESSAGE(!content::from_bytes(std::string_view{bytes}.substr(0, cut)).has_value(), cut);
    CHECK_FALSE(content::from_bytes(bytes + '\0').has_value());
}

TEST_CASE("index cache: with any one byte damaged it is refused") {
    const std::string bytes = content::to_bytes(sample_index());
    for (std::size_t at = 0; at < bytes.size(); ++at)
        for (const int flip : {0x01, 0x80, 0xFF}) {
            std::string damaged = bytes;
            damaged[at] = static_cast<char>(damaged[at] ^ flip);
            REQUIRE_MESSAGE(!content::from_bytes(damaged).has_value(), at);
        }
}

TEST_CASE("library: points, calls and mistakes are read from their files when they are wanted") {
    const sample::Folder folder{"library-read"};
    folder.write_sample();
    const auto library = opened({folder.path()}, "");
    const auto* entry = library.find({"box.volume"});
    REQUIRE(entry != nullptr);
    CHECK(library.point(*entry).questions.size() == 4);
    CHECK(&library.point(*entry) == &library.point(*entry));
    CHECK(library.mistake(entry->mistakes, "m.glue") == "Glues it shut.");
    CHECK(library.mistake(entry->mistakes, "m.none").empty());
    CHECK(library.scenario(library.index().scenarios.at(0)).asks.size() == 3);
    CHECK(library.find({"box.gone"}) == nullptr);
    CHECK(library.find({"zzz"}) == nullptr);
}

TEST_CASE("library: a point whose file changed under it is a failure, not a wrong point") {
    const sample::Folder folder{"library-changed"};
    folder.write_sample();
    const auto library = opened({folder.path()}, "");
    for (const std::string& text : {std::string{}, std::string{"{}"}, "  " + sample::kDeck, std::string(9000, 'x')}) {
        folder.write("decks/boxes.json", text);
        CHECK_THROWS_AS((void)library.point(*library.find({"box.volume"})), base::Failure);
    }
}

TEST_CASE("library: the cache is written, and used while the files are as they were") {
    const sample::Folder folder{"library-cache"};
    folder.write_sample();
    const std::string cache = folder.in("index");
    opened({folder.path()}, cache);
    auto index = content::from_bytes(file_text(cache));
    REQUIRE(index.has_value());
    // A mark in the cache shows that it is what was read.
    index->points.at(0).topic = "from the cache";
    folder.write("index", content::to_bytes(*index));
    CHECK(opened({folder.path()}, cache).index().points.at(0).topic == "from the cache");
}

TEST_CASE("library: a changed, added or removed file makes the cache anew") {
    const sample::Folder folder{"library-anew"};
    folder.write_sample();
    const std::string cache = folder.in("index");
    CHECK(opened({folder.path()}, cache).index().points.size() == 2);
    folder.write("decks/boxes.json",
                 sample::spoiled(sample::kDeck, "\"topic\": \"boxes\"", "\"topic\": \"other boxes\""));
    CHECK(opened({folder.path()}, cache).index().points.at(0).topic == "other boxes");
    std::filesystem::remove(folder.in("scenarios/calls.json"));
    CHECK(opened({folder.path()}, cache).index().scenarios.empty());
    folder.write("scenarios/calls.json", sample::kCalls);
    CHECK(opened({folder.path()}, cache).index().scenarios.size() == 1);
}

TEST_CASE("library: a file of the same size with another time makes the cache anew") {
    const sample::Folder folder{"library-time"};
    folder.write_sample();
    const std::string cache = folder.in("index");
    const std::string deck = folder.in("decks/boxes.json");
    opened({folder.path()}, cache);
    folder.write("decks/boxes.json", sample::spoiled(sample::kDeck, "\"topic\": \"boxes\"", "\"topic\": \"bexos\""));
    std::filesystem::last_write_time(deck, std::filesystem::last_write_time(deck) + std::chrono::seconds{1});
    CHECK(opened({folder.path()}, cache).index().points.at(0).topic == "bexos");
}

TEST_CASE("library: a damaged cache, or one that cannot be written, is no fault") {
    const sample::Folder folder{"library-damaged"};
    folder.write_sample();
    folder.write("index", "greentag index 1\nrubbish");
    CHECK(opened({folder.path()}, folder.in("index")).index().points.size() == 2);
    CHECK(content::from_bytes(file_text(folder.in("index"))).has_value());
    CHECK(opened({folder.path()}, folder.in("no/such/folder/index")).index().points.size() == 2);
}

TEST_CASE("library: errors keep it from opening and nothing is cached, warnings do not") {
    const sample::Folder folder{"library-errors"};
    folder.write_sample();
    folder.write("decks/boxes.json", sample::spoiled(sample::kDeck, "\"caution\"", "\"cautoin\""));
    CHECK(content::open_library({folder.path()}, "").has_value());
    folder.write("decks/boxes.json", sample::spoiled(sample::kDeck, "\"fire\"", "\"flood\""));
    const auto library = content::open_library({folder.path()}, folder.in("index"));
    REQUIRE_FALSE(library.has_value());
    CHECK(library.error().at(0).what.find("flood") != std::string::npos);
    CHECK_FALSE(std::filesystem::exists(folder.in("index")));
}

TEST_CASE("library: the shipped one opens, and gives every point and call in full") {
    const auto library = opened({PROJECT_FOLDER}, "");
    for (const auto& entry : library.index().points) CHECK(library.point(entry).id == entry.id);
    for (const auto& entry : library.index().scenarios) CHECK(library.scenario(entry).id == entry.id);
}
