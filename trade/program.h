// The program a ceramist keys in, in trade words. All temperatures are those of the display.
#pragma once

#include <string>
#include <vector>

#include "quantity/quantity.h"
#include "trade/place.h"

namespace heatwork::trade {

/// One heating stage: heat to, rate, hold. An own vacuum level replaces that of the program during this stage.
struct HeatingStage {
  Given<quantity::Temperature> to;
  Given<quantity::HeatingRate> rate;
  Given<quantity::Duration> hold;
  Maybe<quantity::Pressure> vacuum_level;
};

/// One cooling stage: to, rate (absent: natural cooling), opening of the chamber during it (0 shut, 1 fully open), hold at its end.
struct CoolingStage {
  Given<quantity::Temperature> to;
  Maybe<quantity::HeatingRate> rate;
  Given<quantity::Fraction> opening;
  Maybe<quantity::Duration> hold;
};

/// The vacuum of a program: pumping starts when the display passes `from` on the way up, air comes back when it reaches `to`
/// and `hold_under_vacuum` of the hold there has passed. Without `to` the vacuum is never released before the chamber opens.
struct Vacuum {
  Given<quantity::Temperature> from;
  Maybe<quantity::Temperature> to;
  Given<quantity::Pressure> level;
  Given<quantity::Duration> hold_under_vacuum;
};

/// A firing program; a stored version never changes.
struct Program {
  std::string name;
  std::string label;
  std::string note;
  Given<quantity::Temperature> standby;
  Given<quantity::Temperature> entry;
  Given<quantity::Duration> drying_time;
  Given<quantity::Fraction> drying_opening;  ///< 1 fully open
  Given<quantity::Duration> closing_time;
  Given<quantity::Duration> preheat_hold;
  std::vector<HeatingStage> heating;
  std::optional<Vacuum> vacuum;
  std::vector<CoolingStage> cooling;
  Maybe<quantity::Temperature> opening_temperature;    ///< the chamber opens fully when the display has come down to it
  Maybe<quantity::Temperature> unloading_temperature;  ///< the firing ends here; default: standby
  Place place;
};

}  // namespace heatwork::trade
