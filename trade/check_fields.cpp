#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "trade/check.h"
#include "trade/check_readings.h"
#include "trade/field_ranges.h"
#include "trade/firing_record.h"
#include "trade/mistake.h"
#include "trade/noun.h"
#include "trade/samples.h"
#include "trade/slot.h"

namespace heatwork::trade {
namespace {

using quantity::Duration;
using quantity::Fraction;
using quantity::Frequency;
using quantity::HeatingRate;
using quantity::kelvins;
using quantity::kelvins_per_minute;
using quantity::Length;
using quantity::millibars;
using quantity::millimetres;
using quantity::minutes;
using quantity::Pressure;
using quantity::PressureRate;
using quantity::seconds;
using quantity::Temperature;
using quantity::TemperatureDifference;
using quantity::Voltage;

constexpr std::size_t most_trials = 40;
constexpr std::size_t most_compared = 60;

Between<TemperatureDifference> within(double kelvin) {
  return {kelvins(-kelvin), kelvins(kelvin)};
}
Between<TemperatureDifference> up_to(double kelvin) {
  return {kelvins(0), kelvins(kelvin)};
}
Between<Temperature> celsius(double low, double high) {
  return {Temperature::celsius(low), Temperature::celsius(high)};
}
Between<Pressure> up_to_the_air() {
  return {millibars(0), millibars(1100)};
}

void describe_wire(Fields& fields, WireTest& wire) {
  fields.choice("metal", wire.metal, "of the wire");
  fields.choice("gas", wire.gas, "around the wire while it was held");
  fields.optional("vented_hot", wire.vented_hot, "air was let in while the wire was still hot: then it felt air");
  fields.optional("pressure", wire.pressure, "of the vacuum, absolute", up_to_the_air());
  fields.optional("purity", wire.purity, "of the wire by mass", Between<Fraction>{Fraction::si(0), Fraction::si(1)}, Kept::exact);
  fields.optional("diameter", wire.diameter, "of the wire", Between<Length>{millimetres(0.02), millimetres(3)});
  fields.optional("hold", wire.hold, "at the display value", Between<Duration>{seconds(1), minutes(120)});
  fields.optional("rate", wire.rate, "at which the last 20 K were heated",
                  Between<HeatingRate>{kelvins_per_minute(0.1), kelvins_per_minute(200)});
  fields.choice("criterion", wire.criterion, "what counts as melted");
  fields.optional("melting", wire.melting, "as the procedure of the wire or the furnace states it", celsius(100, 1800));
  fields.optional("melting_u", wire.melting_u, "standard uncertainty of that", Between<TemperatureDifference>{kelvins(0.01), kelvins(20)});
  fields.text("stated_in", wire.stated_in, "which procedure states it");
}

void describe_trial(Fields& fields, WireTrial& trial) {
  fields.required("display", trial.display, "temperature the display was held at", display_range());
  fields.needed_truth("melted", trial.melted, "the wire had melted");
  fields.moment("at", trial.at, "when it was looked at", &trial.places);
}

void describe_probe(Fields& fields, Probe& probe) {
  fields.words("type", probe.type, {"S", "R", "B", "K", "N"}, "of the thermocouple", false);
  fields.optional("tolerance_class", probe.tolerance_class, "of its wire when new", Between<int>{1, 3});
  fields.optional("correction", probe.correction, "of its certificate: true minus what it reads", within(50));
  fields.optional("correction_u", probe.correction_u, "standard uncertainty of that", up_to(20));
  fields.day("certified", probe.certified, "day of its certificate");
  fields.choice("use", probe.use, "whether it was hot before");
  fields.optional("used_hours", probe.used_hours, "it was hot before, in all", Between<Duration>{seconds(0), minutes(6e6)});
  fields.optional("indicator_u", probe.indicator_u, "standard uncertainty of its indicator with the cold junction", up_to(20));
}

void describe_compared(Fields& fields, ProbeReading& reading) {
  fields.required("display", reading.display, "of the furnace, steady", display_range());
  fields.optional("probe", reading.probe, "temperature the thermocouple read", celsius(-50, 1850));
  fields.optional_in("emf", reading.emf_mV, "mV", "voltage of the thermocouple", Between<double>{-100, 100});
  fields.optional("cold_junction", reading.cold_junction, "temperature where the voltage was read", celsius(-50, 150));
  fields.moment("at", reading.at, "when it was read", &reading.places);
}

void describe_tab(Fields& fields, MapTab& tab) {
  fields.choice("where", tab.where, {}, "in the chamber it was fired");
  fields.optional("looked_like", tab.looked_like, "against the reference tab: as if it were so much hotter there, or colder", within(150));
  fields.optional_in("lightness", tab.lightness, "", "of its colour, CIELAB L*", Between<double>{0, 100});
  fields.optional_in("redness", tab.redness, "", "of its colour, CIELAB a*", Between<double>{-128, 128});
  fields.optional_in("yellowness", tab.yellowness, "", "of its colour, CIELAB b*", Between<double>{-128, 128});
}

/// A barometer shows the whole pressure of the air: a column of mercury counts upwards there, not down as on a dial.
struct BarometerCodec : QuantityCodec<Pressure> {
  [[nodiscard]] quantity::Reading<Pressure> read(const Node& node, const ReadingAid& aid) const {
    Node upwards = node;
    if (node.kind == Node::Kind::text && node.text.ends_with("Hg")) upwards.text += " absolute";
    return QuantityCodec<Pressure>::read(upwards, aid);
  }
};

void describe_vacuum(Fields& fields, VacuumTest& vacuum) {
  fields.choice("gauge", vacuum.gauge, "what the gauge counts from");
  MaybeSlot barometer(vacuum.barometer, BarometerCodec{{Between<Pressure>{millibars(200), millibars(1100)}, Kept::rounded}});
  fields.value({"barometer", "pressure of the air that day", false}, barometer);
  fields.optional("pump_warm", vacuum.pump_warm, "the pump had run warm before");
  fields.optional("room", vacuum.room, "temperature of the room", celsius(-20, 60));
  fields.optional("chamber", vacuum.chamber, "temperature of the chamber", celsius(-20, 1300));
  samples(fields, "pump_down", vacuum.pump_down, "what the gauge showed while the pump ran");
  samples(fields, "rise", vacuum.rise, "what it showed with the pump off and the chamber shut");
}

void describe_heating_run(Fields& fields, HeatingRunTest& run) {
  fields.optional("mains", run.mains, "voltage under load", Between<Voltage>{Voltage::si(50), Voltage::si(500)});
  fields.optional("room", run.room, "temperature of the room", celsius(-20, 60));
  fields.optional("capped", run.capped, "the program or the panel held the rate down");
  fields.optional("asked_rate", run.asked_rate, "that the program asked for",
                  Between<HeatingRate>{kelvins_per_minute(0.1), kelvins_per_minute(1000)});
  samples(fields, "samples", run.samples, "what the display showed");
}

void describe_outcome(Fields& fields, Check& one) {
  const Between<HeatingRate> rates{kelvins_per_minute(0), kelvins_per_minute(1000)};
  const Between<Frequency> losses{Frequency::si(0), Frequency::si(0.1)};
  const Between<Duration> pump_times{seconds(0), minutes(60)};
  fields.optional("error_at", one.error_at, "true temperature at which the error was found", celsius(0, 1850));
  fields.text("verdict", one.verdict, "what was found, in a word or two");
  fields.optional("spread", one.spread, "hottest minus coldest place of the chamber", up_to(300));
  fields.optional("gain", one.gain, "heating at full power at nominal mains", rates, Kept::exact);
  fields.optional("gain_sd", one.gain_sd, "standard uncertainty of that", rates, Kept::exact);
  fields.optional("loss", one.loss, "share of heat lost in a time", losses, Kept::exact);
  fields.optional("loss_sd", one.loss_sd, "standard uncertainty of that", losses, Kept::exact);
  fields.optional("pump_time_constant", one.pump_time_constant, "of the pump with this chamber", pump_times, Kept::exact);
  fields.optional("pump_time_constant_sd", one.pump_time_constant_sd, "standard uncertainty of that", pump_times, Kept::exact);
  fields.optional("ultimate", one.ultimate, "lowest pressure the pump reaches, absolute", up_to_the_air(), Kept::exact);
  fields.optional("ultimate_sd", one.ultimate_sd, "standard uncertainty of that", up_to_the_air(), Kept::exact);
  const Between<PressureRate> leaks{PressureRate::si(0), PressureRate::si(10'000)};
  fields.optional("leak", one.leak, "pressure rise of the shut chamber by what leaks in", leaks, Kept::exact);
  fields.optional("leak_sd", one.leak_sd, "standard uncertainty of that", leaks, Kept::exact);
}

void describe_readings(Fields& fields, Check& one) {
  fields.optional_table("wire", one.wire, "the wire of a melt test and how it is fired", describe_wire);
  fields.tables("trials", one.trials, 0, most_trials, "firings of a fresh wire each, in order", describe_trial, {"trial"});
  fields.optional_table("probe", one.probe, "the thermocouple the display is compared with", describe_probe);
  fields.tables("compared", one.compared, 0, most_compared, "display and thermocouple read together", describe_compared, {"reading"});
  fields.tables("map", one.map, 0, choices<MapPlace>().size(), "specimens fired over the chamber", describe_tab, {"tab", "where"});
  fields.optional_table("vacuum", one.vacuum, "record of the vacuum", describe_vacuum);
  fields.optional_table("heating_run", one.heating_run, "a run at full power", describe_heating_run);
}

}  // namespace

void describe(Fields& fields, Check& one) {
  fields.naming(one.name, one.label, one.note);
  fields.reference("furnace", one.furnace, Noun::furnace, "that was checked");
  fields.choice("of", one.of, {}, "what was checked");
  fields.needed_truth("good", one.good, "the furnace was inside what the lab allows");
  fields.optional("error", one.error, "display minus true temperature, as found", within(200));
  fields.optional("standard_uncertainty", one.standard_uncertainty, "of that error", up_to(50));
  fields.reference("reference", one.reference, Noun::reference, "it was checked with");
  fields.text("method", one.method, "how, in words");
  fields.moment("at", one.at, "when it was done", &one.places, true);
  fields.person("person", one.person, "who did it");
  fields.day("next", one.next, "day the next one is due");
  fields.optional("finished", one.finished, "false: it still goes on and tells nothing yet; left out: it is finished");
  fields.optional("cannot_tell", one.cannot_tell, "true: the readings do not suffice to say whether the furnace is good");
  fields.optional("as_left", one.as_left, "true: checked after an adjustment; left out: as it was found");
  fields.text("after_repair", one.after_repair, "what was repaired or exchanged before it");
  fields.optional("limit", one.limit, "error, or spread over the chamber, that the lab allows", up_to(100));
  fields.optional("correction_keyed", one.correction_keyed, "what stood on the panel while it was checked", within(200));
  fields.choice("decision", one.decision, "what was done about it");
  fields.optional("keyed_after", one.keyed_after, "what was keyed on the panel afterwards", within(200));
  describe_outcome(fields, one);
  describe_readings(fields, one);
}

void check(const Check& one) {
  if (one.standard_uncertainty && !one.error)
    throw Mistake(one.standard_uncertainty->place,
                  "standard_uncertainty: no error is given that it could belong to; add error, or the line goes");
  if (one.good && !is_finished(one))
    throw Mistake(one.finished->place, "finished: a check that still goes on is not good yet; write good = false until it is finished");
  if (one.good && is_undecided(one))
    throw Mistake(one.cannot_tell->place, "cannot_tell: a check that cannot tell is not good; one of the two lines is false");
  check_readings(one);
}

}  // namespace heatwork::trade
