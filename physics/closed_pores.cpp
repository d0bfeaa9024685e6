#include "physics/closed_pores.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "physics/pores.h"

namespace heatwork::physics {

namespace {

constexpr double pore_floor = 0.02;                    // of the radius at sealing: smaller is no pore any more
constexpr double rosenbrock = 0.29289321881345247560;  // 1 - 1/sqrt(2): L-stable
constexpr double smallest_void = 1e-6;                 // void per solid below which accuracy is no longer relative

// By value and without a branch, so that loops over lanes become vector code.
double larger(double a, double b) {
  return a > b ? a : b;
}

template <std::size_t N>
double sum_in_order(const std::array<double, N>& parts) {
  double sum = 0.0;
  for (const double part : parts) sum += part;
  return sum;
}

}  // namespace

ClosedPores::ClosedPores(const PowderProperties& powder, const PowderAccuracy& accuracy)
    : two_gamma_(2e6 * powder.surface_tension_N_per_m),
      fine_share_(1.0 - powder.coarse_share),
      coarse_share_(powder.coarse_share),
      fine_start_um_(powder.fine_radius_ratio * powder.particle_radius_um),
      coarse_start_um_(powder.coarse_start_radius_um),
      accuracy_(accuracy) {
  radius_.fill(1.0);  // idle lanes stay harmless: radius 1, no gas, no weight, not used
  floor_.fill(pore_floor);
}

void ClosedPores::add(std::size_t place, double start_um, double radius_um, double sealed_Pa, double sealed_K, double void_at_sealing) {
  const double start_volume = start_um * start_um * start_um;
  radius_[place] = radius_um;
  gas_[place] = sealed_Pa * start_volume / sealed_K;
  weight_[place] = void_at_sealing / start_volume;
  floor_[place] = pore_floor * start_um;
  used_[place] = 1.0;
  sealed_Pa_[place] = sealed_Pa;
  sealed_K_[place] = sealed_K;
}

void ClosedPores::load(const PowderState& state) {
  for (int i = 0; i < state.sealed_slices; ++i) {
    const auto k = static_cast<std::size_t>(i);
    const double solid_void = void_per_solid(state.sealed_porosity[k]) / state.slices;
    add(count_, fine_start_um_, state.fine_um[k], state.sealed_Pa[k], state.sealed_K[k], fine_share_ * solid_void);
    add(count_ + 1, coarse_start_um_, state.coarse_um[k], state.sealed_Pa[k], state.sealed_K[k], coarse_share_ * solid_void);
    porosity_[count_] = state.sealed_porosity[k];
    count_ += 2;
  }
  void_ = sum_of_void();
}

void ClosedPores::store(PowderState& state) const {
  state.sealed_slices = sealed_slices();
  for (std::size_t k = 0; k < count_ / 2; ++k) {
    state.fine_um[k] = radius_[2 * k];
    state.coarse_um[k] = radius_[2 * k + 1];
    state.sealed_Pa[k] = sealed_Pa_[2 * k];
    state.sealed_K[k] = sealed_K_[2 * k];
    state.sealed_porosity[k] = porosity_[2 * k];
  }
}

void ClosedPores::seal(double porosity, double share, double pressure_Pa, double temperature_K) {
  const double solid_void = share * void_per_solid(porosity);
  add(count_, fine_start_um_, fine_start_um_, pressure_Pa, temperature_K, fine_share_ * solid_void);
  add(count_ + 1, coarse_start_um_, coarse_start_um_, pressure_Pa, temperature_K, coarse_share_ * solid_void);
  porosity_[count_] = porosity;
  count_ += 2;
  void_ = sum_of_void();
}

double ClosedPores::sum_of_void() const {
  double sum = 0.0;
  for (std::size_t i = 0; i < count_; ++i) sum += weight_[i] * radius_[i] * radius_[i] * radius_[i];
  return sum;
}

ClosedPores::Drive ClosedPores::drive(const Stretch& stretch, double u) const {
  const double slope = stretch.time_slope(u) / stretch.fluidity_per_Pa;
  return {stretch.pressure_Pa(u), stretch.temperature_K(u), (stretch.last_Pa - stretch.first_Pa) * slope,
          (stretch.last_K - stretch.first_K) * slope};
}

// Rates da/dS of all pores, the slope of their void, and the largest relative rate.
ClosedPores::Look ClosedPores::look(const Drive& now, double mobility) {
  std::array<double, lanes> slope{};
  std::array<double, lanes> largest{};
  const Drive at = now;  // copies, so that the compiler sees that no lane can change them
  const double two_gamma = two_gamma_;
  for (std::size_t block = 0; block < count_; block += lanes) {
    for (std::size_t j = 0; j < lanes; ++j) {
      const std::size_t i = block + j;
      const double a = radius_[i];
      const double inverse = 1.0 / a;
      const double wish = -mobility * (two_gamma + at.pressure_Pa * a - gas_[i] * at.kelvin * inverse * inverse);
      const double held = larger(wish, 0.0);  // at its floor a pore may only grow
      const double rate = (a > floor_[i] ? wish : held) * used_[i];
      const double free = rate == 0.0 ? 0.0 : 1.0;
      free_[i] = free;
      rate_[i] = rate;
      slope[j] += 3.0 * weight_[i] * a * a * rate;
      largest[j] = larger(largest[j], std::abs(rate) * inverse);
    }
  }
  return {sum_in_order(slope), *std::max_element(largest.begin(), largest.end())};
}

ClosedPores::Try ClosedPores::attempt(const Drive& now, const Drive& then, double step, double mobility, double mobility_ratio) {
  std::array<double, lanes> error{};
  std::array<double, lanes> after{};
  const double inner = rosenbrock * step;
  const Drive at = now;
  const Drive end_at = then;
  const double two_gamma = two_gamma_;
  for (std::size_t block = 0; block < count_; block += lanes) {
    for (std::size_t j = 0; j < lanes; ++j) {
      const std::size_t i = block + j;
      const double a = radius_[i];
      const double inverse = 1.0 / a;
      const double thin = gas_[i] * inverse * inverse;
      const double jacobian = -mobility * (at.pressure_Pa + 2.0 * thin * at.kelvin * inverse);
      const double in_time = -mobility * (at.pressure_slope * a - thin * at.kelvin_slope) * inner;
      const double solve = free_[i] / (1.0 - inner * jacobian);
      const double k1 = (rate_[i] * mobility_ratio + in_time) * solve;
      const double a1 = larger(a + step * k1, floor_[i]);
      const double inverse1 = 1.0 / a1;
      const double rate1 = -mobility * (two_gamma + end_at.pressure_Pa * a1 - gas_[i] * end_at.kelvin * inverse1 * inverse1);
      const double k2 = (rate1 - 2.0 * k1 - in_time) * solve;
      const double end = larger(a + step * (1.5 * k1 + 0.5 * k2), floor_[i]);
      tried_[i] = end;
      error[j] += 1.5 * weight_[i] * a * a * step * std::abs(k1 + k2);
      after[j] += weight_[i] * end * end * end;
    }
  }
  return {sum_in_order(error), sum_in_order(after)};
}

void ClosedPores::advance(const Stretch& stretch, double from_u, double to_u, const OpenVoid& open) {
  if (count_ == 0 || !(to_u > from_u) || !(stretch.fluidity_per_Pa > 0.0)) return;
  double u = from_u;
  while (u < to_u) {
    const Drive now = drive(stretch, u);
    const double mobility_now = 0.25 * (1.0 + void_ + open.at(u));
    const Look seen = look(now, mobility_now);
    const double whole = (to_u - u) * stretch.fluidity_per_Pa;
    double step = next_step_ > 0.0 ? std::min(whole, next_step_) : whole;
    if (seen.largest_rate > 0.0) step = std::min(step, accuracy_.largest_change / seen.largest_rate);
    for (;;) {
      ++steps_;
      const double end_u = step < whole ? u + step / stretch.fluidity_per_Pa : to_u;
      // The factor 1 / (1 - phi) = 1 + v changes slowly: its middle value keeps second order.
      const double middle_void = std::max(0.0, void_ + 0.5 * step * seen.void_slope) + open.at(0.5 * (u + end_u));
      const double mobility = 0.25 * (1.0 + middle_void);
      const Try tried = attempt(now, drive(stretch, end_u), step, mobility, mobility / mobility_now);
      if (!std::isfinite(tried.error)) {
        throw std::domain_error("the closed pores have no finite size; properties and history must be within their ranges");
      }
      const double allowed = accuracy_.void_tolerance * std::max(tried.void_after + open.at(end_u), smallest_void);
      const double growth = 0.9 * std::sqrt(allowed / std::max(tried.error, 1e-6 * allowed));
      if (tried.error <= allowed) {
        if (step < whole || growth < 1.0) {
          next_step_ = step * std::min(growth, 3.0);
        } else {
          next_step_ = std::max(next_step_, step * std::min(growth, 3.0));
        }
        std::copy_n(tried_.begin(), (count_ + lanes - 1) / lanes * lanes, radius_.begin());
        void_ = tried.void_after;
        u = end_u;
        break;
      }
      step *= std::max(0.2, growth);
    }
  }
}

}  // namespace heatwork::physics
