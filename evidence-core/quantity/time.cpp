#include "evidence-core/quantity/time.h"

#include "evidence-core/quantity/edtf.h"

#include <fmt/format.h>

#include <charconv>
#include <chrono>
#include <cstddef>

namespace evidence::quantity {
namespace {

constexpr std::int64_t kSecond = 1'000'000;

tl::unexpected<Refusal> refuseTime(std::string_view text, const std::string& help) {
    return refuse(Code::BadDate, "\"" + std::string(text.substr(0, 60)) + "\"", help);
}

// Fixed-width fields, read one after the other; a missing one makes the whole false.
class Fields {
  public:
    explicit Fields(std::string_view text) : m_text(text) {}

    int figures(std::size_t count) {
        int value = 0;
        for (std::size_t i = 0; i < count; ++i) {
            if (m_at >= m_text.size() || m_text[m_at] < '0' || m_text[m_at] > '9') {
                m_good = false;
                return 0;
            }
            value = value * 10 + (m_text[m_at++] - '0');
        }
        return value;
    }
    bool take(std::string_view anyOf) {
        if (m_at >= m_text.size() || anyOf.find(m_text[m_at]) == std::string_view::npos)
            return false;
        ++m_at;
        return true;
    }
    void need(std::string_view anyOf) { m_good = take(anyOf) && m_good; }
    bool atFigure() const {
        return m_at < m_text.size() && m_text[m_at] >= '0' && m_text[m_at] <= '9';
    }
    bool finished() const { return m_good && m_at == m_text.size(); }

  private:
    std::string_view m_text;
    std::size_t m_at = 0;
    bool m_good = true;
};

std::int64_t takeFraction(Fields& fields) {
    if (!fields.take(".")) return 0;
    std::int64_t microseconds = 0;
    std::int64_t weight = kSecond / 10;
    do {
        microseconds += weight * fields.figures(1);
        weight /= 10;
    } while (fields.atFigure());
    return microseconds;
}

std::int64_t takeOffsetMinutes(Fields& fields, bool& sensible) {
    if (fields.take("Zz")) return 0;
    const bool negative = fields.take("-");
    if (!negative) fields.need("+");
    const int hours = fields.figures(2);
    fields.need(":");
    const int minutes = fields.figures(2);
    sensible = hours <= 23 && minutes <= 59;
    return (negative ? -1 : 1) * (hours * 60 + minutes);
}

}  // namespace

Result<Instant> parseInstant(std::string_view text) {
    constexpr std::string_view kHow = "a time is written in UTC, as 2026-05-01T10:00:00Z";
    if (text.empty() || text.size() > 60) return refuseTime(text, std::string(kHow));
    Fields fields(text);
    const int year = fields.figures(4);
    fields.need("-");
    const int month = fields.figures(2);
    fields.need("-");
    const int day = fields.figures(2);
    fields.need("Tt ");
    const int hour = fields.figures(2);
    fields.need(":");
    const int minute = fields.figures(2);
    fields.need(":");
    const int second = fields.figures(2);
    const std::int64_t fraction = takeFraction(fields);
    bool sensible = true;
    const std::int64_t offset = takeOffsetMinutes(fields, sensible);
    if (!fields.finished()) return refuseTime(text, std::string(kHow));
    const std::optional<CivilDay> civil = civilDay(year, month, day);
    if (!civil) return refuseTime(text, "there is no such day");
    if (!sensible || hour > 23 || minute > 59 || second > 60)
        return refuseTime(text, "there is no such time of day");
    const std::int64_t seconds =
        std::int64_t{*civil} * 86'400 + hour * 3'600 + (minute - offset) * 60 + second;
    return Instant::fromMicroseconds(seconds * kSecond + fraction);
}

std::string instantText(Instant instant) {
    const std::int64_t inDay =
        instant.toMicroseconds() - std::int64_t{instant.day()} * 86'400 * kSecond;
    const std::int64_t seconds = inDay / kSecond;
    std::string text = fmt::format("{}T{:02}:{:02}:{:02}", dayText(instant.day()), seconds / 3600,
                                   seconds / 60 % 60, seconds % 60);
    if (inDay % kSecond != 0) {
        std::string fraction = fmt::format(".{:06}", inDay % kSecond);
        fraction.erase(fraction.find_last_not_of('0') + 1);
        text += fraction;
    }
    return text + "Z";
}

Instant Clock::now() const {
    if (m_fixed) return *m_fixed;
    const auto since = std::chrono::system_clock::now().time_since_epoch();
    return Instant::fromSeconds(std::chrono::duration_cast<std::chrono::seconds>(since).count());
}

Result<Clock> clockFromEpochText(std::string_view text) {
    std::int64_t seconds = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), seconds);
    constexpr std::int64_t kYear10000 = 253'402'300'800;
    if (read.ec != std::errc() || read.ptr != text.data() + text.size() || seconds < 0 ||
        seconds >= kYear10000) {
        return refuseTime(text, "SOURCE_DATE_EPOCH is a whole number of seconds since 1970");
    }
    return Clock::fixedAt(Instant::fromSeconds(seconds));
}

}  // namespace evidence::quantity
