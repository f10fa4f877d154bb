#include "memory/items/flag_words.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <cstdint>

namespace memory {
namespace {

std::string percent(double share) {
    return std::to_string(std::lround(100 * share)) + " %";
}

std::string fixed(double value, int digits) {
    std::array<char, 64> text{};
    const auto end = std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed, digits).ptr;
    return {text.data(), end};
}

std::string letter(std::int32_t option) {
    if (option >= 0 && option < 26) return {static_cast<char>('a' + option)};
    return "number " + std::to_string(option + 1);
}

std::string learners(std::size_t n) {
    return std::to_string(n) + (n == 1 ? " learner" : " learners");
}

std::string of_learners(const Flagged& f) {
    return "between " + percent(f.figure.low) + " and " + percent(f.figure.high) + " by " + learners(f.n);
}

std::string abilities_of(const Flagged& f, const std::string& who, const std::string& others) {
    return "mean ability on the other questions " + fixed(f.ability, 2) + " for " + who + ", " + fixed(f.against, 2) +
           " for " + others + "; " + std::to_string(f.n) + " learners, chance " +
           (f.chance < 0.001 ? "below 0.001" : "about " + fixed(f.chance, 3));
}

std::string count_words(const Flagged& f) {
    const std::string least = std::to_string(std::lround(f.limit));
    if (static_cast<double>(f.n) < f.limit)
        return "too few answers to say: " + std::to_string(f.n) + " of the " + least + " needed";
    return "too few on one side to say how it discriminates: of " + learners(f.n) + ", " +
           std::to_string(std::lround(f.figure.estimate)) + " of the " + least + " needed";
}

}  // namespace

std::string in_words(const Flagged& f) {
    switch (f.flag) {
        case ItemFlag::weaker_do_better:
            return "those who know less get it right more often: " +
                   abilities_of(f, "those who were right", "those who were wrong");
        case ItemFlag::wrong_draws_better:
            return "the wrong option " + letter(f.option) + " draws learners who know more: " +
                   abilities_of(f, "its choosers", f.against_all ? "all others" : "those who chose the right one");
        case ItemFlag::too_easy:
            return "too easy to tell anything: share right " + of_learners(f) + ", limit " + percent(f.limit);
        case ItemFlag::too_hard:
            return "too hard to tell anything: share right " + of_learners(f) + ", limit " + percent(f.limit);
        case ItemFlag::option_unused:
            return "option " + letter(f.option) + " was never chosen by " + learners(f.n) + ": fewer than " +
                   percent(f.figure.high) + " would";
        case ItemFlag::guessed_fast:
            return "guessed fast: " + percent(f.figure.estimate) + " of " + std::to_string(f.n) +
                   " timed answers came too fast to have been read, and those were less often right";
        case ItemFlag::too_few:
            return count_words(f);
    }
    return {};
}

}  // namespace memory
