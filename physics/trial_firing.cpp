#include "physics/trial_firing.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>

#include "physics/layer.h"
#include "physics/range.h"
#include "physics/rising_root.h"

namespace heatwork::physics {

namespace {

constexpr double nominal_start_C = 450.0;
constexpr double nominal_rate_K_per_s = 55.0 / 60.0;
constexpr double nominal_hold_s = 60.0;
constexpr double resolution_K = 1e-7;
constexpr double least_above_transition_K = 20.0;  // nearer, no melt of this form is known

double firing_temperature_C(const Vft& vft, double crystal_factor) {
  return temperature_of_log10_viscosity_C(vft, well_fired_log10_viscosity - std::log10(crystal_factor));
}

}  // namespace

PieceHistory nominal_firing(double nominal_C) {
  require_within("nominal_C", nominal_C, nominal_start_C, 1400.0);
  const double top_s = (nominal_C - nominal_start_C) / nominal_rate_K_per_s;
  const double top_K = nominal_C + zero_celsius_K;
  return {{0.0, top_s, top_s + nominal_hold_s}, {nominal_start_C + zero_celsius_K, top_K, top_K}};
}

TrialGlass glass_of_trial(const PowderClock& of_class, double nominal_C, double glass_transition_C, const PieceHistory& trial,
                          double degree_K) {
  require_within("degree_K", degree_K, -widest_equivalent_shift_K, widest_equivalent_shift_K);
  const PieceHistory seen = shifted(trial, -degree_K);
  const double wanted = deciding_quantity(of_class, nominal_firing(nominal_C));
  const double class_C = firing_temperature_C(of_class.vft, of_class.crystal_factor);
  const double softest_K = std::max(-widest_equivalent_shift_K, glass_transition_C + least_above_transition_K - class_C);
  require_within("glass_transition_C", glass_transition_C, 200.0, class_C);
  PowderClock glass = of_class;
  const auto at = [&](double shift_K) { return vft_of_porcelain(glass_transition_C, class_C + shift_K, of_class.crystal_factor); };
  // A glass that fires at a higher temperature does less work, so the excess of the class's work rises with the shift.
  const auto excess = [&](double shift_K) {
    glass.vft = at(shift_K);
    return std::log(wanted / deciding_quantity(glass, seen));
  };
  constexpr double usual_slope_per_K = 0.028;
  const RisingRoot shift_K = rising_root(excess, {softest_K, widest_equivalent_shift_K,
                                                  std::clamp(0.0, softest_K, widest_equivalent_shift_K), usual_slope_per_K, resolution_K});
  if (!shift_K.within()) {
    throw std::domain_error(
        "no glass of that transition explains the trial; one that fires within 150 K of the class, and 20 K or more above its transition, "
        "must do the class's work in it");
  }
  return {at(shift_K.x), shift_K.x};
}

}  // namespace heatwork::physics
