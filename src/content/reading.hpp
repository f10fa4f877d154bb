#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "content/contents.hpp"
#include "trade/edition.hpp"

namespace content {

/// A question as a second reader has to answer it: without its answer, for one edition.
struct ToRead {
    std::string id;  ///< "box.accessible#a", or "call.crawl-space#b"
    const Point* point = nullptr;
    const Question* question = nullptr;
    const Scenario* scenario = nullptr;    ///< null for a question of a point
    trade::Edition edition{};              ///< the edition it is answered for
    std::vector<trade::Edition> editions;  ///< all in which the answer is said to be the same
    std::string content;                   ///< changes whenever what a reader sees, or the right answer, changes
};

/// Every question and every ask of a call, each once for every set of editions that have one right answer, confirmed
/// editions before others. Questions whose point is missing are left out.
[[nodiscard]] std::vector<ToRead> to_read(const Contents& contents);

/// The readings of second readers, to see what has been read as it stands.
class ReadingBook {
public:
    enum class State : std::uint8_t { never, changed, read };

    explicit ReadingBook(const Contents& contents);
    /// Whether a question has been read: as it stands, before it changed, or never.
    [[nodiscard]] State state(const ToRead& one) const;

private:
    std::map<std::pair<std::string, trade::Edition>, std::vector<const Reading*>> readings_;
};

}  // namespace content
