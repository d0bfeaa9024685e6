// Structure of a glass on its way through the transition: Tool, Narayanaswamy and Moynihan's fictive temperature.
#pragma once

#include <span>
#include <vector>

namespace heatwork::physics {

/// One term of a relaxation spectrum: its share of the whole, and its time at the reference temperature [1, s].
struct RelaxationTerm {
  double weight = 1.0;
  double time_s = 1.0;
};

/// How fast a glass relaxes: clock, and spectrum of the structure [K, K, 1]. Weights are taken relative to their sum.
/// theory: (cooling-stress.1) (cooling-stress.2)
struct RelaxingGlass {
  double reference_K = 0.0;   ///< where the clock runs at rate 1 in equilibrium
  double activation_K = 0.0;  ///< activation energy over the gas constant
  double nonlinearity = 0.5;  ///< x: share of the clock that follows the temperature, the rest the fictive temperature
  std::vector<RelaxationTerm> structure;
};

/// Structure of a point: its partial fictive temperatures and their weighted mean [K].
struct StructureState {
  double temperature_K = 0.0;
  double fictive_K = 0.0;
  std::vector<double> partial_K;
  bool operator==(const StructureState&) const = default;
};

/// Refuses a spectrum without terms, with weights that do not sum to 1 within 1 %, or with times that are not above 0.
/// source: chosen-here. Throws std::domain_error naming the spectrum by `of`.
void check_spectrum(std::span<const RelaxationTerm> terms, const char* of);

/// Refuses a glass outside its ranges; the sentence names value and range. source: chosen-here. Throws std::domain_error.
void check_relaxing_glass(const RelaxingGlass& glass);

/// Logarithm of the rate of the clock [1]: (H/R)(1/T_ref - x/T - (1-x)/Tf).
/// Range: temperatures above 0 K. source: tool-1946, moynihan-1976 theory: (cooling-stress.1)
double log_shift(const RelaxingGlass& glass, double temperature_K, double fictive_K);

/// Mean of exp over a stretch on which the exponent runs straight from one value to the other [1].
/// source: chosen-here theory: (cooling-stress.3)
double mean_of_exponential(double first_exponent, double last_exponent);

/// A glass in equilibrium at a temperature. source: tool-1946. Throws std::domain_error.
StructureState equilibrium_structure(const RelaxingGlass& glass, double temperature_K);

/// Carries the structure over a time in which the temperature runs straight to a new one; gives the reduced time gone [s].
/// Exact in each term for temperature linear in reduced time; second order in the step. source: markovsky-soules-1984
/// theory: (cooling-stress.2) (cooling-stress.4)
double advance_structure(const RelaxingGlass& glass, StructureState& state, double temperature_K, double duration_s);

/// Fictive temperature at which a glass cooled at a constant rate from equilibrium stands still [K].
/// Throws std::domain_error where it would not freeze above 50 K. source: moynihan-1976 theory: (cooling-stress.4)
double frozen_fictive_K(const RelaxingGlass& glass, double start_K, double rate_K_per_s);

/// Reference temperature by which a glass cooled at the dilatometer's rate freezes at its measured transition [K].
/// All else of the glass is kept. Throws std::domain_error. source: chosen-here theory: (cooling-stress.5)
double reference_of_transition_K(const RelaxingGlass& glass, double transition_K, double rate_K_per_s);

}  // namespace heatwork::physics
