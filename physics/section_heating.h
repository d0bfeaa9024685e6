// One section alone, heated or cooled on its outer face (or on both) by radiation and a film. For the engineer's single number,
// for the tests against exact solutions, and for the coated plate.
#pragma once

#include <cstddef>
#include <memory>
#include <span>
#include <vector>

#include "physics/layer.h"

namespace heatwork::physics {

/// A stretch of time with one kind of surroundings, linear between points. [s, K]
/// Stretches follow one another: the first time of the next is the last of this one.
struct Exposure {
  std::vector<double> time_s;          ///< rising, at least 2
  std::vector<double> surroundings_K;  ///< radiating and gas temperature
  double emissivity = 0;               ///< 0 = no radiation
  double film_W_per_m2K = 0;
  bool both_faces = false;  ///< the inside face too (its own area where curved)
};

/// Defaults hold 0.1 K on the coated plate against a solution finer by orders (tests/peers).
struct SectionAccuracy {
  double step_tolerance_K = 0.03;   ///< error of one step
  std::size_t total_spaces = 14;    ///< shared among the layers by `shared_spaces`, unless `spaces` is given
  std::vector<std::size_t> spaces;  ///< one for each layer
};

/// What the section lived through, at the asked times. [s, K]
struct SectionTemperatures {
  std::vector<double> surface_K;  ///< outer face
  std::vector<double> core_K;     ///< inside face, or the middle of the thickness where both faces are heated
  std::vector<double> inside_K;   ///< inside face
  std::vector<double>
      interface_K;  ///< times x (layers - 1): outer face of layer 1, 2, ... (the outer side where there is a contact resistance)
  long steps = 0;
};

/// Solves one section; keeps its memory between calls.
class SectionHeater {
 public:
  /// error: std::invalid_argument for layers that cannot be
  SectionHeater(std::span<const Layer> layers, SectionForm form, double inner_radius_m, const SectionAccuracy& accuracy = {});
  ~SectionHeater();
  SectionHeater(SectionHeater&&) noexcept;
  SectionHeater& operator=(SectionHeater&&) noexcept;

  /// From a uniform start through the exposures; values at `at_s` (rising, within the exposures). Result valid until the next call. [K]
  /// error: std::invalid_argument naming what does not fit
  /// theory: (heat.1)
  const SectionTemperatures& solve(std::span<const Exposure> exposures, double start_K, std::span<const double> at_s);

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace heatwork::physics
