#pragma once

#include "memory/fit/observations.hpp"
#include "memory/rehearsal/policy.hpp"
#include "memory/schedule/worth.hpp"

namespace memory::rehearsal {

/// The program's own rule: schedule::worth, with the pace so far.
class OwnRule : public Policy {
public:
    void score(const Desk& desk, std::span<double> scores) override;
    void answered(const Told& told) override;

protected:
    /// Null, or the parameters of each point.
    [[nodiscard]] virtual const Parameters* parameters(const Desk& /*desk*/) { return nullptr; }

private:
    [[nodiscard]] schedule::Pace pace(const Desk& desk) const;

    std::vector<schedule::Candidate> candidates_;
    double asks_ = 0;
};

/// The same with the recall model fitted every week to the learner's own answers, as if there were no crew.
class OwnRuleFitted final : public OwnRule {
public:
    void answered(const Told& told) override;

protected:
    [[nodiscard]] const Parameters* parameters(const Desk& desk) override;

private:
    void fit_again(const Desk& desk);

    std::vector<FitAnswer> answers_;
    std::vector<Parameters> params_;
    std::size_t fitted_on_ = 0;  ///< day of the last fit
};

}  // namespace memory::rehearsal
