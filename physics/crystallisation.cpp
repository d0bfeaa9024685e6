#include "physics/crystallisation.h"

#include <algorithm>
#include <array>
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
constexpr double smallest_change = 0.05;  // of E/RT, of z of a feeding step, or of k_rev t, in one substep
constexpr double warming_K = 1.0;         // in one substep while crystals are being lost
constexpr double done_z = 6.0;  // beyond it a step of any exponent from 1 up is complete to 0.3 %, and its feed is followed coarsely

double cube(double x) {
  return x * x * x;
}

// One firing: the state moves segment by segment; whatever has a closed form is taken exactly.
class Walk {
 public:
  Walk(const CrystallisationProperties& properties, const CrystallisationState& state)
      : properties_(properties), state_(state), reversal_K_(properties.over_firing.reversal_C + zero_celsius_K) {
    cubed_um3_ = cube(state.crystal_um);
  }

  void segment(double duration_s, double first_K, double last_K) {
    state_.highest_K = std::max({state_.highest_K, first_K, last_K});
    if (!(duration_s > 0.0)) return;
    if ((first_K - reversal_K_) * (last_K - reversal_K_) < 0.0) {
      const double share = (reversal_K_ - first_K) / (last_K - first_K);
      part(share * duration_s, first_K, reversal_K_);
      part((1.0 - share) * duration_s, reversal_K_, last_K);
    } else {
      part(duration_s, first_K, last_K);
    }
  }

  [[nodiscard]] const CrystallisationState& state() const { return state_; }

 private:
  void part(double duration_s, double first_K, double last_K) {
    const OverFiring& over = properties_.over_firing;
    cubed_um3_ += over.coarsening_rate_um3_per_s * arrhenius_integral_s(over.coarsening_energy_kJ_per_mol, duration_s, first_K, last_K);
    cubed_um3_ = std::min(cubed_um3_, cube(over.largest_diameter_um));
    state_.crystal_um = std::max(state_.crystal_um, std::cbrt(cubed_um3_));  // rounding must not shrink a crystal
    const bool losing = std::max(first_K, last_K) > reversal_K_;
    const int pieces = std::max(pieces_for_feeding(duration_s, first_K, last_K), losing ? pieces_for_loss(duration_s, first_K, last_K) : 1);
    for (int i = 0; i < pieces; ++i) {
      const double from_K = first_K + (last_K - first_K) * i / pieces;
      const double to_K = i + 1 == pieces ? last_K : first_K + (last_K - first_K) * (i + 1) / pieces;
      const double before = gross_fraction();
      grow(duration_s / pieces, from_K, to_K);
      if (losing) lose(duration_s / pieces, before - stable_fraction(over, from_K), gross_fraction() - stable_fraction(over, to_K));
    }
  }

  // A step is fed by the one before; where that is not complete the product has no closed form.
  [[nodiscard]] int pieces_for_feeding(double duration_s, double first_K, double last_K) const {
    int pieces = 1;
    for (std::size_t i = 0; i + 1 < properties_.steps.size(); ++i) {
      const CrystallisationStep& feeding = properties_.steps[i];
      const CrystallisationStep& fed = properties_.steps[i + 1];
      if (feeding.complete_as_delivered || transformed_fraction(state_.z[i], feeding.exponent) >= 1.0) continue;
      const double energy = std::max(feeding.energy_kJ_per_mol, fed.energy_kJ_per_mol) * 1e3 / gas_constant_J_per_mol_K;
      const double by_energy = energy * std::abs(1.0 / first_K - 1.0 / last_K);
      const double room = std::max(0.0, done_z - state_.z[i]);
      const double gain = feeding.rate_per_s * arrhenius_integral_s(feeding.energy_kJ_per_mol, duration_s, first_K, last_K);
      // A share of the segment holds the feed's whole rise when the step is much quicker than the segment.
      const double by_feed = gain <= room ? gain : room + std::min(gain - room, 1e3);
      pieces = std::max(pieces, 1 + static_cast<int>((by_energy + by_feed) / smallest_change));
    }
    return pieces;
  }

