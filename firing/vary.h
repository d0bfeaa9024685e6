// What a firing is computed from, and one deciding input of it taken to an end of its range.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "firing/chamber.h"
#include "firing/fire.h"
#include "trade/deciding_inputs.h"
#include "trade/firing.h"

namespace heatwork::firing {

/// Everything beside the program that a firing is computed from, copied so that one thing may be changed.
struct Ingredients {
  ChamberConditions conditions;  ///< of the firing's furnace
  std::map<std::string, trade::Material> materials;
  std::vector<trade::Piece> pieces;
  double tray_kg = 0;
  double more_view_of_tray = 0;  ///< share of its view that every section takes from the chamber and gives to the tray
  double support_contact = 1;    ///< factor on the conductance from support to piece
  double open_view = 1;          ///< factor on the view below the open muffle
  double air_film = 1;           ///< factor on the film of still air
  bool cut = false;              ///< the range ended beyond what can be, and was cut there
};

/// What has to be computed anew for an input.
enum class Reach {
  drying,    ///< this firing's and the maker's until the build-up is dry
  pressure,  ///< the chamber's pressure only: temperatures stay
  firing,    ///< this firing's temperatures
  both,      ///< this firing's and the maker's
  kinetics   ///< what the temperatures do to the material, in both
};
Reach reach_of(const trade::DecidingInput& input);

/// Materials whose property an input stands for, in this firing; {""} for inputs of no material; empty where it decides nothing here.
std::vector<std::string> subjects_of(const trade::DecidingInput& input, const trade::ResolvedFiring& request);

/// Takes an input the given share of the way to an end of its range, `share` from -1 (its low end) to 1 (its high end).
/// Returns false where that changes nothing (no range, or the property is not there).
/// Errors: std::logic_error for an input that is not known here.
bool vary(Ingredients& ingredients, const trade::DecidingInput& input, const std::string& material, double share,
          const trade::ResolvedFiring& request, double unchecked_display_K);

/// The chamber as the load sees it, with what the model assumes of it.
physics::Surroundings varied_surroundings(const ChamberHistory& chamber, const Ingredients& ingredients);

/// The load of a setup with the changes that belong to no noun: views and contacts.
physics::Load varied_load(const FiringSetup& setup, const Stock& stock, const Ingredients& ingredients);

}  // namespace heatwork::firing
