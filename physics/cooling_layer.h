// The points through one layer that cools: its structure, its relaxing stresses, and what they ask of the next step.
#pragma once

#include <span>
#include <vector>

#include "physics/cooling_stress.h"

namespace heatwork::physics {

/// Where a glass is on its way: all it holds is lost within a step, or it freezes, or it hardly relaxes any more.
enum class GlassCourse { liquid, freezing, cold };

/// Points of one layer as arrays over points; spectra as term after term. Direction 1 and 2 lie as the form says, 3 is the rest.
/// theory: (cooling-stress.9) (cooling-stress.10)
class CoolingLayer {
 public:
  /// Of one temperature, without stress. Throws std::domain_error.
  CoolingLayer(const StressLayer& layer, std::size_t points, double start_K);

  /// Structure and operators of a step from the temperatures of last time to these. [K, s]
  void prepare(const double* temperature_K, double duration_s);
  /// Stresses of the step whose strains these are, one array a direction; the structure becomes that of its end. [1]
  void finish(const double* strain_1, const double* strain_2, const double* strain_3);

  /// How the last step prepared saw the glass, for a step as long as given in nominal ones: still liquid, freezing, or cold. [1]
  [[nodiscard]] GlassCourse course(double nominal_steps) const;
  /// Number of points.
  [[nodiscard]] std::size_t points() const { return n_; }
  /// Whether it relaxes.
  [[nodiscard]] bool is_glass() const { return layer_.glass.has_value(); }
  /// As given.
  [[nodiscard]] const StressLayer& layer() const { return layer_; }
  /// Largest change of a fictive temperature in the last step. [K]
  [[nodiscard]] double structure_change_K() const { return structure_change_K_; }
  /// True while nothing is relaxed: all that is left out so adds up to less than a part in 10^6 of the fastest term.
  [[nodiscard]] bool frozen() const { return frozen_; }

  std::vector<double> T, Tf, partial, shear_1, shear_2, bulk, bulk_rest;                // state [K, Pa]
  std::vector<double> shear_modulus, bulk_modulus, held_1, held_2, held_mean, thermal;  // of the step [Pa, 1]
  std::vector<double> stress_1, stress_2, stress_3;                                     // after it [Pa]
  /// State as one list, and back. [as above]
  void save(std::vector<double>& into) const;
  /// Takes its part off the front. Throws std::domain_error.
  void load(std::span<const double>& from);
  /// A glass becomes a liquid in equilibrium at these temperatures, its stress lost; an elastic layer stays as it is. [K]
  void melt(const double* temperature_K);
  /// Forgets how the step before strained: what follows has another rate.
  void turn() { before_s_ = 0.0; }
  /// Forgets that, and what was left out: a course depends on its state alone.
  void begin_course() {
    before_s_ = left_out_ = 0.0;
    frozen_ = false;
  }
  /// Sums the stresses of the state.
  void sum_stresses();

 private:
  void relax_structure(const double* temperature_K, double duration_s);
  void sweep_structure(const double* temperature_K, double duration_s);
  void freeze();
  [[nodiscard]] bool may_freeze(const double* temperature_K, double duration_s);
  struct Terms {
    std::vector<double> kept, lag, skew;  // term after term [1]
  };
  void operators(std::span<const RelaxationTerm> terms, Terms& of);

  StressLayer layer_;
  std::size_t n_;
  double G_, K_, K_rest_, shear_sum_ = 1.0, bulk_sum_ = 1.0, structure_sum_ = 1.0, shortest_s_ = 1.0, longest_s_ = 0.0;
  double structure_change_K_ = 0.0, left_out_ = 0.0;
  bool frozen_ = false;
  std::vector<RelaxationTerm> rigid_{{1.0, 1.0}};
  std::vector<double> reduced_, late_, first_exponent_, first_rate_, next_T_, guess_, next_Tf_, before_guess_, before_Tf_;
  Terms structure_of_, shear_of_, bulk_of_;
  std::vector<double> y_, first_, second_, mean_, before_1_, before_2_, before_mean_;  // strains of this step and the one before [1]
  double before_s_ = 0.0, ratio_ = 0.0, quicken_ = 0.0;  // its length; this one over it; share of the change of strain rate
};

}  // namespace heatwork::physics
