#include "physics/heat_work.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

#include "physics/layer.h"
#include "physics/range.h"

namespace heatwork::physics {

namespace {

constexpr double piece_decades = 0.2;                    // of viscosity in one piece of the quadrature: relative error 1e-8
constexpr double coldest_of_interest = 11.5;             // [log10 Pa s] colder pieces add nothing that is felt, so they are not cut finer
constexpr double gauss_offset = 0.38729833462074168852;  // half the distance of the outer points of the 3-point Gauss rule
constexpr double gauss_outer = 5.0 / 18.0;
constexpr double gauss_middle = 8.0 / 18.0;

double melt_fluidity(const Vft& vft, double temperature_C) {
  return std::exp(-std::numbers::ln10 * (vft.A + vft.B_K / (temperature_C - vft.T0_C)));
}

double fluidity(const Vft& vft, double stiff_C, double temperature_C) {
  constexpr double stiffest = 1e-14;
  return temperature_C > stiff_C ? melt_fluidity(vft, temperature_C) : stiffest;
}

}  // namespace

double fluidity_of_segment_per_Pa(const Vft& vft, double crystal_factor, double duration_s, double first_K, double last_K) {
  const double stiff_C = vft.T0_C + vft.B_K / (stiffest_log10_viscosity - vft.A);
  const double first_C = first_K - zero_celsius_K;
  const double last_C = last_K - zero_celsius_K;
  const double cold_C = std::min(first_C, last_C);
  const double hot_C = std::max(first_C, last_C);
  if (hot_C <= stiff_C) return duration_s * 1e-14 / crystal_factor;
  if (cold_C == hot_C) return duration_s * melt_fluidity(vft, hot_C) / crystal_factor;
  const double hot_log = vft.A + vft.B_K / (hot_C - vft.T0_C);
  const double cold_log = cold_C <= stiff_C ? coldest_of_interest : std::min(coldest_of_interest, vft.A + vft.B_K / (cold_C - vft.T0_C));
  const int pieces = 1 + static_cast<int>(std::max(0.0, cold_log - hot_log) / piece_decades);
  const double width_C = (last_C - first_C) / pieces;
  double sum = 0.0;
  for (int i = 0; i < pieces; ++i) {
    const double middle_C = first_C + (i + 0.5) * width_C;
    sum += gauss_outer *
               (fluidity(vft, stiff_C, middle_C - gauss_offset * width_C) + fluidity(vft, stiff_C, middle_C + gauss_offset * width_C)) +
           gauss_middle * fluidity(vft, stiff_C, middle_C);
  }
  return sum * duration_s / (pieces * crystal_factor);
}

void fluidity_sums_per_Pa(const Vft& vft, double crystal_factor, std::span<const double> times_s, std::span<const double> temperatures_K,
                          std::span<double> sums) {
  check_vft(vft);
  require_within("crystal_factor", crystal_factor, 1.0, 1e4);
  require_history(times_s, temperatures_K);
  if (sums.size() != times_s.size()) {
    throw std::invalid_argument("sums has " + std::to_string(sums.size()) + " places; it must have as many as the history has points");
  }
  double sum = 0.0;
  sums[0] = 0.0;
  for (std::size_t i = 1; i < times_s.size(); ++i) {
    sum += fluidity_of_segment_per_Pa(vft, crystal_factor, times_s[i] - times_s[i - 1], temperatures_K[i - 1], temperatures_K[i]);
    sums[i] = sum;
  }
}

double fluidity_per_Pa(const Vft& vft, double crystal_factor, std::span<const double> times_s, std::span<const double> temperatures_K) {
  check_vft(vft);
  require_within("crystal_factor", crystal_factor, 1.0, 1e4);
  require_history(times_s, temperatures_K);
  double sum = 0.0;
  for (std::size_t i = 1; i < times_s.size(); ++i) {
    sum += fluidity_of_segment_per_Pa(vft, crystal_factor, times_s[i] - times_s[i - 1], temperatures_K[i - 1], temperatures_K[i]);
  }
  return sum;
}

double heat_work(double fluidity_per_Pa, double surface_tension_N_per_m, double particle_radius_um) {
  require_positive("surface_tension_N_per_m", surface_tension_N_per_m);
  require_positive("particle_radius_um", particle_radius_um);
  return fluidity_per_Pa * surface_tension_N_per_m / (particle_radius_um * 1e-6);
}

double equal_heat_work_C(const Vft& vft, double temperature_C, double time_s, double other_time_s) {
  check_vft(vft);
  require_positive("time_s", time_s);
  require_positive("other_time_s", other_time_s);
  const double wanted = log10_viscosity(vft, temperature_C) + std::log10(other_time_s / time_s);
  return temperature_of_log10_viscosity_C(vft, wanted);
}

double doubling_K(const Vft& vft, double temperature_C) {
  check_vft(vft);
  const double above_K = temperature_C - vft.T0_C;
  require_positive("temperature_C less T0_C", above_K);
  return std::log10(2.0) * above_K * above_K / vft.B_K;
}

double ramp_as_hold_s(const Vft& vft, double top_C, double rate_K_per_s) {
  require_positive("rate_K_per_s", rate_K_per_s);
  return doubling_K(vft, top_C) / (std::numbers::ln2 * rate_K_per_s);
}

}  // namespace heatwork::physics
