#pragma once

#include <concepts>
#include <string>
#include <string_view>
#include <vector>

#include "base/quantity.hpp"
#include "base/text.hpp"
#include "trade/wire.hpp"

namespace trade {

/// Writes the steps of a working, or nothing at all where nobody will read them: then no text is made.
class Working {
public:
    Working(std::vector<std::string>& steps, bool keep) : steps_{&steps}, keep_{keep} {}

    /// One step, put together from words, numbers (at most four decimals) and sizes ("12 AWG").
    template <class... Parts>
    void step(const Parts&... parts) {
        if (!keep_) return;
        std::string text;
        (add(text, parts), ...);
        steps_->push_back(std::move(text));
    }

private:
    static void add(std::string& text, std::string_view words) { text += words; }
    template <class Number>
    requires std::is_arithmetic_v<Number>
    static void add(std::string& text, Number number) { text += base::number_text(static_cast<double>(number)); }
    static void add(std::string& text, Size size) { text += to_text(size); }

    std::vector<std::string>* steps_;
    bool keep_;
};

}  // namespace trade
