// Between which bounds stresses of a cooling piece lie, where its glass is known within ranges alone; and which range makes them wide.
#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <span>
#include <vector>

#include "physics/cooling_stress.h"
#include "physics/stress_carry.h"

namespace heatwork::physics {

/// From its lowest to its highest value [unit of the value].
struct InputRange {
  double low = 0.0, high = 0.0;
};

/// What is open of the glass of one layer, in the order of `UncertainInput`.
struct GlassRanges {
  std::size_t layer = 0;              ///< counted from the inside
  InputRange expansion_per_K;         ///< added to the expansion of the solid [1/K]
  InputRange liquid_ratio{3.0, 3.0};  ///< expansion of the liquid over that of the solid, as then added to [1]
  InputRange activation_K;            ///< over the gas constant
  InputRange transition_K;            ///< as a dilatometer finds it
  double dilatometer_K_per_s = 5.0 / 60.0;
};

enum class UncertainInput { expansion, liquid_expansion, activation, transition };

/// A form in which the section is looked at [m].
struct SectionCase {
  StressForm form = StressForm::plate_flat;
  double inner_radius_m = 0.0;
};

/// What a section has been cooled through before, in each of its forms, and how the bench left it for what comes next [m, K].
struct EarlierCooling {
  std::vector<SectionCase> forms;
  std::vector<StressLayer> layers;
  double start_K = 0.0;
  CoolingCourse course;
  std::vector<LayerOrigin> origins;  ///< of the layers that come next; empty: the same, as they were
};

/// Central 90 % of a set, and its middle [Pa].
struct StressInterval {
  double low_Pa = 0.0, middle_Pa = 0.0, high_Pa = 0.0;
};

/// Of one form: all stresses told of each layer; and by how much the highest stress of the open layer moves as one input alone goes from
/// the lower end of its range to the upper, the others in the middle of theirs [Pa].
struct StressIntervals {
  std::vector<std::array<StressInterval, stress_figures>> layers;
  std::array<double, 4> swing_Pa{};
  /// The input that moves it most.
  [[nodiscard]] UncertainInput widest() const;
};

/// Over all forms; settled where the last doubling of the set moved no end of the open layer's highest, transient or radial stress by as
/// much as asked.
struct StressBounds {
  std::vector<StressIntervals> forms;
  std::size_t count = 0;
  bool settled = false;
};

/// How the set is drawn: its seed, first and largest size, and the move of an end that is small enough [1, Pa]. source: chosen-here
struct SetSize {
  std::uint64_t seed = 1;
  std::size_t first = 32, largest = 1024;
  double close_Pa = 1e6;
};

/// Point i of an evenly spread sequence in four dimensions, each from 0 to 1, shifted by a seed [1].
/// source: sobol-1967, joe-kuo-2008 theory: (cooling-stress.15)
std::array<double, 4> spread_point(std::uint64_t seed, std::size_t i);

/// How many parts are done, in whatever order, side by side or not: calls the part once for every number below the count.
using Parts = std::function<void(std::size_t count, const std::function<void(std::size_t)>& part)>;

/// One after the other. source: chosen-here
void in_turn(std::size_t count, const std::function<void(std::size_t)>& part);

/// Bounds of the stresses of one cooling over the ranges; the same however the parts are done. Where coolings came before it, each member
/// of the set goes through all of them, the first from a liquid. Range: the open layer is a glass; no range has its ends the wrong way
/// round. source: chosen-here. Throws std::domain_error with one sentence. theory: (cooling-stress.15) (cooling-stress.16)
StressBounds stress_bounds(std::span<const SectionCase> forms, std::span<const StressLayer> layers, const GlassRanges& ranges,
                           double start_K, const CoolingCourse& course, const SetSize& size = {},
                           const StressAccuracy& accuracy = {3.0, 7, 4}, const Parts& parts = in_turn,
                           std::span<const EarlierCooling> before = {});

}  // namespace heatwork::physics
