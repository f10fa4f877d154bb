#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "practice/shop/progress.hpp"
#include "store/crew.hpp"

namespace practice {

/// From when on the lead is told; all chosen.
struct NeedRules {
    int overdue_days = 7;     ///< without an answer, or since joining
    int exam_days = 30;       ///< an exam this near or nearer
    double least_pass = 0.8;  ///< a chance to pass below this is low
};

/// What the lead has to know of a learner before progress is worked out.
struct MemberFor {
    store::Learner learner;
    ProgressFor what;
    std::optional<double> pass;  ///< chance to pass on the exam day as readiness gave it, 0..1; empty: not worked out
};

struct Member {
    store::Learner learner;
    std::optional<double> pass;
    std::optional<int> exam_in;  ///< whole days until the exam, 0 on its day; empty: none, or past; by days of UTC
    int idle = 0;  ///< days since that of the last answer, or of joining when there is none; by days of UTC
    Progress progress;
};

/// Why a learner needs the lead today, the most urgent first.
enum class NeedKind : std::uint8_t { shock, fire, overdue, exam };
[[nodiscard]] std::string_view to_text(NeedKind kind);

struct Need {
    NeedKind kind = NeedKind::shock;
    std::size_t member = 0;              ///< place among the members
    std::vector<OpenCorrection> points;  ///< of shock and fire: sure and wrong, not proved since on two later days
    int days = 0;                        ///< overdue: without an answer; exam: until it
};

/// One topic over the whole crew: who is strong where.
struct CrewTopic {
    std::string topic;
    std::size_t begun = 0;                   ///< learners who have met a point of it
    double recall = 0;                       ///< mean of their recall now; 0 when nobody has begun
    std::size_t due = 0, tripped = 0;        ///< points, over all learners
    std::size_t weakest = 0, strongest = 0;  ///< places among the members; the first of equals, of those
                                             ///< who have met half as many points as anybody
};

struct CrewProgress {
    base::Instant now{};
    NeedRules rules;
    std::vector<Member> members;    ///< in order of name; those who left are not among them
    std::vector<CrewTopic> topics;  ///< the weakest first, those nobody has begun last
    std::vector<Need> needs;        ///< in the order the lead should look at them
};

/// The same progress for everyone, and what needs the lead: sure and wrong on points that can hurt someone (shock, then
/// fire; the most points first), then who has not studied (longest first), then whose exam is near with a chance to
/// pass that is low or not known (soonest first). Equal ones in order of name.
[[nodiscard]] CrewProgress crew_progress(const content::Index& index, const CrewLog& log,
                                         const std::vector<MemberFor>& crew, base::Instant now,
                                         const NeedRules& rules = {});

}  // namespace practice
