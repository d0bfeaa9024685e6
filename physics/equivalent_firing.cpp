#include "physics/equivalent_firing.h"

#include <algorithm>
#include <cmath>
#include <sstream>
#include <stdexcept>
#include <string>

#include "physics/heat_work.h"
#include "physics/range.h"
#include "physics/rising_root.h"

namespace heatwork::physics {

namespace {

constexpr double shift_resolution_K = 1e-6;
constexpr double hold_resolution_s = 1e-5;
constexpr double usual_slope_per_K = 0.028;  // of ln Q: twice the work in about 25 K

/// Nothing where the root lies beyond the bounds.
std::optional<double> number(const RisingRoot& root) {
  return root.within() ? std::optional(root.x) : std::nullopt;
}

double finite_quantity(const DecidingModel& model, const PieceHistory& history) {
  const double quantity = deciding_quantity(model, history);
  if (!std::isfinite(quantity)) throw std::domain_error("the deciding quantity of a history is no finite number; it must be one");
  return quantity;
}

/// ln of the ratio of two quantities' works; of two that are both zero it is zero. ln Theta is such a logarithm itself.
double log_ratio(const DecidingModel& model, double quantity, double wanted) {
  if (std::holds_alternative<MasterCurve>(model)) return quantity - wanted;
  return quantity == wanted ? 0.0 : std::log(quantity / wanted);
}

void require_hold(const PieceHistory& history, double from_s, double to_s) {
  const double first_s = history.times_s.front();
  const double last_s = history.times_s.back();
  if (from_s >= first_s && from_s <= to_s && to_s <= last_s) return;
  std::ostringstream text;
  text.precision(10);
  text << "the hold goes from " << from_s << " to " << to_s << " s; it must lie within the reference history, " << first_s << " to "
       << last_s << " s, and must not end before it begins";
  throw std::domain_error(text.str());
}

/// Temperature at a time within the history; at a jump the one before it.
double temperature_at_K(const PieceHistory& history, double time_s) {
  const auto at_or_after = std::lower_bound(history.times_s.begin(), history.times_s.end(), time_s);
  const auto i = static_cast<std::size_t>(at_or_after - history.times_s.begin());
  const std::vector<double>& kelvin = history.temperatures_K;
  if (i == 0 || history.times_s[i] == time_s) return kelvin[i];
  const double share = (time_s - history.times_s[i - 1]) / (history.times_s[i] - history.times_s[i - 1]);
  return kelvin[i - 1] + share * (kelvin[i] - kelvin[i - 1]);
}

}  // namespace

double deciding_quantity(const DecidingModel& model, const PieceHistory& history) {
  if (const auto* clock = std::get_if<PowderClock>(&model)) {
    const double flowed = fluidity_per_Pa(clock->vft, clock->crystal_factor, history.times_s, history.temperatures_K);
    return heat_work(flowed, clock->surface_tension_N_per_m, clock->particle_radius_um);
  }
  if (const auto* curve = std::get_if<MasterCurve>(&model))
    return log_theta_of_history(curve->energy_kJ_per_mol, history.times_s, history.temperatures_K);
  const auto& properties = std::get<CrystallisationProperties>(model);
  CrystallisationState state = start_crystallisation(properties);
  advance_crystallisation(properties, state, history.times_s, history.temperatures_K);
  return state.z.back();
}

PieceHistory shifted(PieceHistory history, double shift_K) {
  for (double& temperature_K : history.temperatures_K) temperature_K += shift_K;
  require_history(history.times_s, history.temperatures_K);
  return history;
}

PieceHistory with_hold_changed(const PieceHistory& history, double from_s, double to_s, double change_s) {
  require_history(history.times_s, history.temperatures_K);
  require_hold(history, from_s, to_s);
  require_within("change_s", change_s, from_s - to_s, longest_equivalent_hold_s);
  const double kept_until_s = change_s < 0.0 ? std::max(from_s, to_s + change_s) : to_s;
  const double end_K = temperature_at_K(history, to_s);
  PieceHistory changed;
  const auto add = [&](double time_s, double temperature_K) {
    changed.times_s.push_back(time_s);
    changed.temperatures_K.push_back(temperature_K);
  };
  for (std::size_t i = 0; i < history.times_s.size() && history.times_s[i] < kept_until_s; ++i) {
    add(history.times_s[i], history.temperatures_K[i]);
  }
  add(kept_until_s, temperature_at_K(history, kept_until_s));
  add(to_s + change_s, end_K);
  for (std::size_t i = 0; i < history.times_s.size(); ++i) {
    if (history.times_s[i] > to_s) add(history.times_s[i] + change_s, history.temperatures_K[i]);
  }
  return changed;
}

EquivalentFiring equivalent_firing(const DecidingModel& model, const PieceHistory& history, const PieceHistory& reference,
                                   double reference_hold_from_s, double reference_hold_to_s) {
  require_history(reference.times_s, reference.temperatures_K);
  require_hold(reference, reference_hold_from_s, reference_hold_to_s);
  const double coldest_K = *std::min_element(reference.temperatures_K.begin(), reference.temperatures_K.end());
  if (coldest_K <= widest_equivalent_shift_K) {
    throw std::domain_error("the reference history is shifted by up to 150 K either way; it must stay above -123.15 degrees Celsius");
  }
  EquivalentFiring answer;
  answer.quantity = finite_quantity(model, history);
  const auto of_shift = [&](double shift_K) {
    return log_ratio(model, finite_quantity(model, shifted(reference, shift_K)), answer.quantity);
  };
  answer.shift_K =
      number(rising_root(of_shift, {-widest_equivalent_shift_K, widest_equivalent_shift_K, 0.0, usual_slope_per_K, shift_resolution_K}));
  const auto of_hold = [&](double change_s) {
    return log_ratio(model, finite_quantity(model, with_hold_changed(reference, reference_hold_from_s, reference_hold_to_s, change_s)),
                     answer.quantity);
  };
  const double hold_s = reference_hold_to_s - reference_hold_from_s;
  answer.hold_s =
      number(rising_root(of_hold, {-hold_s, longest_equivalent_hold_s, 0.0, 1.0 / std::max(60.0, 2.0 * hold_s), hold_resolution_s}));
  return answer;
}

}  // namespace heatwork::physics
