#include "memory/items/rest_ability.hpp"

#include <utility>

#include "memory/items/ability_grid.hpp"

namespace memory {
namespace {

double mean_at(std::vector<double> logs, const AbilityGrid& grid) {
    normalise(logs);
    double mean = 0;
    for (std::size_t n = 0; n < logs.size(); ++n) mean += logs[n] * grid.at(n);
    return mean;
}

}  // namespace

std::vector<RestAbility> rest_abilities(const ResponseMatrix& matrix) {
    LogisticOptions options;
    options.form = LogisticForm::one_parameter;
    options.prior = ItemPrior{};
    options.errors = false;
    const auto fitted = fit_logistic(patterns(matrix), matrix.items(), options);
    std::vector<double> slopes;
    std::vector<double> intercepts;
    for (const auto& item : fitted.items) {
        slopes.push_back(item.slope);
        intercepts.push_back(item.intercept);
    }
    const AbilityGrid grid{options.nodes};
    const ItemCurves curves{grid, slopes, intercepts};
    std::vector<RestAbility> all;
    for (std::size_t learner = 0; learner < matrix.learners(); ++learner) {
        const auto answers = matrix.of_learner(learner);
        std::vector<double> whole(grid.size());
        for (std::size_t n = 0; n < whole.size(); ++n) whole[n] = grid.log_weight(n);
        for (const auto& answer : answers) {
            const double* log = curves.log_of(answer.item, answer.right());
            for (std::size_t n = 0; n < whole.size(); ++n) whole[n] += log[n];
        }
        for (const auto& answer : answers) {
            auto rest = whole;
            const double* log = curves.log_of(answer.item, answer.right());
            for (std::size_t n = 0; n < rest.size(); ++n) rest[n] -= log[n];
            const std::size_t others = answers.size() - 1;
            all.push_back({others == 0 ? 0.0 : mean_at(std::move(rest), grid), others});
        }
    }
    return all;
}

}  // namespace memory
