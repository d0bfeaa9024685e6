#include "firing/open_time.h"

#include <gtest/gtest.h>

#include <filesystem>

#include "firing/rehearsal.h"
#include "trade/library.h"
#include "trade/shipped.h"

namespace heatwork::firing {
namespace {

constexpr double unchecked_K = 24;

trade::ResolvedFiring demo() {
  return trade::load_firing(std::filesystem::path(HEATWORK_SOURCE_DIR) / "data" / "demo" / "firing.toml",
                            [](quantity::Length) { return quantity::Pressure::si(101325); });
}

const trade::DecidingInputs& inputs() {
  static const trade::DecidingInputs all = trade::read_deciding_inputs("limits/inputs.toml", trade::shipped_text("limits/inputs.toml"));
  return all;
}

TEST(OpenTime, IsThatOfTheRehearsal) {
  const trade::ResolvedFiring request = demo();
  const auto open = open_time_of(request, inputs(), unchecked_K);
  ASSERT_TRUE(open);
  const Rehearsal rehearsed = rehearse(request, {});
  EXPECT_EQ(open->at_s, rehearsed.firing.chamber.find(ChamberEvent::open)->time_s);
  EXPECT_LT(open->earliest_s, open->at_s);
  EXPECT_GT(open->latest_s, open->at_s);
  EXPECT_LT(open->latest_s - open->earliest_s, 600);
}

TEST(OpenTime, ItsRangeGrowsWithWhatIsNotKnownOfTheFurnace) {
  trade::ResolvedFiring request = demo();
  const auto known = open_time_of(request, inputs(), unchecked_K);
  request.furnace.heating.gain.value = quantity::HeatingRate::si(1.9);
  const auto weak = open_time_of(request, inputs(), unchecked_K);
  ASSERT_TRUE(known && weak);
  EXPECT_GT(weak->at_s, known->at_s) << "it falls behind its program above 700 °C";
  EXPECT_GT(weak->latest_s - weak->at_s, known->latest_s - known->at_s);
  const auto certain = open_time_of(request, {}, unchecked_K);
  EXPECT_EQ(certain->earliest_s, certain->latest_s);
}

TEST(OpenTime, IsNotThereWhereTheFurnaceCannotRunTheProgram) {
  trade::ResolvedFiring request = demo();
  request.furnace.heating.gain.value = quantity::HeatingRate::si(0.01);
  EXPECT_FALSE(open_time_of(request, inputs(), unchecked_K));
  request.furnace.heating.gain.value = quantity::HeatingRate::si(1.5);
  EXPECT_TRUE(open_time_of(request, {}, unchecked_K));
  EXPECT_FALSE(open_time_of(request, inputs(), unchecked_K)) << "a fifth less, and it never gets there";
}

}  // namespace
}  // namespace heatwork::firing
