#pragma once

#include <vector>

#include "memory/model.hpp"
#include "memory/rehearsal/mind.hpp"

namespace memory::rehearsal {

/// Where one point stands for one learner, as the recall model has it.
struct Standing {
    RecallState state;
    Parameters params;
};

/// The recall model taken for the truth: what a plan would achieve if the model were right. Good for looking ahead from
/// where somebody stands; useless as a proof that a policy is good.
class ModelMind final : public Mind {
public:
    explicit ModelMind(std::vector<Standing> standings) : standings_{std::move(standings)} {}

    [[nodiscard]] double chance(std::size_t point, base::Instant at) const override;
    void answered(std::size_t point, base::Instant at, bool recalled) override;

private:
    std::vector<Standing> standings_;
};

}  // namespace memory::rehearsal
