#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace base {

/// A moment in UTC, to the millisecond. Everything that needs "now" takes one of these.
using Instant = std::chrono::sys_time<std::chrono::milliseconds>;
using Milliseconds = std::chrono::milliseconds;

/// Days from the first to the second; negative when the second is earlier.
[[nodiscard]] double days_between(Instant from, Instant to);

/// The moment `days` after `from`; fractions count. Saturates a thousand years away.
[[nodiscard]] Instant after_days(Instant from, double days);

/// Reads ISO 8601: a date (midnight UTC), or date and time with optional seconds and fraction, ended by
/// Z or an offset such as -06:00. Nothing when the text is anything else.
[[nodiscard]] std::optional<Instant> parse_instant(std::string_view text);

/// "2026-03-02T07:00:00.000Z".
[[nodiscard]] std::string to_text(Instant when);

/// "2026-03-02", in UTC.
[[nodiscard]] std::string date_text(Instant when);

[[nodiscard]] std::int64_t to_milliseconds(Instant when);
[[nodiscard]] Instant from_milliseconds(std::int64_t since_epoch);

}  // namespace base
