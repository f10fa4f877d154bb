#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "cli/context.hpp"

namespace cli {

/// Asks somebody for one thing after another. A reply that does not do is asked for again at a terminal; from a pipe,
/// where nobody can be asked twice, it ends the verb.
class Interview {
public:
    /// What is wrong with a reply, or nothing.
    using Judge = std::function<std::optional<std::string>(const std::string&)>;

    explicit Interview(Context& context) : context_{&context} {}

    /// One line, trimmed. An empty reply takes `otherwise` where there is one.
    /// Throws Failure: usage when the input ends before the answer, bad_data for a piped reply that does not do.
    std::string ask(const std::string& question, const Judge& judge, const std::string& otherwise = "");
    /// The same, where nothing is fine too: an empty reply without `otherwise`, or "-".
    std::string ask_or_none(const std::string& question, const Judge& judge = {}, const std::string& otherwise = "");
    /// One of some words, by the word or its beginning.
    std::string choice(const std::string& question, const std::vector<std::string>& words,
                       const std::string& otherwise = "");
    bool yes(const std::string& question, bool otherwise);
    void say(const std::string& text);
    [[nodiscard]] bool person() const;

private:
    std::string line(const std::string& question, const std::string& otherwise);
    std::string judged(const std::string& question, const Judge& judge, const std::string& otherwise, bool needed);

    Context* context_;
};

/// Refuses replies shorter than so many letters.
[[nodiscard]] Interview::Judge at_least(std::size_t letters);

}  // namespace cli
