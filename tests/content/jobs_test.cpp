#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "base/located_json.hpp"
#include "content/check/check.hpp"
#include "content/read/read_jobs.hpp"
#include "content/sample.hpp"
#include "jobs_shipped.hpp"

namespace {

struct Read {
    std::vector<content::Job> jobs;
    base::Faults faults;
};

Read read(const std::string& text) {
    Read out;
    const auto located = base::parse_located(text, "jobs.json");
    REQUIRE(located);
    out.jobs = content::read_jobs(base::Reader{*located, "jobs.json", "", out.faults});
    return out;
}

bool tells(const base::Faults& faults, const std::string& words) {
    return std::any_of(faults.begin(), faults.end(),
                       [&](const base::Fault& f) { return base::to_text(f).find(words) != std::string::npos; });
}

}  // namespace

TEST_CASE("jobs: a job is read whole, its facts as the rules take them") {
    const auto out = read(R"json({"format": "greentag-jobs/1", "jobs": [
        {"id": "k", "title": "Kitchen", "words": ["kitchen", "new kitchen"], "tags": ["kitchen"], "topics": ["boxes"],
         "articles": ["210.52(C)"], "without": ["commercial"],
         "facts": [{"location": "kitchen", "volts": 120, "locking": false}, {"counter_ft": 1.5}]}]})json");
    CHECK(out.faults.empty());
    REQUIRE(out.jobs.size() == 1);
    const auto& job = out.jobs.front();
    CHECK(job.id == "k");
    CHECK(job.words == std::vector<std::string>{"kitchen", "new kitchen"});
    CHECK(job.tags == std::vector<std::string>{"kitchen"});
    CHECK(job.topics == std::vector<std::string>{"boxes"});
    CHECK(job.articles == std::vector<std::string>{"210.52(C)"});
    CHECK(job.without == std::vector<std::string>{"commercial"});
    REQUIRE(job.facts.size() == 2);
    CHECK(job.facts[0] == content::JobFacts{{"location", "kitchen"}, {"volts", "120"}, {"locking", "no"}});
    CHECK(job.facts[1] == content::JobFacts{{"counter_ft", "1.5"}});
    CHECK(job.place.line == 2);
}

TEST_CASE("jobs: every fault of a file is told with its place") {
    const auto out = read(R"json({"format": "greentag-jobs/1", "jobs": [
        {"id": "a", "title": "A", "words": [], "tagz": []},
        {"id": "b", "words": ["hot tub"], "articles": ["nothing"]},
        {"id": "c", "title": "C", "words": ["Hot  Tub"], "facts": [{"volts": null}]}]})json");
    CHECK(tells(out.faults, "nobody can name this job"));
    CHECK(tells(out.faults, "'nothing' is no code reference"));
    CHECK(tells(out.faults, "'Hot  Tub' already names the job 'b'"));
    CHECK(tells(out.faults, "tagz"));
    CHECK(tells(out.faults, "/jobs/1"));
    CHECK(tells(out.faults, "/jobs/2/facts/0"));
}

TEST_CASE("jobs: a job's facts, tags, topics and references have to lead somewhere") {
    content::Job job;
    job.id = "x";
    job.place = {"jobs.json", "/jobs/0", 3, 0, 0};
    job.tags = {"no-such-tag"};
    job.topics = {"no such topic"};
    job.articles = {"999.99"};
    job.facts = {{{"location", "moon"}}, {{"locaton", "kitchen"}}};
    auto contents = shipped_jobs::contents();
    contents.jobs = {job};
    base::Faults faults;
    content::check_jobs(contents, faults);
    CHECK(faults.size() == 5);
    CHECK(tells(faults, "no-such-tag"));
    CHECK(tells(faults, "no such topic"));
    CHECK(tells(faults, "999.99"));
    CHECK(tells(faults, "moon"));
    CHECK(tells(faults, "locaton"));
}

TEST_CASE("jobs: the shipped ones are at least 40, without a fault, and lead to points everywhere") {
    const auto& jobs = shipped_jobs::jobs();
    CHECK(jobs.size() >= 40);
    base::Faults faults;
    content::check_jobs(shipped_jobs::contents(), faults);
    for (const auto& fault : faults) FAIL_CHECK(base::to_text(fault));
    for (const auto& job : jobs) {
        CAPTURE(job.id);
        CHECK_FALSE(job.title.empty());
        CHECK(job.words.size() >= 2);
        CHECK(job.tags.size() + job.articles.size() + job.topics.size() + job.facts.size() > 0);
    }
}

TEST_CASE("jobs: a later root's job takes the place of one with the same id; twice in a root is a fault") {
    const std::string jobs =
        R"({"format": "greentag-jobs/1", "jobs": [{"id": "fan", "title": "Bath fan", "words": ["bath fan"]}]})";
    const sample::Folder below{"jobs-below"};
    const sample::Folder above{"jobs-above"};
    below.write_sample();
    below.write("decks/jobs.json", jobs);
    above.write("decks/mine.json", sample::spoiled(jobs, "Bath fan", "Our fan"));
    const auto over = content::load_contents({below.path(), above.path()});
    REQUIRE(over.has_value());
    REQUIRE(over->jobs.size() == 1);
    CHECK(over->jobs.front().title == "Our fan");
    above.write("decks/again.json", jobs);
    const auto twice = content::load_contents({below.path(), above.path()});
    REQUIRE(twice.has_value());
    CHECK(tells(twice->faults, "the id 'fan' is taken by " + above.in("decks/again.json")));
}
