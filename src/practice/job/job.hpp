#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/fault.hpp"
#include "base/ids.hpp"
#include "base/random.hpp"
#include "content/computed/computing.hpp"
#include "content/contents.hpp"
#include "content/job.hpp"
#include "content/trade_data.hpp"
#include "practice/job/point_words.hpp"

namespace practice {

/// Where the points of a job are looked for. Holds on to what it was made from, which has to outlive it.
struct JobSource {
    std::vector<const content::Point*> points;
    /// The line that explains a mistake of a point; empty when it has none.
    std::function<std::string(const content::Point&, const std::string&)> mistake;
    const content::TradeData* trade = nullptr;
    /// Filled as editions are looked for: not for several threads at once.
    std::shared_ptr<std::map<trade::Edition, PointWords>> words =
        std::make_shared<std::map<trade::Edition, PointWords>>();
};
[[nodiscard]] JobSource job_source(const content::Contents& contents, const content::TradeData& trade);

/// What is to be done, and by whom.
struct JobFor {
    std::vector<std::string> words;            ///< as typed; NAME=VALUE states a fact of the job
    content::Under under;                      ///< edition, jurisdiction, day
    std::map<base::PointId, double> weakness;  ///< 0 (known) to 1 (forgotten) of those who go; a point not named: 0
    base::Seed seed = 0;
    std::size_t most_points = 30;
    std::chrono::seconds drill{300};
};

/// Why a point bears on the job.
struct JobReason {
    enum class Kind : std::uint8_t { rule, article, tag, words, topic };
    Kind kind = Kind::words;
    std::string text;  ///< the rule's title, the reference, the tag, the words, the topic
};
/// "rule that fires: Kitchens of dwellings".
[[nodiscard]] std::string to_text(const JobReason& reason);

struct JobPoint {
    const content::Point* point = nullptr;
    const content::Version* version = nullptr;  ///< under the edition
    double bearing = 0.0;                       ///< how much it has to do with the job, > 0
    double weakness = 0.0;
    double weight = 0.0;  ///< bearing by stakes and weakness: what the ranking goes by
    std::vector<JobReason> reasons;
};

/// What governs the job, in our words, as it goes on the reminder.
struct ReminderRule {
    base::PointId point;
    std::string title, article, says;
    content::Stakes stakes = content::Stakes::inspection;
    bool unverified = false;
    bool practice = false;  ///< no rule of the code, but practice of the trade filed under the article
};

/// What fits on one page, in the order it is read.
struct Reminder {
    std::vector<std::string> cautions;  ///< never empty where a point can hurt someone; shock first
    std::vector<ReminderRule> rules;
    std::vector<std::string> mistakes;  ///< named mistakes of the same points, the first points' first
};

struct JobBrief {
    std::string asked;                      ///< the words, without the facts
    std::vector<const content::Job*> jobs;  ///< that the words name, the longest name first; may be empty
    content::Under under;
    std::vector<JobPoint> points;              ///< heaviest first; ties by id
    std::size_t left_off = 0;                  ///< further points that bear on it less
    std::vector<const content::Point*> drill;  ///< points to be asked, drawn by weight
    Reminder reminder;
    std::vector<std::string> unmatched;  ///< words that named no job and that no point has
    std::vector<std::string> nearest;    ///< titles of jobs that may have been meant, when none was named
};

/// The points that bear on a job, a drill and a reminder. Same source, jobs and request: same brief.
/// Takes   weakness in [0, 1]; others count as the nearest of the two.
/// Gives   points found by three ways: the job that the words name (its references, tags and topics), the words
///         themselves in titles, tags and rules of points, and the rules that fire for the job's facts and the facts
///         stated, by the references that rule and point share in every edition. Finding nothing is no error.
/// Errors  no words at all; a NAME=VALUE that is no fact of the vocabulary.
[[nodiscard]] base::Checked<JobBrief> brief_job(const JobSource& source, const std::vector<content::Job>& jobs,
                                                const JobFor& what);

/// The jobs that words name. A job is named when all words of one of its names are there, in any form and order; one
/// whose words all belong to longer names of others is not ("garage" in "detached garage feeder").
[[nodiscard]] std::vector<const content::Job*> jobs_named(const std::vector<content::Job>& jobs,
                                                          std::string_view words);

}  // namespace practice
