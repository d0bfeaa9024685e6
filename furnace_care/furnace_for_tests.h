// A furnace and readings of our own for the tests of this room.
#pragma once

#include <string>

#include "trade/check.h"
#include "trade/furnace.h"
#include "trade/sentences.h"

namespace heatwork::furnace_care {

template <class T>
trade::Given<T> given(T value) {
  return {value, "", {}};
}

/// A sentence that a person reads is said in German too.
inline bool has_german(const std::string& sentence) {
  return trade::in_language(sentence, trade::Language::german) != sentence;
}

/// All that a check from a record tells in words.
template <class Told>
std::string without_german(const Told& told) {
  std::string without;
  for (const auto& finding : told.findings)
    if (!has_german(finding.sentence)) without += finding.sentence + "\n";
  for (const std::string& sentence : told.next)
    if (!has_german(sentence)) without += sentence + "\n";
  for (const std::string& sentence : told.remarks)
    if (!has_german(sentence)) without += sentence + "\n";
  return without;
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
