#include "report/shop/week_words.hpp"

#include <array>
#include <string_view>

#include "base/instant.hpp"

namespace report {
namespace {

std::string reason(const practice::PlannedWeek& week) {
    switch (week.why) {
        case practice::WhyWeek::pinned:
            return "the lead pinned " + week.pin;
        case practice::WhyWeek::weak:
            return "the crew is weak on it";
        case practice::WhyWeek::stakes:
            return "much is at stake";
        case practice::WhyWeek::outline:
            return "the exam asks much of it";
        case practice::WhyWeek::turn:
            return "its turn in the year";
    }
    return "";
}

}  // namespace

std::string why_words(const practice::PlannedWeek& week) {
    return reason(week) + (week.again ? "; again" : "");
}

std::string day_words(std::chrono::sys_days day) {
    static constexpr std::array<std::string_view, 7> kDays = {"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
    return std::string{kDays.at(std::chrono::weekday{day}.c_encoding())} + " " + base::date_text(base::Instant{day});
}

}  // namespace report
