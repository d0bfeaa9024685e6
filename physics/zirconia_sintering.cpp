#include "physics/zirconia_sintering.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <string>

#include "physics/arrhenius.h"
#include "physics/layer.h"
#include "physics/range.h"

namespace heatwork::physics {

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double short_change = 0.05;    // of Q/RT: below it the Gauss rule errs less than the difference of two integrals
constexpr double halfway_density = 0.7;  // middle of the span of density that the curve was measured over
constexpr double decade = 10.0;          // slower or faster than measured: costs 2 to 5 % density

double energy_over_R_K(double energy_kJ_per_mol) {
  return energy_kJ_per_mol * 1e3 / gas_constant_J_per_mol_K;
}

// ln of E1(x), at any x without underflow.
double log_exponential_integral(double x) {
  return std::log(scaled_exponential_integral(x)) - x;
}

double log_sum(double first, double second) {
  const double most = std::max(first, second);
  return most == -infinite ? most : most + std::log1p(std::exp(std::min(first, second) - most));
}

// ln of the integral of exp(-Q / (R T)) / T dt over a segment with T linear in time: by E1, or a Gauss rule where that is as good.
double log_theta_gain(double energy_K, double duration_s, double first_K, double last_K) {
  if (!(duration_s > 0.0)) return -infinite;
  const double first_x = energy_K / first_K, last_x = energy_K / last_K;
  const double least_x = std::min(first_x, last_x), most_x = std::max(first_x, last_x);
  if (most_x - least_x <= short_change) {
    constexpr double offset = 0.38729833462074168852;
    const auto scaled = [&](double place) {
      const double at_K = first_K + place * (last_K - first_K);
      return std::exp(least_x - energy_K / at_K) / at_K;
    };
    return std::log(duration_s * (5.0 / 18.0 * (scaled(0.5 - offset) + scaled(0.5 + offset)) + 8.0 / 18.0 * scaled(0.5))) - least_x;
  }
  const double difference = scaled_exponential_integral(least_x) - scaled_exponential_integral(most_x) * std::exp(least_x - most_x);
  return std::log(duration_s / std::abs(last_K - first_K) * difference) - least_x;
}

// One firing: density and grains move segment by segment, both in closed form.
class Walk {
 public:
  Walk(const ZirconiaProperties& properties, const ZirconiaState& state)
      : properties_(properties),
        state_(state),
        energy_K_(energy_over_R_K(properties.curve.energy_kJ_per_mol)),
        halfway_log_theta_(properties.curve.green_density < halfway_density ? log_theta_of_density(properties.curve, halfway_density)
                                                                            : -infinite),
        grain_power_(std::pow(state.grain_um, properties.grain.exponent)) {}

  void segment(double duration_s, double first_K, double last_K) {
    const double after = log_sum(state_.log_theta, log_theta_gain(energy_K_, duration_s, first_K, last_K));
    if (!state_.halfway_passed) follow_rate(duration_s, first_K, last_K, after);
    state_.log_theta = after;
    state_.highest_K = std::max({state_.highest_K, first_K, last_K});
    const GrainGrowth& grain = properties_.grain;
    if (duration_s > 0.0) grain_power_ += grain.rate_per_s * arrhenius_integral_s(grain.energy_kJ_per_mol, duration_s, first_K, last_K);
    state_.grain_um = std::max(state_.grain_um, std::pow(grain_power_, 1.0 / grain.exponent));  // rounding must not shrink a grain
  }

  [[nodiscard]] const ZirconiaState& state() const { return state_; }

 private:
  // Steady rate that has done the work so far when it comes to this temperature.
  [[nodiscard]] double log_rate(double temperature_K, double log_theta) const {
    return log_exponential_integral(energy_K_ / temperature_K) - log_theta;
  }

  void follow_rate(double duration_s, double first_K, double last_K, double after) {
    if (after > halfway_log_theta_) {
      double low = 0.0, high = 1.0;
      for (int pass = 0; pass < 60; ++pass) {
        const double share = 0.5 * (low + high);
        const double gain = log_theta_gain(energy_K_, share * duration_s, first_K, first_K + share * (last_K - first_K));
        (log_sum(state_.log_theta, gain) < halfway_log_theta_ ? low : high) = share;
      }
      const double at_K = first_K + high * (last_K - first_K);
      // Heated before and cooled since: what counts is the way to the hottest moment.
      if (at_K >= state_.highest_K) state_.log_rate = log_rate(at_K, std::max(halfway_log_theta_, state_.log_theta));
      state_.halfway_passed = true;
    } else if (last_K >= std::max(state_.highest_K, first_K) && after > -infinite) {
      state_.log_rate = log_rate(last_K, after);
    }
  }

  const ZirconiaProperties& properties_;
  ZirconiaState state_;
  double energy_K_;
  double halfway_log_theta_;
  double grain_power_;
};

}  // namespace

std::vector<double> canonical_values(const ZirconiaState& state) {
  return {state.log_theta, state.grain_um, state.highest_K, state.log_rate, state.halfway_passed ? 1.0 : 0.0};
}

ZirconiaState zirconia_state_from(std::span<const double> values) {
  constexpr std::size_t count = 5;
  if (values.size() != count) {
    throw std::invalid_argument("the state of a layer of zirconia has " + std::to_string(values.size()) + " values; it must have 5");
  }
  return {values[0], values[1], values[2], values[3], values[4] != 0.0};
}

