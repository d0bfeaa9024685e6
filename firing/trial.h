// A trial firing of a powder or glaze in one of the lab's furnaces, and the glass that explains how it came out.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "firing/rehearsal.h"
#include "physics/viscosity.h"
#include "trade/firing.h"

namespace heatwork::firing {

/// What was fired, what of it was judged and how it looked.
struct Trial {
  trade::ResolvedFiring firing;
  std::size_t piece = 0;                     ///< index into the firing's pieces
  std::string material;                      ///< of its green layers, the one that was judged
  double degree_K = 0;                       ///< looked like so many K too much; negative: too little
  std::optional<double> glass_transition_C;  ///< known from elsewhere; absent: that of the material
};

/// What a trial tells.
struct TrialFound {
  physics::Vft vft;
  double glass_transition_C = 0;
  double nominal_C = 0;  ///< where the glass, fired as a class's nominal firing is, does the class's work
  double shift_K = 0;    ///< of the temperature of 10^5.1 Pa s, against the material
  PointResult point;     ///< the point that was read, without traces, as the glass found lives through the trial
  std::string section;   ///< its section's name
  double wanted = 0;     ///< heat-work of the material in its nominal firing
};

/// The material with a viscosity of its own; its ranges are left as they were.
trade::Material with_glass(trade::Material material, const physics::Vft& vft);

/// Rehearses the trial through furnace, tray and piece and finds the glass that does, at the point of the piece with the least heat-work of
/// its material, what the material does in its nominal firing. Viscosity changes how a build-up conducts, so it is fired again with the
/// glass found until that moves by less than 0.005 K. Errors: std::domain_error with one sentence where the firing cannot be run, the
/// tray's mass is unknown or no glass within 150 K explains the trial; trade::Mistake.
TrialFound read_trial(const Trial& trial);

}  // namespace heatwork::firing
