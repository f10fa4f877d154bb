#include "practice/job/bearing.hpp"

#include <algorithm>
#include <optional>
#include <set>

#include "base/text.hpp"
#include "practice/job/stem.hpp"
#include "trade/article.hpp"
#include "trade/rules/book.hpp"

namespace practice {
namespace {

using content::Point;
using trade::Article;
using trade::ArticleMatch;

// How much each way of being found counts. Chosen so that a reference or a rule outweighs a tag, a tag a topic, and a
// word in a rule's text alone does not bring a point in where a job was named. Tried on the shipped jobs, not fitted.
constexpr double kOnReference = 3.0, kAboveReference = 1.0;
constexpr double kFirstTag = 2.0, kFurtherTag = 0.5, kTopic = 1.0;
constexpr double kLeastWithJob = 1.0, kLeastByWords = 0.35;

std::optional<Article> reference(const std::string& text) {
    const auto exception = text.find(" Ex");
    return trade::parse_article(exception == std::string::npos ? text : text.substr(0, exception));
}

/// How a point's reference stands to a wanted one: 2 on it or below it, 1 above it, 0 beside it.
int standing(const Article& given, const Article& wanted) {
    switch (trade::compare(given, wanted)) {
        case ArticleMatch::exact:
        case ArticleMatch::deeper:
            return 2;
        case ArticleMatch::shorter:
            return 1;
        default:
            return 0;
    }
}

double worth(int standing) {
    return standing == 2 ? kOnReference : standing == 1 ? kAboveReference : 0.0;
}

/// A reference of the job may be of any edition's numbering, so one version of the point on it is enough; one above it
/// counts only where no version lies beside it: 210.8(A) of a new edition is not every item of the old list.
double on_reference(const Point& point, const Article& wanted) {
    int best = 0;
    bool beside = false;
    for (const auto& version : point.versions) {
        const auto given = reference(version.article);
        if (!given) continue;
        best = std::max(best, standing(*given, wanted));
        beside = beside || trade::compare(*given, wanted) == ArticleMatch::section;
    }
    return best == 1 && beside ? 0.0 : worth(best);
}

/// A rule and a point are about the same thing when their references agree in every edition that both have.
double on_rule(const Point& point, const trade::Rule& rule) {
    int best = 0;
    for (const auto edition : trade::kEditions) {
        const auto* version = point.version(edition);
        const auto* of_rule = rule.version(edition);
        if (version == nullptr || of_rule == nullptr) continue;
        const auto given = reference(version->article), wanted = reference(of_rule->article);
        if (!given || !wanted) continue;
        if (given->section == 0 && given->article == wanted->article) continue;  // a whole article says nothing here
        int here = standing(*given, *wanted);
        if (here == 0) return 0.0;
        // A rule about a whole section does not speak of each item of its lists.
        if (wanted->parts.empty() && !given->parts.empty()) here = 1;
        best = std::max(best, here);
    }
    return worth(best);
}

bool has(const std::vector<std::string>& list, const std::string& item) {
    return std::find(list.begin(), list.end(), item) != list.end();
}

/// Made when an edition is first looked for, since all of the points are read for it.
const PointWords& words_of(const JobSource& source, trade::Edition edition) {
    return source.words->try_emplace(edition, source.points, edition).first->second;
}

/// What was stated is laid over every case, so what is wrong with it would be told once for each.
void add_once(base::Faults& faults, const base::Faults& more) {
    for (const auto& fault : more) {
        const bool told =
            std::any_of(faults.begin(), faults.end(), [&](const auto& f) { return f.what == fault.what; });
        if (!told) faults.push_back(fault);
    }
}

/// Looks at one point after the other.
class Search {
public:
    Search(const JobSource& source, const JobSearch& what)
        : what_{&what}, words_{&words_of(source, what.under.edition)} {
        for (const auto& word : what.words)
            for (auto& stem : stems_of(word))
                if (words_->known(stem) && !words_->common(stem) && !has(stems_, stem))
                    stems_.push_back(std::move(stem));
    }

    base::Checked<void> ask_rules(const content::TradeData& trade) {
        const auto& under = what_->under;
        const auto& book = trade.book(under.edition, under.jurisdiction, under.day);
        trade::CaseFacts facts{book.vocabulary()};
        trade::Ruling ruling;
        base::Faults faults;
        for (const auto& one : what_->cases) {
            facts.clear();
            for (const auto& [name, value] : one) {
                const auto set = facts.set(name, std::string_view{value});
                if (!set) add_once(faults, set.error());
            }
            ruling.clear();
            book.judge(facts, trade::kEveryResult, ruling);
            for (const auto& fired : ruling.fired)
                if (std::find(fired_.begin(), fired_.end(), fired.rule) == fired_.end()) fired_.push_back(fired.rule);
        }
        if (!faults.empty()) return tl::unexpected<base::Faults>{std::move(faults)};
        return {};
    }

