#include "practice/job/job.hpp"

#include <algorithm>
#include <set>

#include "base/text.hpp"
#include "practice/job/bearing.hpp"
#include "practice/job/reminder.hpp"
#include "practice/job/stem.hpp"
#include "practice/stakes_weight.hpp"

namespace practice {
namespace {

using content::Job;
using Stems = std::set<std::string>;

Stems stem_set(std::string_view text) {
    const auto list = stems_of(text);
    return {list.begin(), list.end()};
}

bool within(const Stems& part, const Stems& whole) {
    return std::includes(whole.begin(), whole.end(), part.begin(), part.end());
}

/// The stems of the longest name of the job that the words hold; empty when they hold none.
Stems longest_name(const Job& job, const Stems& words) {
    Stems longest;
    for (const auto& phrase : job.words) {
        auto stems = stem_set(phrase);
        if (stems.size() > longest.size() && within(stems, words)) longest = std::move(stems);
    }
    return longest;
}

/// Words as typed, parted from the facts among them.
struct Typed {
    std::vector<std::string> words;
    content::JobFacts facts;
};

Typed parted(const std::vector<std::string>& typed) {
    Typed all;
    for (const auto& argument : typed)
        for (const auto& word : base::split(argument, ' ')) {
            if (word.empty()) continue;
            const auto equal = word.find('=');
            if (equal == std::string::npos)
                all.words.push_back(word);
            else
                all.facts.emplace_back(word.substr(0, equal), word.substr(equal + 1));
        }
    return all;
}

/// The cases of the jobs with what was stated laid over each; what was stated alone where there is no job.
std::vector<content::JobFacts> cases_of(const std::vector<const Job*>& jobs, const content::JobFacts& stated) {
    std::vector<content::JobFacts> cases;
    for (const auto* job : jobs)
        for (const auto& facts : job->facts) {
            cases.push_back(facts);
            auto& one = cases.back();
            std::erase_if(one, [&](const auto& fact) {
                return std::any_of(stated.begin(), stated.end(), [&](const auto& s) { return s.first == fact.first; });
            });
            one.insert(one.end(), stated.begin(), stated.end());
        }
    if (cases.empty() && !stated.empty()) cases.push_back(stated);
    return cases;
}

double weakness_of(const content::Point& point, const JobFor& what) {
    const auto found = what.weakness.find(point.id);
    return found == what.weakness.end() ? 0.0 : std::clamp(found->second, 0.0, 1.0);
}

/// Forgotten weighs twice what is known does.
void weigh(std::vector<JobPoint>& points, const JobFor& what) {
    for (auto& found : points) {
        found.weakness = weakness_of(*found.point, what);
        found.weight = found.bearing * stakes_weight(found.point->stakes) * (1.0 + found.weakness);
    }
    std::sort(points.begin(), points.end(), [](const JobPoint& a, const JobPoint& b) {
        if (a.weight != b.weight) return a.weight > b.weight;
        return a.point->id < b.point->id;
    });
}

/// Titles of jobs that have one of the words, or one that it may be a slip of.
std::vector<std::string> nearest_jobs(const std::vector<Job>& jobs, const std::vector<std::string>& words) {
    constexpr std::size_t kMost = 3;
    std::set<std::string> known;
    for (const auto& job : jobs)
        for (const auto& phrase : job.words)
            for (const auto& word : base::words(phrase)) known.insert(word);
    const std::vector<std::string> list{known.begin(), known.end()};
    std::vector<std::string> titles;
    for (const auto& word : words) {
        const auto near = base::nearest(base::lower(word), list);
        if (!near) continue;
        const auto meant = stem(*near);
        for (const auto& job : jobs) {
            const bool has = std::any_of(job.words.begin(), job.words.end(),
                                         [&](const std::string& phrase) { return stem_set(phrase).contains(meant); });
            if (has && titles.size() < kMost && std::find(titles.begin(), titles.end(), job.title) == titles.end())
                titles.push_back(job.title);
        }
    }
    return titles;
}

/// Words of a job's names are matched by having named it.
void forget_matched(std::vector<std::string>& unmatched, const std::vector<const Job*>& jobs) {
    std::erase_if(unmatched, [&](const std::string& word) {
        const auto stems = stem_set(word);
        return std::any_of(jobs.begin(), jobs.end(), [&](const Job* job) {
            return std::any_of(job->words.begin(), job->words.end(),
                               [&](const std::string& phrase) { return within(stems, stem_set(phrase)); });
        });
    });
}

}  // namespace

std::string to_text(const JobReason& reason) {
    switch (reason.kind) {
        case JobReason::Kind::rule:
            return "rule for these facts: " + reason.text;
        case JobReason::Kind::article:
            return "governed by " + reason.text;
        case JobReason::Kind::tag:
            return "tag " + reason.text;
        case JobReason::Kind::words:
            return "your words: " + reason.text;
        case JobReason::Kind::topic:
            return "topic " + reason.text;
    }
    return reason.text;
}

JobSource job_source(const content::Contents& contents, const content::TradeData& trade) {
    JobSource source;
    for (const auto& deck : contents.decks)
        for (const auto& point : deck.points) source.points.push_back(&point);
    source.mistake = [&contents](const content::Point& point, const std::string& id) -> std::string {
        for (const auto& deck : contents.decks) {
            const auto found = deck.name == point.deck ? deck.mistakes.find(id) : deck.mistakes.end();
            if (found != deck.mistakes.end()) return found->second;
        }
        return {};
    };
    source.trade = &trade;
    return source;
}

std::vector<const Job*> jobs_named(const std::vector<Job>& jobs, std::string_view words) {
    const auto typed = stem_set(words);
    std::vector<std::pair<Stems, const Job*>> named;
    for (const auto& job : jobs) {
        auto name = longest_name(job, typed);
        if (!name.empty()) named.emplace_back(std::move(name), &job);
    }
    std::stable_sort(named.begin(), named.end(),
                     [](const auto& a, const auto& b) { return a.first.size() > b.first.size(); });
    std::vector<const Job*> chosen;
    Stems covered;
    for (const auto& [name, job] : named) {
        if (within(name, covered)) continue;
        covered.insert(name.begin(), name.end());
        chosen.push_back(job);
    }
    return chosen;
}

base::Checked<JobBrief> brief_job(const JobSource& source, const std::vector<Job>& jobs, const JobFor& what) {
    const auto typed = parted(what.words);
    if (typed.words.empty() && typed.facts.empty())
        return base::refuse("nothing says what the job is", "name it, such as: job kitchen remodel");
    JobBrief brief;
    brief.asked = base::join(typed.words, " ");
    brief.jobs = jobs_named(jobs, brief.asked);
    brief.under = what.under;
    auto points = bearing_points(source, {brief.jobs, typed.words, cases_of(brief.jobs, typed.facts), what.under},
                                 brief.unmatched);
    if (!points) return tl::unexpected<base::Faults>{points.error()};
    weigh(*points, what);
    if (points->size() > what.most_points) brief.left_off = points->size() - what.most_points;
    points->resize(points->size() - brief.left_off);
    brief.points = std::move(*points);
    forget_matched(brief.unmatched, brief.jobs);
    if (brief.jobs.empty()) brief.nearest = nearest_jobs(jobs, typed.words);
    brief.drill = drill_of(brief.points, what.under.edition, what.drill, what.seed);
    brief.reminder = reminder_of(source, brief.points, what.under.edition);
    return brief;
}

}  // namespace practice
