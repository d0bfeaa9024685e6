#include "furnace_care/heating_check.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>
#include <string>

#include "furnace_care/furnace_for_tests.h"

namespace heatwork::furnace_care {
namespace {

constexpr double gain_new = 2.4, loss_new = 0.0012;

trade::Furnace furnace_with(bool when_new) {
  trade::Furnace furnace = own_furnace();
  furnace.maximum.value = quantity::Temperature::celsius(1150);
  furnace.heating.nominal_mains.value = quantity::Voltage::si(230);
  furnace.heating.gain_when_new.reset();
  furnace.heating.loss_when_new.reset();
  if (!when_new) return furnace;
  furnace.heating.gain_when_new = {quantity::HeatingRate::si(gain_new), "", {}};
  furnace.heating.loss_when_new = {quantity::Frequency::si(loss_new), "", {}};
  return furnace;
}

struct Muffle {
  double power = 1, lining = 1, mains_V = 230, most_K_per_s = 1e9, water_K = 0;
};

trade::HeatingRunTest run_of(const Muffle& muffle, bool mains_read = true) {
  trade::HeatingRunTest test;
  test.room = {quantity::Temperature::celsius(20), "", {}};
  if (mains_read) test.mains = {quantity::Voltage::si(muffle.mains_V), "", {}};
  double T = 20;
  for (int i = 0; i < 40000 && T < 900; ++i) {
    if (i % 50 == 0) test.samples.push_back({quantity::seconds(0.1 * i), quantity::Temperature::celsius(std::round(T)), {}});
    const double volts = muffle.mains_V / 230;
    double rate = std::min(muffle.most_K_per_s, gain_new * muffle.power * volts * volts - loss_new * muffle.lining * (T - 20));
    if (muffle.water_K > 0 && T > 80 && T < 120) rate /= 1 + muffle.water_K / 40;
    T += 0.1 * rate;
  }
  return test;
}

HeatingTold tell(const trade::HeatingRunTest& test, const std::vector<MuffleSeen>& earlier = {}, bool when_new = true) {
  const trade::Furnace furnace = furnace_with(when_new);
  HeatingTold told = tell_heating({furnace, test, earlier, 200});
  EXPECT_EQ(without_german(told), "");
  return told;
}

std::string refusal(const trade::HeatingRunTest& test) {
  try {
    (void)tell(test);
  } catch (const std::domain_error& refused) {
    EXPECT_TRUE(has_german(refused.what())) << refused.what();
    return refused.what();
  }
  return "nothing was refused";
}

TEST(HeatingCheck, ElementMainsLiningAndACappedRateAreToldApart) {
  const HeatingTold sound = tell(run_of({}));
  EXPECT_EQ(sound.level, CheckLevel::good);
  EXPECT_EQ(sound.verdict, "heats as it did");
  EXPECT_NEAR(sound.run->gain_at_nominal_K_per_s, gain_new, 0.02);
  const HeatingTold low = tell(run_of({.mains_V = 209}));
  EXPECT_EQ(low.level, CheckLevel::good);
  EXPECT_EQ(low.verdict, "heats as it did, mains low");
  EXPECT_NE(low.findings.back().sentence.find("That is the mains, not the element."), std::string::npos);
  EXPECT_EQ(tell(run_of({.power = 0.89})).verdict, "element ageing");
  EXPECT_EQ(tell(run_of({.power = 0.78})).verdict, "element worn");
  EXPECT_EQ(tell(run_of({.power = 0.78})).level, CheckLevel::not_good);
  const HeatingTold lining = tell(run_of({.lining = 1.4}));
  EXPECT_EQ(lining.level, CheckLevel::not_good);
  EXPECT_EQ(lining.verdict, "insulation");
  const HeatingTold held = tell(run_of({.most_K_per_s = 1.1}));
  EXPECT_EQ(held.level, CheckLevel::cannot_tell);
  EXPECT_EQ(held.verdict, "held back");
}

TEST(HeatingCheck, WithoutTheMainsOnlyWhatTheyCannotExplainIsTold) {
  EXPECT_EQ(tell(run_of({}, false)).level, CheckLevel::cannot_tell);
  EXPECT_EQ(tell(run_of({.power = 0.88}, false)).level, CheckLevel::cannot_tell);
  const HeatingTold weak = tell(run_of({.power = 0.7}, false));
  EXPECT_EQ(weak.level, CheckLevel::not_good);
  EXPECT_EQ(weak.verdict, "power low");
}

TEST(HeatingCheck, TheFirstRunIsKeptToCompareWith) {
  const HeatingTold first = tell(run_of({}), {}, false);
  EXPECT_EQ(first.level, CheckLevel::cannot_tell);
  EXPECT_EQ(first.verdict, "nothing to compare with");
  const HeatingTold second = tell(run_of({.power = 0.8}), {{100, gain_new, loss_new, "spring"}}, false);
  EXPECT_EQ(second.verdict, "element worn");
  EXPECT_NE(second.sentence.find("in its first check that is kept, spring"), std::string::npos);
}

TEST(HeatingCheck, WaterIsSeenAndDryingAdvised) {
  EXPECT_FALSE(tell(run_of({})).drying_advised);
  const HeatingTold wet = tell(run_of({.water_K = 160}));
  EXPECT_TRUE(wet.drying_advised);
  EXPECT_EQ(wet.level, CheckLevel::not_good);
  EXPECT_EQ(wet.verdict, "water");
  EXPECT_GT(*wet.slow_while_drying_s, 60);
}

TEST(HeatingCheck, ARecordThatDoesNotSufficeCannotTell) {
  trade::HeatingRunTest brief = run_of({});
  brief.samples.resize(15);
  const HeatingTold told = tell(brief);
  EXPECT_EQ(told.level, CheckLevel::cannot_tell);
  EXPECT_FALSE(told.run);
  trade::HeatingRunTest capped = run_of({});
  capped.capped = {true, "", {}};
  EXPECT_EQ(tell(capped).level, CheckLevel::cannot_tell);
}

TEST(HeatingCheck, AnElementThatWeakensIsForeseen) {
  const std::vector<MuffleSeen> weakening{{0, 2.40, loss_new, "a"}, {60, 2.36, loss_new, "b"}, {130, 2.31, loss_new, "c"}};
  const HeatingTold told = tell(run_of({.power = 0.94}), weakening);
  ASSERT_TRUE(told.forecast);
  EXPECT_NEAR(told.forecast->days, 300, 100);
  EXPECT_NE(told.remarks.back().find("due for replacement in about"), std::string::npos);
}

TEST(HeatingCheck, RefusesAnotherFurnaceAndMainsNoFurnaceRunsOn) {
  trade::HeatingRunTest hot = run_of({});
  hot.samples.push_back({quantity::seconds(4000), quantity::Temperature::celsius(1240), {}});
  EXPECT_NE(refusal(hot).find("it is of another furnace"), std::string::npos);
  EXPECT_NE(refusal(run_of({.power = 1.5})).find("no muffle gets stronger"), std::string::npos);
  trade::HeatingRunTest wrong = run_of({});
  wrong.mains = {quantity::Voltage::si(110), "", {}};
  EXPECT_EQ(refusal(wrong), "The mains must be from 80 to 130 % of nominal: 110 V of 230 V.");
  EXPECT_NE(refusal(trade::HeatingRunTest{}).find("No reading of the display"), std::string::npos);
}

}  // namespace
}  // namespace heatwork::furnace_care
