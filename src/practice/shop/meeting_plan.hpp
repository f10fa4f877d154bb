#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "base/fault.hpp"
#include "base/ids.hpp"
#include "content/library.hpp"
#include "practice/shop/meeting.hpp"

namespace practice {

/// A point that somebody has to meet again; the more of the crew, the higher its weight (over 0).
struct Weighted {
    base::PointId point;
    double weight = 1.0;
};

/// What one of the last meetings asked.
struct AskedBefore {
    base::PointId point;
    base::QuestionId question;
};

inline constexpr std::size_t kFewestAsks = 8, kMostAsks = 12;

/// What a meeting is planned from.
struct MeetingFor {
    base::Instant day{};
    std::string title, shop, jurisdiction;
    trade::Edition edition = trade::Edition::e2023;
    base::Seed seed = 0;
    std::size_t asks = 10;                 ///< kFewestAsks to kMostAsks
    std::vector<base::PointId> week;       ///< of the article of the week
    std::vector<Weighted> sure_and_wrong;  ///< of the crew
    std::vector<Weighted> corrections;     ///< of the crew
    std::vector<base::PointId> jobs;       ///< that bear on coming jobs
    std::vector<AskedBefore> recent;       ///< asked in the last meetings: comes again only when nothing else is left
    std::size_t most_choose_all = 2;       ///< several boxes take longer to read off a sheet
    std::size_t most_numbers = 1;          ///< a figure written by hand takes longest
};

struct MeetingPlan {
    Meeting meeting;    ///< without sheets
    base::Faults told;  ///< warnings: points that could not be taken, asks that nobody has verified, too few asks
};

/// Chooses the asks of a meeting. Deterministic in library and `what`; never two asks of one point.
///
/// Order: of the crew's sure-and-wrong points three in ten asks at most, of its corrections three in ten, of points of
/// coming jobs two in ten, then points of the week until the meeting is full; what is then left of the first three;
/// then any point of the library under this edition; last of all what was asked in the last meetings, with another
/// question where there is one. Sure-and-wrong and corrections come by weight times stakes, highest first; the others
/// are drawn by seed, weighted by stakes (exponential keys: Efraimidis and Spirakis 2006). Within each of these,
/// verified points come before unverified ones. Of the questions of a point, those of at most 300 letters are
/// preferred: ten asks then fit on both sides of one paper.
///
/// Errors: a number of asks outside 8 to 12; a library without anything to ask on paper in this edition.
[[nodiscard]] base::Checked<MeetingPlan> plan_meeting(const content::Library& library, const MeetingFor& what);

}  // namespace practice
