#include "desk/lab/local_time.h"

#include <gtest/gtest.h>

#include <functional>

#include "desk/errors.h"

namespace heatwork::desk {
namespace {

constexpr std::int64_t hour_ms = 3'600'000;

std::string refusal(const std::function<void()>& work) {
  try {
    work();
  } catch (const Failure& failure) {
    return failure.what();
  }
  return "accepted";
}

TEST(LocalTime, IsUtcBesideItsZone) {
  const std::int64_t at = utc_ms("2026-11-25T17:11:04Z");
  EXPECT_EQ(utc_text(at), "2026-11-25T17:11:04Z");
  EXPECT_EQ(utc_ms("2026-11-25T17:11:04.250Z"), at + 250);
  EXPECT_EQ(utc_text(at + 250), "2026-11-25T17:11:04Z");
  EXPECT_EQ(local_text(at, "Europe/Berlin"), "2026-11-25 18:11");
  EXPECT_EQ(local_text(at, "UTC"), "2026-11-25 17:11");
  EXPECT_EQ(local_day(utc_ms("2026-11-25T23:30:00Z"), "Europe/Berlin"), "2026-11-26");
  EXPECT_EQ(typed_ms("2026-11-25 18:11", "Europe/Berlin"), at - 4000);
  EXPECT_EQ(typed_ms("2026-11-25T17:11:04Z", "Europe/Berlin"), at);
}

TEST(LocalTime, DaysAreAsLongAsTheClocksMakeThem) {
  EXPECT_EQ(utc_text(day_begins_ms("2026-11-25", "Europe/Berlin")), "2026-11-24T23:00:00Z");
  EXPECT_EQ(day_begins_ms(day_after("2026-03-29", 1), "Europe/Berlin") - day_begins_ms("2026-03-29", "Europe/Berlin"), 23 * hour_ms);
  EXPECT_EQ(day_begins_ms(day_after("2026-10-25", 1), "Europe/Berlin") - day_begins_ms("2026-10-25", "Europe/Berlin"), 25 * hour_ms);
  EXPECT_EQ(day_after("2026-12-31", 1), "2027-01-01");
  EXPECT_EQ(day_after("2028-03-01", -1), "2028-02-29");
}

TEST(LocalTime, WhatIsNoneIsRefused) {
  EXPECT_EQ(refusal([] { (void)day_begins_ms("25.11.2026", "UTC"); }), "\"25.11.2026\" is no day such as 2026-11-25.");
  EXPECT_EQ(refusal([] { (void)day_begins_ms("2026-02-30", "UTC"); }), "\"2026-02-30\" is no day such as 2026-11-25.");
  EXPECT_EQ(refusal([] { (void)typed_ms("yesterday", "UTC"); }), "\"yesterday\" is no moment such as \"2026-11-25 18:11\".");
  EXPECT_EQ(refusal([] { (void)utc_ms("2026-11-25T17:11:04"); }),
            "\"2026-11-25T17:11:04\" is no moment in UTC such as 2026-11-25T17:11:04Z.");
  EXPECT_EQ(refusal([] { (void)local_text(0, "Middle/Earth"); }), "There is no time zone Middle/Earth on this machine.");
  EXPECT_EQ(refusal([] { (void)typed_ms("2026-03-29 02:30", "Europe/Berlin"); }),
            "There was no 2026-03-29 02:30 in Europe/Berlin: the clocks were put forward over it.");
  EXPECT_EQ(refusal([] { (void)typed_ms("2026-10-25 02:30", "Europe/Berlin"); }),
            "There was 2026-10-25 02:30 twice in Europe/Berlin, for the clocks were put back: say 2026-10-25T00:30:00Z or "
            "2026-10-25T01:30:00Z.");
}

}  // namespace
}  // namespace heatwork::desk
