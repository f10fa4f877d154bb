#pragma once

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "base/random.hpp"
#include "content/outline.hpp"
#include "practice/asks.hpp"
#include "practice/exam/candidates.hpp"
#include "practice/exam/sitting.hpp"

/// Outlines, candidates and sittings put together by hand or by seed.
namespace exams {

inline const base::Instant kStart = base::from_milliseconds(1'767'225'600'000);

[[nodiscard]] inline content::Outline outline(const std::vector<int>& questions) {
    content::Outline exam;
    exam.id = "board";
    exam.title = "The board's exam";
    exam.minutes = 60;
    exam.pass.share = 0.7;
    for (std::size_t n = 0; n < questions.size(); ++n) {
        content::OutlineSection one;
        one.id = "s" + std::to_string(n + 1);
        one.title = "Section " + std::to_string(n + 1);
        one.questions = {questions[n], questions[n]};
        exam.questions.least += questions[n];
        exam.questions.most += questions[n];
        exam.sections.push_back(std::move(one));
    }
    return exam;
}

[[nodiscard]] inline practice::Candidate candidate(const std::string& point, std::size_t question, double chance) {
    return {{point + "#" + std::to_string(question)}, {point}, false, chance};
}

/// Points with one to `most_each` questions of chances between .2 and 1, near their point's.
[[nodiscard]] inline std::vector<practice::Candidate> pool(const std::string& name, std::size_t points,
                                                           std::size_t most_each, base::Seed seed) {
    base::Random random{seed};
    std::vector<practice::Candidate> all;
    for (std::size_t p = 0; p < points; ++p) {
        const std::string point = name + "." + std::to_string(p);
        const double ease = 0.3 + 0.6 * random.unit();
        const std::size_t questions = 1 + static_cast<std::size_t>(random.below(most_each));
        for (std::size_t q = 0; q < questions; ++q)
            all.push_back(candidate(point, q, std::clamp(ease + 0.2 * (random.unit() - 0.5), 0.0, 1.0)));
    }
    return all;
}

/// An ask of two options, the first right, of a point of its own.
[[nodiscard]] inline content::Ask ask(std::size_t place) {
    auto one = asks::choosing(asks::Form::choose, {{"this", ""}, {"that", "m.that"}});
    one.question.point.text = "p." + std::to_string(place);
    one.id.text = one.question.point.text + "#a";
    one.content = "version-" + std::to_string(place);
    one.title = "Point " + std::to_string(place);
    return one;
}

/// `counts` asks a section, an hour, from kStart.
[[nodiscard]] inline practice::Sitting sitting(const std::vector<std::size_t>& counts) {
    practice::SittingFor what;
    what.id = base::parse_id("018f3c2e7d2a7cc18f000123456789ab").value();
    what.learner = base::parse_id("018f3c2e7d2a7cc18f00000000000001").value();
    what.jurisdiction = "alder";
    what.paper.outline = "board";
    what.paper.seed = 18'446'744'073'709'551'557U;  // does not fit a double
    what.start = kStart;
    what.limit = std::chrono::hours{1};
    std::vector<content::Ask> posed;
    for (std::size_t section = 0; section < counts.size(); ++section)
        for (std::size_t n = 0; n < counts[section]; ++n) {
            posed.push_back(ask(posed.size()));
            what.paper.items.push_back({section,
                                        posed.back().id,
                                        posed.back().question.point,
                                        n % 3 == 2,
                                        what.paper.seed - n,
                                        0.1 + 0.07 * static_cast<double>(n % 10),
                                        {}});
        }
    return {std::move(what), std::move(posed)};
}

[[nodiscard]] inline practice::SittingEvent event(long seconds, practice::Did did, std::size_t ask = 0,
                                                  const std::string& given = "") {
    return {kStart + std::chrono::seconds{seconds}, ask, did, given, memory::Sure::fairly};
}

/// What a restless learner does over some 70 minutes: all kinds of events, nonsense and late ones among them.
[[nodiscard]] inline std::vector<practice::SittingEvent> restless(std::size_t asks, std::size_t events,
                                                                  base::Seed seed) {
    static const std::vector<std::string> kTyped = {"a", "b", "B ", "!", "", "z", "ab", "a\xff", "\"\\\n"};
    base::Random random{seed};
    std::vector<practice::SittingEvent> all;
    auto at = kStart;
    for (std::size_t n = 0; n < events; ++n) {
        at += std::chrono::milliseconds{random.below(2 * 70 * 60'000 / events)};
        practice::SittingEvent one;
        // Now and then the machine's clock is set back.
        one.at = random.below(12) == 0 ? at - std::chrono::minutes{30} : at;
        one.ask = static_cast<std::size_t>(random.below(asks + 1));
        const auto kind = random.below(200);
        one.did = kind == 0 ? practice::Did::finish : static_cast<practice::Did>(kind < 140 ? 0 : kind < 175 ? 1 : 2);
        if (one.did == practice::Did::answer) {
            one.given = kTyped[static_cast<std::size_t>(random.below(kTyped.size()))];
            one.sure = static_cast<memory::Sure>(random.below(3));
        }
        all.push_back(std::move(one));
    }
    return all;
}

}  // namespace exams
