#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/ids.hpp"
#include "base/instant.hpp"
#include "store/answer_log.hpp"
#include "store/crew.hpp"

namespace store {

/// An answer on its way into the store.
struct Arriving {
    AnswerRecord record;
    int line = 0;  ///< of its file, counted from 1; 0 where a file has no lines
};

/// A point that has changed for a learner, and since when.
struct Relearn {
    base::Id128 learner;
    base::PointId point;
    base::Instant since{};
    std::string why;

    friend bool operator==(const Relearn&, const Relearn&) = default;
};

/// A part of the shop's log that was kept elsewhere: an exported file, or the store of another machine.
struct LogPart {
    std::string file;           ///< as faults name it
    bool details = true;        ///< false: of the learners only id, name and day are known
    std::vector<Learner> crew;  ///< each id once
    std::vector<Arriving> answers;
    std::vector<Relearn> relearn;
};

/// What two stores say differently of a learner, or of two learners.
struct CrewDifference {
    enum class What : std::uint8_t { name, edition, jurisdiction, exam, left, same_name };
    What what = What::name;
    base::Id128 learner;  ///< same_name: the one who came
    std::string name;     ///< of the learner here
    std::string here;     ///< as words, "none" for nothing; same_name: the id of the one who was here
    std::string there;    ///< the same of the part; same_name: the id of the one who came
    bool taken = false;   ///< true: what the part says holds from now on; false: what stood here does

    friend bool operator==(const CrewDifference&, const CrewDifference&) = default;
};

/// "name", "edition", "jurisdiction", "exam", "left", "same name".
[[nodiscard]] std::string_view to_text(CrewDifference::What what);

/// What a part brought, or would bring.
struct TakenIn {
    std::int64_t answers = 0;             ///< in the part, each counted once
    std::int64_t fresh = 0;               ///< of those, how many were not here
    std::int64_t relearn = 0;             ///< points newly due because they have changed
    std::vector<Learner> added;           ///< to the crew
    std::vector<CrewDifference> told;     ///< in order of learner, as the part lists them
    std::optional<base::Instant> latest;  ///< when the last of the fresh answers was asked

    /// False when the store stays as it is.
    [[nodiscard]] bool anything() const;
};

}  // namespace store
