#include "bench/fit_data.hpp"

#include <array>
#include <bit>
#include <cstdint>
#include <fstream>
#include <vector>

#include "memory/fit/crew.hpp"

namespace bench {
namespace {

static_assert(std::endian::native == std::endian::little);

constexpr std::int64_t kVersion = 1;

template <class T>
void put(std::ostream& out, const T* cells, std::size_t count) {
    out.write(reinterpret_cast<const char*>(cells), static_cast<std::streamsize>(count * sizeof(T)));
}

template <class Cells>
void put(std::ostream& out, const Cells& cells) {
    put(out, cells.data(), cells.size());
}

std::int64_t whole(std::size_t count) {
    return static_cast<std::int64_t>(count);
}

void put_priors(std::ostream& out, const memory::Priors& priors) {
    memory::Shared least{};
    for (std::size_t k = 0; k < memory::kShared; ++k) least[k] = memory::shared_parameters()[k].least;
    put(out, priors.mean);
    put(out, priors.sd);
    put(out, least);
    put(out, std::array{priors.learner_ease, priors.learner_forgets, priors.point_ease, priors.family_ease,
                        priors.branch_ease});
}

void put_features(std::ostream& out, const std::vector<memory::Observation>& rows) {
    for (const auto& row : rows) put(out, row.activation);
    for (const auto& row : rows) put(out, row.decay);
    for (const auto& row : rows) put(out, &row.delay, 1);
}

/// One number for each row, by its pair.
template <class Number>
void put_each(std::ostream& out, const memory::Observations& data, const Number& number) {
    std::vector<std::uint32_t> all;
    all.reserve(data.rows.size());
    for (const auto& pair : data.pairs)
        for (std::size_t r = pair.begin; r < pair.end; ++r) all.push_back(number(pair, data.rows[r]));
    put(out, all);
}

}  // namespace

memory::Observations simulated_crew(const CrewCounts& counts, base::Seed seed) {
    const crew::Size size{counts.learners, counts.points, counts.families, counts.answers / counts.learners,
                          counts.days};
    return crew::draw(size, memory::shipped_priors(), seed).observed();
}

bool write_fit_data(const std::string& path, const memory::Observations& data, const memory::Priors& priors) {
    using memory::Observation;
    using memory::Pair;
    std::ofstream out{path, std::ios::binary};
    put(out, std::array{kVersion, whole(data.rows.size()), whole(data.learners), whole(data.points),
                        whole(data.families), whole(data.branches), whole(memory::kActivationFeatures),
                        whole(memory::kDecayFeatures), whole(memory::kForms)});
    put_priors(out, priors);
    put_features(out, data.rows);
    put_each(out, data, [](const Pair& pair, const Observation&) { return pair.learner; });
    put_each(out, data, [](const Pair& pair, const Observation&) { return pair.point; });
    put_each(out, data, [&](const Pair& pair, const Observation&) { return data.family_of_point[pair.point]; });
    put_each(out, data, [](const Pair& pair, const Observation&) { return pair.branch; });
    put_each(out, data, [](const Pair&, const Observation& row) { return std::uint32_t{row.form}; });
    put_each(out, data, [](const Pair&, const Observation& row) { return row.recalled ? 1U : 0U; });
    out.close();
    return out.good();
}

}  // namespace bench
