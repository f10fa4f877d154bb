#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/ids.hpp"
#include "content/deck.hpp"
#include "trade/article.hpp"
#include "trade/edition.hpp"
#include "trade/table.hpp"

namespace content {

struct Contents;
class Library;

/// Whether the code book lies open beside the candidate.
enum class Book : std::uint8_t { open, closed };

[[nodiscard]] std::string_view to_text(Book book);
[[nodiscard]] std::optional<Book> parse_book(std::string_view text);

/// A number of questions, or the range a board has published; both ends included, 0 <= least <= most.
struct QuestionCount {
    int least = 0, most = 0;

    [[nodiscard]] bool contains(int count) const { return least <= count && count <= most; }
    friend bool operator==(const QuestionCount&, const QuestionCount&) = default;
};

/// "12" or "10 to 14".
[[nodiscard]] std::string to_text(const QuestionCount& count);

/// A run of the code by reference, both ends included; one reference stands for itself and all below it.
struct ArticleSpan {
    trade::Article from, to;

    friend bool operator==(const ArticleSpan&, const ArticleSpan&) = default;
};

/// "250", "210.8(A)", "300 to 398", "210.50 to 210.71". Nothing when it is neither a reference nor two in order; the
/// ends of a run go no further down than a section.
[[nodiscard]] std::optional<ArticleSpan> parse_article_span(std::string_view text);

/// True when all of what the reference names lies in the run: Article 210 does not lie in "210.8".
[[nodiscard]] bool covers(const ArticleSpan& span, const trade::Article& reference);

/// What it takes to pass: a share of the questions asked, or a number of right answers as the board counts them.
struct PassMark {
    double share = 0.0;  ///< (0,1]; used when `right` is 0
    int right = 0;       ///< out of the most questions the exam may have
};

/// A part of an exam, and the points of ours that belong to it.
struct OutlineSection {
    std::string id, title;
    QuestionCount questions;
    std::vector<std::string> topics;    ///< a point belongs here by its topic,
    std::vector<std::string> tags;      ///< or by any of its tags,
    std::vector<ArticleSpan> articles;  ///< or by its reference in the edition
    std::optional<double> pass;         ///< (0,1]: share of this section that has to be right on its own
    std::string uncovered;              ///< why we have no points for it yet; empty: it should have some
    Place place;
};

/// The shape of an exam.
struct Outline {
    std::string id, title;
    std::string resembles;  ///< the licence or certificate whose exam has this shape
    std::string note;
    Book book = Book::open;
    int minutes = 0;  ///< > 0
    QuestionCount questions;
    PassMark pass;
    trade::Basis basis;           ///< of questions, minutes and what it takes to pass
    trade::Basis sections_basis;  ///< of how the questions are divided among sections
    std::vector<OutlineSection> sections;
    Place place;
};

/// What a section goes by when it claims a point.
struct PointTraits {
    base::PointId id;
    std::string topic;
    std::vector<std::string> tags;
    std::optional<trade::Article> article;
    bool unverified =
        false;  ///< in this edition; such a point maps like any other, and is kept out of exams by the caller
};

/// Nothing where the point has a gap.
[[nodiscard]] std::optional<PointTraits> traits_of(const Point& point, trade::Edition edition);
/// All points that an edition has, sorted by id. From a library they are read from their files: throws as it does.
[[nodiscard]] std::vector<PointTraits> traits_in(const Contents& contents, trade::Edition edition);
[[nodiscard]] std::vector<PointTraits> traits_in(const Library& library, trade::Edition edition);

/// True when the point has a topic, a tag or a reference of the section, whatever other sections say.
[[nodiscard]] bool claims(const OutlineSection& section, const PointTraits& point);

/// The number of the section a point belongs to: the first, in the order of the outline, that claims it. So a point is
/// in at most one section, and a narrow section stands before the broad one it is cut from.
[[nodiscard]] std::optional<std::size_t> section_of(const Outline& outline, const PointTraits& point);

/// Points by section, in the order given.
struct OutlineMap {
    std::vector<std::vector<base::PointId>> sections;  ///< one list per section of the outline, some perhaps empty
    std::vector<base::PointId> outside;                ///< what no section claims
};
[[nodiscard]] OutlineMap map_points(const Outline& outline, const std::vector<PointTraits>& points);
/// The points of one section. Throws std::out_of_range when the outline has no such section.
[[nodiscard]] std::vector<base::PointId> points_of(const Outline& outline, std::size_t section,
                                                   const std::vector<PointTraits>& points);

/// The sections that ask questions but have no point in the map: an exam put together from it falls short there.
[[nodiscard]] std::vector<std::size_t> holes(const Outline& outline, const OutlineMap& map);

/// The totals that both the exam and its sections allow; nothing when there is none.
[[nodiscard]] std::optional<QuestionCount> possible_totals(const Outline& outline);

/// How many questions each section gets out of `total`. Sections share in proportion to the middle of their ranges, as
/// far as the ranges let them; what is left of the whole numbers goes to the largest remainders, the earlier section
/// first among equals. The sum is `total`, every number lies in its range, and none is a whole question off its share.
/// Nothing when `total` lies outside the sum of the ranges.
/// Source  largest remainder (Hamilton's method) with lower and upper quotas, in whole numbers throughout.
[[nodiscard]] std::optional<std::vector<int>> divide_questions(const std::vector<QuestionCount>& ranges, int total);
[[nodiscard]] std::optional<std::vector<int>> questions_per_section(const Outline& outline, int total);

/// Right answers that pass an exam of `asked` questions (> 0), rounded up. A number of right answers is held to the
/// exam's full length and scaled to a shorter one.
[[nodiscard]] int right_to_pass(const Outline& outline, int asked);

}  // namespace content