    [[nodiscard]] std::optional<JobPoint> look_at(const Point& point) const {
        const auto* version = point.version(what_->under.edition);
        if (version == nullptr || ruled_out(point)) return std::nullopt;
        JobPoint found;
        found.point = &point;
        found.version = version;
        by_rules(found);
        for (const auto* job : what_->jobs) by_job(found, *job);
        by_words(found);
        const double least = what_->jobs.empty() && fired_.empty() ? kLeastByWords : kLeastWithJob;
        if (found.bearing < least) return std::nullopt;
        return found;
    }

    [[nodiscard]] bool word_known(const std::string& word) const {
        const auto stems = stems_of(word);
        return stems.empty() ||
               std::any_of(stems.begin(), stems.end(), [&](const std::string& s) { return words_->known(s); });
    }

private:
    /// Every job that was named says that points of this kind have nothing to do with it.
    [[nodiscard]] bool ruled_out(const Point& point) const {
        return !what_->jobs.empty() &&
               std::all_of(what_->jobs.begin(), what_->jobs.end(), [&](const content::Job* job) {
                   return std::any_of(job->without.begin(), job->without.end(),
                                      [&](const std::string& tag) { return has(point.tags, tag); });
               });
    }

    /// Adds the strongest of several; the others are no further reason to believe it.
    static void add(JobPoint& found, double value, JobReason::Kind kind, std::string text) {
        found.bearing += value;
        found.reasons.push_back({kind, std::move(text)});
    }

    void by_rules(JobPoint& found) const {
        double best = 0.0;
        const trade::Rule* by = nullptr;
        for (const auto* rule : fired_) {
            const double value = on_rule(*found.point, *rule);
            if (value > best) by = rule;
            best = std::max(best, value);
        }
        if (by != nullptr) add(found, best, JobReason::Kind::rule, by->title);
    }

    void by_job(JobPoint& found, const content::Job& job) const {
        double best = 0.0;
        std::string by;
        for (const auto& article : job.articles) {
            const auto wanted = trade::parse_article(article);
            const double value = wanted ? on_reference(*found.point, *wanted) : 0.0;
            if (value > best) by = article;
            best = std::max(best, value);
        }
        if (best > 0.0) add(found, best, JobReason::Kind::article, by);
        double of_tag = kFirstTag;
        for (const auto& tag : job.tags) {
            if (!has(found.point->tags, tag)) continue;
            add(found, of_tag, JobReason::Kind::tag, tag);
            of_tag = kFurtherTag;
        }
        if (has(job.topics, found.point->topic)) add(found, kTopic, JobReason::Kind::topic, found.point->topic);
    }

    /// One word of several that were typed counts for little: "tub" alone is no "hot tub".
    void by_words(JobPoint& found) const {
        double sum = 0.0;
        std::vector<std::string> hits;
        for (const auto& stem : stems_) {
            const double value = words_->worth(*found.point, stem);
            if (value <= 0.0) continue;
            sum += value;
            hits.push_back(typed(stem));
        }
        if (hits.empty()) return;
        const double share = static_cast<double>(hits.size()) / static_cast<double>(stems_.size());
        add(found, sum * share, JobReason::Kind::words, base::join(hits, ", "));
    }

    [[nodiscard]] std::string typed(const std::string& stem) const {
        for (const auto& word : what_->words)
            if (has(stems_of(word), stem)) return base::lower(word);
        return stem;
    }

    const JobSearch* what_;
    const PointWords* words_;
    std::vector<std::string> stems_;
    std::vector<const trade::Rule*> fired_;
};

}  // namespace

base::Checked<std::vector<JobPoint>> bearing_points(const JobSource& source, const JobSearch& search,
                                                    std::vector<std::string>& unmatched) {
    Search looking{source, search};
    if (source.trade != nullptr) {
        const auto asked = looking.ask_rules(*source.trade);
        if (!asked) return tl::unexpected<base::Faults>{asked.error()};
    }
    std::vector<JobPoint> points;
    for (const auto* point : source.points)
        if (auto found = looking.look_at(*point)) points.push_back(std::move(*found));
    for (const auto& word : search.words)
        if (!looking.word_known(word)) unmatched.push_back(word);
    return points;
}

}  // namespace practice
