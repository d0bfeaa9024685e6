#include "desk/lab/clock.h"

#include <gtest/gtest.h>

namespace heatwork::desk {
namespace {

Variables with_tz(const std::string& value) {
  return [value](const char* name) { return std::string(name) == "TZ" ? value : ""; };
}

TEST(Clock, TheZoneIsTheSettingElseTzElseTheMachinesAndNeverAGuess) {
  Settings set;
  set.zone = "America/New_York";
  EXPECT_EQ(zone_of_lab(set, with_tz("Asia/Tokyo")).name, "America/New_York");
  EXPECT_EQ(zone_of_lab(set, with_tz("Asia/Tokyo")).from, "setting");
  EXPECT_EQ(zone_of_lab({}, with_tz(":Asia/Tokyo")).name, "Asia/Tokyo");
  EXPECT_EQ(zone_of_lab({}, with_tz("Asia/Tokyo")).from, "TZ");
  const Zone spelled_out = zone_of_lab({}, with_tz("CET-1CEST,M3.5.0,M10.5.0/3"));
  EXPECT_EQ(spelled_out.name, "UTC");
  EXPECT_EQ(spelled_out.from, "none known");
}

TEST(Clock, WritesMomentsToTheMillisecond) {
  EXPECT_EQ(exact_utc_text(1795626664123), "2026-11-25T17:11:04.123Z");
  EXPECT_EQ(exact_utc_text(0), "1970-01-01T00:00:00.000Z");
}

TEST(Clock, OfTheMachineGoesOn) {
  const std::int64_t before = clock_of_machine().now_ms();
  EXPECT_LE(before, clock_of_machine().now_ms());
  EXPECT_GT(before, 1735689600000) << "after 2025 began";
}

}  // namespace
}  // namespace heatwork::desk
