// From a section in trade words to the bonded layers whose stress is followed as they cool, and the ranges its glass is known within.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "firing/load_of_firing.h"
#include "physics/cooling_stress.h"
#include "physics/stress_interval.h"
#include "trade/material.h"
#include "trade/piece.h"

namespace heatwork::firing {

/// The layers of one section, inside out, as thick as when dense: the depths of the load's own nodes. Elastic moduli as at 25 °C.
/// theory: (stress-judgement.1) (stress-judgement.2)
struct StressLayers {
  std::vector<physics::StressLayer> layers;  ///< outer films left out (see `left_out`) are not among them
  std::vector<std::string> materials;
  std::vector<double> transition_K;  ///< of each glass as a dilatometer finds it at 5 K/min; 0 for an elastic layer
  std::size_t glass = 0;             ///< layer that is judged: the thickest glass, of two alike the outer one
  physics::GlassRanges ranges;       ///< of that glass; its expansion with that of the layer it is paired with
  /// What it is paired with: the nearest elastic layer inside it, else the nearest outside it, else the next glass; itself where alone.
  std::size_t partner = 0;
  double mismatch_per_K = 0;  ///< mean expansion of the partner less its own, 25 to 500 °C
  std::string left_out;       ///< a film too thin to matter whose properties are not known, one sentence; empty where none
  std::string missing;        ///< why there are no layers, one sentence naming material and property; then all else is empty
};

/// True where a material relaxes as a glass in a firing, be its properties known or not: powders, and what names a relaxation.
bool is_glass(const trade::Material& material);

/// Whether the clocks of the glasses are set to their transitions, which takes some milliseconds each; left, nothing can be cooled with
/// them.
enum class Clocks { set, left };

/// The bonded layers of a section. Properties that lack are told in `missing`. Errors: trade::Mistake where not even heat is known.
StressLayers stress_layers(const trade::Section& section, const Stock& stock, Clocks clocks = Clocks::set);

}  // namespace heatwork::firing
