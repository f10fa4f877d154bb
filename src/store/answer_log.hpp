#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>

#include "base/ids.hpp"
#include "base/instant.hpp"
#include "base/random.hpp"
#include "memory/state.hpp"

namespace store {

/// What the learner was doing when the answer was given.
enum class Setting : std::uint8_t { study, meeting, exam, brief };

[[nodiscard]] std::string_view to_text(Setting setting);
[[nodiscard]] std::optional<Setting> parse_setting(std::string_view text);

/// One answer, as it is kept for ever.
struct AnswerRecord {
    base::Id128 id;
    base::Id128 learner;
    base::PointId point;
    base::QuestionId question;
    std::string content;  ///< content version of the question
    base::Seed seed = 0;
    int edition = 0;  ///< year
    std::string jurisdiction;
    Setting setting = Setting::study;
    base::Instant asked_at{};
    std::int64_t took_ms = 0;  ///< >= 0
    double mark = 0.0;         ///< 0..1
    memory::Sure sure = memory::Sure::fairly;
    std::string given;   ///< as typed
    base::Id128 device;  ///< the machine it was given on

    friend bool operator==(const AnswerRecord&, const AnswerRecord&) = default;
};

using RecallStates = std::unordered_map<base::PointId, memory::RecallState>;

/// The step that carries a recall state over one answer; memory has it, the store only applies it.
using Advance = memory::RecallState (*)(memory::RecallState, base::Instant, double mark, memory::Sure);

/// The append-only truth. What has been appended is on the disk when append returns.
class AnswerLog {
public:
    AnswerLog() = default;
    AnswerLog(const AnswerLog&) = delete;
    AnswerLog& operator=(const AnswerLog&) = delete;
    virtual ~AnswerLog() = default;

    /// Gives the record its id and device, and makes it durable. Throws Failure when that cannot be promised.
    virtual AnswerRecord append(AnswerRecord record) = 0;

    /// Recall states of one learner, all answers so far folded in.
    [[nodiscard]] virtual RecallStates states(const base::Id128& learner) = 0;
};

}  // namespace store
