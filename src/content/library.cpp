#include "content/library.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <system_error>

#include "base/exit_status.hpp"
#include "base/located_json.hpp"
#include "content/index_cache.hpp"
#include "content/read/read.hpp"

namespace content {
namespace {

std::size_t bit_of(trade::Edition edition) {
    const auto found = std::find(trade::kEditions.begin(), trade::kEditions.end(), edition);
    return static_cast<std::size_t>(found - trade::kEditions.begin());
}

std::uint32_t file_number(const Contents& contents, const std::string& path) {
    const auto found =
        std::find_if(contents.files.begin(), contents.files.end(), [&](const SourceFile& f) { return f.path == path; });
    return static_cast<std::uint32_t>(found - contents.files.begin());
}

PointEntry entry_of(const Point& point, const Deck& deck, std::uint32_t file) {
    PointEntry entry;
    entry.id = point.id;
    entry.deck = point.deck;
    entry.topic = point.topic;
    entry.stakes = point.stakes;
    for (const auto& version : point.versions) entry.editions.add(version.editions);
    entry.tags = point.tags;
    entry.needs = point.needs;
    entry.at = {file, point.place.begin, point.place.end};
    entry.mistakes = {file, deck.mistakes_place.begin, deck.mistakes_place.end};
    return entry;
}

ScenarioEntry entry_of(const Scenario& scenario, const ScenarioFamily& family, std::uint32_t file) {
    ScenarioEntry entry;
    entry.id = scenario.id;
    entry.family = scenario.family;
    entry.editions.add(scenario.editions);
    entry.tags = scenario.tags;
    for (const auto& ask : scenario.asks) entry.points.push_back(ask.point);
    entry.at = {file, scenario.place.begin, scenario.place.end};
    entry.mistakes = {file, family.mistakes_place.begin, family.mistakes_place.end};
    return entry;
}

template <class T>
void sort_by_id(std::vector<T>& entries) {
    std::sort(entries.begin(), entries.end(), [](const T& a, const T& b) { return a.id < b.id; });
}

std::optional<Index> cached_index(const std::string& path, const std::vector<SourceFile>& files) {
    std::error_code error;
    const auto size = std::filesystem::file_size(path, error);
    if (error) return std::nullopt;
    std::ifstream in{path, std::ios::binary};
    std::string bytes(static_cast<std::size_t>(size), '\0');
    if (!in.read(bytes.data(), static_cast<std::streamsize>(size))) return std::nullopt;
    auto index = from_bytes(bytes);
    if (!index || index->files != files) return std::nullopt;
    return index;
}

/// Beside the place and then renamed, so that another process never reads half a cache.
void write_cache(const std::string& path, const Index& index) {
    const std::string aside = path + ".new";
    {
        std::ofstream out{aside, std::ios::binary | std::ios::trunc};
        const std::string bytes = to_bytes(index);
        if (!out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()))) return;
    }
    std::error_code ignored;
    std::filesystem::rename(aside, path, ignored);
}

/// Parses the slice of a file that an entry names and hands it to a reader of ours.
template <class T, class Read>
T read_at(const Index& index, const Slice& slice, Read read) {
    const std::string& path = index.files[slice.file].path;
    const std::string text = read_slice(path, slice.begin, slice.end);
    const auto located = base::parse_located(text, path);
    base::Faults faults;
    if (located) {
        T value = read(base::Reader{*located, path, "", faults});
        if (!base::any_errors(faults)) return value;
    }
    throw base::Failure{base::Exit::bad_data, path + ": has changed while it was in use",
                        "start again; 'greentag library check' tells what is wrong with it, if anything"};
}

}  // namespace

void EditionSet::add(const trade::EditionRange& range) {
    for (const auto edition : trade::editions_in(range))
        bits_ = static_cast<std::uint8_t>(bits_ | (1U << bit_of(edition)));
}

bool EditionSet::contains(trade::Edition edition) const {
    return ((bits_ >> bit_of(edition)) & 1U) != 0;
}

Index index_of(const Contents& contents) {
    Index index;
    index.files = contents.files;
    for (const auto& deck : contents.decks) {
        const auto file = file_number(contents, deck.place.file);
        for (const auto& point : deck.points) index.points.push_back(entry_of(point, deck, file));
    }
    for (const auto& family : contents.families) {
        const auto file = file_number(contents, family.place.file);
        for (const auto& scenario : family.scenarios) index.scenarios.push_back(entry_of(scenario, family, file));
    }
    sort_by_id(index.points);
    sort_by_id(index.scenarios);
    return index;
}

const PointEntry* Library::find(const base::PointId& id) const {
    const auto at = std::lower_bound(index_.points.begin(), index_.points.end(), id,
                                     [](const PointEntry& e, const base::PointId& wanted) { return e.id < wanted; });
    return at != index_.points.end() && at->id == id ? &*at : nullptr;
}

const Point& Library::point(const PointEntry& entry) const {
    auto& held = points_[entry.id.text];
    if (!held)
        held = std::make_unique<Point>(read_at<Point>(
            index_, entry.at, [&](const base::Reader& r) { return read_point(r, entry.deck, entry.topic); }));
    return *held;
}

const Scenario& Library::scenario(const ScenarioEntry& entry) const {
    auto& held = scenarios_[entry.id];
    if (!held)
        held = std::make_unique<Scenario>(
            read_at<Scenario>(index_, entry.at, [&](const base::Reader& r) { return read_scenario(r, entry.family); }));
    return *held;
}

const TradeData& Library::trade() const {
    if (trade_) return *trade_;
    auto data = load_trade_data(index_.files);
    if (!data)
        throw base::Failure{base::Exit::bad_data, base::to_text(data.error().front()),
                            "'greentag library check' tells all that is wrong"};
    trade_ = std::make_unique<TradeData>(std::move(*data));
    return *trade_;
}

void Library::set_place(std::string jurisdiction, std::string day) {
    jurisdiction_ = std::move(jurisdiction);
    day_ = std::move(day);
}

const Mistakes& Library::mistakes_at(const Slice& slice) const {
    const std::string key = std::to_string(slice.file);
    const auto held = mistakes_.find(key);
    if (held != mistakes_.end()) return held->second;
    Mistakes read;
    if (slice.end > slice.begin)
        read = read_at<Mistakes>(index_, slice, [](const base::Reader& r) {
            Mistakes mistakes;
            for (const auto& [id, line] : r.members()) mistakes[id] = line.as_text();
            return mistakes;
        });
    return mistakes_.emplace(key, std::move(read)).first->second;
}

std::string Library::mistake(const Slice& mistakes, const std::string& id) const {
    const auto& known = mistakes_at(mistakes);
    const auto found = known.find(id);
    return found == known.end() ? std::string{} : found->second;
}

base::Checked<Library> open_library(const std::vector<std::string>& roots, const std::string& cache_path) {
    auto files = find_sources(roots);
    if (!files) return tl::unexpected<base::Faults>{files.error()};
    if (auto index = cached_index(cache_path, *files)) return Library{std::move(*index)};
    const Contents contents = load_contents(std::move(*files));
    if (base::any_errors(contents.faults)) return tl::unexpected<base::Faults>{contents.faults};
    Index index = index_of(contents);
    if (!cache_path.empty()) write_cache(cache_path, index);
    return Library{std::move(index)};
}

}  // namespace content
