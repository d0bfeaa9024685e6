// How well a lab's own material, calibrated by one trial firing, is known here: in the furnace and on the tray of the trial, and elsewhere.
#pragma once

#include "trade/furnace.h"
#include "trade/material.h"
#include "trade/piece.h"

namespace heatwork::firing {

/// How well one trial tells the firing temperature in its furnace on its tray, either way [K]. Standing: assumed. source: chosen-here
inline constexpr double trial_within_K = 10.0;

/// What another tray than the trial's adds in root-sum-square, either way [K]: its mass is modelled, its contacts and views are known to
/// half of what a trial tells. Standing: assumed. source: chosen-here
inline constexpr double another_tray_K = 5.0;

/// How far the firing temperature of a calibrated material may be off here, either way [K].
/// In the trial's furnace `within`, elsewhere with twice the standard uncertainty of both displays; a display never checked counts
/// `unchecked_display_K`, and one not checked at the trial counts so in its own furnace too, for nothing says that it has stayed as it was.
/// Another tray adds `another_tray_K`. By root-sum-square, theory: (heat-work.11). Errors: std::invalid_argument where the material was not
/// calibrated.
double calibrated_within_K(const trade::Material& material, const trade::Furnace& here, const trade::Tray& tray,
                           double unchecked_display_K);

/// What so many K of firing temperature are in viscosity, by the slope of the law where glass and crystals have 10^5.1 Pa s. [log10 Pa s]
/// theory: (heat-work.12) Errors: trade::Mistake where the material has no viscosity.
double decades_for_K(const trade::Material& material, double within_K);

}  // namespace heatwork::firing
