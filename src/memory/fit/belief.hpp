#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <vector>

#include "base/random.hpp"
#include "memory/fit/fit.hpp"
#include "memory/model.hpp"

namespace memory {

/// Whom and what a forecast is about.
struct Asked {
    std::uint32_t learner = 0, point = 0;
    std::uint8_t form = 0;
};

/// A chance with the interval that holds it nine times in ten, as far as the parameters are uncertain.
struct Chance {
    double middle = 0, low = 0, high = 0;
};

/// How other parameters are drawn: from the normal around the most probable ones, or from the belief itself, which is
/// truer with few answers and takes some hundred times as long.
enum class Draws : std::uint8_t { normal, sampled };

/// What a crew's answers leave us believing of each learner and point: the most probable parameters, and a number of
/// equally likely other ones, drawn from the posterior.
class Belief {
public:
    /// Takes the answers to learn from, none included (the priors then speak); draws >= 2; how they are drawn, and on
    /// how many threads, which changes nothing.
    Belief(Observations learned_from, const Priors& priors, std::size_t draws, base::Seed seed,
           Draws how = Draws::normal, unsigned threads = 1);

    [[nodiscard]] std::size_t draws() const { return drawn_.size(); }
    [[nodiscard]] const Observations& data() const { return data_; }
    [[nodiscard]] const Fitted& fitted() const { return fitted_; }

    /// The ease of the form is counted to the ease of the point.
    [[nodiscard]] Parameters most_probable(const Asked& asked) const;
    /// Takes draw < draws(). A learner who has answered nothing in a family gets an ease there drawn from the prior.
    [[nodiscard]] Parameters drawn(std::size_t draw, const Asked& asked) const;

    /// Chance of a right answer at a moment, given the state before it: the most probable one, and 1.645 standard
    /// deviations of its log odds over the draws to either side.
    [[nodiscard]] Chance recall(const RecallState& state, base::Instant when, const Asked& asked) const;

private:
    [[nodiscard]] Parameters parameters(const Unknowns& at, const Asked& asked, double ease_in_new_family) const;

    Observations data_;
    Priors priors_;
    Fitted fitted_;
    std::vector<Unknowns> drawn_;
    base::Seed seed_;
};

}  // namespace memory
