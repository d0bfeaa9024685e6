#include "furnace_care/as_checked.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

namespace heatwork::furnace_care {
namespace {

using quantity::kelvins;
using quantity::Temperature;
using trade::CorrectionConvention;

template <class T>
trade::Given<T> given(T value) {
  return {value, "", {}};
}

OnDay day(double days) {
  return {days, "day " + std::to_string(static_cast<int>(days))};
}

FileOnDay file(double days) {
  FileOnDay one;
  one.furnace.name = "corner";
  one.furnace.heating.gain = given(quantity::HeatingRate::si(1.2));
  one.furnace.heating.loss = given(quantity::Frequency::si(0.001));
  one.furnace.pump.time_constant = given(quantity::seconds(12));
  one.furnace.pump.ultimate = given(quantity::millibars(40));
  one.furnace.pump.leak = given(quantity::PressureRate::si(1));
  one.at = day(days);
  return one;
}

CheckOnDay wire(const std::string& name, double days, double error_K, double u_K) {
  CheckOnDay one;
  one.check.name = name;
  one.check.of = given(trade::CheckOf::temperature);
  one.check.error = given(kelvins(error_K));
  if (u_K > 0) one.check.standard_uncertainty = given(kelvins(u_K));
  one.at = day(days);
  return one;
}

double error_K(const AsChecked& known) {
  return known.furnace.display_error->error.value.si();
}
double u_K(const AsChecked& known) {
  return known.furnace.display_error->standard_uncertainty.value.si();
}
std::string all_said(const AsChecked& known) {
  std::string all;
  for (const auto& said : known.known.said) all += said.sentence + "\n";
  return all;
}

TEST(AsChecked, WithoutACheckTheFileStands) {
  const std::vector files{file(0)};
  const AsChecked known = as_checked(files, {}, day(10), 800);
  EXPECT_FALSE(known.furnace.display_error);
  EXPECT_TRUE(known.known.said.empty());
  EXPECT_TRUE(known.used.empty());
}

TEST(AsChecked, TheNewestCheckTellsTheErrorAndItsUncertaintyGrows) {
  const std::vector files{file(0)};
  const std::vector checks{wire("old", 10, 3, 1), wire("new", 100, 12, 2), wire("later", 400, 20, 1)};
  const AsChecked soon = as_checked(files, checks, day(100.5), std::nullopt);
  EXPECT_EQ(soon.used, std::vector<std::size_t>{1}) << "a check after the firing tells nothing of it";
  EXPECT_DOUBLE_EQ(error_K(soon), 12);
  EXPECT_DOUBLE_EQ(u_K(soon), 2);
  EXPECT_EQ(all_said(soon),
            "Display error 12 K with standard uncertainty 2 K: check new of day 100 found 12 K with 2 K; drift over 0 d is in it.\n");
  const AsChecked late = as_checked(files, checks, day(399), std::nullopt);
  const double months = 299 / 30.4375;
  EXPECT_NEAR(u_K(late), std::sqrt(4 + 0.5 * months + 0.0025 * months * months * months / 3), 0.005);
  EXPECT_DOUBLE_EQ(error_K(late), 12);
  EXPECT_EQ(late.furnace.display_error->checked, "check new of day 100");
}

TEST(AsChecked, WhatDoesNotCountIsPassedOverAndSaid) {
  const std::vector files{file(0)};
  std::vector checks{wire("good", 10, 3, 1), wire("no-u", 20, 4, 0), wire("open", 30, 5, 1), wire("blind", 40, 6, 1)};
  checks[2].check.finished = given(false);
  checks[3].check.cannot_tell = given(true);
  checks[3].check.error.reset();
  const AsChecked known = as_checked(files, checks, day(50), std::nullopt);
  EXPECT_DOUBLE_EQ(error_K(known), 3);
  EXPECT_EQ(all_said(known),
            "Check blind of day 40 does not count: it could not tell.\n"
            "Check open of day 30 does not count: it is not finished.\n"
            "Check no-u of day 20 does not count: it gives no standard uncertainty.\n"
            "Display error 3 K with standard uncertainty 1.29 K: check good of day 10 found 3 K with 1 K; drift over 40 d is in it.\n");
}

TEST(AsChecked, AnErrorThatWasFoundCountsThoughItsLimitIsOpen) {
  const std::vector files{file(0)};
  std::vector checks{wire("good", 10, 3, 1), wire("open", 40, 6, 3)};
  checks[1].check.cannot_tell = given(true);
  const AsChecked known = as_checked(files, checks, day(40), std::nullopt);
  EXPECT_DOUBLE_EQ(error_K(known), 6);
  EXPECT_DOUBLE_EQ(u_K(known), 3);
}

TEST(AsChecked, ARepairVoidsWhatWasCheckedBefore) {
  const std::vector files{file(0)};
  std::vector checks{wire("before", 10, 3, 1), wire("after", 30, 5, 1)};
  checks[1].check.after_repair = "new muffle";
  checks[1].check.finished = given(false);
  const AsChecked open = as_checked(files, checks, day(40), std::nullopt);
  EXPECT_FALSE(open.furnace.display_error) << "until the new check is finished nothing is known";
  EXPECT_EQ(all_said(open),
            "Check after of day 30 does not count: it is not finished.\n"
            "Check before of day 10 does not count: check after of day 30 tells of a repair after it, \"new muffle\".\n");
  checks[1].check.finished.reset();
  EXPECT_DOUBLE_EQ(error_K(as_checked(files, checks, day(40), std::nullopt)), 5) << "the repair came before this one";
  EXPECT_DOUBLE_EQ(error_K(as_checked(files, checks, day(20), std::nullopt)), 3) << "nobody knew of the repair then";
}

TEST(AsChecked, ACheckThatDriftMadeWorthlessLeavesTheDisplayUnchecked) {
  const std::vector files{file(0)};
  const std::vector checks{wire("old", 10, 3, 2)};
  EXPECT_TRUE(as_checked(files, checks, day(10 + 4 * 365), std::nullopt).furnace.display_error);
  const AsChecked known = as_checked(files, checks, day(10 + 5 * 365), std::nullopt);
  EXPECT_FALSE(known.furnace.display_error);
  EXPECT_TRUE(known.used.empty());
  EXPECT_NE(all_said(known).find("no surer than if it was never checked"), std::string::npos);
}

TEST(AsChecked, WhatWasTypedAfterTheCheckStandsAndSaysSo) {
  std::vector files{file(0), file(50)};
  files[1].furnace.display_error = trade::DisplayError{given(kelvins(7)), given(kelvins(1)), "probe"};
  files[1].furnace.heating.gain = given(quantity::HeatingRate::si(1.1));
  std::vector checks{wire("wire", 20, 3, 1), wire("run", 21, 0, 0)};
  checks[1].check.error.reset();
  checks[1].check.of = given(trade::CheckOf::heating);
  checks[1].check.gain = given(quantity::HeatingRate::si(0.9));
  checks[1].check.loss = given(quantity::Frequency::si(0.002));
  const AsChecked known = as_checked(files, checks, day(60), std::nullopt);
  EXPECT_DOUBLE_EQ(error_K(known), 7);
  EXPECT_DOUBLE_EQ(known.furnace.heating.gain.value.si(), 1.1);
  EXPECT_DOUBLE_EQ(known.furnace.heating.loss.value.si(), 0.002) << "that was not typed anew";
  EXPECT_EQ(all_said(known),
            "Display error as it was typed in the furnace's file on day 50, after check wire of day 20.\n"
            "Heating gain as it was typed in the furnace's file on day 50, after check run of day 21.\n"
            "Heating loss 0.002 /s: check run of day 21.\n");
  files[0].furnace.display_error = files[1].furnace.display_error;
  EXPECT_DOUBLE_EQ(error_K(as_checked(files, checks, day(60), std::nullopt)), 3) << "typed before the check, and only kept again";
}

TEST(AsChecked, TheFurnaceTakesGainLossPumpAndLeakWithTheirUncertainties) {
  const std::vector files{file(0)};
  std::vector checks{wire("run", 5, 0, 0), wire("pump", 6, 0, 0)};
  for (auto& each : checks) each.check.error.reset();
  checks[0].check.of = given(trade::CheckOf::heating);
  checks[0].check.gain = given(quantity::HeatingRate::si(1.0));
  checks[0].check.gain_sd = given(quantity::HeatingRate::si(0.02));
  checks[0].check.loss = given(quantity::Frequency::si(0.0012));
  checks[1].check.of = given(trade::CheckOf::vacuum);
  checks[1].check.pump_time_constant = given(quantity::seconds(21));
  checks[1].check.pump_time_constant_sd = given(quantity::seconds(1));
  checks[1].check.ultimate = given(quantity::millibars(55));
  checks[1].check.ultimate_sd = given(quantity::millibars(3));
  checks[1].check.leak = given(quantity::PressureRate::si(4));
  checks[1].check.leak_sd = given(quantity::PressureRate::si(1));
  const AsChecked known = as_checked(files, checks, day(7), 800);
  EXPECT_FALSE(known.furnace.display_error);
  EXPECT_DOUBLE_EQ(known.furnace.heating.gain.value.si(), 1.0);
  EXPECT_DOUBLE_EQ(known.furnace.heating.loss.value.si(), 0.0012);
  EXPECT_DOUBLE_EQ(known.furnace.pump.time_constant.value.si(), 21);
  EXPECT_DOUBLE_EQ(known.furnace.pump.ultimate.value.si(), 5500);
  EXPECT_DOUBLE_EQ(known.furnace.pump.leak.value.si(), 4);
  EXPECT_DOUBLE_EQ(known.known.gain_u->si(), 0.02);
  EXPECT_DOUBLE_EQ(known.known.pump_time_constant_u->si(), 1);
  EXPECT_DOUBLE_EQ(known.known.ultimate_u->si(), 300);
  EXPECT_DOUBLE_EQ(known.known.leak_u->si(), 1);
  EXPECT_EQ(known.used, (std::vector<std::size_t>{0, 1}));
  EXPECT_EQ(known.known.said[0].unit, "K/min");
  EXPECT_DOUBLE_EQ(*known.known.said[0].value, 60);
  EXPECT_EQ(all_said(known),
            "Heating gain 60 K/min with standard uncertainty 1.2 K/min: check run of day 5.\n"
            "Heating loss 0.0012 /s: check run of day 5.\n"
            "Time constant of the pump 21 s with standard uncertainty 1 s: check pump of day 6.\n"
            "Lowest pressure 55 mbar with standard uncertainty 3 mbar: check pump of day 6.\n"
            "Leak 0.04 mbar/s with standard uncertainty 0.01 mbar/s: check pump of day 6.\n");
}

/// Corrected on the panel, or kept and allowed for: at one setting the chamber's true temperature is what the error says it is.
TEST(AsChecked, ACorrectionKeyedSinceMovesTheErrorByItsConvention) {
  for (const auto convention : {CorrectionConvention::added_to_display, CorrectionConvention::added_to_setting}) {
    const double sign = convention == CorrectionConvention::added_to_display ? 1 : -1;
    std::vector files{file(0), file(40)};
    for (auto& each : files) {
      each.furnace.correction_convention = given(convention);
      each.furnace.correction_keyed = given(kelvins(2));
    }
    std::vector checks{wire("wire", 20, 9, 1)};
    EXPECT_DOUBLE_EQ(error_K(as_checked(files, checks, day(41), std::nullopt)), 9) << "nothing was keyed since";
    // The keyed value that makes the display true, in the file or told by the check.
    const double to_key_K = 2 - sign * 9;
    files[1].furnace.correction_keyed = given(kelvins(to_key_K));
    const AsChecked corrected = as_checked(files, checks, day(41), std::nullopt);
    EXPECT_DOUBLE_EQ(error_K(corrected), 0);
    EXPECT_NE(all_said(corrected).find("The correction keyed on the panel went from 2 K to "), std::string::npos);
    files[1].furnace.correction_keyed = given(kelvins(2));
    checks[0].check.keyed_after = given(kelvins(to_key_K));
    const AsChecked told = as_checked(files, checks, day(41), std::nullopt);
    EXPECT_DOUBLE_EQ(error_K(told), 0);
    EXPECT_DOUBLE_EQ(told.furnace.correction_keyed.value.si(), to_key_K) << "what stands on the panel";
    checks[0].check.keyed_after.reset();
    checks[0].check.correction_keyed = given(kelvins(-3));
    EXPECT_DOUBLE_EQ(error_K(as_checked(files, checks, day(41), std::nullopt)), 9 + sign * 5) << "it was checked with -3 K";
  }
}

TEST(AsChecked, AnErrorFoundElsewhereIsCarriedToTheTopOfTheProgram) {
  std::vector files{file(0)};
  std::vector checks{wire("wire", 20, 10, 1)};
  checks[0].check.error_at = given(Temperature::celsius(960));
  const AsChecked known = as_checked(files, checks, day(20), 720);
  EXPECT_DOUBLE_EQ(error_K(known), 8.75) << "between 10 K and 7.5 K";
  EXPECT_NEAR(u_K(known), std::hypot(1, 1.25 / std::sqrt(3)), 0.005);
  EXPECT_NE(all_said(known).find("The error was found at 960 °C and is carried to 720 °C"), std::string::npos);
  files[0].furnace.correction_keyed = given(kelvins(4));
  EXPECT_DOUBLE_EQ(error_K(as_checked(files, checks, day(20), 720)), 4 + 6 * 0.875) << "what is keyed is the same at every temperature";
}

}  // namespace
}  // namespace heatwork::furnace_care
