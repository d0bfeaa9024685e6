#include "furnace_care/temperature_check.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>
#include <string>
#include <vector>

#include "furnace_care/correction.h"
#include "furnace_care/furnace_for_tests.h"
#include "furnace_care/wire_questions.h"

namespace heatwork::furnace_care {
namespace {

using trade::TestGas;
using trade::TestWire;

WireTold tell(const trade::WireTest& wire, const std::vector<trade::WireTrial>& trials,
              std::optional<EarlierError> earlier = std::nullopt) {
  const trade::Furnace furnace = own_furnace();
  return tell_wire_test({furnace, wire, trials, earlier, 0, std::nullopt});
}

std::string refusal(const trade::WireTest& wire, const std::vector<trade::WireTrial>& trials) {
  try {
    (void)tell(wire, trials);
  } catch (const std::domain_error& refused) {
    return refused.what();
  }
  return "nothing was refused";
}

TEST(TemperatureCheck, AsksOneThingAtATimeAndOnlyWhatMatters) {
  trade::WireTest wire;
  std::vector<std::string> asked;
  const trade::WireTest whole = vacuum_wire();
  for (auto question = next_wire_question(wire); question; question = next_wire_question(wire)) {
    asked.push_back(question->key);
    if (question->key == "wire.metal") wire.metal = whole.metal;
    if (question->key == "wire.purity") wire.purity = whole.purity;
    if (question->key == "wire.gas") wire.gas = whole.gas;
    if (question->key == "wire.pressure") wire.pressure = whole.pressure;
    if (question->key == "wire.vented_hot") wire.vented_hot = whole.vented_hot;
    if (question->key == "wire.diameter") wire.diameter = whole.diameter;
    if (question->key == "wire.hold") wire.hold = whole.hold;
    if (question->key == "wire.criterion") wire.criterion = whole.criterion;
  }
  EXPECT_EQ(asked, (std::vector<std::string>{"wire.metal", "wire.purity", "wire.gas", "wire.pressure", "wire.vented_hot", "wire.diameter",
                                             "wire.hold", "wire.criterion"}));
  wire.gas = given(TestGas::air);
  wire.pressure.reset();
  wire.vented_hot.reset();
  EXPECT_FALSE(next_wire_question(wire)) << "air needs neither a pressure nor whether it was vented";
  wire.metal = given(TestWire::gold);
  wire.gas.reset();
  EXPECT_FALSE(next_wire_question(wire)) << "gold feels no oxygen";
  wire = {};
  wire.metal = given(TestWire::silver);
  wire.melting = given(quantity::Temperature::celsius(959));
  EXPECT_EQ(next_wire_question(wire)->key, "wire.diameter") << "a stated melting temperature needs no gas";
}

TEST(TemperatureCheck, TheGasDecidesWhereTheWireMelts) {
  const trade::Furnace furnace = own_furnace();
  trade::WireTest wire = vacuum_wire();
  const WirePoint vacuum = wire_point(wire, furnace);
  EXPECT_NEAR(vacuum.temperature_C - vacuum.superheat_K, 959.5, 0.1);
  EXPECT_NEAR(vacuum.uncertainty_K, std::hypot(0.6, 0.0345), 1e-12);
  wire.vented_hot = given(true);
  const WirePoint vented = wire_point(wire, furnace);
  EXPECT_NEAR(vented.temperature_C, 951.8, 0.3) << "air let in hot: as in air";
  wire.gas = given(TestGas::unknown);
  EXPECT_GT(wire_point(wire, furnace).uncertainty_K, 2.5);
  wire.gas = given(TestGas::inert);
  wire.vented_hot = given(false);
  EXPECT_NEAR(wire_point(wire, furnace).temperature_C, 961.8, 0.2);
  wire.melting = given(quantity::Temperature::celsius(957.4));
  EXPECT_DOUBLE_EQ(wire_point(wire, furnace).temperature_C, 957.4);
}

TEST(TemperatureCheck, GoesOnUntilItKnowsAndNamesEveryPartOfWhatIsUnsure) {
  const trade::WireTest wire = vacuum_wire();
  const WireTold first = tell(wire, {});
  EXPECT_EQ(first.verdict.level, CheckLevel::going_on);
  EXPECT_EQ(first.next_display_C, 960);
  const std::vector<trade::WireTrial> trials{trial(960, false), trial(968, false), trial(977, true), trial(973, false), trial(976, true)};
  const WireTold told = tell(wire, trials);
  EXPECT_EQ(told.verdict.level, CheckLevel::not_good);
  EXPECT_FALSE(told.next_display_C);
  EXPECT_TRUE(told.verdict.correct);
  ASSERT_TRUE(told.found);
  EXPECT_NEAR(told.found->error_K, 15, 1.5);
  ASSERT_EQ(told.budget.size(), 6U);
  EXPECT_NEAR(told.found->standard_uncertainty_K, combined_K(told.budget), 1e-12);
  EXPECT_NEAR(told.found->standard_uncertainty_K, 3.2, 0.4) << "section by section as in the handbook's budget";
  for (const BudgetPart& part : told.budget) EXPECT_FALSE(part.source.empty()) << part.sentence;
}

TEST(TemperatureCheck, IsGoodOnlyWhereItsWholeRangeIsWithinTheLimit) {
  const trade::Furnace furnace = own_furnace();
  const std::vector<trade::WireTrial> trials{trial(960, true), trial(951, false), trial(956, false), trial(959, false), trial(962, true)};
  const auto told = [&](double limit_K, std::vector<ErrorFound> others) {
    return tell_wire_test({furnace, vacuum_wire(), trials, std::nullopt, 0, limit_K, std::move(others), 0});
  };
  const WireTold alone = told(5, {});
  ASSERT_LT(std::abs(alone.found->error_K), 2) << "the middle alone is well within";
  ASSERT_GT(alone.found->range_high_K, 5);
  EXPECT_EQ(alone.verdict.level, CheckLevel::cannot_tell);
  EXPECT_FALSE(alone.verdict.correct);
  EXPECT_EQ(told(9, {}).verdict.level, CheckLevel::good);
  for (const std::string& sentence : alone.verdict.settled_by) EXPECT_TRUE(has_german(sentence)) << sentence;
  EXPECT_TRUE(has_german(alone.verdict.sentence)) << alone.verdict.sentence;
  // A thermocouple read near there makes it surer, one that reads elsewhere does not agree.
  const WireTold both = told(5, {{955, 0.2, 0.6, 2.3, 1}});
  EXPECT_LT(both.judged->standard_uncertainty_K, 0.75 * alone.judged->standard_uncertainty_K);
  EXPECT_EQ(both.verdict.level, CheckLevel::good);
  EXPECT_NE(both.remarks.back().find("by itself found"), std::string::npos);
  EXPECT_DOUBLE_EQ(both.found->error_K, alone.found->error_K) << "what is kept is what these wires found";
  const WireTold apart = told(5, {{955, 19, 0.6, 2.3, 1}});
  EXPECT_EQ(apart.verdict.level, CheckLevel::cannot_tell);
  EXPECT_NE(apart.remarks.back().find("do not agree"), std::string::npos);
  EXPECT_TRUE(has_german(apart.remarks.back()));
}

TEST(TemperatureCheck, AnEarlierCheckIsTheStartingPointMovedByWhatIsKeyed) {
  const trade::WireTest wire = vacuum_wire();
  const WireTold told = tell(wire, {}, EarlierError{7, 2, 0, 30});
  EXPECT_NEAR(told.before.sd_K, std::sqrt(36 + 0.5 * 30 / 30.4375 + 0.0025 / 3 * std::pow(30 / 30.4375, 3)), 1e-9);
  EXPECT_EQ(told.next_display_C, 967);
  EXPECT_DOUBLE_EQ(error_with_keyed_K(trade::CorrectionConvention::added_to_display, 7, 0, -7), 0);
  EXPECT_DOUBLE_EQ(error_with_keyed_K(trade::CorrectionConvention::added_to_setting, 7, 0, 7), 0);
  EXPECT_DOUBLE_EQ(tell(wire, {}, EarlierError{7, 2, 0, 10'000}).before.sd_K, 12) << "so old that it is as if never checked";
}

TEST(TemperatureCheck, WhatIsNoMeltTestIsRefused) {
  trade::WireTest wire = vacuum_wire();
  EXPECT_EQ(refusal(wire, {trial(870, true)}),
            "A silver wire does not melt at a display of 870 °C, 90 K under its melting point: it is another metal or an alloy, or the "
            "display was misread.");
  EXPECT_EQ(refusal(wire, {trial(1040, false)}),
            "A silver wire does not stay whole at a display of 1040 °C, 80 K over its melting point: it is another metal, or the display "
            "was misread.");
  wire.diameter = given(quantity::millimetres(1.5));
  wire.criterion = given(trade::MeltCriterion::balled);
  EXPECT_NE(refusal(wire, {}).find("tells nothing of the display"), std::string::npos);
  wire = vacuum_wire();
  wire.purity = given(quantity::Fraction::si(0.925));
  EXPECT_NE(refusal(wire, {}).find("sterling silver is 92.5 %"), std::string::npos);
  wire = {};
  wire.metal = given(TestWire::silver);
  EXPECT_EQ(refusal(wire, {trial(960, true)}), "A wire was fired before it is known how: first answer wire.purity.");
}

TEST(TemperatureCheck, AFurnaceThatCannotGoThereIsToldToTakeSilver) {
  trade::Furnace furnace = own_furnace();
  furnace.maximum = given(quantity::Temperature::celsius(1040));
  trade::WireTest wire = vacuum_wire();
  wire.metal = given(TestWire::gold);
  try {
    (void)tell_wire_test({furnace, wire, {}, std::nullopt, 0, std::nullopt});
    FAIL() << "gold was asked for at 1040 °C";
  } catch (const std::domain_error& refused) {
    EXPECT_STREQ(refused.what(),
                 "The next wire would be fired at a display of 1064 °C, but furnace attic may go to 1040 °C only; take a "
                 "silver wire.");
  }
}

TEST(TemperatureCheck, WhatConfirmsIsFiredWhereTheDisplayIsAfterTheDecision) {
  using trade::CheckDecision;
  const auto shown_at = [](const std::optional<CheckDecision>& decision) { return confirming_firings(959.6, 14.7, decision).front(); };
  EXPECT_EQ(shown_at(std::nullopt), "Once the correction is keyed in, a fresh wire fired at a display of 965 °C must melt.");
  EXPECT_EQ(shown_at(CheckDecision::corrected), shown_at(std::nullopt));
  // Nothing is keyed: the display still reads 14.7 K too high.
  EXPECT_EQ(shown_at(CheckDecision::allowed_for), "To confirm what is allowed for, a fresh wire fired at a display of 979 °C must melt.");
  EXPECT_EQ(confirming_firings(959.6, 14.7, CheckDecision::allowed_for)[1], "Another fired at 969 °C must stay whole.");
  EXPECT_TRUE(confirming_firings(959.6, 14.7, CheckDecision::left).empty());
  EXPECT_TRUE(confirming_firings(959.6, 14.7, CheckDecision::out_of_use).empty());
}

TEST(TemperatureCheck, AContradictionIsSaid) {
  const WireTold told = tell(vacuum_wire(), {trial(960, true), trial(955, false), trial(957, true), trial(956, false), trial(954, true)});
  ASSERT_TRUE(told.found);
  EXPECT_TRUE(told.found->contradictory);
  EXPECT_NE(told.remarks.back().find("one reading may be wrong"), std::string::npos);
}

}  // namespace
}  // namespace heatwork::furnace_care
