#pragma once

#include <string>
#include <utility>
#include <vector>

#include "content/deck.hpp"

namespace content {

/// Facts of one case that a job brings with it, as CaseFacts takes them: {"location", "kitchen"}, {"volts", "120"}.
using JobFacts = std::vector<std::pair<std::string, std::string>>;

/// A job as a small shop does it, and what tells which points bear on it.
struct Job {
    std::string id, title;
    std::vector<std::string> words;     ///< by which people name it: "kitchen remodel", "new kitchen"
    std::vector<std::string> tags;      ///< of points that bear on it
    std::vector<std::string> topics;    ///< the same, for topics that are of one piece with it
    std::vector<std::string> articles;  ///< references that govern it, in any edition's numbering
    std::vector<std::string> without;   ///< tags of points that do not bear on it, whatever else they share
    std::vector<JobFacts> facts;        ///< cases that the protection rules are asked about
    Place place;
};

}  // namespace content
