#include "physics/structural_relaxation.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

namespace heatwork::physics {

namespace {

constexpr double steepest_exponent = 600.0;  // exp stays a number; nothing physical comes near
constexpr double finest_K = 0.2;             // steps of a cooling at constant rate
constexpr double above_transition_K = 150.0;
constexpr double coldest_K = 50.0;

double weight_sum(std::span<const RelaxationTerm> terms) {
  double sum = 0.0;
  for (const RelaxationTerm& term : terms) sum += term.weight;
  return sum;
}

std::string number(double value) {
  return std::to_string(value);
}

}  // namespace

void check_spectrum(std::span<const RelaxationTerm> terms, const char* of) {
  if (terms.empty()) throw std::domain_error(std::string(of) + " has no terms, but must have one at least.");
  for (const RelaxationTerm& term : terms) {
    if (!(term.time_s > 0.0 && std::isfinite(term.time_s)))
      throw std::domain_error(std::string(of) + " has a time of " + number(term.time_s) + " s, but times must be above 0 s.");
    if (!(term.weight >= 0.0 && term.weight <= 1.0))
      throw std::domain_error(std::string(of) + " has a weight of " + number(term.weight) + ", but weights must be from 0 to 1.");
  }
  if (const double sum = weight_sum(terms); !(std::abs(sum - 1.0) <= 0.01))
    throw std::domain_error(std::string(of) + " has weights that sum to " + number(sum) + ", but they must sum to 1 within 0.01.");
}

void check_relaxing_glass(const RelaxingGlass& glass) {
  if (!(glass.reference_K >= 200.0 && glass.reference_K <= 3000.0))
    throw std::domain_error("The reference temperature is " + number(glass.reference_K) + " K, but must be from 200 to 3000 K.");
  if (!(glass.activation_K > 0.0 && glass.activation_K <= 1e6))
    throw std::domain_error("The activation is " + number(glass.activation_K) + " K, but must be above 0 and at most 1000000 K.");
  if (!(glass.nonlinearity >= 0.0 && glass.nonlinearity <= 1.0))
    throw std::domain_error("The nonlinearity is " + number(glass.nonlinearity) + ", but must be from 0 to 1.");
  check_spectrum(glass.structure, "The spectrum of the structure");
}

double log_shift(const RelaxingGlass& glass, double temperature_K, double fictive_K) {
  const double exponent =
      glass.activation_K * (1.0 / glass.reference_K - glass.nonlinearity / temperature_K - (1.0 - glass.nonlinearity) / fictive_K);
  return std::clamp(exponent, -steepest_exponent, steepest_exponent);
}

double mean_of_exponential(double first_exponent, double last_exponent) {
  const double half = 0.5 * (last_exponent - first_exponent);
  const double middle = std::exp(0.5 * (first_exponent + last_exponent));
  return std::abs(half) < 1e-3 ? middle * (1.0 + half * half / 6.0) : middle * std::sinh(half) / half;
}

StructureState equilibrium_structure(const RelaxingGlass& glass, double temperature_K) {
  check_relaxing_glass(glass);
  if (!(temperature_K > 0.0 && std::isfinite(temperature_K)))
    throw std::domain_error("The temperature is " + number(temperature_K) + " K, but must be above 0 K.");
  return {temperature_K, temperature_K, std::vector<double>(glass.structure.size(), temperature_K)};
}

double advance_structure(const RelaxingGlass& glass, StructureState& state, double temperature_K, double duration_s) {
  constexpr int most_sweeps = 60;
  constexpr double settled_K = 1e-10;
  const double rise = temperature_K - state.temperature_K, sum = weight_sum(glass.structure);
  const double first = log_shift(glass, state.temperature_K, state.fictive_K);
  double fictive = state.fictive_K, reduced = 0.0;
  for (int sweep = 0; sweep < most_sweeps; ++sweep) {
    reduced = duration_s * mean_of_exponential(first, log_shift(glass, temperature_K, fictive));
    double next = 0.0;
    for (std::size_t j = 0; j < glass.structure.size(); ++j) {
      const double y = reduced / glass.structure[j].time_s, kept = std::exp(-y), lag = y < 1e-8 ? 1.0 - 0.5 * y : -std::expm1(-y) / y;
      next += glass.structure[j].weight * (temperature_K - (state.temperature_K - state.partial_K[j]) * kept - rise * lag);
    }
    next /= sum;
    const double change = std::abs(next - fictive);
    fictive = next;
    if (change < settled_K) break;
  }
  for (std::size_t j = 0; j < glass.structure.size(); ++j) {
    const double y = reduced / glass.structure[j].time_s, kept = std::exp(-y), lag = y < 1e-8 ? 1.0 - 0.5 * y : -std::expm1(-y) / y;
    state.partial_K[j] = temperature_K - (state.temperature_K - state.partial_K[j]) * kept - rise * lag;
  }
  state.temperature_K = temperature_K;
  state.fictive_K = fictive;
  return reduced;
}

double frozen_fictive_K(const RelaxingGlass& glass, double start_K, double rate_K_per_s) {
  constexpr int look_every = 100;  // steps: a change over 20 K is looked at
  constexpr double standing_still_K = 1e-6;
  if (!(rate_K_per_s > 0.0 && std::isfinite(rate_K_per_s)))
    throw std::domain_error("The rate of cooling is " + number(rate_K_per_s) + " K/s, but must be above 0 K/s.");
  StructureState state = equilibrium_structure(glass, start_K);
  double last_looked = start_K;
  for (int i = 1; state.temperature_K > coldest_K; ++i) {
    advance_structure(glass, state, std::max(start_K - finest_K * i, coldest_K), finest_K / rate_K_per_s);
    if (i % look_every != 0) continue;
    if (std::abs(state.fictive_K - last_looked) < standing_still_K) return state.fictive_K;
    last_looked = state.fictive_K;
  }
  throw std::domain_error("The structure does not stand still above 50 K: the activation of " + number(glass.activation_K) +
                          " K is too low for this rate.");
}

double reference_of_transition_K(const RelaxingGlass& glass, double transition_K, double rate_K_per_s) {
  constexpr double widest_K = 400.0;
  if (!(transition_K >= 300.0 && transition_K <= 2000.0))
    throw std::domain_error("The measured transition is " + number(transition_K) + " K, but must be from 300 to 2000 K.");
  RelaxingGlass tried = glass;
  const auto excess = [&](double per_reference) {  // of the inverse temperatures: nearly a straight line
    tried.reference_K = 1.0 / per_reference;
    return 1.0 / frozen_fictive_K(tried, std::max(tried.reference_K, transition_K) + above_transition_K, rate_K_per_s) - 1.0 / transition_K;
  };
  constexpr double usually_above_K = 75.0, close_per_K = 1e-12;
  double last = 1.0 / transition_K, last_excess = excess(last);
  double found = 1.0 / (transition_K + usually_above_K);
  for (int i = 0; i < 40; ++i) {
    const double now = excess(found);
    if (std::abs(now) < close_per_K) return 1.0 / found;
    const double next = found - now * (found - last) / (now - last_excess);
    last = found;
    last_excess = now;
    found = std::clamp(next, 1.0 / (transition_K + widest_K), 1.0 / std::max(200.0, transition_K - widest_K));
    if (std::abs(found - last) < 1e-15) break;
  }
  if (std::abs(last_excess) < 1e-9) return 1.0 / last;
  throw std::domain_error("No reference temperature within 400 K of the measured transition of " + number(transition_K) +
                          " K freezes the glass there.");
}

}  // namespace heatwork::physics
