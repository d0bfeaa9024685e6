#include "physics/powder.h"

#include <cmath>
#include <stdexcept>
#include <string>

#include "physics/edges.h"
#include "physics/heat_work.h"
#include "physics/levelling.h"
#include "physics/pores.h"
#include "physics/powder_sealing.h"
#include "physics/range.h"
#include "physics/sintering.h"

namespace heatwork::physics {

namespace {

constexpr double layout = 1.0;  // of the stored list
constexpr std::size_t scalars = 9;
constexpr std::size_t values_a_slice = 5;

double cube(double x) {
  return x * x * x;
}

}  // namespace

void check_powder(const PowderProperties& powder) {
  check_vft(powder.vft);
  require_within("crystal_factor", powder.crystal_factor, 1.0, 1e4);
  require_within("surface_tension_N_per_m", powder.surface_tension_N_per_m, 0.01, 2.0);
  require_within("particle_radius_um", powder.particle_radius_um, 0.05, 1000.0);
  require_within("shape_factor", powder.shape_factor, 0.1, 10.0);
  require_within("coarse_share", powder.coarse_share, 0.0, 1.0);
  require_within("coarse_start_radius_um", powder.coarse_start_radius_um, 0.05, 1000.0);
  require_within("fine_radius_ratio", powder.fine_radius_ratio, 0.05, 2.0);
  require_within("start_relative_density", powder.start_relative_density, 0.3, 0.85);
  require_within("layer_mm", powder.layer_mm, 0.001, 100.0);
  require_within("slices", powder.slices, 1.0, most_slices);
}

PowderState start_powder(const PowderProperties& powder) {
  check_powder(powder);
  PowderState state;
  state.cell_ratio = cell_ratio(powder.start_relative_density);
  state.slices = SealingPlan(powder).count();
  return state;
}

double powder_porosity(const PowderProperties& powder, const PowderState& state) {
  const SealingPlan plan(powder);
  plan.check(state);
  double solid_void = plan.open_share(state.sealed_slices) * void_per_solid(1.0 - cell_density(state.cell_ratio));
  for (int i = 0; i < state.sealed_slices; ++i) {
    const auto k = static_cast<std::size_t>(i);
    const double at_sealing = void_per_solid(state.sealed_porosity[k]) / state.slices;
    solid_void += at_sealing * ((1.0 - powder.coarse_share) * cube(state.fine_um[k] / plan.fine_start_um()) +
                                powder.coarse_share * cube(state.coarse_um[k] / powder.coarse_start_radius_um));
  }
  return porosity_of_void(solid_void);
}

double powder_sealed_fraction(const PowderProperties& powder, const PowderState& state) {
  const SealingPlan plan(powder);
  plan.check(state);
  return plan.sealed_fraction_of(state);
}

double powder_coarse_radius_um(const PowderProperties& powder, const PowderState& state) {
  SealingPlan(powder).check(state);
  double weight = 0.0;
  double sum = 0.0;
  for (int i = 0; i < state.sealed_slices; ++i) {
    const auto k = static_cast<std::size_t>(i);
    const double solid_void = void_per_solid(state.sealed_porosity[k]) * cube(state.coarse_um[k]);
    weight += solid_void;
    sum += solid_void * state.coarse_um[k];
  }
  return weight > 0.0 ? sum / weight : powder.coarse_start_radius_um;
}

std::vector<double> canonical_values(const PowderState& state) {
  std::vector<double> values{layout,
                             state.cell_ratio,
                             state.fluidity_per_Pa,
                             state.heat_work,
                             state.rounding_um,
                             state.levelling_exponent,
                             state.highest_K,
                             static_cast<double>(state.slices),
                             static_cast<double>(state.sealed_slices)};
  values.reserve(scalars + values_a_slice * static_cast<std::size_t>(state.sealed_slices));
  for (std::size_t k = 0; k < static_cast<std::size_t>(state.sealed_slices); ++k) {
    values.insert(values.end(), {state.sealed_Pa[k], state.sealed_K[k], state.sealed_porosity[k], state.fine_um[k], state.coarse_um[k]});
  }
  return values;
}

PowderState powder_state_from(std::span<const double> values) {
  if (values.size() < scalars || values[0] != layout) {
    throw std::invalid_argument("the stored powder state has another layout; its list must begin with 1 and hold at least 9 values");
  }
  PowderState state;
  state.cell_ratio = values[1];
  state.fluidity_per_Pa = values[2];
  state.heat_work = values[3];
  state.rounding_um = values[4];
  state.levelling_exponent = values[5];
  state.highest_K = values[6];
  require_within("slices of the stored powder state", values[7], 1.0, most_slices);
  require_within("sealed slices of the stored powder state", values[8], 0.0, values[7]);
  state.slices = static_cast<int>(values[7]);
  state.sealed_slices = static_cast<int>(values[8]);
  const auto sealed = static_cast<std::size_t>(state.sealed_slices);
  if (values.size() != scalars + values_a_slice * sealed) {
    throw std::invalid_argument("the stored powder state has " + std::to_string(values.size()) +
                                " values; with its sealed slices it must have " + std::to_string(scalars + values_a_slice * sealed));
  }
  for (std::size_t k = 0; k < sealed; ++k) {
    const auto slice = values.subspan(scalars + values_a_slice * k, values_a_slice);
    state.sealed_Pa[k] = slice[0];
    state.sealed_K[k] = slice[1];
    state.sealed_porosity[k] = slice[2];
    state.fine_um[k] = slice[3];
    state.coarse_um[k] = slice[4];
  }
  return state;
}

PowderWork powder_work(const PowderProperties& powder, std::span<const double> times_s, std::span<const double> temperatures_K) {
  PowderWork work;
  work.fluidity_per_Pa = fluidity_per_Pa(powder.vft, powder.crystal_factor, times_s, temperatures_K);
  work.heat_work = heat_work(work.fluidity_per_Pa, powder.surface_tension_N_per_m, powder.particle_radius_um);
  work.rounding_um = rounding_um(powder.surface_tension_N_per_m, work.fluidity_per_Pa);
  work.levelling_exponent =
      work.fluidity_per_Pa * levelling_per_fluidity_Pa(grain_band_um, powder.layer_mm * 1e3, powder.surface_tension_N_per_m);
  return work;
}

}  // namespace heatwork::physics