void check_zirconia(const ZirconiaProperties& properties) {
  const MasterCurve& curve = properties.curve;
  require_within("energy_kJ_per_mol of the master curve", curve.energy_kJ_per_mol, 10.0, 2000.0);
  require_within("green_density", curve.green_density, 0.3, 0.75);
  require_within("a of the master curve", curve.a, -200.0, 100.0);
  require_within("b of the master curve", curve.b, 0.01, 100.0);
  require_within("nu of the master curve", curve.nu, 0.01, 100.0);
  require_within("cap", curve.cap, 0.9, 1.0);
  const GrainGrowth& grain = properties.grain;
  require_within("exponent of grain growth", grain.exponent, 1.0, 10.0);
  require_within("energy_kJ_per_mol of grain growth", grain.energy_kJ_per_mol, 10.0, 2000.0);
  require_within("rate_per_s of grain growth", grain.rate_per_s, 0.0, 1e60);
  require_within("start_um", grain.start_um, 1e-3, 100.0);
}

ZirconiaState start_zirconia(const ZirconiaProperties& properties) {
  check_zirconia(properties);
  ZirconiaState state;
  state.log_theta = -infinite;
  state.log_rate = infinite;
  state.grain_um = properties.grain.start_um;
  return state;
}

void advance_zirconia(const ZirconiaProperties& properties, ZirconiaState& state, std::span<const double> times_s,
                      std::span<const double> temperatures_K, ZirconiaTrace* trace) {
  check_zirconia(properties);
  require_history(times_s, temperatures_K);
  const double hottest_K = *std::max_element(temperatures_K.begin(), temperatures_K.end());
  require_within("the highest temperature in degrees Celsius, for the sintering of zirconia,", hottest_K - zero_celsius_K, -zero_celsius_K,
                 hottest_sintering_C + 1e-9);
  Walk walk(properties, state);
  const auto record = [&](std::size_t point) {
    if (trace == nullptr) return;
    trace->density[point] = sintered_density(properties.curve, walk.state().log_theta);
    trace->grain_um[point] = walk.state().grain_um;
  };
  if (trace != nullptr) {
    for (auto* column : {&trace->density, &trace->grain_um}) column->assign(times_s.size(), 0.0);
  }
  record(0);
  for (std::size_t i = 1; i < times_s.size(); ++i) {
    walk.segment(times_s[i] - times_s[i - 1], temperatures_K[i - 1], temperatures_K[i]);
    record(i);
  }
  state = walk.state();
}

double ramp_log_theta(double energy_kJ_per_mol, double rate_K_per_s, double temperature_K) {
  require_positive("energy_kJ_per_mol", energy_kJ_per_mol);
  require_positive("rate_K_per_s", rate_K_per_s);
  require_positive("temperature_K", temperature_K);
  return log_exponential_integral(energy_over_R_K(energy_kJ_per_mol) / temperature_K) - std::log(rate_K_per_s);
}

double log_theta_of_history(double energy_kJ_per_mol, std::span<const double> times_s, std::span<const double> temperatures_K) {
  require_positive("energy_kJ_per_mol", energy_kJ_per_mol);
  require_history(times_s, temperatures_K);
  const double energy_K = energy_over_R_K(energy_kJ_per_mol);
  double log_theta = -infinite;
  for (std::size_t i = 1; i < times_s.size(); ++i)
    log_theta = log_sum(log_theta, log_theta_gain(energy_K, times_s[i] - times_s[i - 1], temperatures_K[i - 1], temperatures_K[i]));
  return log_theta;
}

double sintered_density(const MasterCurve& curve, double log_theta) {
  const double rise = std::pow(1.0 + std::exp(-(log_theta - curve.a) / curve.b), -curve.nu);
  return std::min(std::max(curve.cap, curve.green_density), curve.green_density + (1.0 - curve.green_density) * rise);
}

double log_theta_of_density(const MasterCurve& curve, double density) {
  require_within("density", density, curve.green_density * (1.0 + 1e-12), 1.0 - 1e-12);
  const double rise = (density - curve.green_density) / (1.0 - curve.green_density);
  return curve.a - curve.b * std::log(std::expm1(-std::log(rise) / curve.nu));
}

CurveStanding curve_standing(const ZirconiaState& state) {
  const double rate = densifying_rate_K_per_s(state);
  constexpr double rounding = 1e-9;
  const auto within = [&](double factor) {
    return rate >= slowest_measured_K_per_s / factor * (1.0 - rounding) && rate <= fastest_measured_K_per_s * factor * (1.0 + rounding);
  };
  return within(1.0) ? CurveStanding::measured : within(decade) ? CurveStanding::extrapolated : CurveStanding::outside;
}

double densifying_rate_K_per_s(const ZirconiaState& state) {
  return std::exp(state.log_rate);
}

double density_error(CurveStanding standing) {
  switch (standing) {
    case CurveStanding::measured:
      return 0.015;
    case CurveStanding::extrapolated:
      return 0.05;
    case CurveStanding::outside:
      break;
  }
  return infinite;
}

}  // namespace heatwork::physics
