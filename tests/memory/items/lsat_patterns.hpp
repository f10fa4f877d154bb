#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "memory/items/logistic_items.hpp"

/// Learners by response pattern on five items of the Law School Admission Test, sections 6 and 7, 1000 each.
/// Published: Bock and Lieberman 1970; the counts are seen as public statistics packages carry them, the paper was not.
/// Row n is the pattern whose bits, the first item's the highest, make up n.
namespace lsat {

struct Counts {
    double six, seven;
};

inline constexpr std::array<Counts, 32> kCounts{
    {{3, 12},  {6, 19},  {2, 1},  {11, 7},  {1, 3},   {1, 19},   {3, 3},   {4, 17},   {1, 10},  {8, 5},    {0, 3},
     {16, 7},  {0, 7},   {3, 23}, {2, 8},   {15, 28}, {10, 7},   {29, 39}, {14, 11},  {81, 34}, {3, 14},   {28, 51},
     {15, 15}, {80, 90}, {16, 6}, {56, 25}, {21, 7},  {173, 35}, {11, 18}, {61, 136}, {28, 32}, {298, 308}}};

inline std::vector<memory::ResponsePattern> section(bool seven) {
    std::vector<memory::ResponsePattern> all;
    for (std::size_t n = 0; n < kCounts.size(); ++n) {
        memory::ResponsePattern pattern;
        for (std::uint32_t item = 0; item < 5; ++item) pattern.answers.push_back({item, (n >> (4 - item) & 1U) == 1});
        pattern.weight = seven ? kCounts[n].seven : kCounts[n].six;
        all.push_back(pattern);
    }
    return all;
}

}  // namespace lsat
