#pragma once

#include <string>
#include <vector>

#include "content/contents.hpp"
#include "content/trade_data.hpp"
#include "practice/job/job.hpp"

/// The jobs that are shipped, and what they are looked for in; read once.
namespace shipped_jobs {

[[nodiscard]] inline const content::Contents& contents() {
    static const auto all = content::load_contents(std::vector<std::string>{PROJECT_FOLDER}).value();
    return all;
}
[[nodiscard]] inline const content::TradeData& trade_data() {
    static const auto data = content::TradeData::make(contents()).value();
    return data;
}
[[nodiscard]] inline const std::vector<content::Job>& jobs() {
    return contents().jobs;
}
[[nodiscard]] inline const practice::JobSource& source() {
    static const auto made = practice::job_source(contents(), trade_data());
    return made;
}
[[nodiscard]] inline practice::JobBrief brief(const std::string& words, trade::Edition edition = trade::Edition::e2023,
                                              base::Seed seed = 1) {
    practice::JobFor what;
    what.words = {words};
    what.under.edition = edition;
    what.seed = seed;
    return practice::brief_job(source(), jobs(), what).value();
}

}  // namespace shipped_jobs
