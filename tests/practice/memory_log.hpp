#pragma once

#include <utility>
#include <vector>

#include "base/exit_status.hpp"
#include "memory/model.hpp"
#include "store/answer_log.hpp"

/// An answer log that forgets when it is gone, and fails when it is told to.
class MemoryLog : public store::AnswerLog {
public:
    store::AnswerRecord append(store::AnswerRecord record) override {
        if (failing) throw base::Failure{base::Exit::io_error, "the disk is full", "make room"};
        record.id = ids_.make(record.asked_at);
        records.push_back(record);
        return record;
    }

    [[nodiscard]] store::RecallStates states(const base::Id128& learner) override {
        store::RecallStates states;
        for (const auto& r : records)
            if (r.learner == learner) states[r.point] = memory::advance(states[r.point], r.asked_at, r.mark, r.sure);
        return states;
    }

    std::vector<store::AnswerRecord> records;
    bool failing = false;

private:
    base::IdMaker ids_{1};
};
