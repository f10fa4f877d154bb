#include "practice/shop/week_points.hpp"

#include <algorithm>
#include <cctype>
#include <limits>
#include <map>
#include <set>
#include <tuple>
#include <unordered_map>

#include "base/text.hpp"
#include "practice/exam_parts.hpp"

namespace practice {
namespace {

constexpr double kIdealInWeek = 10.0;
constexpr double kArticleBorder = 6.0;
constexpr double kChapterBorder = 30.0;
constexpr double kMixedLarge = 20.0;
constexpr double kCutInside = 15.0;
// So small that a handful left between two full weeks can always be joined with a neighbour.
constexpr std::size_t kMostInAtom = 6;
constexpr double kTooFew = 1000.0;
constexpr double kLeastOutline = 0.25;
constexpr double kMostOutline = 4.0;
// A deck with less than this share of a portion does not name it alone.
constexpr double kNamesAlone = 0.6;

/// Subdivisions in the order of the book: "(9)" before "(10)".
std::string part_key(const std::string& part) {
    const bool number = !part.empty() && std::all_of(part.begin(), part.end(), [](char c) {
        return std::isdigit(static_cast<unsigned char>(c)) != 0;
    });
    return number ? std::string(part.size() < 3 ? 3 - part.size() : 0, '0') + part : base::lower(part);
}

std::vector<std::string> order_key(const WeekPoint& point) {
    std::vector<std::string> key;
    // Points on an article as a whole stand together by what they are about.
    if (point.reference.section == 0) key = {point.topic, point.deck};
    for (const auto& part : point.reference.parts) key.push_back(part_key(part));
    return key;
}

void put_in_order(std::vector<WeekPoint>& points) {
    std::sort(points.begin(), points.end(), [](const WeekPoint& a, const WeekPoint& b) {
        return std::tuple(a.reference.article, a.reference.section, order_key(a), a.id) <
               std::tuple(b.reference.article, b.reference.section, order_key(b), b.id);
    });
}

/// Points that are never parted, as a run [begin, end) of all points.
struct Atom {
    std::size_t begin = 0, end = 0;
    int article = 0;
    int group = 0;       ///< atoms of one group belong together
    bool piece = false;  ///< of an article that does not fit into one week
    [[nodiscard]] std::size_t size() const { return end - begin; }
};

template <class Same>
std::size_t run_end(const std::vector<WeekPoint>& points, std::size_t begin, std::size_t end, Same same) {
    std::size_t at = begin;
    while (at < end && same(points[begin], points[at])) ++at;
    return at;
}

bool same_article(const WeekPoint& a, const WeekPoint& b) {
    return a.reference.article == b.reference.article;
}

bool same_piece(const WeekPoint& a, const WeekPoint& b) {
    if (a.reference.section != b.reference.section) return false;
    return a.reference.section != 0 || (a.topic == b.topic && a.deck == b.deck);
}

void add_group(std::vector<Atom>& atoms, std::size_t begin, std::size_t end, int article, bool piece) {
    const std::size_t count = end - begin;
    const std::size_t runs = (count + kMostInAtom - 1) / kMostInAtom;
    const int group = atoms.empty() ? 0 : atoms.back().group + 1;
    for (std::size_t n = 0; n < runs; ++n)
        atoms.push_back({begin + count * n / runs, begin + count * (n + 1) / runs, article, group, piece});
}

std::vector<Atom> atoms_of(const std::vector<WeekPoint>& points) {
    std::vector<Atom> atoms;
    for (std::size_t begin = 0; begin < points.size();) {
        const std::size_t end = run_end(points, begin, points.size(), same_article);
        const int article = points[begin].reference.article;
        const bool large = end - begin > kMostInWeek;
        if (!large) add_group(atoms, begin, end, article, false);
        for (std::size_t at = begin; large && at < end;) {
            const std::size_t stop = run_end(points, at, end, same_piece);
            add_group(atoms, at, stop, article, true);
            at = stop;
        }
        begin = end;
    }
    return atoms;
}

double border_cost(const Atom& before, const Atom& after) {
    if (before.article == after.article) return 0;
    return kArticleBorder + (before.article / 100 != after.article / 100 ? kChapterBorder : 0) +
           (before.piece || after.piece ? kMixedLarge : 0);
}

double size_cost(std::size_t size) {
    const double off = static_cast<double>(size) - kIdealInWeek;
    return off * off + (size < kFewestInWeek ? kTooFew : 0);
}

/// Where each portion begins among the atoms, by least total cost (dynamic programming over the ends).
std::vector<std::size_t> best_cuts(const std::vector<Atom>& atoms) {
    std::vector<double> best(atoms.size() + 1, std::numeric_limits<double>::infinity());
    std::vector<std::size_t> from(atoms.size() + 1, 0);
    best[0] = 0;
    for (std::size_t end = 1; end <= atoms.size(); ++end) {
        std::size_t size = 0;
        double borders = 0;
        for (std::size_t begin = end; begin-- > 0;) {
            size += atoms[begin].size();
            if (size > kMostInWeek) break;
            if (begin + 1 < end) borders += border_cost(atoms[begin], atoms[begin + 1]);
            const bool cut = begin > 0 && atoms[begin - 1].group == atoms[begin].group;
            const double cost = best[begin] + size_cost(size) + borders + (cut ? kCutInside : 0);
            if (cost < best[end]) {
                best[end] = cost;
                from[end] = begin;
            }
        }
    }
    std::vector<std::size_t> cuts;
    for (std::size_t at = atoms.size(); at > 0; at = from[at]) cuts.push_back(from[at]);
    std::reverse(cuts.begin(), cuts.end());
    return cuts;
}

/// Names by how many points have them, most first; the earlier name first among equals.
template <class Name>
std::vector<std::pair<std::string, std::size_t>> most_first(const std::vector<WeekPoint>& points, Name name) {
    std::map<std::string, std::size_t> counts;
    for (const auto& point : points) ++counts[name(point)];
    std::vector<std::pair<std::string, std::size_t>> list(counts.begin(), counts.end());
    std::stable_sort(list.begin(), list.end(), [](const auto& a, const auto& b) { return a.second > b.second; });
    return list;
}

std::string about(const std::vector<WeekPoint>& points) {
    const auto decks = most_first(points, [](const WeekPoint& point) { return point.deck_title; });
    const bool alone = static_cast<double>(decks[0].second) >= kNamesAlone * static_cast<double>(points.size());
    return alone || decks.size() == 1 ? decks[0].first : decks[0].first + "; " + decks[1].first;
}

std::string section_text(const trade::Article& reference) {
    return trade::to_text(trade::Article{reference.article, reference.section, {}});
}

std::string from_to(const std::string& from, const std::string& to) {
    return from == to ? from : from + " to " + to;
}

/// What of the book the portion has; `whole` when it has all there is of its article.
std::string reference_text(const Portion& portion, bool whole) {
    const auto& articles = portion.articles;
    if (articles.back() == 0) return "Other points";
    const std::string last = std::to_string(articles.back());
    if (articles.size() == 2 && articles.front() != 0)
        return "Articles " + std::to_string(articles.front()) + " and " + last;
    if (articles.size() > 1)
        return "Articles " + std::to_string(articles[articles.front() == 0 ? 1 : 0]) + " to " + last;
    if (whole) return "Article " + last;
    const auto& first = portion.points.front().reference;
    const auto& end = portion.points.back().reference;
    if (first.section == end.section) return from_to(trade::to_text(first), trade::to_text(end));
    if (first.section == 0) return "Article " + last + ", up to " + section_text(end);
    return from_to(section_text(first), section_text(end));
}

void name_portions(std::vector<Portion>& portions) {
    std::map<int, int> pieces;
    for (const auto& portion : portions)
        for (const int article : portion.articles) ++pieces[article];
    std::map<std::string, int> used;
    for (auto& portion : portions) {
        portion.topic = most_first(portion.points, [](const WeekPoint& point) { return point.topic; })[0].first;
        portion.title = reference_text(portion, pieces[portion.articles.back()] == 1) + ": " + about(portion.points);
        const int times = ++used[portion.title];
        if (times > 1) portion.title += ", part " + std::to_string(times);
    }
}

/// Exam questions for each point of a section, against the mean of the outline.
std::vector<double> outline_weights(const content::Outline& outline, const std::vector<content::PointTraits>& traits) {
    const auto parts = parts_of(outline, traits);
    double asked = 0;
    double points = 0;
    for (const auto& part : parts) {
        const auto count = part.points.size() + part.unverified;
        if (count == 0) continue;
        asked += static_cast<double>(part.asked);
        points += static_cast<double>(count);
    }
    std::vector<double> weights(parts.size(), 1.0);
    for (std::size_t n = 0; n < parts.size(); ++n) {
        const auto count = static_cast<double>(parts[n].points.size() + parts[n].unverified);
        if (count == 0 || asked == 0) continue;
        weights[n] =
            std::clamp(static_cast<double>(parts[n].asked) / count * points / asked, kLeastOutline, kMostOutline);
    }
    return weights;
}

/// Weight by id of the points an outline asks for.
std::unordered_map<base::PointId, double> asked_by(const content::Contents& contents, trade::Edition edition,
                                                   const content::Outline& outline) {
    const auto traits = content::traits_in(contents, edition);
    const auto weights = outline_weights(outline, traits);
    std::unordered_map<base::PointId, double> found;
    for (const auto& point : traits)
        if (const auto section = content::section_of(outline, point)) found[point.id] = weights[*section];
    return found;
}

WeekPoint week_point(const content::Deck& deck, const content::Point& point, const content::Version& version) {
    WeekPoint one;
    one.id = point.id;
    one.title = point.title;
    one.article = version.article;
    one.reference = trade::parse_article(version.article).value_or(trade::Article{});
    one.topic = point.topic;
    one.deck = deck.name;
    one.deck_title = deck.title;
    one.stakes = point.stakes;
    one.unverified = version.unverified;
    return one;
}

}  // namespace

std::vector<WeekPoint> week_points(const content::Contents& contents, trade::Edition edition,
                                   const content::Outline* outline) {
    std::unordered_map<base::PointId, double> asked;
    if (outline != nullptr) asked = asked_by(contents, edition, *outline);
    std::vector<WeekPoint> points;
    for (const auto& deck : contents.decks)
        for (const auto& point : deck.points) {
            const auto* version = point.version(edition);
            const auto weight = asked.find(point.id);
            if (version == nullptr || (outline != nullptr && weight == asked.end())) continue;
            points.push_back(week_point(deck, point, *version));
            if (outline != nullptr) points.back().outline = weight->second;
        }
    put_in_order(points);
    return points;
}

std::vector<Portion> portions_of(std::vector<WeekPoint> points) {
    put_in_order(points);
    const auto atoms = atoms_of(points);
    const auto cuts = best_cuts(atoms);
    std::vector<Portion> portions;
    for (std::size_t n = 0; n < cuts.size(); ++n) {
        const std::size_t begin = atoms[cuts[n]].begin;
        const std::size_t end = n + 1 < cuts.size() ? atoms[cuts[n + 1]].begin : points.size();
        Portion portion;
        std::set<int> articles;
        for (std::size_t at = begin; at < end; ++at) {
            articles.insert(points[at].reference.article);
            portion.points.push_back(std::move(points[at]));
        }
        portion.articles.assign(articles.begin(), articles.end());
        portions.push_back(std::move(portion));
    }
    name_portions(portions);
    return portions;
}

}  // namespace practice
