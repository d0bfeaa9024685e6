#include "physics/powder_sealing.h"

#include <stdexcept>
#include <string>

#include "physics/pores.h"
#include "physics/sintering.h"

namespace heatwork::physics {

namespace {

constexpr double hard_porosity = 0.10;

double reduced_time_of_porosity(double porosity) {
  return cell_reduced_time(cell_ratio(1.0 - porosity));
}

}  // namespace

SealingPlan::SealingPlan(const PowderProperties& powder)
    : smooth_(powder.sealing == Sealing::smooth),
      count_(smooth_ ? powder.slices : 1),
      fine_start_um_(powder.fine_radius_ratio * powder.particle_radius_um),
      rate_Pa_(reduced_time_per_heat_work(powder.start_relative_density, powder.shape_factor) * powder.surface_tension_N_per_m /
               (powder.particle_radius_um * 1e-6)) {
  for (int i = 0; i < count_; ++i) {
    const auto k = static_cast<std::size_t>(i);
    porosity_[k] = smooth_ ? porosity_of_sealed_fraction((i + 0.5) / count_) : hard_porosity;
    reduced_time_[k] = reduced_time_of_porosity(porosity_[k]);
  }
  half_reduced_time_ = smooth_ ? reduced_time_of_porosity(porosity_of_sealed_fraction(0.5)) : reduced_time_[0];
  last_reduced_time_ = smooth_ ? reduced_time_of_porosity(porosity_of_sealed_fraction(1.0)) : reduced_time_[0];
}

double SealingPlan::sealed_fraction_of(const PowderState& state) const {
  if (!smooth_) return state.sealed_slices;
  return sealed_fraction(1.0 - cell_density(state.cell_ratio));
}

void SealingPlan::check(const PowderState& state) const {
  if (state.slices == count_) return;
  throw std::invalid_argument("the powder state has " + std::to_string(state.slices) + " slices; these properties need " +
                              std::to_string(count_) + ", as made by start_powder");
}

}  // namespace heatwork::physics
