#pragma once

#include "evidence-core/refusal.h"

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace evidence::quantity {

/// A moment, in UTC, to the microsecond. No leap seconds (as POSIX time).
class Instant {
  public:
    constexpr Instant() = default;
    [[nodiscard]] static constexpr Instant fromMicroseconds(std::int64_t sinceEpoch) {
        Instant made;
        made.m_microseconds = sinceEpoch;
        return made;
    }
    [[nodiscard]] static constexpr Instant fromSeconds(std::int64_t sinceEpoch) {
        return fromMicroseconds(sinceEpoch * 1'000'000);
    }
    [[nodiscard]] constexpr std::int64_t toMicroseconds() const { return m_microseconds; }
    /// Days since 1970-01-01 of the UTC day this moment lies in.
    [[nodiscard]] constexpr int day() const {
        constexpr std::int64_t kDay = 86'400'000'000;
        const std::int64_t whole = m_microseconds / kDay;
        return static_cast<int>(m_microseconds % kDay < 0 ? whole - 1 : whole);
    }
    friend constexpr auto operator<=>(const Instant&, const Instant&) = default;

  private:
    std::int64_t m_microseconds = 0;
};

/// Reads an RFC 3339 time with `Z` or an offset, for example `2026-05-01T10:00:00Z`; years 0000 to
/// 9999; figures of a second beyond the sixth are dropped; a leap second counts as the next second.
/// Errors: BadDate; `place` is the text.
[[nodiscard]] Result<Instant> parseInstant(std::string_view text);
/// `2026-05-01T10:00:00Z`, with a fraction of a second only where there is one, as short as it
/// goes.
[[nodiscard]] std::string instantText(Instant instant);

/// What time it is: the machine's clock, or a fixed moment for reproducible output. A value that is
/// passed to whatever needs the time; the caller fixes it from SOURCE_DATE_EPOCH.
class Clock {
  public:
    [[nodiscard]] static Clock system() { return Clock(); }
    [[nodiscard]] static Clock fixedAt(Instant instant) {
        Clock clock;
        clock.m_fixed = instant;
        return clock;
    }
    /// To the whole second.
    [[nodiscard]] Instant now() const;

  private:
    std::optional<Instant> m_fixed;
};

/// Reads the text of SOURCE_DATE_EPOCH (whole seconds since 1970). Errors: BadDate.
[[nodiscard]] Result<Clock> clockFromEpochText(std::string_view text);

}  // namespace evidence::quantity
