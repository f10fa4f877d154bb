#pragma once

#include <cstddef>
#include <set>
#include <string>
#include <unordered_map>
#include <vector>

#include "content/deck.hpp"
#include "trade/edition.hpp"

namespace practice {

/// The words of points under an edition, and how rare each is. Words are stems (stem.hpp). Refers to the points.
class PointWords {
public:
    PointWords(const std::vector<const content::Point*>& points, trade::Edition edition);

    /// Some point has it, or a longer word that begins with it.
    [[nodiscard]] bool known(const std::string& stem) const;
    /// Too common to tell anything.
    [[nodiscard]] bool common(const std::string& stem) const;
    /// How much it tells that the point has the word: most in its title, less in its tags, least in what it says; 0 for
    /// a common word. The point has to have a version under the edition.
    [[nodiscard]] double worth(const content::Point& point, const std::string& stem) const;

private:
    struct Of {
        std::set<std::string> title, tags, text;
    };
    /// 0 for a word that every point has, 1 for one that a single point has.
    [[nodiscard]] double rare(const std::string& stem) const;
    [[nodiscard]] double told(const std::set<std::string>& words, const std::string& stem) const;

    std::unordered_map<const content::Point*, Of> of_point_;
    std::unordered_map<std::string, std::size_t> points_with_;
};

}  // namespace practice
