#pragma once

#include <memory>

#include "base/ids.hpp"
#include "store/faulty_disk.hpp"
#include "store/log_lines.hpp"
#include "store/log_part.hpp"
#include "store/other_store.hpp"
#include "store/read_log.hpp"
#include "store/support.hpp"

/// Logs in parts, as machines that were apart have them.
namespace stores {

inline std::vector<store::Learner> three() {
    std::vector<store::Learner> all;
    base::IdMaker ids{77};
    for (const char* name : {"Ada Volt", "Ben Ohm", "Cleo Amp"}) {
        all.push_back(learner_called(name));
        all.back().edition.reset();
        all.back().id = ids.make(kMonday + std::chrono::hours{all.size()});
        all.back().added_at = kMonday + std::chrono::hours{all.size()};
    }
    return all;
}

/// Some answers of three learners, with ids, devices, and now and then a moment that two of them share.
inline Log any_log(base::Random& random, std::size_t answers) {
    base::IdMaker ids{random.next()};
    const auto crew = three();
    Log log;
    for (std::size_t number = 0; number < answers; ++number) {
        log.push_back(any_answer(random, crew[random.below(crew.size())].id));
        log.back().id = ids.make(log.back().asked_at);
        log.back().device = id_of(static_cast<std::uint8_t>(1 + random.below(3)));
        log.back().seed = random.next();
    }
    random.shuffle(log);
    return log;
}

/// The log as an export has it.
inline std::string lines_of(const Log& log) {
    std::string text;
    for (const auto& record : log) {
        std::string name;
        for (const auto& one : three())
            if (one.id == record.learner) name = one.name;
        text += store::to_line(record, name) + "\n";
    }
    return text;
}

/// The log as another machine's store, of which the part is read.
inline store::LogPart by_store(const Log& log) {
    const TempFolder folder;
    {
        store::Store store{options(folder.path("other.db"))};
        enlist(folder.path("other.db"), three());
        store.append_all(log);
    }
    return store::read_other_store(folder.path("other.db"));
}

inline store::LogPart by_lines(const Log& log) {
    return store::read_log(lines_of(log), "log.jsonl").value();
}

/// Parts that overlap and together are the whole; some of them stores, some of them lines.
inline std::vector<store::LogPart> parts_of(const Log& log, base::Random& random) {
    std::vector<Log> logs(2 + random.below(3));
    for (const auto& record : log) {
        logs[random.below(logs.size())].push_back(record);
        for (auto& one : logs)
            if (random.below(3) == 0 && (one.empty() || one.back().id != record.id)) one.push_back(record);
    }
    std::vector<store::LogPart> parts;
    for (const auto& one : logs) parts.push_back(random.below(2) == 0 ? by_store(one) : by_lines(one));
    return parts;
}

/// A home with what the parts brought, in this order.
struct Home {
    explicit Home(const std::vector<store::LogPart>& parts = {}) : store{options(folder.path())} {
        for (const auto& part : parts) REQUIRE(store.take_in(part).has_value());
    }
    TempFolder folder;
    store::Store store;
};

/// Everything that a merge may touch.
inline bool alike(Home& one, Home& two) {
    bool same = log_of(one.store) == log_of(two.store) && one.store.learners() == two.store.learners();
    for (const auto& who : three())
        same = same && one.store.states(who.id) == two.store.states(who.id) &&
               one.store.relearn(who.id) == two.store.relearn(who.id);
    return same;
}

}  // namespace stores