  [[nodiscard]] int pieces_for_loss(double duration_s, double first_K, double last_K) const {
    const double by_time = duration_s * properties_.over_firing.reversal_rate_per_s / smallest_change;
    const double by_warming = std::abs(last_K - first_K) / warming_K;
    return 1 + static_cast<int>(std::min(std::max(by_time, by_warming), 1e6));
  }

  void grow(double duration_s, double first_K, double last_K) {
    // From the last step back, so that each is fed by the others as they were at the start.
    for (std::size_t i = properties_.steps.size(); i-- > 0;) {
      const CrystallisationStep& step = properties_.steps[i];
      if (step.complete_as_delivered) continue;
      const bool fed_fully = i == 0 || properties_.steps[i - 1].complete_as_delivered ||
                             transformed_fraction(state_.z[i - 1], properties_.steps[i - 1].exponent) >= 1.0;
      if (fed_fully) {
        state_.z[i] += step.rate_per_s * arrhenius_integral_s(step.energy_kJ_per_mol, duration_s, first_K, last_K);
      } else {
        state_.z[i] += fed_gain(i, duration_s, first_K, last_K);
      }
    }
  }

  // Integral of k_i X_(i-1) dt by the 3-point Gauss rule, the feed at each point by its own exact integral.
  [[nodiscard]] double fed_gain(std::size_t i, double duration_s, double first_K, double last_K) const {
    constexpr std::array<double, 3> place{0.5 - 0.38729833462074168852, 0.5, 0.5 + 0.38729833462074168852};
    constexpr std::array<double, 3> weight{5.0 / 18.0, 8.0 / 18.0, 5.0 / 18.0};
    const CrystallisationStep& step = properties_.steps[i];
    const CrystallisationStep& feeding = properties_.steps[i - 1];
    double gain = 0.0;
    for (std::size_t k = 0; k < place.size(); ++k) {
      const double at_K = first_K + place[k] * (last_K - first_K);
      const double feed_z =
          state_.z[i - 1] + feeding.rate_per_s * arrhenius_integral_s(feeding.energy_kJ_per_mol, place[k] * duration_s, first_K, at_K);
      gain += weight[k] * arrhenius_rate_per_s(step, at_K) * transformed_fraction(feed_z, feeding.exponent);
    }
    return gain * duration_s;
  }

  // Y relaxes towards the excess D = X - f, linear over the substep; exact for that.
  void lose(double duration_s, double first_excess, double last_excess) {
    const double k = properties_.over_firing.reversal_rate_per_s;
    if (std::max(first_excess, last_excess) <= state_.loss || k <= 0.0) return;
    const double left = std::exp(-k * duration_s);
    const double slope = (last_excess - first_excess) / duration_s;
    const double after = state_.loss * left + first_excess * (1.0 - left) + slope * (duration_s - (1.0 - left) / k);
    state_.loss = std::max(state_.loss, after);
  }

  [[nodiscard]] double gross_fraction() const { return transformed_fraction(state_.z.back(), properties_.steps.back().exponent); }

  const CrystallisationProperties& properties_;
  CrystallisationState state_;
  double reversal_K_;
  double cubed_um3_ = 0.0;
};

}  // namespace

void check_crystallisation(const CrystallisationProperties& properties) {
  if (properties.steps.empty()) throw std::invalid_argument("steps is empty; a crystallising material must have at least one step");
  for (const CrystallisationStep& step : properties.steps) {
    require_within("exponent of a crystallisation step", step.exponent, 0.5, 5.0);
    if (step.complete_as_delivered) continue;
    require_within("energy_kJ_per_mol of a crystallisation step", step.energy_kJ_per_mol, 10.0, 2000.0);
    require_positive("rate_per_s of a crystallisation step", step.rate_per_s);
  }
  const OverFiring& over = properties.over_firing;
  require_within("reversal_C", over.reversal_C, 0.0, 2000.0);
  require_within("liquidus_C", over.liquidus_C, over.reversal_C + 1.0, 3000.0);
  require_within("reversal_rate_per_s", over.reversal_rate_per_s, 0.0, 10.0);
  require_within("start_diameter_um", over.start_diameter_um, 1e-3, 100.0);
  require_within("largest_diameter_um", over.largest_diameter_um, over.start_diameter_um, 100.0);
  require_within("coarsening_energy_kJ_per_mol", over.coarsening_energy_kJ_per_mol, 10.0, 2000.0);
  require_within("coarsening_rate_um3_per_s", over.coarsening_rate_um3_per_s, 0.0, 1e60);
}

