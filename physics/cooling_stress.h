// Stress of a layered piece as it cools through the transitions of its glasses: while it cools, and what stays.
#pragma once

#include <array>
#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "physics/layer.h"
#include "physics/structural_relaxation.h"

namespace heatwork::physics {

/// How a glass relaxes and expands when liquid [1/K, 1]. Weights are taken relative to their sum. theory: (cooling-stress.9)
struct StressGlass {
  RelaxingGlass relaxing;
  double liquid_expansion_per_K = 0.0;
  std::vector<RelaxationTerm> shear;
  double bulk_remaining = 1.0;  ///< share of the bulk modulus that never relaxes; 1 is elastic
  std::vector<RelaxationTerm> bulk;
};

/// One layer; elastic without a glass [Pa, 1, 1/K].
struct StressLayer {
  Layer heat;
  double youngs_Pa = 0.0;
  double poisson = 0.0;
  TemperatureProperty expansion_per_K;
  std::optional<StressGlass> glass;
};

/// plate_free may bend; plate_flat may not; plate_plane_strain neither bends nor strains along one direction; membrane is plate_flat of one
/// temperature through half a sandwich; cylinder has one axial strain and no axial force.
enum class StressForm { plate_free, plate_flat, plate_plane_strain, membrane, cylinder, sphere };

/// What takes heat from a face: a film of gas and grey radiation [W/(m2 K), 1].
struct FaceCooling {
  double film_W_per_m2K = 0.0;
  double emissivity = 0.0;
};

/// A support behind the inside face, per area of that face [J/(m2 K), W/(m2 K)].
struct InnerMass {
  double heat_capacity_J_per_m2K = 0.0;
  double gap_W_per_m2K = 0.0;
  double loss_W_per_m2K = 0.0;
};

/// Temperatures prescribed through a section, linear between depths and between times [m, s, K].
struct SectionProfile {
  std::vector<double> depth_m;  ///< from the inside face on, never falling: from 0 to the thickness of the layers at least
  std::vector<double> time_s;   ///< rising, two at least
  std::vector<double> node_K;   ///< times x depths
  std::vector<double> mass_K;   ///< of the support behind the inside, one a time; empty without
  std::vector<double> turn_s;   ///< rising: where temperatures turn sharply, so that a step ends there
};

/// One course: first a history of one temperature through the section, or a profile (either may lack), then films (where given) down to
/// the ambient. Where surroundings are given the films lead to them instead, straight between their times and held after them.
struct CoolingCourse {
  std::vector<double> time_s, temperature_K;
  std::optional<SectionProfile> profile;    ///< the piece is brought to its first row at once; films act from its end
  bool from_liquid = false;                 ///< glasses start in equilibrium at the first row, and have lost all stress there
  std::optional<FaceCooling> inner, outer;  ///< both or none
  std::optional<double> film_from_K;        ///< the history until it has come down to it, the films from there
  double ambient_K = 298.15;
  std::vector<double> around_s, around_K;  ///< rising times; may be empty
  std::optional<InnerMass> mass;
  std::vector<double> report_at_s;  ///< rising
};

/// Largest rise of temperature in one step, and points through a glass and an elastic layer [K, 1]. source: chosen-here
struct StressAccuracy {
  double step_K = 1.0;
  std::size_t glass_points = 9;
  std::size_t elastic_points = 5;
};

/// Stresses of one layer at one time [Pa, K], tension positive.
struct LayerCooling {
  double inner_hoop_Pa = 0.0, outer_hoop_Pa = 0.0, middle_hoop_Pa = 0.0;
  double lowest_hoop_Pa = 0.0, highest_hoop_Pa = 0.0;
  double radial_at_inner_Pa = 0.0;
  double fictive_K = 0.0;  ///< mean over the volume of the layer; 0 for an elastic one
  double transient_highest_Pa = 0.0;
};

/// The stresses of a layer that are told.
inline constexpr std::size_t stress_figures = 7;
inline constexpr std::array<double LayerCooling::*, stress_figures> layer_stresses = {
    &LayerCooling::inner_hoop_Pa,   &LayerCooling::outer_hoop_Pa,      &LayerCooling::middle_hoop_Pa,      &LayerCooling::lowest_hoop_Pa,
    &LayerCooling::highest_hoop_Pa, &LayerCooling::radial_at_inner_Pa, &LayerCooling::transient_highest_Pa};

struct CoolingReport {
  double time_s = 0.0;
  double curvature_per_m = 0.0;
  double largest_difference_K = 0.0;  ///< so far, between any two places, a support behind the inside among them
  double imbalance = 0.0;             ///< so far, of force and moment, relative to the highest stress
  std::size_t steps = 0;
  std::vector<LayerCooling> layers;
};

/// Highest stress of each layer after each step [s, Pa].
struct CoolingTrace {
  std::vector<double> time_s;
  std::vector<std::vector<double>> highest_Pa;  ///< one list a layer
};

struct CoolingState;

/// One piece; its state goes on from course to course.
class CoolingStress {
 public:
  /// All of one temperature, in equilibrium, free of stress. Throws std::domain_error or std::invalid_argument with one sentence.
  CoolingStress(StressForm form, double inner_radius_m, std::span<const StressLayer> layers, double start_K,
                const StressAccuracy& accuracy = {});
  /// May be moved, not copied.
  ~CoolingStress();
  CoolingStress(CoolingStress&&) noexcept;
  CoolingStress& operator=(CoolingStress&&) noexcept;

  /// Runs a course; reports at the times asked for, and last at its end. A trace changes no number. Throws std::domain_error with one
  /// sentence.
  std::vector<CoolingReport> run(const CoolingCourse& course, CoolingTrace* trace = nullptr);

  /// All that later firings start from, in one order: temperatures, structure, stresses [K, 1/m, Pa].
  [[nodiscard]] std::vector<double> state() const;
  /// Takes a state back. Throws std::domain_error.
  void resume(std::span<const double> state);

 private:
  std::unique_ptr<CoolingState> state_;
};

}  // namespace heatwork::physics
