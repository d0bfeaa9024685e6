// The material a trial firing gives: the one it started from with the glass that was found, and words that say where it comes from.
#pragma once

#include "desk/calibrate.h"
#include "trade/material.h"

namespace heatwork::desk {

/// `made` with its trial, what was found and what it started from; read back from its own text, so that it is what its file says.
/// Errors: trade::Mistake where a value lies beyond what a file may hold.
trade::Material calibrated_material(const Calibration& made, const CalibrateAsked& asked, double unchecked_display_K);

/// "looked right", "looked like 10 K too much".
std::string look_in_words(double degree_K);

}  // namespace heatwork::desk
