#include "furnace_care/vacuum_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "furnace_care/vacuum_parts.h"
#include "metrology/water_saturation.h"

namespace heatwork::furnace_care {
namespace {

using metrology::Rise;
using metrology::RiseVerdict;

constexpr double in_95_percent = 3.92;  ///< standard deviations from end to end of a 95 % range

/// The record with all pressures moved as another air would move them; nothing where that leaves none.
std::optional<GaugeRecord> record_of(const VacuumTold& told, double step_mbar, double deviations) {
  GaugeRecord record;
  record.step_mbar = step_mbar;
  for (const auto& [time_s, pressure_mbar] : told.rise) {
    const double moved_mbar = pressure_mbar + deviations * air_doubt_mbar(pressure_mbar, told.gauge, told.air);
    if (moved_mbar < 0.0) return std::nullopt;
    record.times_s.push_back(time_s);
    record.pressures_mbar.push_back(moved_mbar);
  }
  return record;
}

/// False where gas and water would change places in another weather.
bool holds_in_any_weather(const VacuumTold& told, const GaugeRecord& record, double room_C) {
  for (const double deviations : {-2.0, 2.0}) {
    const auto moved = record_of(told, record.step_mbar, deviations);
    if (!moved) continue;
    if (metrology::judge_rise(moved->times_s, moved->pressures_mbar, room_C, moved->step_mbar).verdict != told.chamber->verdict)
      return false;
  }
  return true;
}

void take_leak(const Rise& rise, const GaugeRecord& record, VacuumTold& told) {
  if (!rise.leak_mbar_per_s) return;
  told.leak_mbar_per_s = std::max(0.0, *rise.leak_mbar_per_s);
  const double length_s = record.times_s.back() - record.times_s.front();
  told.leak_sd_mbar_per_s =
      rise.leak_low_mbar_per_s ? (*rise.leak_high_mbar_per_s - *rise.leak_low_mbar_per_s) / in_95_percent : record.step_mbar / length_s;
}

CareFinding leak_finding(const VacuumAsked& asked, const Rise& rise, bool with_gas, VacuumTold& told) {
  const double time_constant_s = told.pump ? told.pump->time_constant_s : asked.furnace.pump.time_constant.value.si();
  const double lifts_mbar = *told.leak_mbar_per_s * time_constant_s;
  CareFinding finding{"chamber", CheckLevel::cannot_tell, ""};
  finding.sentence = fmt::format(
      "Air leaks in{}: {:.2f} mbar/s, {:.1f} mbar in a minute ({:.3f} mbar L/s); under the pump that lifts the lowest "
      "pressure by {:.1f} mbar",
      with_gas ? " and gas comes out of the lining" : "", *told.leak_mbar_per_s, 60.0 * *told.leak_mbar_per_s,
      *told.leak_mbar_per_s * 1000.0 * asked.furnace.chamber_volume.value.si(), lifts_mbar);
  const std::string mend =
      "Clean the seal and its seat, look for a chip of porcelain or a crack, and record the rise again; then go along the hose and its "
      "joints.";
  if (*rise.leak_low_mbar_per_s * time_constant_s > leak_may_lift_mbar) {
    finding.level = CheckLevel::not_good;
    finding.sentence += fmt::format(", more than {:.0f} mbar.", leak_may_lift_mbar);
    told.next.push_back(mend);
  } else if (*rise.leak_high_mbar_per_s * time_constant_s <= leak_may_lift_mbar) {
    finding.level = CheckLevel::good;
    finding.sentence += fmt::format(", which is allowed (up to {:.0f} mbar).", leak_may_lift_mbar);
    told.next.emplace_back("Clean the seal and its seat at the next good moment: a small leak becomes no smaller.");
  } else {
    finding.sentence += fmt::format(": about the {:.0f} mbar that are allowed.", leak_may_lift_mbar);
    told.next.push_back(mend);
  }
  return finding;
}

CareFinding water_finding(const Rise& rise, double room_C, VacuumTold& told) {
  told.next.emplace_back(
      "Dry the furnace: a dry-out firing as its maker says, slowly and with the chamber open, then record the rise again.");
  return {"chamber", CheckLevel::not_good,
          fmt::format("There is water: the pressure comes to rest at {:.0f} mbar, and water of {:.0f} °C has {:.0f} mbar.",
                      *rise.plateau_mbar, room_C, *told.saturation_mbar)};
}

CareFinding undecided_finding(const Rise& rise, const GaugeRecord& record, VacuumTold& told) {
  const double length_s = record.times_s.back() - record.times_s.front();
  const double ask_s = std::max({600.0, 2.0 * length_s, 4.0 * rise.outgassing_time_s.value_or(0.0)});
  const double ask_min = std::min(60.0, std::ceil(ask_s / 60.0));
  told.next.push_back(fmt::format("Record the rise again, for {:.0f} min, with a reading every 10 s.", ask_min));
  return {
      "chamber", CheckLevel::cannot_tell,
      fmt::format("{} readings over {:.0f} s do not tell a slow leak from gas that leaves the lining.", record.times_s.size(), length_s)};
}

CareFinding chamber_finding(const VacuumAsked& asked, const Rise& rise, const GaugeRecord& record, double room_C, VacuumTold& told) {
  if (!rise.rises && rise.leak_mbar_per_s)
    return {"chamber", CheckLevel::good, "The shut chamber holds its pressure: no leak, no water and no gas that this gauge could show."};
  switch (rise.verdict) {
    case RiseVerdict::leak:
      return leak_finding(asked, rise, false, told);
    case RiseVerdict::mixed:
      return leak_finding(asked, rise, true, told);
    case RiseVerdict::water:
    case RiseVerdict::outgassing:
      break;
    case RiseVerdict::undecided:
      return undecided_finding(rise, record, told);
  }
  if (!holds_in_any_weather(told, record, room_C)) {
    told.next.emplace_back("Read a barometer with the gauge, then the end of the rise tells water from gas.");
    return {"chamber", CheckLevel::cannot_tell,
            fmt::format(
                "No leak; gas or water comes to rest at about {:.0f} mbar. Which of the two is not sure as long as the weather moves what "
                "this gauge shows (water of {:.0f} °C has {:.0f} mbar).",
                *rise.plateau_mbar, room_C, *told.saturation_mbar)};
  }
  if (rise.verdict == RiseVerdict::water) return water_finding(rise, room_C, told);
  return {"chamber", CheckLevel::good,
          fmt::format("No leak: gas comes out of the lining, {:.1f} mbar in all, and comes to rest at {:.0f} mbar.", *rise.outgassing_mbar,
                      *rise.plateau_mbar)};
}

std::string pump_words(const VacuumTold& told) {
  if (told.level == CheckLevel::cannot_tell) return "pump undecided";
  return told.change == metrology::PumpChange::as_before ? "pump as before" : word(told.change);
}

std::string chamber_word(const VacuumTold& told) {
  return word(told.chamber && told.level != CheckLevel::cannot_tell ? told.chamber->verdict : RiseVerdict::undecided);
}

/// What the findings come to in a word or two: the chamber's own, where it was seen, says more than the pump's "leak or water".
std::string verdict_of(const VacuumTold& told) {
  std::vector<std::string> words;
  for (const CareFinding& finding : told.findings) {
    if (finding.level != told.level) continue;
    if (finding.about == "pump") words.push_back(pump_words(told));
    if (finding.about == "lowest pressure")
      words.emplace_back(told.level == CheckLevel::not_good ? "pressure too high" : "low enough for porcelain");
    if (finding.about == "chamber")
      words.push_back(told.level == CheckLevel::good && !told.chamber->rises ? "tight and dry" : chamber_word(told));
  }
  return fmt::format("{}", fmt::join(words, ", "));
}

void conclude(VacuumTold& told) {
  told.level = level_of(told.findings);
  told.verdict = verdict_of(told);
  told.sentence = sentence_of(told.findings);
  if (told.next.empty()) told.next.emplace_back("Nothing has to be done; check again when it is due.");
  std::vector<std::string> once;
  for (std::string& line : told.next) {
    if (std::find(once.begin(), once.end(), line) == once.end()) once.push_back(std::move(line));
  }
  told.next = std::move(once);
}

}  // namespace

std::string word(RiseVerdict verdict) {
  switch (verdict) {
    case RiseVerdict::leak:
      return "leak";
    case RiseVerdict::outgassing:
      return "gas from the lining";
    case RiseVerdict::water:
      return "water";
    case RiseVerdict::mixed:
      return "leak and gas from the lining";
    case RiseVerdict::undecided:
      break;
  }
  return "undecided";
}

std::string word(metrology::PumpChange change) {
  using metrology::PumpChange;
  switch (change) {
    case PumpChange::as_before:
      return "as before";
    case PumpChange::weak_pump:
      return "weak pump";
    case PumpChange::leak_or_water:
      return "leak or water";
    case PumpChange::wet_pump:
      return "wet pump";
    case PumpChange::weak_and_leaking:
      return "weak pump, and leak or water";
    case PumpChange::unknown:
      break;
  }
  return "cannot tell";
}

void look_at_chamber(const VacuumAsked& asked, VacuumTold& told) {
  if (!asked.rise_possible) {
    told.remarks.emplace_back(
        "This furnace cannot be shut with its pump off, so no rise tells a leak from water; the pump-down speaks alone.");
    return;
  }
  if (asked.test.rise.empty()) {
    told.remarks.emplace_back("No rise of the shut chamber was recorded: a leak, gas and water are not told apart.");
    return;
  }
  if (!asked.test.room)
    throw std::domain_error("The temperature of the room is needed to tell water from gas in the rise; add room, such as \"22 °C\".");
  const double room_C = asked.test.room->value.celsius();
  const GaugeRecord record = *record_of(told, step_mbar(asked.test.rise, told.air), 0.0);
  if (record.times_s.size() < 2) {
    told.findings.push_back(undecided_finding({}, record, told));
    return;
  }
  told.saturation_mbar = metrology::water_saturation_Pa(std::max(0.0, room_C)) / 100.0;
  told.chamber = metrology::judge_rise(record.times_s, record.pressures_mbar, room_C, record.step_mbar);
  take_leak(*told.chamber, record, told);
  told.findings.push_back(chamber_finding(asked, *told.chamber, record, room_C, told));
}

VacuumTold tell_vacuum(const VacuumAsked& asked) {
  const trade::VacuumTest& test = asked.test;
  if (test.pump_down.empty() && test.rise.empty())
    throw std::domain_error("No reading of a gauge is given: neither pumping down nor the shut chamber.");
  if (!asked.rise_possible && !test.rise.empty())
    throw std::domain_error("A rise is recorded, but this furnace is said not to hold its vacuum with the pump off; one of the two goes.");
  VacuumTold told;
  told.gauge = test.gauge ? test.gauge->value : asked.furnace.pump.gauge.value;
  const auto barometer_mbar = test.barometer ? std::optional(test.barometer->value.si() / 100.0) : std::nullopt;
  told.air = air_around(barometer_mbar, asked.furnace.altitude.value.si());
  for (const trade::GaugeSample& sample : test.pump_down)
    told.pump_down.push_back({sample.after.si(), absolute_mbar(sample, told.gauge, told.air, "pump-down")});
  for (const trade::GaugeSample& sample : test.rise)
    told.rise.push_back({sample.after.si(), absolute_mbar(sample, told.gauge, told.air, "rise")});
  look_at_pump(asked, told);
  look_at_chamber(asked, told);
  conclude(told);
  return told;
}

}  // namespace heatwork::furnace_care
