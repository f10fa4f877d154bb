#include "memory/fit/curvature.hpp"

#include <cmath>
#include <numeric>

#include "memory/fit/cholesky.hpp"

namespace memory {
namespace {

using Vector = std::vector<double>;

double dot(const Vector& a, const Vector& b) {
    return std::inner_product(a.begin(), a.end(), b.begin(), 0.0);
}

double dot_shared(const Curvature::Sums& sums, const Vector& vector) {
    double sum = 0;
    for (std::size_t k = 0; k < kShared; ++k) sum += sums[k] * vector[k];
    return sum;
}

void add_shared(const Curvature::Sums& sums, double times, Vector& out) {
    for (std::size_t k = 0; k < kShared; ++k) out[k] += sums[k] * times;
}

void add(Curvature::Unit& to, const Curvature::Unit& from) {
    to.weight += from.weight;
    for (std::size_t k = 0; k < kShared; ++k) to.shared[k] += from.shared[k];
}

}  // namespace

Curvature::Curvature(const Observations& data, std::vector<double> precision)
    : data_{&data}, places_{data}, precision_{std::move(precision)} {
    clear();
}

void Curvature::clear() {
    shared = {};
    learners.assign(data_->learners, {});
    branches.assign(data_->branches, {});
    points.assign(data_->points, {});
    families.assign(data_->families, {});
    met.assign(data_->pairs.size(), {});
}

void Curvature::gather() {
    for (const auto& pair : data_->pairs) {
        branches[pair.branch].learner = pair.learner;
        branches[pair.branch].family = data_->family_of_point[pair.point];
    }
    for (const auto& branch : branches) {
        auto& learner = learners[branch.learner];
        add(learner.ease, branch.ease);
        learner.across += branch.across;
    }
    for (std::size_t i = 0; i < points.size(); ++i) add(families[data_->family_of_point[i]], points[i]);
}

void Curvature::multiply_shared(const Vector& vector, Vector& out) const {
    for (std::size_t k = 0; k < kShared; ++k) out[k] += dot_shared(shared[k], vector);
    const auto unit = [&](const Sums& sums, std::size_t place) {
        out[place] += dot_shared(sums, vector);
        add_shared(sums, vector[place], out);
    };
    for (std::size_t l = 0; l < learners.size(); ++l) {
        unit(learners[l].ease.shared, places_.learner_ease(l));
        unit(learners[l].shared_forgets, places_.learner_forgets(l));
    }
    for (std::size_t i = 0; i < points.size(); ++i) unit(points[i].shared, places_.point_ease(i));
    for (std::size_t f = 0; f < families.size(); ++f) unit(families[f].shared, places_.family_ease(f));
    for (std::size_t b = 0; b < branches.size(); ++b) unit(branches[b].ease.shared, places_.branch_ease(b));
}

void Curvature::multiply_branches(const Vector& vector, Vector& out) const {
    for (std::size_t l = 0; l < learners.size(); ++l) {
        const double ease = vector[places_.learner_ease(l)];
        const double forgets = vector[places_.learner_forgets(l)];
        out[places_.learner_ease(l)] += learners[l].ease.weight * ease + learners[l].across * forgets;
        out[places_.learner_forgets(l)] += learners[l].across * ease + learners[l].forgets * forgets;
    }
    for (std::size_t b = 0; b < branches.size(); ++b) {
        const auto& branch = branches[b];
        const std::size_t ease = places_.learner_ease(branch.learner);
        const std::size_t forgets = places_.learner_forgets(branch.learner);
        const std::size_t family = places_.family_ease(branch.family);
        const std::size_t own = places_.branch_ease(b);
        const double both = vector[own] + vector[family];
        const double by_forgetting = branch.across * vector[forgets];
        out[own] += branch.ease.weight * (both + vector[ease]) + by_forgetting;
        out[family] += branch.ease.weight * (vector[own] + vector[ease]) + by_forgetting;
        out[ease] += branch.ease.weight * both;
        out[forgets] += branch.across * both;
    }
}

void Curvature::multiply_pairs(const Vector& vector, Vector& out) const {
    for (std::size_t i = 0; i < points.size(); ++i) {
        const std::size_t family = places_.family_ease(data_->family_of_point[i]);
        const std::size_t own = places_.point_ease(i);
        out[own] += points[i].weight * (vector[own] + vector[family]);
        out[family] += points[i].weight * vector[own];
    }
    for (std::size_t f = 0; f < families.size(); ++f)
        out[places_.family_ease(f)] += families[f].weight * vector[places_.family_ease(f)];
    for (std::size_t n = 0; n < met.size(); ++n) {
        const auto& pair = data_->pairs[n];
        const std::size_t ease = places_.learner_ease(pair.learner);
        const std::size_t forgets = places_.learner_forgets(pair.learner);
        const std::size_t point = places_.point_ease(pair.point);
        const std::size_t branch = places_.branch_ease(pair.branch);
        const double by_weight = met[n].weight * vector[point];
        out[ease] += by_weight;
        out[branch] += by_weight;
        out[forgets] += met[n].across * vector[point];
        out[point] += met[n].weight * (vector[ease] + vector[branch]) + met[n].across * vector[forgets];
    }
}

Vector Curvature::multiply(const Vector& vector) const {
    Vector out(vector.size());
    for (std::size_t n = 0; n < out.size(); ++n) out[n] = precision_[n] * vector[n];
    multiply_shared(vector, out);
    multiply_branches(vector, out);
    multiply_pairs(vector, out);
    return out;
}

/// The inverse of the blocks along the diagonal: the shared parameters together, all others by themselves.
struct Curvature::Preconditioner {
    Cholesky shared;
    Vector rest;  ///< 1 / diagonal; 0 for an unknown that is held

