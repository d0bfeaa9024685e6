// A check of a furnace: its readings, which are the truth of it, and beside them the outcome as it was told then.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "quantity/quantity.h"
#include "trade/furnace.h"
#include "trade/place.h"

namespace heatwork::trade {

enum class CheckOf { temperature, thermocouple, chamber_map, vacuum, heating, cleaning, other };

enum class TestWire { silver, gold };
enum class TestGas { air, vacuum, inert, unknown };
enum class MeltCriterion { edges_rounded, balled };  ///< what counts as melted: any rounding of a cut end, or a ball

/// The wire of a melt test and how it is fired. What is not answered yet, or not known, is absent.
struct WireTest {
  Maybe<TestWire> metal;
  Maybe<TestGas> gas;                  ///< around the wire while it is held
  Maybe<bool> vented_hot;              ///< air was let in while the wire was hot: then it felt air
  Maybe<quantity::Pressure> pressure;  ///< of a vacuum, absolute
  Maybe<quantity::Fraction> purity;
  Maybe<quantity::Length> diameter;
  Maybe<quantity::Duration> hold;
  Maybe<quantity::HeatingRate> rate;  ///< of the last 20 K
  Maybe<MeltCriterion> criterion;
  Maybe<quantity::Temperature> melting;              ///< as the furnace's or wire's own procedure states it
  Maybe<quantity::TemperatureDifference> melting_u;  ///< standard uncertainty of that
  std::string stated_in;                             ///< which procedure states it
};

/// One firing of a fresh wire.
struct WireTrial {
  Given<quantity::Temperature> display;
  bool melted = false;
  std::string at;  ///< UTC; may be empty
  PlacesByKey places;
  Place place;
};

enum class ProbeUse { fresh, used, unknown };

/// The thermocouple a display is compared with. What is not answered yet, or not known, is absent.
struct Probe {
  std::string type;  ///< S R B K N; may be empty
  Maybe<int> tolerance_class;
  Maybe<quantity::TemperatureDifference> correction;    ///< of its certificate: true minus read
  Maybe<quantity::TemperatureDifference> correction_u;  ///< standard uncertainty of that
  std::string certified;                                ///< day; may be empty
  Maybe<ProbeUse> use;
  Maybe<quantity::Duration> used_hours;                ///< hot
  Maybe<quantity::TemperatureDifference> indicator_u;  ///< standard uncertainty of indicator and cold junction
};

/// Display and probe at one moment, both steady.
struct ProbeReading {
  Given<quantity::Temperature> display;
  Maybe<quantity::Temperature> probe;
  Maybe<double> emf_mV;
  Maybe<quantity::Temperature> cold_junction;  ///< where only the voltage was read
  std::string at;                              ///< UTC; may be empty
  PlacesByKey places;
  Place place;
};

enum class MapPlace { middle, front, back, left, right };

/// A specimen fired at one place of the chamber and looked at.
struct MapTab {
  Given<MapPlace> where;
  Maybe<quantity::TemperatureDifference> looked_like;  ///< as if the chamber were so much hotter there than the reference
  Maybe<double> lightness, redness, yellowness;        ///< CIELAB L*, a*, b*
  Place place;
};

/// A reading of a vacuum gauge as it was read: in the gauge's own unit, "%" for a percent gauge.
struct GaugeSample {
  quantity::Duration after;  ///< since the first moment of the record
  double reading = 0;
  std::string unit;
  Place place;
};

struct TemperatureSample {
  quantity::Duration after;
  quantity::Temperature temperature;
  Place place;
};

/// A record of the vacuum: pumping down, or the shut chamber after the pump stopped.
struct VacuumTest {
  Maybe<GaugeKind> gauge;
  Maybe<quantity::Pressure> barometer;
  Maybe<bool> pump_warm;
  Maybe<quantity::Temperature> room;
  Maybe<quantity::Temperature> chamber;
  std::vector<GaugeSample> pump_down, rise;
};

/// A run at full power.
struct HeatingRunTest {
  Maybe<quantity::Voltage> mains;
  Maybe<quantity::Temperature> room;
  Maybe<bool> capped;                       ///< the program held the rate down
  Maybe<quantity::HeatingRate> asked_rate;  ///< of the program
  std::vector<TemperatureSample> samples;
};

enum class CheckDecision { left, corrected, allowed_for, out_of_use };

/// A check of a furnace as it came out.
struct Check {
  std::string name;
  std::string label;
  std::string note;
  Given<std::string> furnace;
  Given<CheckOf> of;
  bool good = false;                             ///< the furnace was inside what the lab allows
  Maybe<quantity::TemperatureDifference> error;  ///< display - true
  Maybe<quantity::TemperatureDifference> standard_uncertainty;
  Maybe<std::string> reference;                             ///< name of a Reference
  std::string method;                                       ///< in words
  std::string at;                                           ///< UTC
  std::string person;                                       ///< code
  std::string next;                                         ///< day the next is due; may be empty
  Maybe<bool> finished;                                     ///< absent: it is
  Maybe<bool> cannot_tell;                                  ///< the readings do not suffice
  Maybe<bool> as_left;                                      ///< after an adjustment; absent: as found
  std::string after_repair;                                 ///< what was repaired or exchanged before it; may be empty
  Maybe<quantity::TemperatureDifference> limit;             ///< the lab allows, of error or spread
  Maybe<quantity::TemperatureDifference> correction_keyed;  ///< while it was checked
  Maybe<CheckDecision> decision;
  Maybe<quantity::TemperatureDifference> keyed_after;  ///< correction keyed after it
  Maybe<quantity::Temperature> error_at;               ///< true temperature the error was found at
  std::string verdict;                                 ///< what was found, in a word or two; may be empty
  Maybe<quantity::TemperatureDifference> spread;       ///< over the chamber
  Maybe<quantity::HeatingRate> gain, gain_sd;          ///< at nominal mains
  Maybe<quantity::Frequency> loss, loss_sd;
  Maybe<quantity::Duration> pump_time_constant, pump_time_constant_sd;
  Maybe<quantity::Pressure> ultimate, ultimate_sd;
  Maybe<quantity::PressureRate> leak, leak_sd;
  std::optional<WireTest> wire;
  std::vector<WireTrial> trials;
  std::optional<Probe> probe;
  std::vector<ProbeReading> compared;
  std::vector<MapTab> map;
  std::optional<VacuumTest> vacuum;
  std::optional<HeatingRunTest> heating_run;
  PlacesByKey places;
  Place place;
};

/// Nothing of a check that is still going on tells anything of its furnace.
[[nodiscard]] inline bool is_finished(const Check& check) {
  return !check.finished || check.finished->value;
}

/// Finished, but the readings did not suffice to say whether the furnace is good.
[[nodiscard]] inline bool is_undecided(const Check& check) {
  return check.cannot_tell && check.cannot_tell->value;
}

}  // namespace heatwork::trade