CrystallisationState start_crystallisation(const CrystallisationProperties& properties) {
  check_crystallisation(properties);
  CrystallisationState state;
  for (const CrystallisationStep& step : properties.steps) state.z.push_back(step.complete_as_delivered ? infinite : 0.0);
  state.crystal_um = properties.over_firing.start_diameter_um;
  return state;
}

void advance_crystallisation(const CrystallisationProperties& properties, CrystallisationState& state, std::span<const double> times_s,
                             std::span<const double> temperatures_K, CrystallisationTrace* trace) {
  check_crystallisation(properties);
  require_history(times_s, temperatures_K);
  if (state.z.size() != properties.steps.size()) {
    throw std::invalid_argument("the crystallisation state has " + std::to_string(state.z.size()) + " steps; these properties have " +
                                std::to_string(properties.steps.size()));
  }
  Walk walk(properties, state);
  const auto record = [&](std::size_t point) {
    if (trace == nullptr) return;
    trace->fraction[point] = net_fraction(properties, walk.state());
    trace->z[point] = walk.state().z.back();
    trace->crystal_um[point] = walk.state().crystal_um;
  };
  if (trace != nullptr) {
    for (auto* column : {&trace->fraction, &trace->z, &trace->crystal_um}) column->assign(times_s.size(), 0.0);
  }
  record(0);
  for (std::size_t i = 1; i < times_s.size(); ++i) {
    walk.segment(times_s[i] - times_s[i - 1], temperatures_K[i - 1], temperatures_K[i]);
    record(i);
  }
  state = walk.state();
}

double net_fraction(const CrystallisationProperties& properties, const CrystallisationState& state) {
  return transformed_fraction(state.z.back(), properties.steps.back().exponent) - state.loss;
}

double stable_fraction(const OverFiring& over_firing, double temperature_K) {
  const double temperature_C = temperature_K - zero_celsius_K;
  return std::clamp((over_firing.liquidus_C - temperature_C) / (over_firing.liquidus_C - over_firing.reversal_C), 0.0, 1.0);
}

double transmittance_550nm_percent(double crystal_um) {
  constexpr double finest_um = 0.24;
  constexpr double coarsest_um = 1.08;
  require_within("crystal_um", crystal_um, finest_um * (1.0 - 1e-9), coarsest_um * (1.0 + 1e-9));
  return 34.0 - 7.0 * std::log(crystal_um / finest_um) / std::log(coarsest_um / finest_um);
}

double minutes_between(std::span<const double> times_s, std::span<const double> temperatures_K, double low_K, double high_K) {
  require_history(times_s, temperatures_K);
  if (!(low_K < high_K)) throw std::domain_error("low_K must be below high_K");
  double seconds = 0.0;
  for (std::size_t i = 1; i < times_s.size(); ++i) {
    const double duration_s = times_s[i] - times_s[i - 1];
    const double cold_K = std::min(temperatures_K[i - 1], temperatures_K[i]);
    const double hot_K = std::max(temperatures_K[i - 1], temperatures_K[i]);
    if (hot_K <= low_K || cold_K >= high_K) {
      if (!(cold_K == hot_K && (cold_K == low_K || cold_K == high_K))) continue;
    }
    const double share = hot_K > cold_K ? (std::min(hot_K, high_K) - std::max(cold_K, low_K)) / (hot_K - cold_K) : 1.0;
    seconds += share * duration_s;
  }
  return seconds / 60.0;
}

}  // namespace heatwork::physics
