#include "practice/job/stem.hpp"

#include <algorithm>
#include <array>

#include "base/text.hpp"

namespace practice {
namespace {

constexpr std::array<std::string_view, 40> kLittle = {
    "a",   "an",  "the", "of",   "to",   "in",   "on",    "at",   "and",  "or",   "for",     "with",  "by",  "from",
    "is",  "are", "be",  "it",   "its",  "my",   "our",   "we",   "this", "that", "do",      "does",  "job", "some",
    "out", "put", "get", "need", "into", "onto", "going", "want", "has",  "have", "install", "please"};

bool ends_with(std::string_view word, std::string_view ending) {
    return word.size() > ending.size() && word.substr(word.size() - ending.size()) == ending;
}

bool has_vowel(std::string_view word) {
    return word.find_first_of("aeiouy") != std::string_view::npos;
}

/// "ies" and "es" only where they are a plural: "batteries", "boxes", not "ties", "series" is taken as "serie".
std::string singular(std::string word) {
    constexpr std::size_t kShort = 4;
    if (word.size() < kShort || !ends_with(word, "s") || ends_with(word, "ss") || ends_with(word, "us") ||
        ends_with(word, "is"))
        return word;
    if (ends_with(word, "ies") && word.size() > kShort) return word.substr(0, word.size() - 3) + "y";
    for (const auto* ending : {"sses", "shes", "ches", "xes", "zes"})
        if (ends_with(word, ending)) return word.substr(0, word.size() - 2);
    word.pop_back();
    return word;
}

/// Without -ing or -ed, where enough is left to be a word: not "ring", "string", "shed", "feed".
std::string plain_form(std::string word) {
    constexpr std::size_t kLeast = 3;
    for (const std::string_view ending : {"ing", "ed"}) {
        if (!ends_with(word, ending) || ends_with(word, "eed")) continue;
        const auto rest = std::string_view{word}.substr(0, word.size() - ending.size());
        if (rest.size() < kLeast || !has_vowel(rest)) return word;
        std::string left{rest};
        const char last = left.back();
        const bool twice = left.size() > kLeast && left[left.size() - 2] == last;
        if (twice && last != 'l' && last != 's' && last != 'z') left.pop_back();
        return left;
    }
    return word;
}

bool is_little(std::string_view word) {
    return std::find(kLittle.begin(), kLittle.end(), word) != kLittle.end();
}

}  // namespace

std::string stem(std::string_view word) {
    constexpr std::size_t kLeast = 4;
    std::string left = plain_form(singular(std::string{word}));
    if (left.size() >= kLeast && left.back() == 'e') left.pop_back();
    return left;
}

std::vector<std::string> stems_of(std::string_view text) {
    std::string parted{text};
    std::replace_if(
        parted.begin(), parted.end(), [](char c) { return c == '-' || c == '/' || c == '\''; }, ' ');
    std::vector<std::string> stems;
    for (const auto& word : base::words(parted))
        if (!is_little(word)) stems.push_back(stem(word));
    return stems;
}

}  // namespace practice
