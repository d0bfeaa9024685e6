// A furnace and readings of our own for the tests of this room.
#pragma once

#include "trade/check.h"
#include "trade/furnace.h"

namespace heatwork::furnace_care {

template <class T>
trade::Given<T> given(T value) {
  return {value, "", {}};
}

inline trade::Furnace own_furnace() {
  trade::Furnace furnace;
  furnace.name = "attic";
  furnace.maximum = given(quantity::Temperature::celsius(1187));
  furnace.altitude = given(quantity::millimetres(187e3));
  furnace.sensor_type = "S";
  furnace.correction_convention = given(trade::CorrectionConvention::added_to_display);
  furnace.ability.temperature_step = given(quantity::kelvins(1));
  return furnace;
}

/// Silver of 0.25 mm in a vacuum of 50 mbar, held 2 min.
inline trade::WireTest vacuum_wire() {
  trade::WireTest wire;
  wire.metal = given(trade::TestWire::silver);
  wire.gas = given(trade::TestGas::vacuum);
  wire.vented_hot = given(false);
  wire.pressure = given(quantity::millibars(50));
  wire.purity = given(quantity::Fraction::si(0.9999));
  wire.diameter = given(quantity::millimetres(0.25));
  wire.hold = given(quantity::minutes(2));
  wire.criterion = given(trade::MeltCriterion::edges_rounded);
  return wire;
}

inline trade::WireTrial trial(double display_C, bool melted) {
  trade::WireTrial trial;
  trial.display = given(quantity::Temperature::celsius(display_C));
  trial.melted = melted;
  return trial;
}

}  // namespace heatwork::furnace_care
