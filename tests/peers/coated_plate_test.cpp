// Our section against reference solutions finer by orders: the coated plate under a firing program, the radiating slab.
#include "coated_plate.h"

#include "../reference/evidence_row.h"

namespace heatwork::peers {
namespace {

using reference::Evidence;

TEST(CoatedPlate, DefaultsWithinATenthOfAKelvinAtAllTimes) {
  const Table reference = table("coated_plate");
  if (reference.time_s.empty()) GTEST_SKIP() << "no reference table beside the source tree";
  ASSERT_EQ(reference.time_s.size(), 337u);
  const auto times = firing_times();
  for (std::size_t i = 0; i < times.size(); ++i) ASSERT_NEAR(times[i], reference.time_s[i], 1e-5);
  const auto layers = coated_layers();
  const auto exposures = firing();
  SectionHeater heater(layers, SectionForm::plate, 0);
  Evidence row("coated plate, 337 times, three places; reference by 704 and 1408 control volumes, extrapolated", "K");
  row.near(largest_error_K(heater.solve(exposures, start_K, times), reference), 0, 0.1);
}

TEST(CoatedPlate, GoesToTheReferenceWhenRefined) {
  const Table reference = table("coated_plate");
  if (reference.time_s.empty()) GTEST_SKIP() << "no reference table beside the source tree";
  const auto layers = coated_layers();
  const auto exposures = firing();
  SectionAccuracy fine;
  fine.step_tolerance_K = 1e-5;
  fine.spaces = {56, 120};
  SectionHeater heater(layers, SectionForm::plate, 0, fine);
  Evidence row("coated plate, 176 spaces: second order leaves a thousandth", "K");
  row.near(largest_error_K(heater.solve(exposures, start_K, firing_times()), reference), 0, 0.002);
}

double slab_error(const std::string& name, const Exposure& exposure) {
  const Table reference = table(name);
  const Layer half{1e-3, 6050, TemperatureProperty::constant(2.5), TemperatureProperty::constant(500), 0};
  SectionHeater heater({&half, 1}, SectionForm::plate, 0);
  const auto& T = heater.solve({&exposure, 1}, 723.15, reference.time_s);
  double worst = 0;
  for (std::size_t i = 0; i < reference.time_s.size(); ++i) {
    worst = std::max(
        {worst, std::abs(T.inside_K[i] - 273.15 - reference.value_C[i][0]), std::abs(T.surface_K[i] - 273.15 - reference.value_C[i][1])});
  }
  return worst;
}

TEST(RadiatingSlab, StepAndRamp) {
  if (table("slab_step").time_s.empty()) GTEST_SKIP() << "no reference table beside the source tree";
  Exposure step;
  step.time_s = {0, 60};
  step.surroundings_K = {1173.15, 1173.15};
  step.emissivity = 0.9;
  Exposure ramp;
  ramp.time_s = {0, 450 / 55.0 * 60, 600};
  ramp.surroundings_K = {723.15, 1173.15, 1173.15};
  ramp.emissivity = 0.9;
  Evidence row("2 mm slab by radiation, step and ramp; reference by 801 and 401 nodes", "K");
  row.near(slab_error("slab_step", step), 0, 0.1);
  row.near(slab_error("slab_ramp", ramp), 0, 0.1);
}

}  // namespace
}  // namespace heatwork::peers
