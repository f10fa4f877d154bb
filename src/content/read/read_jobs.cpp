#include "content/read/read_jobs.hpp"

#include <map>
#include <variant>

#include "base/text.hpp"
#include "content/read/read_question.hpp"
#include "trade/article.hpp"

namespace content {
namespace {

using base::Reader;

std::string fact_text(const Reader& value) {
    const auto& node = value.node().value;
    if (std::holds_alternative<double>(node)) return base::number_text(value.as_number(), 9);
    if (const auto* flag = std::get_if<bool>(&node)) return *flag ? "yes" : "no";
    return value.as_text();
}

JobFacts read_facts_of_case(const Reader& reader) {
    JobFacts facts;
    for (const auto& [name, value] : reader.members()) facts.emplace_back(name, fact_text(value));
    return facts;
}

std::string tidy(const std::string& phrase) {
    return base::join(base::words(phrase), " ");
}

Job read_job(const Reader& reader) {
    reader.only({"id", "title", "words", "tags", "topics", "articles", "without", "facts"});
    Job job;
    job.place = place_of(reader);
    job.id = reader.text("id");
    job.title = reader.text("title");
    job.words = reader.texts("words");
    if (reader.has("words") && job.words.empty())
        reader.member("words").fault("nobody can name this job", "add the words that people use for it");
    job.tags = reader.texts_or_none("tags");
    job.topics = reader.texts_or_none("topics");
    job.articles = reader.texts_or_none("articles");
    for (const auto& article : job.articles)
        if (!trade::parse_article(article))
            reader.fault("'" + article + "' is no code reference", "write it like 210.8(A)(2) or Article 590");
    job.without = reader.texts_or_none("without");
    for (const auto& item : reader.items_or_none("facts")) job.facts.push_back(read_facts_of_case(item));
    return job;
}

Reader member_or_self(const Reader& reader, const char* key) {
    return reader.has(key) ? reader.member(key) : reader;
}

}  // namespace

std::vector<Job> read_jobs(const Reader& document) {
    document.only({"format", "jobs"});
    std::vector<Job> jobs;
    std::map<std::string, std::string> phrases;
    for (const auto& item : document.items("jobs")) {
        jobs.push_back(read_job(item));
        for (const auto& phrase : jobs.back().words) {
            const auto [at, fresh] = phrases.try_emplace(tidy(phrase), jobs.back().id);
            if (fresh) continue;
            member_or_self(item, "words")
                .fault("'" + phrase + "' already names the job '" + at->second + "'",
                       "leave it to one of the two, or say more");
        }
    }
    return jobs;
}

}  // namespace content
