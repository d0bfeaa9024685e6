#include "firing/calibrated_range.h"

#include <cmath>
#include <stdexcept>

#include "firing/material_physics.h"
#include "physics/trial_firing.h"

namespace heatwork::firing {

double calibrated_within_K(const trade::Material& material, const trade::Furnace& here, const trade::Tray& tray,
                           double unchecked_display_K) {
  if (!material.calibrated) throw std::invalid_argument("material " + material.name + " was not calibrated by a trial firing");
  const trade::Calibrated& calibrated = *material.calibrated;
  const bool same_furnace = calibrated.furnace == here.name;
  const bool checked_there = calibrated.display_error_u.has_value();
  const auto square = [](double x) { return x * x; };
  double sum = square(calibrated.within.value.si());
  if (!checked_there)
    sum += square(unchecked_display_K);
  else if (!same_furnace)
    sum += square(2.0 * calibrated.display_error_u->value.si());
  if (!same_furnace) sum += square(here.display_error ? 2.0 * here.display_error->standard_uncertainty.value.si() : unchecked_display_K);
  if (calibrated.tray != tray.name) sum += square(another_tray_K);
  return std::sqrt(sum);
}

double decades_for_K(const trade::Material& material, double within_K) {
  const physics::Vft vft{property(material, "viscosity_A"), property(material, "viscosity_B"), property(material, "viscosity_T0")};
  const double glass_log10 = physics::well_fired_log10_viscosity - std::log10(property_or(material, "crystal_factor", 1.0));
  const double above_K = physics::temperature_of_log10_viscosity_C(vft, glass_log10) - vft.T0_C;
  return within_K * vft.B_K / (above_K * above_K);
}

}  // namespace heatwork::firing
