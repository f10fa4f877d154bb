#include "content/outline.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <utility>

#include "base/text.hpp"
#include "content/contents.hpp"
#include "content/library.hpp"

namespace content {
namespace {

using BookPlace = std::pair<int, int>;  ///< article and section, in the order of the book

BookPlace in_book(const trade::Article& article) {
    return {article.article, article.section};
}

/// The last place a reference reaches: a whole article goes to its end.
BookPlace end_in_book(const trade::Article& article) {
    return {article.article, article.section == 0 ? std::numeric_limits<int>::max() : article.section};
}

template <class T>
bool has(const std::vector<T>& list, const T& item) {
    return std::find(list.begin(), list.end(), item) != list.end();
}

void sort_by_id(std::vector<PointTraits>& points) {
    std::sort(points.begin(), points.end(), [](const PointTraits& a, const PointTraits& b) { return a.id < b.id; });
}

QuestionCount sum_of(const std::vector<QuestionCount>& ranges) {
    QuestionCount sum;
    for (const auto& range : ranges) {
        sum.least += range.least;
        sum.most += range.most;
    }
    return sum;
}

std::vector<QuestionCount> ranges_of(const Outline& outline) {
    std::vector<QuestionCount> ranges;
    for (const auto& section : outline.sections) ranges.push_back(section.questions);
    return ranges;
}

/// Divides a total among ranges. A section is open until its share would leave its range; then it is settled at the end
/// it ran into, and the others share what is left.
class Division {
public:
    Division(const std::vector<QuestionCount>& ranges, int total)
        : ranges_{&ranges}, given_(ranges.size(), 0), left_{total} {
        for (std::size_t i = 0; i < ranges.size(); ++i)
            if (ranges[i].most > 0) open_.push_back(i);
    }

    std::vector<int> made() {
        while (settle_some()) {
        }
        round();
        return std::move(given_);
    }

private:
    /// Twice the middle of the range, so that it stays whole.
    [[nodiscard]] std::int64_t weight(std::size_t i) const { return (*ranges_)[i].least + (*ranges_)[i].most; }
    [[nodiscard]] std::int64_t open_weight() const {
        return std::accumulate(open_.begin(), open_.end(), std::int64_t{0},
                               [&](std::int64_t sum, std::size_t i) { return sum + weight(i); });
    }

    /// Settles the sections whose share has left its range; false when there is none. A share is a multiple of the
    /// middle, the same for all, so either some lack or some exceed, never both. Settling the lacking only lowers what
    /// the others get, settling the exceeding only raises it: whoever was out of range would still be.
    bool settle_some() {
        const std::int64_t all = open_weight();
        const std::int64_t left = left_;
        return std::erase_if(open_, [&](std::size_t i) {
                   const QuestionCount& range = (*ranges_)[i];
                   const bool lacks = left * weight(i) < range.least * all;
                   if (!lacks && left * weight(i) <= range.most * all) return false;
                   given_[i] = lacks ? range.least : range.most;
                   left_ -= given_[i];
                   return true;
               }) > 0;
    }

    void round() {
        const std::int64_t all = open_weight();
        std::int64_t spare = left_;
        for (const std::size_t i : open_) {
            given_[i] = static_cast<int>(left_ * weight(i) / all);
            spare -= given_[i];
        }
        const auto remainder = [&](std::size_t i) { return left_ * weight(i) % all; };
        std::stable_sort(open_.begin(), open_.end(),
                         [&](std::size_t a, std::size_t b) { return remainder(a) > remainder(b); });
        for (std::size_t k = 0; std::cmp_less(k, spare); ++k) ++given_[open_[k]];
    }

