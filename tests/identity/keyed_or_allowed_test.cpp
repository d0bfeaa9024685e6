// A display error corrected on the panel, or kept and allowed for in what is keyed in: the chamber and the pieces live through the same.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "demo_firing.h"
#include "firing/rehearsal.h"
#include "furnace_care/as_checked.h"
#include "metrology/display_offset.h"

namespace heatwork {
namespace {

using furnace_care::CheckOnDay;
using furnace_care::FileOnDay;
using quantity::kelvins;
using trade::CorrectionConvention;

struct Case {
  CorrectionConvention convention;
  double keyed_K, found_K;
};

class KeyedOrAllowed : public testing::TestWithParam<Case> {};

INSTANTIATE_TEST_SUITE_P(errors, KeyedOrAllowed,
                         testing::Values(Case{CorrectionConvention::added_to_display, 0, 12},
                                         Case{CorrectionConvention::added_to_display, -7, -9},
                                         Case{CorrectionConvention::added_to_setting, 0, 12},
                                         Case{CorrectionConvention::added_to_setting, 5, -9}));

/// The furnace's file before and after the check; nothing but the keyed correction differs.
std::vector<FileOnDay> files(const trade::Furnace& furnace, const Case& one, double keyed_after_K) {
  FileOnDay before{furnace, {0, "2026-10-01"}}, after{furnace, {20, "2026-10-21"}};
  for (FileOnDay* each : {&before, &after}) {
    each->furnace.display_error.reset();
    each->furnace.correction_convention.value = one.convention;
  }
  before.furnace.correction_keyed.value = kelvins(one.keyed_K);
  after.furnace.correction_keyed.value = kelvins(keyed_after_K);
  return {before, after};
}

CheckOnDay check_of(const Case& one) {
  CheckOnDay check;
  check.check.name = "wire";
  check.check.of.value = trade::CheckOf::temperature;
  check.check.error = trade::Given<quantity::TemperatureDifference>{kelvins(one.found_K), "", {}};
  check.check.standard_uncertainty = trade::Given<quantity::TemperatureDifference>{kelvins(1.5), "", {}};
  check.at = {10, "2026-10-11"};
  return check;
}

void shift(trade::Program& program, double by_K) {
  const auto move = [by_K](trade::Given<quantity::Temperature>& one) { one.value = one.value + kelvins(by_K); };
  move(program.standby);
  move(program.entry);
  for (auto& stage : program.heating) move(stage.to);
  for (auto& stage : program.cooling) move(stage.to);
  if (program.vacuum) move(program.vacuum->from);
  if (program.vacuum && program.vacuum->to) move(*program.vacuum->to);
  if (program.opening_temperature) move(*program.opening_temperature);
  if (program.unloading_temperature) move(*program.unloading_temperature);
}

TEST_P(KeyedOrAllowed, leads_to_the_same_true_temperatures) {
  const Case& one = GetParam();
  const auto what = one.convention == CorrectionConvention::added_to_display ? metrology::KeyedCorrection::added_to_display
                                                                             : metrology::KeyedCorrection::added_to_setting;
  const double to_key_K = metrology::correction_to_key_K(what, one.keyed_K, one.found_K);
  const trade::ResolvedFiring asked = tests::demo_firing("firing");
  const std::vector<CheckOnDay> checks{check_of(one)};
  const auto as_checked = [&](double keyed_K) {
    return furnace_care::as_checked(files(asked.furnace, one, keyed_K), checks, {25, "2026-10-26"}, std::nullopt).furnace;
  };
  trade::ResolvedFiring corrected = asked, allowed = asked;
  corrected.furnace = as_checked(to_key_K);
  allowed.furnace = as_checked(one.keyed_K);
  ASSERT_NEAR(corrected.furnace.display_error->error.value.si(), 0, 1e-9);
  ASSERT_NEAR(allowed.furnace.display_error->error.value.si(), one.found_K, 1e-9);
  shift(allowed.program, one.found_K);
  const firing::FiringResult keyed = firing::rehearse(corrected).firing, kept = firing::rehearse(allowed).firing;
  const auto top = [](const firing::FiringResult& of) {
    return *std::max_element(of.chamber.chamber_C.begin(), of.chamber.chamber_C.end());
  };
  RecordProperty("true top", std::to_string(top(keyed)));
  RecordProperty("true top expected", std::to_string(top(kept)) + " within 0.01");
  EXPECT_NEAR(top(keyed), top(kept), 0.01);
  ASSERT_EQ(keyed.chamber.moments.size(), kept.chamber.moments.size());
  for (std::size_t i = 0; i < keyed.chamber.moments.size(); ++i)
    EXPECT_NEAR(keyed.chamber.moments[i].time_s, kept.chamber.moments[i].time_s, 0.01) << i;
  for (std::size_t i = 0; i < keyed.pieces.size(); ++i) {
    EXPECT_NEAR(keyed.pieces[i].peak_surface_C, kept.pieces[i].peak_surface_C, 0.01) << i;
    EXPECT_NEAR(keyed.pieces[i].deciding_least / kept.pieces[i].deciding_least, 1, 1e-4) << i;
  }
  // The same setting in the furnace that was not corrected is not the same firing: the proof can fail.
  allowed.program = asked.program;
  EXPECT_GT(std::abs(top(firing::rehearse(allowed).firing) - top(keyed)), 5);
}

}  // namespace
}  // namespace heatwork
