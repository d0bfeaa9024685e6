// The demo lab's firings as the identity suite takes them: read from data/demo, then changed in one thing.
#pragma once

#include <filesystem>
#include <string>

#include "metrology/atmosphere.h"
#include "trade/firing.h"
#include "trade/library.h"

namespace heatwork::tests {

inline quantity::Pressure ambient_at(quantity::Length altitude) {
  return quantity::Pressure::si(metrology::standard_atmosphere_Pa(altitude.si()));
}

/// A firing of data/demo by its file's stem.
inline trade::ResolvedFiring demo_firing(const std::string& stem) {
  return trade::load_firing(std::filesystem::path(HEATWORK_SOURCE_DIR) / "data" / "demo" / (stem + ".toml"), ambient_at);
}

/// The firing turned into the maker's own in the true furnace: one piece alone in the middle, his program, his tray, nothing wrong.
inline trade::ResolvedFiring makers_own(trade::ResolvedFiring firing, std::size_t piece = 0) {
  firing.pieces = {firing.pieces[piece]};
  firing.firing.pieces = {firing.firing.pieces[piece]};
  firing.places = {trade::PlaceOnTray::middle};
  firing.firing.pieces.front().place.value = trade::PlaceOnTray::middle;
  firing.program = *firing.instruction_program;
  firing.tray = *firing.instruction_tray;
  trade::Furnace& furnace = firing.furnace;
  if (furnace.display_error) furnace.display_error->error.value = quantity::kelvins(0);
  furnace.heating.mains.value = furnace.heating.nominal_mains.value;
  if (furnace.heating.gain_when_new) furnace.heating.gain = *furnace.heating.gain_when_new;
  if (furnace.heating.loss_when_new) furnace.heating.loss = *furnace.heating.loss_when_new;
  if (furnace.pump.time_constant_when_new) furnace.pump.time_constant = *furnace.pump.time_constant_when_new;
  if (furnace.pump.ultimate_when_new) furnace.pump.ultimate = *furnace.pump.ultimate_when_new;
  furnace.pump.leak.value = quantity::PressureRate::si(0);
  return firing;
}

}  // namespace heatwork::tests
