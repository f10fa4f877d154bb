#include "practice/job/point_words.hpp"

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "practice/job/stem.hpp"

namespace practice {
namespace {

// Tried on the shipped jobs, not fitted.
constexpr double kTitleWord = 3.0, kTagWord = 1.5, kTextWord = 0.6;
constexpr double kLeastRare = 0.3;          // words that more points share than N^0.7 tell nothing
constexpr std::size_t kLeastBeginning = 4;  // letters of a word that may be the beginning of another

bool begins(const std::string& word, const std::string& stem) {
    return stem.size() >= kLeastBeginning && word.starts_with(stem);
}

std::set<std::string> stems(const std::string& text) {
    auto list = stems_of(text);
    return {list.begin(), list.end()};
}

}  // namespace

PointWords::PointWords(const std::vector<const content::Point*>& points, trade::Edition edition) {
    for (const auto* point : points) {
        const auto* version = point->version(edition);
        if (version == nullptr) continue;
        auto& of = of_point_[point];
        of.title = stems(point->title);
        of.tags = stems(base::join(point->tags, " "));
        of.text = stems(version->says);
        std::set<std::string> all = of.title;
        all.insert(of.tags.begin(), of.tags.end());
        all.insert(of.text.begin(), of.text.end());
        for (const auto& word : all) ++points_with_[word];
    }
}

bool PointWords::known(const std::string& stem) const {
    return points_with_.contains(stem) || std::any_of(points_with_.begin(), points_with_.end(),
                                                      [&](const auto& word) { return begins(word.first, stem); });
}

double PointWords::rare(const std::string& stem) const {
    const auto found = points_with_.find(stem);
    if (found == points_with_.end() || of_point_.size() < 2) return 0.0;
    const auto all = static_cast<double>(of_point_.size());
    return std::log(all / static_cast<double>(found->second)) / std::log(all);
}

bool PointWords::common(const std::string& stem) const {
    return points_with_.contains(stem) && rare(stem) < kLeastRare;
}

double PointWords::worth(const content::Point& point, const std::string& stem) const {
    const auto& of = of_point_.at(&point);
    return std::max(
        {kTitleWord * told(of.title, stem), kTagWord * told(of.tags, stem), kTextWord * told(of.text, stem)});
}

/// How much it tells that these words hold the stem, or half as much a longer word that begins with it: "bath" in
/// "bathroom".
double PointWords::told(const std::set<std::string>& words, const std::string& stem) const {
    const auto from = words.lower_bound(stem);
    if (from == words.end() || (*from != stem && !begins(*from, stem))) return 0.0;
    const double rarity = rare(*from);
    return rarity < kLeastRare ? 0.0 : *from == stem ? rarity : rarity / 2.0;
}

}  // namespace practice
