#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "base/fault.hpp"
#include "base/ids.hpp"
#include "base/instant.hpp"
#include "base/random.hpp"
#include "content/ask.hpp"
#include "content/library.hpp"
#include "content/outline.hpp"
#include "practice/exam/candidates.hpp"
#include "trade/edition.hpp"

namespace practice {

/// One question of a paper, in its place.
struct PaperItem {
    std::size_t section = 0;  ///< place in the outline
    base::QuestionId question;
    base::PointId point;
    bool call = false;      ///< an ask of a service call; asks of one call share a seed, so their stories agree
    base::Seed seed = 0;    ///< it is posed with
    double chance = 0.5;    ///< [0,1]: as predicted when the paper was put together
    std::string content{};  ///< content version that was sat; empty before it is posed

    friend bool operator==(const PaperItem&, const PaperItem&) = default;
};

/// The questions of one mock exam, section by section in the order of the outline.
struct Paper {
    std::string outline;  ///< id
    trade::Edition edition = trade::Edition::e2023;
    base::Seed seed = 0;
    std::vector<PaperItem> items;

    friend bool operator==(const Paper&, const Paper&) = default;
};

/// Questions by section, in the order of the outline.
using Division = std::vector<std::size_t>;

/// As many as the outline allows; nothing asked where its numbers contradict one another.
[[nodiscard]] Division full_length(const content::Outline& outline);

/// An exam of `total` questions: as the outline divides them where it allows that total, else in the proportion of the
/// full length. Sections that have no question to draw may be passed over (`there`: how many each has; empty: all
/// have). Nothing when total is 0 or more than the sections that are left have at full length.
[[nodiscard]] std::optional<Division> division_of(const content::Outline& outline, std::size_t total,
                                                  const Division& there = {});

/// Minutes for an exam of so many questions: the outline's, in proportion, rounded up to a whole minute.
[[nodiscard]] base::Milliseconds time_for(const content::Outline& outline, std::size_t asked);

/// A section that cannot ask what it should.
struct Lack {
    std::size_t section = 0;
    std::size_t asked = 0;
    std::size_t there = 0;  ///< questions it could ask
    friend bool operator==(const Lack&, const Lack&) = default;
};

/// Why there is no paper, and what there could be instead.
struct TooFew {
    std::vector<Lack> lacks;  ///< in the order of the outline
    /// The longest exam of the same proportions that can be put together; sections without any question are left out of
    /// it. It can be handed to assemble as it is. All 0 when there is nothing at all.
    Division possible;
};

struct PaperFor {
    const content::Outline* outline = nullptr;
    trade::Edition edition = trade::Edition::e2023;
    Division asked;  ///< one number a section
    base::Seed seed = 0;
};

/// Puts a paper together.
/// Takes   candidates by section (see candidates_in); of several with one id, across sections too, the first counts.
/// Gives   the asked number from each section, drawn as draw_section says: of like difficulty from seed to seed. The
///         same candidates in any order, division and seed give the same paper.
/// Errors  sections with fewer candidates than they should ask, all of them at once.
[[nodiscard]] tl::expected<Paper, TooFew> assemble(const PaperFor& what,
                                                   const std::vector<std::vector<Candidate>>& candidates);

/// What is lacking, a fault a section, each with the way out.
[[nodiscard]] base::Faults to_faults(const TooFew& refusal, const content::Outline& outline);

/// Poses every question of a paper, in its order. Reads the points from their files: throws as the library does.
/// Errors  questions that are gone, or that have another content version than the paper was sat with: each by its id.
[[nodiscard]] base::Checked<std::vector<content::Ask>> pose(const content::Library& library, const Paper& paper);

}  // namespace practice