    [[nodiscard]] Vector apply(const Vector& vector) const {
        Vector out(vector.size());
        Vector head(vector.begin(), vector.begin() + kShared);
        head = shared.solve(head);
        for (std::size_t n = 0; n < out.size(); ++n) out[n] = n < kShared ? head[n] * rest[n] : vector[n] * rest[n];
        return out;
    }
};

Curvature::Preconditioner Curvature::preconditioner(const std::vector<bool>& held) const {
    Vector diagonal = precision_;
    for (std::size_t l = 0; l < learners.size(); ++l) {
        diagonal[places_.learner_ease(l)] += learners[l].ease.weight;
        diagonal[places_.learner_forgets(l)] += learners[l].forgets;
    }
    for (std::size_t i = 0; i < points.size(); ++i) diagonal[places_.point_ease(i)] += points[i].weight;
    for (std::size_t f = 0; f < families.size(); ++f) diagonal[places_.family_ease(f)] += families[f].weight;
    for (std::size_t b = 0; b < branches.size(); ++b) diagonal[places_.branch_ease(b)] += branches[b].ease.weight;
    Matrix block{kShared};
    const auto is_held = [&](std::size_t n) { return !held.empty() && held[n]; };
    for (std::size_t j = 0; j < kShared; ++j)
        for (std::size_t k = 0; k < kShared; ++k)
            block(j, k) = is_held(j) || is_held(k) ? (j == k ? 1 : 0) : shared[j][k] + (j == k ? precision_[k] : 0);
    for (std::size_t n = 0; n < diagonal.size(); ++n) {
        diagonal[n] = n < kShared ? 1 : 1 / diagonal[n];
        if (is_held(n)) diagonal[n] = 0;
    }
    return {Cholesky{block}, std::move(diagonal)};
}

Vector Curvature::solve(const Vector& right, const std::vector<bool>& held, double share) const {
    const auto before = preconditioner(held);
    const auto let_go = [&](Vector& vector) {
        for (std::size_t n = 0; n < held.size(); ++n)
            if (held[n]) vector[n] = 0;
    };
    Vector x(right.size(), 0.0);
    Vector rest = right;
    let_go(rest);
    Vector near = before.apply(rest);
    Vector along = near;
    double size = dot(rest, near);
    const double enough = size * share * share;
    // In exact arithmetic as many steps as unknowns; rounding asks for a bound, and a solve that slow is worth an end.
    for (std::size_t step = 0; step < 2000 && size > enough; ++step) {
        Vector image = multiply(along);
        let_go(image);
        const double length = size / dot(along, image);
        for (std::size_t n = 0; n < x.size(); ++n) {
            x[n] += length * along[n];
            rest[n] -= length * image[n];
        }
        near = before.apply(rest);
        const double next = dot(rest, near);
        for (std::size_t n = 0; n < x.size(); ++n) along[n] = near[n] + next / size * along[n];
        size = next;
    }
    return x;
}

}  // namespace memory
