#pragma once

#include <string>
#include <vector>

#include "practice/shop/crew_progress.hpp"
#include "practice/shop/made_record.hpp"
#include "report/shop/progress_page.hpp"

/// A small shop whose pages are written: three who study, one who has not begun.
namespace made {

struct Shop {
    content::Index library = index(40);
    practice::CrewLog record = log(library, 4);
    std::vector<store::Learner> learners;
    practice::CrewProgress crew;

    explicit Shop(base::Seed seed, std::size_t answers_each = 150,
                  const std::vector<std::string>& names = {"Ada Ferris", "Bo Lund", "Cid Marsh", "Dee Newly"}) {
        base::Random random{seed};
        record.answers = answers(random, 3 * answers_each, record.points.size(), 200);
        for (auto& one : record.answers) one.learner = static_cast<std::uint32_t>(random.below(3));
        std::vector<practice::MemberFor> members;
        for (std::size_t n = 0; n < names.size(); ++n) {
            practice::MemberFor one;
            one.learner.id = learner(static_cast<std::uint8_t>(n + 1));
            one.learner.name = names[n];
            one.learner.added_at = base::after_days(kNow, -20);
            one.what = what();
            learners.push_back(one.learner);
            members.push_back(one);
        }
        members[0].learner.exam_at = base::after_days(kNow, 9);
        members[0].pass = 0.54;
        crew = practice::crew_progress(library, record, members, kNow);
    }

    [[nodiscard]] report::LearnerPage page(std::size_t member) const {
        return {crew.members.at(member).learner, crew.members.at(member).progress, kNow, nullptr, {}};
    }
};

}  // namespace made
