// The furnace and the program that the chamber's proofs start from, and how they read a history.
#pragma once

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>
#include <string>
#include <vector>

#include "firing/chamber.h"

namespace heatwork::firing::chamber_case {

using quantity::Duration;
using quantity::Fraction;
using quantity::Frequency;
using quantity::HeatingRate;
using quantity::kelvins;
using quantity::kelvins_per_minute;
using quantity::millibars;
using quantity::Pressure;
using quantity::seconds;
using quantity::Temperature;

template <class T>
trade::Given<T> given(T value) {
  return {value, "", {}};
}

/// Odd numbers of our own; no furnace that exists.
inline trade::Furnace furnace() {
  trade::Furnace f;
  f.sensor_lag = given(seconds(4.7));
  f.heating.gain = given(HeatingRate::si(3.1));
  f.heating.loss = given(Frequency::si(0.0017));
  f.heating.mains = given(quantity::Voltage::si(231));
  f.heating.nominal_mains = given(quantity::Voltage::si(231));
  f.heating.overshoot = given(kelvins(1.9));
  f.natural_cooling = {given(Frequency::si(0.0009)), given(Frequency::si(0.0024)), given(Frequency::si(0.0053))};
  f.pump.time_constant = given(seconds(11.3));
  f.pump.ultimate = given(millibars(27));
  f.pump.leak = given(quantity::PressureRate::si(0));
  f.pump.release_time = given(seconds(2.1));
  f.ability.vacuum_level_settable = given(true);
  f.ability.waits_for_vacuum = given(false);
  f.ability.hold_starts = given(trade::HoldStart::display_reaches);
  return f;
}

inline trade::Program program() {
  trade::Program p;
  p.standby = given(Temperature::celsius(441));
  p.entry = given(Temperature::celsius(441));
  p.drying_time = given(seconds(233));
  p.drying_opening = given(Fraction::si(0.6));
  p.closing_time = given(seconds(77));
  p.preheat_hold = given(seconds(21));
  p.heating.push_back({given(Temperature::celsius(809)), given(kelvins_per_minute(47)), given(seconds(67)), {}});
  trade::Vacuum vacuum;
  vacuum.from = given(Temperature::celsius(463));
  vacuum.to = given(Temperature::celsius(809));
  vacuum.level = given(millibars(58));
  vacuum.hold_under_vacuum = given(seconds(0));
  p.vacuum = vacuum;
  p.unloading_temperature = given(Temperature::celsius(302));
  return p;
}

inline ChamberConditions conditions(const trade::Furnace& f) {
  trade::ChamberState state;
  state.room = given(Temperature::celsius(22));
  state.room_humidity = given(Fraction::si(0.5));
  return conditions_today(f, state, 101325);
}

inline ChamberHistory fired(const trade::Program& p, const trade::Furnace& f) {
  return run_program(p, f, conditions(f));
}

inline double at(const ChamberHistory& h, const std::vector<double>& column, double time_s) {
  std::size_t i = 1;
  while (i + 1 < h.time_s.size() && h.time_s[i] < time_s) ++i;
  return column[i - 1] + (column[i] - column[i - 1]) * (time_s - h.time_s[i - 1]) / (h.time_s[i] - h.time_s[i - 1]);
}

inline double time_of(const ChamberHistory& h, ChamberEvent event) {
  const ChamberMoment* moment = h.find(event);
  EXPECT_NE(moment, nullptr) << "event " << static_cast<int>(event);
  return moment == nullptr ? std::nan("") : moment->time_s;
}

template <class Action>
std::string refusal(const Action& action) {
  try {
    action();
  } catch (const std::domain_error& error) {
    return error.what();
  }
  return "accepted";
}

}  // namespace heatwork::firing::chamber_case