    const std::vector<QuestionCount>* ranges_;
    std::vector<int> given_;
    std::vector<std::size_t> open_;
    std::int64_t left_;
};

}  // namespace

std::string_view to_text(Book book) {
    return book == Book::open ? "open" : "closed";
}

std::optional<Book> parse_book(std::string_view text) {
    if (text == "open") return Book::open;
    if (text == "closed") return Book::closed;
    return std::nullopt;
}

std::string to_text(const QuestionCount& count) {
    const std::string least = std::to_string(count.least);
    return count.least == count.most ? least : least + " to " + std::to_string(count.most);
}

std::optional<ArticleSpan> parse_article_span(std::string_view text) {
    static constexpr std::string_view kTo = " to ";
    const auto at = text.find(kTo);
    const auto from = trade::parse_article(text.substr(0, at));
    if (!from) return std::nullopt;
    if (at == std::string_view::npos) return ArticleSpan{*from, *from};
    const auto to = trade::parse_article(text.substr(at + kTo.size()));
    if (!to || !from->parts.empty() || !to->parts.empty() || end_in_book(*to) < in_book(*from)) return std::nullopt;
    return ArticleSpan{*from, *to};
}

bool covers(const ArticleSpan& span, const trade::Article& reference) {
    if (span.from == span.to) {
        const auto match = trade::compare(reference, span.from);
        return match == trade::ArticleMatch::exact || match == trade::ArticleMatch::deeper;
    }
    return in_book(span.from) <= in_book(reference) && end_in_book(reference) <= end_in_book(span.to);
}

std::optional<PointTraits> traits_of(const Point& point, trade::Edition edition) {
    const Version* version = point.version(edition);
    if (version == nullptr) return std::nullopt;
    return PointTraits{point.id, point.topic, point.tags, trade::parse_article(version->article), version->unverified};
}

std::vector<PointTraits> traits_in(const Contents& contents, trade::Edition edition) {
    std::vector<PointTraits> all;
    for (const auto& deck : contents.decks)
        for (const auto& point : deck.points)
            if (auto traits = traits_of(point, edition)) all.push_back(std::move(*traits));
    sort_by_id(all);
    return all;
}

std::vector<PointTraits> traits_in(const Library& library, trade::Edition edition) {
    std::vector<PointTraits> all;
    for (const auto& entry : library.index().points)
        if (entry.editions.contains(edition))
            if (auto traits = traits_of(library.point(entry), edition)) all.push_back(std::move(*traits));
    return all;
}

bool claims(const OutlineSection& section, const PointTraits& point) {
    if (has(section.topics, point.topic)) return true;
    if (std::any_of(point.tags.begin(), point.tags.end(), [&](const auto& tag) { return has(section.tags, tag); }))
        return true;
    return point.article && std::any_of(section.articles.begin(), section.articles.end(),
                                        [&](const ArticleSpan& span) { return covers(span, *point.article); });
}

std::optional<std::size_t> section_of(const Outline& outline, const PointTraits& point) {
    const auto first = std::find_if(outline.sections.begin(), outline.sections.end(),
                                    [&](const OutlineSection& section) { return claims(section, point); });
    if (first == outline.sections.end()) return std::nullopt;
    return static_cast<std::size_t>(first - outline.sections.begin());
}

OutlineMap map_points(const Outline& outline, const std::vector<PointTraits>& points) {
    OutlineMap map;
    map.sections.resize(outline.sections.size());
    for (const auto& point : points) {
        const auto section = section_of(outline, point);
        (section ? map.sections[*section] : map.outside).push_back(point.id);
    }
    return map;
}

std::vector<base::PointId> points_of(const Outline& outline, std::size_t section,
                                     const std::vector<PointTraits>& points) {
    return std::move(map_points(outline, points).sections.at(section));
}

std::vector<std::size_t> holes(const Outline& outline, const OutlineMap& map) {
    std::vector<std::size_t> found;
    for (std::size_t i = 0; i < outline.sections.size(); ++i)
        if (outline.sections[i].questions.most > 0 && map.sections.at(i).empty()) found.push_back(i);
    return found;
}

std::optional<QuestionCount> possible_totals(const Outline& outline) {
    const QuestionCount sum = sum_of(ranges_of(outline));
    const QuestionCount both{std::max(outline.questions.least, sum.least), std::min(outline.questions.most, sum.most)};
    if (both.least > both.most) return std::nullopt;
    return both;
}

std::optional<std::vector<int>> divide_questions(const std::vector<QuestionCount>& ranges, int total) {
    if (!sum_of(ranges).contains(total)) return std::nullopt;
    return Division{ranges, total}.made();
}

std::optional<std::vector<int>> questions_per_section(const Outline& outline, int total) {
    return divide_questions(ranges_of(outline), total);
}

int right_to_pass(const Outline& outline, int asked) {
    if (outline.pass.right > 0) {
        const std::int64_t most = std::max(outline.questions.most, 1);
        return static_cast<int>((std::int64_t{outline.pass.right} * asked + most - 1) / most);
    }
    // A share such as 0.7 is not exact in binary: 70 of 100 must not become 71.
    return static_cast<int>(std::ceil(outline.pass.share * asked - 1e-9));
}

}  // namespace content
