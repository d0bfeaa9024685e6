// A furnace as the lab knows it: what its chamber does, how true its display is, what its panel accepts.
#pragma once

#include <string>
#include <vector>

#include "quantity/quantity.h"
#include "trade/place.h"

namespace heatwork::trade {

enum class HoldStart { asked_reaches, display_reaches };   ///< when a hold's clock starts
enum class MainsCut { stops, goes_on, goes_on_if_short };  ///< what a mains cut does to a running program
enum class GaugeKind { absolute, below_ambient, percent_of_ambient };
enum class CorrectionConvention { added_to_display, added_to_setting };

/// What the panel accepts and how the furnace runs a program.
struct FurnaceAbility {
  Given<quantity::TemperatureDifference> temperature_step;
  Given<quantity::HeatingRate> rate_step, slowest_rate, fastest_rate;
  Given<quantity::Duration> time_step, longest_hold;
  Given<int> heating_stages, cooling_stages;
  Given<bool> vacuum_level_settable;  ///< false: the pump runs to what it reaches
  Given<bool> waits_for_vacuum;       ///< heating pauses at the start of vacuum until the level is reached
  Given<HoldStart> hold_starts;
  Given<MainsCut> mains_cut;
};

/// Heating at full power follows dT/dt = gain - loss (T - room) at nominal mains.
struct Heating {
  Given<quantity::HeatingRate> gain;  ///< at nominal mains, as measured [K/s]
  Given<quantity::Frequency> loss;    ///< shut chamber, as measured [1/s]
  Maybe<quantity::HeatingRate> gain_when_new;
  Maybe<quantity::Frequency> loss_when_new;
  Given<quantity::Voltage> mains;  ///< present
  Given<quantity::Voltage> nominal_mains;
  Given<quantity::TemperatureDifference> overshoot;  ///< of the control at the end of a ramp
};

/// Natural cooling follows dT/dt = -c (T - room), with c by the opening of the chamber.
struct NaturalCooling {
  Given<quantity::Frequency> shut, half_open, open;
};

struct Pump {
  Given<quantity::Duration> time_constant;
  Maybe<quantity::Duration> time_constant_when_new;
  Given<quantity::Pressure> ultimate;
  Maybe<quantity::Pressure> ultimate_when_new;
  Given<quantity::PressureRate> leak;      ///< pressure rise of the shut chamber with the pump off
  Given<quantity::Duration> release_time;  ///< time constant of letting air in
  Given<GaugeKind> gauge;
};

/// Display error = display - true temperature; its standard uncertainty. Absent: never checked.
struct DisplayError {
  Given<quantity::TemperatureDifference> error;
  Given<quantity::TemperatureDifference> standard_uncertainty;
  std::string checked;  ///< how and when, as typed
};

enum class IntervalBy { furnace_maker, lab };  ///< who says how often something is due

/// How often something is due, whichever of these comes first; and who set it here.
struct HowOften {
  Maybe<int> every_days;
  Maybe<int> after_firings;
  Maybe<int> after_hours;  ///< of firings, together
  std::string set_by;      ///< code
  [[nodiscard]] bool is_said() const { return every_days || after_firings || after_hours; }
};

/// Something of a furnace that falls due: on a day, or again and again; and when it was done by hand.
struct FurnaceDue {
  std::string what;  ///< in words; "vacuum test" and its like are works that every furnace has
  std::string on;    ///< day; may be empty
  HowOften often;
  Maybe<IntervalBy> by;       ///< absent: the lab
  std::string stated_in;      ///< where the furnace maker says so
  std::string done, done_by;  ///< day it was last done, where no check or firing tells; code
  PlacesByKey places;
  Place place;
};

/// How often a work is due at every furnace of a lab whose own file says nothing of it.
struct LabDue {
  std::string what;
  HowOften often;
  Place place;
};

class Fields;
/// Keys of what falls due, of a furnace and of a lab. Errors of the checks: Mistake.
void describe_due(Fields& fields, FurnaceDue& due);
void describe_lab_due(Fields& fields, LabDue& due);
void check_dues(const std::vector<FurnaceDue>& dues);
/// That a furnace maker's word says where it stands, and nobody else's does.
void check_stated_in(const Maybe<IntervalBy>& by, const std::string& stated_in, const Place& place);
void check_dues(const std::vector<LabDue>& dues);

struct Furnace {
  std::string name;
  std::string label;
  std::string note;
  Given<quantity::Volume> chamber_volume;
  Given<quantity::Temperature> maximum;
  Given<quantity::Length> altitude;
  std::string sensor_type;               ///< S R B K N
  Given<quantity::Duration> sensor_lag;  ///< time constant
  std::optional<DisplayError> display_error;
  Given<quantity::TemperatureDifference> correction_keyed;  ///< as it stands on the panel now; already inside the display error
  Given<CorrectionConvention> correction_convention;
  Heating heating;
  NaturalCooling natural_cooling;
  Pump pump;
  FurnaceAbility ability;
  std::vector<FurnaceDue> dues;
  Place place;
};

/// The chamber's state before the start; part of a firing.
struct ChamberState {
  Given<bool> cold;  ///< true: not heated through before
  Maybe<quantity::Duration> since_last_firing;
  Given<double> days_idle;
  Given<quantity::Temperature> room;             ///< default 22 °C
  Given<quantity::Fraction> room_humidity;       ///< default 50 %
  Given<std::string> last_contaminating_firing;  ///< empty: none known
  Given<bool> cleaning_due;
};

}  // namespace heatwork::trade
