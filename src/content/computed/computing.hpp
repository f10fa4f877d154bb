#pragma once

#include <string>

#include "base/fault.hpp"
#include "content/computed/expression.hpp"
#include "content/deck.hpp"
#include "content/trade_data.hpp"
#include "trade/finding.hpp"

namespace content {

/// Where and when an ask is posed: what is required may hang on both.
struct Under {
    trade::Edition edition = trade::Edition::e2023;
    std::string jurisdiction;  ///< empty: no local amendments
    std::string day;           ///< "2026-11-25"; empty: every dated amendment counts
};

/// What the trade engine makes of one set of facts.
struct Worked {
    trade::Value value;
    std::vector<std::string> steps, articles;
    FactTexts also;   ///< further values as text, for explanations
    std::string key;  ///< what stands for the value when two are compared; empty: the value as shown
};

/// Works out a computed ask's value for facts of a story; `path` changes the working (null: the right way).
/// Errors  facts that make no sense or are missing, a value that is not there.
[[nodiscard]] base::Checked<Worked> work(const Computed& computed, const WrongPath* path, const FactTexts& facts,
                                         const TradeData& trade, const Under& under);

/// Where a wrong path leads, which may be stated outright by a sum over the right answer or in words.
/// Errors  as work(); a path may lead nowhere for some facts.
[[nodiscard]] base::Checked<Worked> work_wrongly(const Computed& computed, const WrongPath& path,
                                                 const FactTexts& facts, const Worked& right, const TradeData& trade,
                                                 const Under& under);

/// The question with its answers worked out: the right one, and a wrong one for each mistake that leads elsewhere.
/// Wrong answers that equal the right one, or one another, are left out.
/// Errors  those of work(); too few wrong answers left to ask anything.
[[nodiscard]] base::Checked<Question> answered(Question question, const FactTexts& facts, const TradeData& trade,
                                               const Under& under);

}  // namespace content
