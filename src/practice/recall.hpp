#pragma once

#include <string>
#include <unordered_map>
#include <vector>

#include "base/ids.hpp"
#include "content/library.hpp"
#include "memory/model.hpp"
#include "store/fit_record.hpp"

namespace practice {

/// The recall model as it stands for one learner: the shipped parameters, or what a fit left behind.
class Recall {
public:
    Recall() = default;  ///< the shipped parameters
    /// Takes the values in force; those of other learners, and names no longer known, are passed over.
    Recall(const std::vector<store::FittedValue>& values, const base::Id128& learner);

    /// Parameters for one point: the learner's own, with the ease of the point, its family (its topic), and the learner
    /// in that family. A point nobody has answered yet rests on the latter two.
    [[nodiscard]] memory::Parameters of(const base::PointId& point, const std::string& topic) const;
    [[nodiscard]] memory::Parameters of(const content::PointEntry& point) const { return of(point.id, point.topic); }

    /// False while the shipped parameters answer.
    [[nodiscard]] bool fitted() const { return fitted_; }

private:
    memory::Parameters learner_;
    std::unordered_map<std::string, double> points_, topics_;
    bool fitted_ = false;
};

}  // namespace practice
