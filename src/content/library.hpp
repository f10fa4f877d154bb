#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <unordered_map>
#include <vector>

#include "base/fault.hpp"
#include "base/ids.hpp"
#include "content/computed/computing.hpp"
#include "content/contents.hpp"
#include "content/deck.hpp"
#include "content/trade_data.hpp"

namespace content {

/// A set of editions, one bit each.
class EditionSet {
public:
    EditionSet() = default;
    explicit EditionSet(std::uint8_t bits) : bits_{bits} {}
    void add(const trade::EditionRange& range);
    [[nodiscard]] bool contains(trade::Edition edition) const;
    [[nodiscard]] std::uint8_t bits() const { return bits_; }

private:
    std::uint8_t bits_ = 0;
};

/// What choosing needs to know of a point; the rest is read when the point is asked.
struct PointEntry {
    base::PointId id;
    std::string deck, topic;
    Stakes stakes = Stakes::inspection;
    EditionSet editions;
    std::vector<std::string> tags;
    std::vector<base::PointId> needs;
    Slice at, mistakes;
};

struct ScenarioEntry {
    std::string id, family;
    EditionSet editions;
    std::vector<std::string> tags;
    std::vector<base::PointId> points;  ///< of its asks, in order
    Slice at, mistakes;
};

struct Index {
    std::vector<SourceFile> files;
    std::vector<PointEntry> points;        ///< sorted by id
    std::vector<ScenarioEntry> scenarios;  ///< sorted by id
};

/// The index of contents that were read without a fault.
[[nodiscard]] Index index_of(const Contents& contents);

/// The content as a session uses it: an index, and points that are read from their file when they come up.
/// Not for several threads at once.
class Library {
public:
    explicit Library(Index index) : index_{std::move(index)} {}

    [[nodiscard]] const Index& index() const { return index_; }
    [[nodiscard]] const PointEntry* find(const base::PointId& id) const;

    /// Reads the point in full. Throws Failure (bad_data) when its file has changed since the library was opened.
    [[nodiscard]] const Point& point(const PointEntry& entry) const;
    [[nodiscard]] const Scenario& scenario(const ScenarioEntry& entry) const;
    /// The line that explains a mistake; empty when it has none.
    [[nodiscard]] std::string mistake(const Slice& mistakes, const std::string& id) const;

    /// Tables and rules, read when first asked for. Throws Failure (bad_data) when they have faults.
    [[nodiscard]] const TradeData& trade() const;
    /// Whose amendments count from now on, and on which day.
    void set_place(std::string jurisdiction, std::string day);
    [[nodiscard]] Under under(::trade::Edition edition) const { return {edition, jurisdiction_, day_}; }

private:
    [[nodiscard]] const Mistakes& mistakes_at(const Slice& slice) const;

    Index index_;
    mutable std::unordered_map<std::string, std::unique_ptr<Point>> points_;
    mutable std::unordered_map<std::string, std::unique_ptr<Scenario>> scenarios_;
    mutable std::unordered_map<std::string, Mistakes> mistakes_;
    mutable std::unique_ptr<TradeData> trade_;
    std::string jurisdiction_, day_;
};

/// Opens the library below the roots. With a cache file that still fits the files, nothing but the cache is read;
/// else everything is read and the cache written anew (a cache that cannot be written is no fault).
/// Errors: whatever is wrong in the files; warnings do not stop it.
[[nodiscard]] base::Checked<Library> open_library(const std::vector<std::string>& roots, const std::string& cache_path);

}  // namespace content
