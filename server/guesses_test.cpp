#include "server/guesses.h"

#include <gtest/gtest.h>

#include "server/devices.h"

namespace heatwork::server {
namespace {

TEST(Guesses, WaitLongerEachTime) {
  Guesses guesses;
  std::int64_t now = 1'000'000;
  for (int i = 0; i < Guesses::free_tries; ++i) EXPECT_EQ(guesses.begin("mara", "a", now), 0);
  std::int64_t before = 0;
  for (int i = 0; i < 12; ++i) {
    const std::int64_t wait = guesses.begin("mara", "a", now);
    EXPECT_TRUE(wait > before || wait == Guesses::longest_wait_ms) << wait;
    EXPECT_EQ(guesses.begin("mara", "b", now + wait - 1), 1) << "whatever address it comes from";
    before = wait;
    now += wait;
    EXPECT_EQ(guesses.begin("mara", "a" + std::to_string(i), now), 0);
  }
  EXPECT_EQ(before, Guesses::longest_wait_ms);
}

TEST(Guesses, OfManyPersonsFromOneAddressWaitToo) {
  Guesses guesses;
  int let = 0;
  for (int i = 0; i < 1000; ++i) let += guesses.begin("person" + std::to_string(i), "a", 1000) == 0;
  EXPECT_EQ(let, 20);
  EXPECT_EQ(guesses.begin("person1000", "b", 1000), 0);
}

TEST(Guesses, ARightOneFreesThePersonAndIsGivenBackToTheAddress) {
  Guesses guesses;
  for (int i = 0; i < 100; ++i) {
    ASSERT_EQ(guesses.begin("mara", "a", 1000), 0) << i;
    guesses.right("mara", "a");
  }
}

TEST(Guesses, AreForgottenAfterAnHour) {
  Guesses guesses;
  for (int i = 0; i < Guesses::free_tries; ++i) EXPECT_EQ(guesses.begin("mara", "a", 1000), 0);
  EXPECT_GT(guesses.begin("mara", "a", 1000), 0);
  const std::int64_t later = 1000 + 61 * 60'000;
  for (int i = 0; i < Guesses::free_tries; ++i) EXPECT_EQ(guesses.begin("mara", "a", later), 0);
}

TEST(Devices, AreKnownUntilTooManyPinsWereWrong) {
  Devices devices;
  const std::string id = devices.enter(0);
  EXPECT_TRUE(devices.known(id, 1));
  EXPECT_FALSE(devices.known("", 1));
  EXPECT_FALSE(devices.known(id, Devices::lasting_ms));
  for (int i = 1; i < Devices::most_wrong_pins; ++i) devices.wrong_pin(id);
  devices.right_pin(id);
  for (int i = 1; i < Devices::most_wrong_pins; ++i) devices.wrong_pin(id);
  EXPECT_TRUE(devices.known(id, 1)) << "in a row";
  devices.wrong_pin(id);
  EXPECT_FALSE(devices.known(id, 1));
}

}  // namespace
}  // namespace heatwork::server
