#include <fmt/format.h>

#include "trade/furnace.h"
#include "trade/mistake.h"
#include "trade/noun.h"
#include "trade/slot.h"

namespace heatwork::trade {
namespace {

using quantity::Duration;
using quantity::Fraction;
using quantity::Frequency;
using quantity::HeatingRate;
using quantity::kelvins;
using quantity::Length;
using quantity::minutes;
using quantity::Pressure;
using quantity::PressureRate;
using quantity::seconds;
using quantity::Temperature;
using quantity::TemperatureDifference;
using quantity::Voltage;
using quantity::Volume;

constexpr Kept exact = Kept::exact;

Between<HeatingRate> gain_range() {
  return {HeatingRate::si(0.05), HeatingRate::si(30)};
}
Between<Frequency> loss_range() {
  return {Frequency::si(1e-5), Frequency::si(0.2)};
}
Between<Voltage> mains_range() {
  return {Voltage::si(80), Voltage::si(480)};
}
Between<Duration> pump_range() {
  return {seconds(0.1), minutes(60)};
}
Between<Pressure> ultimate_range() {
  return {Pressure::si(0), quantity::millibars(900)};
}
Between<HeatingRate> panel_rates() {
  return {quantity::kelvins_per_minute(0.1), quantity::kelvins_per_minute(400)};
}
Between<TemperatureDifference> few_kelvins(double most) {
  return {kelvins(-most), kelvins(most)};
}

void describe_heating(Fields& fields, Heating& heating) {
  fields.required("gain", heating.gain, "heating rate at full power and nominal mains, before losses, as measured", gain_range(), exact);
  fields.required("loss", heating.loss, "heat lost per kelvin above the room, shut chamber, as measured", loss_range(), exact);
  fields.optional("gain_when_new", heating.gain_when_new, "the same when the furnace was new", gain_range(), exact);
  fields.optional("loss_when_new", heating.loss_when_new, "the same when the furnace was new", loss_range(), exact);
  fields.required("mains", heating.mains, "mains voltage at present", mains_range());
  fields.required("nominal_mains", heating.nominal_mains, "mains voltage of the plate", mains_range());
  fields.otherwise("overshoot", heating.overshoot, "0 K", "of the control at the end of a ramp",
                   Between<TemperatureDifference>{kelvins(0), kelvins(30)});
}

void describe_cooling(Fields& fields, NaturalCooling& cooling) {
  fields.required("shut", cooling.shut, "cooling per kelvin above the room, heating off, chamber shut", loss_range(), exact);
  fields.required("half_open", cooling.half_open, "the same, chamber half open", loss_range(), exact);
  fields.required("open", cooling.open, "the same, chamber open", loss_range(), exact);
}

void describe_pump(Fields& fields, Pump& pump) {
  fields.required("time_constant", pump.time_constant, "of pumping down", pump_range(), exact);
  fields.optional("time_constant_when_new", pump.time_constant_when_new, "the same when the pump was new", pump_range(), exact);
  fields.required("ultimate", pump.ultimate, "lowest pressure it reaches", ultimate_range());
  fields.optional("ultimate_when_new", pump.ultimate_when_new, "the same when the pump was new", ultimate_range());
  fields.required("leak", pump.leak, "pressure rise of the shut chamber with the pump off",
                  Between<PressureRate>{PressureRate::si(0), PressureRate::si(2000)}, exact);
  fields.required("release_time", pump.release_time, "time constant of letting air in", pump_range(), exact);
  fields.choice("gauge", pump.gauge, {}, "how the vacuum gauge counts");
}

void describe_ability(Fields& fields, FurnaceAbility& ability) {
  fields.required("temperature_step", ability.temperature_step, "smallest step of a temperature",
                  Between<TemperatureDifference>{kelvins(0.1), kelvins(50)});
  fields.required("rate_step", ability.rate_step, "smallest step of a heating rate", panel_rates());
  fields.required("slowest_rate", ability.slowest_rate, "slowest heating rate it takes", panel_rates());
  fields.required("fastest_rate", ability.fastest_rate, "fastest heating rate it takes", panel_rates());
  fields.required("time_step", ability.time_step, "smallest step of a time", Between<Duration>{seconds(1), minutes(10)});
  fields.required("longest_hold", ability.longest_hold, "longest hold it takes", Between<Duration>{seconds(1), minutes(6000)});
  fields.required("heating_stages", ability.heating_stages, "how many it takes", Between<int>{1, 24});
  fields.required("cooling_stages", ability.cooling_stages, "how many it takes", Between<int>{0, 12});
  fields.required("vacuum_level_settable", ability.vacuum_level_settable, "false: the pump runs to what it reaches");
  fields.required("waits_for_vacuum", ability.waits_for_vacuum, "heating pauses at the start of vacuum until the level is reached");
  fields.choice("hold_starts", ability.hold_starts, {}, "when the clock of a hold starts");
  fields.choice("mains_cut", ability.mains_cut, {}, "what a mains cut does to a running program");
}

void describe_display_error(Fields& fields, DisplayError& display) {
  fields.required("error", display.error, "display minus true temperature", few_kelvins(200));
  fields.required("standard_uncertainty", display.standard_uncertainty, "of that error",
                  Between<TemperatureDifference>{kelvins(0), kelvins(50)});
  fields.text("checked", display.checked, "how and when it was found");
}

}  // namespace

void describe(Fields& fields, Furnace& furnace) {
  fields.naming(furnace.name, furnace.label, furnace.note);
  fields.required("chamber_volume", furnace.chamber_volume, "free volume of the chamber",
                  Between<Volume>{Volume::si(1e-5), Volume::si(0.1)});
  fields.required("maximum", furnace.maximum, "highest temperature it may be set to",
                  Between<Temperature>{Temperature::celsius(300), Temperature::celsius(1800)});
  fields.required("altitude", furnace.altitude, "of the place it stands at, above the sea",
                  Between<Length>{Length::si(-430), Length::si(5500)});
  fields.ambient_at(furnace.altitude);
  fields.words("sensor_type", furnace.sensor_type, {"S", "R", "B", "K", "N"}, "letter of the thermocouple");
  fields.required("sensor_lag", furnace.sensor_lag, "time constant of the display behind the chamber",
                  Between<Duration>{seconds(0), minutes(5)}, exact);
  fields.otherwise("correction_keyed", furnace.correction_keyed, "0 K", "as it stands on the panel now; already inside the display error",
                   few_kelvins(200));
  fields.choice("correction_convention", furnace.correction_convention, "added to display", "what the panel does with it");
  fields.optional_table("display_error", furnace.display_error, "how true the display is; left out: never checked", describe_display_error);
  fields.table("heating", furnace.heating, "at full power it heats by the gain, less the loss for each kelvin above the room",
               describe_heating);
  fields.table("natural_cooling", furnace.natural_cooling, "by the opening of the chamber", describe_cooling);
  fields.table("pump", furnace.pump, "vacuum", describe_pump);
  fields.table("ability", furnace.ability, "what the panel accepts and how it runs a program", describe_ability);
  fields.tables("due", furnace.dues, 0, 40, "what falls due: on a day, or how often", describe_due, {{}, "what"}, Role::for_people);
}

void check(const Furnace& furnace) {
  const auto& heating = furnace.heating;
  const double reach_K = heating.gain.value.si() / heating.loss.value.si();
  if (Temperature::celsius(22) + kelvins(reach_K) < furnace.maximum.value)
    throw Mistake(
        heating.gain.place,
        fmt::format(
            "gain: with this gain and loss the chamber would end {:.0f} K above the room and never reach its maximum of {}; gain over loss "
            "must carry it there",
            reach_K, quantity::write(furnace.maximum.value)));
  const auto& cooling = furnace.natural_cooling;
  if (cooling.half_open.value < cooling.shut.value || cooling.open.value < cooling.half_open.value)
    throw Mistake(cooling.open.place, "the chamber cannot cool slower when it is opened further; shut, half_open and open must rise");
  const auto& ability = furnace.ability;
  if (ability.fastest_rate.value < ability.slowest_rate.value)
    throw Mistake(ability.fastest_rate.place,
                  fmt::format("fastest_rate: {} is below the slowest rate of {}", quantity::write(ability.fastest_rate.value),
                              quantity::write(ability.slowest_rate.value)));
  check_dues(furnace.dues);
}

}  // namespace heatwork::trade
