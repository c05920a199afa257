#include "evidence-core/quantity/time.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace evidence::quantity {
namespace {

// RFC 3339, section 5.8, examples.
TEST(Time, ReadsTheExamplesOfTheStandard) {
    EXPECT_EQ(instantText(*parseInstant("1985-04-12T23:20:50.52Z")), "1985-04-12T23:20:50.52Z");
    EXPECT_EQ(instantText(*parseInstant("1996-12-19T16:39:57-08:00")), "1996-12-20T00:39:57Z");
    EXPECT_EQ(instantText(*parseInstant("1990-12-31T23:59:60Z")), "1991-01-01T00:00:00Z");
    EXPECT_EQ(parseInstant("1990-12-31T15:59:60-08:00"), parseInstant("1990-12-31T23:59:60Z"));
    EXPECT_EQ(instantText(*parseInstant("1937-01-01T12:00:27.87+00:20")),
              "1937-01-01T11:40:27.87Z");
}

TEST(Time, OrdersAndCountsFromTheEpoch) {
    EXPECT_EQ(parseInstant("1970-01-01T00:00:00Z")->toMicroseconds(), 0);
    EXPECT_EQ(parseInstant("2001-09-09T01:46:40Z")->toMicroseconds(), 1'000'000'000'000'000);
    EXPECT_LT(*parseInstant("1969-12-31T23:59:59Z"), Instant());
    EXPECT_EQ(parseInstant("1969-12-31T23:59:59Z")->day(), -1);
}

TEST(Time, RefusesWhatIsNoTime) {
    for (const char* text :
         {"soon", "", "2026-05-01", "2026-05-01T10:00:00", "2026-05-01T10:00Z",
          "2026-02-30T10:00:00Z", "2026-05-01T24:00:00Z", "2026-05-01T10:60:00Z",
          "2026-05-01T10:00:00.Z", "2026-05-01T10:00:00+25:00", "2026-5-1T10:00:00Z",
          "2026-05-01T10:00:00Zx", "2026-05-01T10:00:00+"}) {
        const Result<Instant> instant = parseInstant(text);
        ASSERT_FALSE(instant) << text;
        EXPECT_EQ(instant.error().code, Code::BadDate);
    }
}

TEST(Time, FixedClockStandsStill) {
    const Result<Clock> clock = clockFromEpochText("1000000000");
    ASSERT_TRUE(clock);
    EXPECT_EQ(instantText(clock->now()), "2001-09-09T01:46:40Z");
    EXPECT_EQ(clock->now(), clock->now());
    EXPECT_FALSE(clockFromEpochText("yesterday"));
    EXPECT_FALSE(clockFromEpochText("-1"));
    EXPECT_GT(Clock::system().now(), clock->now());
}

RC_GTEST_PROP(TimeProperty, PrintedTimeReadsBackAsItself, ()) {
    const auto microseconds =
        *rc::gen::inRange<std::int64_t>(-62'000'000'000'000'000, 250'000'000'000'000'000);
    const Instant instant = Instant::fromMicroseconds(microseconds);
    const Result<Instant> read = parseInstant(instantText(instant));
    RC_ASSERT(read.has_value());
    RC_ASSERT(read->toMicroseconds() == microseconds);
}

}  // namespace
}  // namespace evidence::quantity
