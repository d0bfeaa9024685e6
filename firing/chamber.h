// What the chamber lives through under a program: asked line, display, true temperature, pressure, opening. Modelled here, or read from a
// log.
#pragma once

#include <string>
#include <vector>

#include "quantity/quantity.h"
#include "trade/furnace.h"
#include "trade/program.h"

namespace heatwork::firing {

/// Phases of a firing in the order they come; a program without one skips it.
enum class Phase { drying, closing, preheating, heating, holding, cooling, opened };

enum class ChamberEvent {
  closed,          ///< the chamber has shut after drying
  vacuum_started,  ///< the pump starts
  vacuum_reached,  ///< the level asked is reached
  released,        ///< air begins to come back
  top,             ///< the display reaches the highest temperature of the program
  hold_begins,     ///< the clock of the hold at the highest temperature starts
  hold_ends,       ///< that hold ends
  open,            ///< the chamber opens fully at the end
  end              ///< the firing ends
};

struct ChamberMoment {
  ChamberEvent event{};
  double time_s = 0;
};

/// One chamber history; all columns have the length of `time_s`, rise in time and are linear between points.
struct ChamberHistory {
  std::vector<double> time_s;
  std::vector<double> asked_C;    ///< what the program asks of the display
  std::vector<double> display_C;  ///< what the display shows
  std::vector<double> chamber_C;  ///< true temperature of the chamber: display - error, less the sensor's lag
  std::vector<double> pressure_Pa;
  std::vector<double> opening;         ///< 0 shut, 1 open
  std::vector<Phase> phase;            ///< of the interval that ends at the point
  std::vector<ChamberMoment> moments;  ///< in order of time
  double room_C = 22;
  double room_humidity = 0.5;
  double ambient_Pa = 101325;
  bool level_never_reached = false;  ///< the pump could not reach the level asked (a leak, its limit, the altitude)
  double lowest_pressure_Pa = 101325;
  bool held_back = false;                 ///< heating fell behind the rate asked for want of power
  double largest_lag_behind_asked_K = 0;  ///< while heating

  /// nullptr where the event does not happen.
  [[nodiscard]] const ChamberMoment* find(ChamberEvent event) const;
  /// Display temperature at a time, linear between points. [C]
  [[nodiscard]] double display_at(double time_s) const;
};

/// What beside furnace and program decides the chamber's history.
struct ChamberConditions {
  double room_C = 22;
  double room_humidity = 0.5;
  double ambient_Pa = 101325;
  double display_error_K = 0;  ///< display - true, constant over temperature (assumed between the checked points)
  double gain_K_per_s = 0;     ///< at the present mains
  double loss_per_s = 0;
  double pump_time_constant_s = 0;
  double pump_ultimate_Pa = 0;
  double leak_Pa_per_s = 0;
};

/// Conditions of the furnace as it stands today (its display error, mains, gain, pump, leak).
ChamberConditions conditions_today(const trade::Furnace& furnace, const trade::ChamberState& state, double ambient_Pa);
/// Conditions of the true furnace of the comparison: no display error, nominal mains, gain, loss and pump as when new, no leak.
ChamberConditions conditions_true(const trade::Furnace& furnace, const trade::ChamberState& state, double ambient_Pa);

/// Constant c of natural cooling dT/dt = -c (T - room), between shut, half open and open. [1/s]
/// opening 0 to 1.  theory: (chamber.5)
double natural_cooling_per_s(const trade::NaturalCooling& natural, double opening);
/// Rate the shut chamber has at full power where it is `chamber_C` hot; negative above what it reaches. [K/s]
/// gain - loss (T - room)
double full_power_K_per_s(const ChamberConditions& conditions, double chamber_C);

/// Runs a program in a furnace. Errors: std::domain_error with one sentence when the furnace can never reach what is asked.
ChamberHistory run_program(const trade::Program& program, const trade::Furnace& furnace, const ChamberConditions& conditions);

/// The same history with a constant added to the chamber's true temperature (times and pressures unchanged). [K]
ChamberHistory shifted(const ChamberHistory& history, double shift_K);
/// The same history with time put in at (positive) or cut back from (negative, at most the hold) the end of the hold at the highest
/// temperature. [s]
ChamberHistory with_hold_changed(const ChamberHistory& history, double added_s);

}  // namespace heatwork::firing
