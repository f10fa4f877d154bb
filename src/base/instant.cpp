#include "base/instant.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdio>

namespace base {
namespace {

constexpr double kMillisecondsADay = 86'400'000.0;
constexpr double kFarthestDays = 365'250.0;

/// Takes digits from the front of a text; remembers the first thing that did not fit.
class Scanner {
public:
    explicit Scanner(std::string_view text) : rest_{text} {}

    int digits(std::size_t count) {
        int value = 0;
        if (rest_.size() < count || !std::all_of(rest_.begin(), rest_.begin() + static_cast<std::ptrdiff_t>(count),
                                                 [](char c) { return c >= '0' && c <= '9'; })) {
            good_ = false;
            return 0;
        }
        std::from_chars(rest_.data(), rest_.data() + count, value);
        rest_.remove_prefix(count);
        return value;
    }

    bool take(char wanted) {
        if (rest_.empty() || rest_.front() != wanted) return false;
        rest_.remove_prefix(1);
        return true;
    }

    void need(char wanted) { good_ = take(wanted) && good_; }
    [[nodiscard]] bool next_is_digit() const { return !rest_.empty() && rest_.front() >= '0' && rest_.front() <= '9'; }
    [[nodiscard]] bool good() const { return good_; }
    [[nodiscard]] bool done() const { return rest_.empty(); }

private:
    std::string_view rest_;
    bool good_ = true;
};

int fraction_in_milliseconds(Scanner& scan) {
    int value = 0;
    int places = 0;
    for (; scan.next_is_digit(); ++places) {
        const int digit = scan.digits(1);
        if (places < 3) value = value * 10 + digit;
    }
    for (; places < 3; ++places) value *= 10;
    return value;
}

std::optional<std::chrono::minutes> zone_offset(Scanner& scan) {
    if (scan.take('Z')) return std::chrono::minutes{0};
    const bool east = scan.take('+');
    if (!east && !scan.take('-')) return std::nullopt;
    const int hours = scan.digits(2);
    scan.take(':');
    const int minutes = scan.digits(2);
    if (!scan.good() || hours > 14 || minutes > 59) return std::nullopt;
    return std::chrono::minutes{(east ? 1 : -1) * (hours * 60 + minutes)};
}

std::optional<Milliseconds> time_of_day(Scanner& scan) {
    const int hours = scan.digits(2);
    scan.need(':');
    const int minutes = scan.digits(2);
    int seconds = 0;
    int fraction = 0;
    if (scan.take(':')) {
        seconds = scan.digits(2);
        if (scan.take('.')) {
            if (!scan.next_is_digit()) return std::nullopt;
            fraction = fraction_in_milliseconds(scan);
        }
    }
    if (!scan.good() || hours > 23 || minutes > 59 || seconds > 59) return std::nullopt;
    return std::chrono::hours{hours} + std::chrono::minutes{minutes} + std::chrono::seconds{seconds} +
           Milliseconds{fraction};
}

}  // namespace

double days_between(Instant from, Instant to) {
    return static_cast<double>((to - from).count()) / kMillisecondsADay;
}

Instant after_days(Instant from, double days) {
    const double held = std::clamp(days, -kFarthestDays, kFarthestDays);
    return from + Milliseconds{static_cast<std::int64_t>(std::llround(held * kMillisecondsADay))};
}

std::optional<Instant> parse_instant(std::string_view text) {
    Scanner scan{text};
    const std::chrono::year year{scan.digits(4)};
    scan.need('-');
    const std::chrono::month month{static_cast<unsigned>(scan.digits(2))};
    scan.need('-');
    const std::chrono::day day{static_cast<unsigned>(scan.digits(2))};
    const std::chrono::year_month_day date{year, month, day};
    if (!scan.good() || !date.ok()) return std::nullopt;
    const Instant midnight = std::chrono::sys_days{date};
    if (scan.done()) return midnight;
    if (!scan.take('T') && !scan.take(' ')) return std::nullopt;
    const auto time = time_of_day(scan);
    const auto zone = zone_offset(scan);
    if (!time || !zone || !scan.done()) return std::nullopt;
    return midnight + *time - *zone;
}

std::string date_text(Instant when) {
    const std::chrono::year_month_day date{std::chrono::floor<std::chrono::days>(when)};
    std::array<char, 32> text{};
    std::snprintf(text.data(), text.size(), "%04d-%02u-%02u", static_cast<int>(date.year()),
                  static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
    return text.data();
}

std::string to_text(Instant when) {
    const auto midnight = std::chrono::floor<std::chrono::days>(when);
    const std::chrono::hh_mm_ss time{when - midnight};
    std::array<char, 32> text{};
    std::snprintf(text.data(), text.size(), "T%02d:%02d:%02d.%03dZ", static_cast<int>(time.hours().count()),
                  static_cast<int>(time.minutes().count()), static_cast<int>(time.seconds().count()),
                  static_cast<int>(time.subseconds().count()));
    return date_text(when) + text.data();
}

std::int64_t to_milliseconds(Instant when) {
    return when.time_since_epoch().count();
}

Instant from_milliseconds(std::int64_t since_epoch) {
    return Instant{Milliseconds{since_epoch}};
}

}  // namespace base
