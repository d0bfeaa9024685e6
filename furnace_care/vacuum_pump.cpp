#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "furnace_care/vacuum_parts.h"

namespace heatwork::furnace_care {
namespace {

using metrology::PumpChange;
using metrology::PumpDown;

// Standing of all: assumed. source: chosen-here
constexpr std::size_t fewest_readings = 5;
constexpr double most_time_constant_doubt = 0.15;
constexpr double most_ultimate_doubt_mbar = 10.0;
constexpr double no_pump_gets_quicker = 0.5;
constexpr double smallest_doubt_told_mbar = 0.1;
constexpr double warm_repeat_days = 3.0;

struct ComparedWith {
  std::vector<PumpDown> pumps;
  bool when_new = false;
};

/// Cold pumps of earlier checks, or twice the pump when new where there are fewer than two.
ComparedWith compared_with(const VacuumAsked& asked, std::size_t but_for_last) {
  std::vector<PumpDown> pumps;
  for (std::size_t i = 0; i + but_for_last < asked.earlier.size(); ++i) {
    const PumpSeen& seen = asked.earlier[i];
    if (!seen.warm) pumps.push_back({seen.time_constant_s, seen.ultimate_mbar});
  }
  if (pumps.size() >= 2) return {pumps, false};
  const trade::Pump& pump = asked.furnace.pump;
  if (!pump.time_constant_when_new || !pump.ultimate_when_new) return {};
  const PumpDown when_new{pump.time_constant_when_new->value.si(), pump.ultimate_when_new->value.si() / 100.0};
  return {{when_new, when_new}, true};
}

void cannot_tell_pump(VacuumTold& told, std::string sentence) {
  told.findings.push_back({"pump", CheckLevel::cannot_tell, std::move(sentence)});
  told.next.emplace_back("Record the pump-down again: a reading every 5 s until the gauge no longer falls.");
}

/// False where the record says nothing of the pump.
bool fitted(const GaugeRecord& record, VacuumTold& told) {
  if (record.times_s.size() < fewest_readings) {
    cannot_tell_pump(told, fmt::format("The pump-down has {} readings; at least {} are needed.", record.times_s.size(), fewest_readings));
    return false;
  }
  try {
    told.pump = metrology::fit_pump_down(record.times_s, record.pressures_mbar);
    const auto doubt = metrology::pump_down_doubt(record.times_s, record.pressures_mbar, *told.pump, record.step_mbar);
    if (doubt) {
      told.time_constant_sd_s = doubt->time_constant_sd_s;
      told.ultimate_sd_mbar = std::hypot(doubt->ultimate_sd_mbar, air_doubt_mbar(told.pump->ultimate_mbar, told.gauge, told.air));
    }
    const bool sure = doubt && doubt->time_constant_sd_s <= most_time_constant_doubt * told.pump->time_constant_s &&
                      doubt->ultimate_sd_mbar <= most_ultimate_doubt_mbar;
    if (sure) return true;
    cannot_tell_pump(told, "The readings of the pump-down scatter too much, or end too early, to say how fast the pump is.");
  } catch (const std::domain_error& refused) {
    cannot_tell_pump(told, fmt::format("The pump-down does not suffice. {}", refused.what()));
  }
  told.pump.reset();
  told.time_constant_sd_s.reset();
  told.ultimate_sd_mbar.reset();
  return false;
}

void look_at_lowest(VacuumTold& told) {
  const double lowest = told.pump->ultimate_mbar, doubt = 2.0 * *told.ultimate_sd_mbar;
  CareFinding finding{"lowest pressure", CheckLevel::cannot_tell, ""};
  if (lowest - doubt > highest_porcelain_vacuum_mbar) {
    finding.level = CheckLevel::not_good;
    finding.sentence = fmt::format("The pump gets down to {:.0f} mbar only; porcelain is fired at {:.0f} mbar, {:.0f} mbar at most.",
                                   lowest, porcelain_vacuum_mbar, highest_porcelain_vacuum_mbar);
    told.next.emplace_back("Until that is mended fire nothing under vacuum that must become dense.");
  } else if (lowest + doubt <= highest_porcelain_vacuum_mbar) {
    finding.level = CheckLevel::good;
    finding.sentence = fmt::format("The pump gets down to {:.1f} mbar (± {:.1f} mbar), low enough for porcelain.", lowest,
                                   std::max(doubt, smallest_doubt_told_mbar));
  } else {
    finding.sentence =
        fmt::format("The pump gets down to {:.0f} mbar, give or take {:.0f} mbar: whether that is below {:.0f} mbar is not sure.", lowest,
                    doubt, highest_porcelain_vacuum_mbar);
    told.next.emplace_back(told.air.by_barometer || told.gauge == trade::GaugeKind::absolute
                               ? "Record the pump-down to its end, until the gauge no longer falls."
                               : "Read a barometer with the gauge: the weather moves what this gauge shows.");
  }
  told.findings.push_back(std::move(finding));
}

std::string change_sentence(PumpChange change, const PumpDown& now, const PumpDown& usual, bool when_new) {
  const std::string numbers = fmt::format("time constant {:.1f} s, {} {:.1f} s; lowest pressure {:.1f} mbar, {} {:.1f} mbar",
                                          now.time_constant_s, when_new ? "when new" : "usual here", usual.time_constant_s,
                                          now.ultimate_mbar, when_new ? "when new" : "usual here", usual.ultimate_mbar);
  switch (change) {
    case PumpChange::weak_pump:
      return fmt::format("The pump is slower than it was: {}. It is weak, or hose, filter or valve are narrow.", numbers);
    case PumpChange::leak_or_water:
      return fmt::format("The pump is as fast as it was but no longer gets as low: {}. Air leaks in, or there is water.", numbers);
    case PumpChange::wet_pump:
      return fmt::format("Warm, the pump is back at what it was: {}. It was wet inside.", numbers);
    case PumpChange::weak_and_leaking:
      return fmt::format("The pump is slower than it was and no longer gets as low: {}.", numbers);
    case PumpChange::as_before:
    case PumpChange::unknown:
      break;
  }
  return fmt::format("The pump works as it did: {}.", numbers);
}

void advise(PumpChange change, bool rise_recorded, VacuumTold& told) {
  if (change == PumpChange::weak_pump || change == PumpChange::weak_and_leaking)
    told.next.emplace_back("Look for a kinked hose, a full filter and a sticking valve; then have the pump overhauled as its maker says.");
  const bool higher = change == PumpChange::leak_or_water || change == PumpChange::weak_and_leaking;
  if (higher && !rise_recorded)
    told.next.emplace_back(
        "Dry the chamber, let the pump run warm for 20 min, and check again the same day with the pump warm: back at its lowest pressure, "
        "it was wet; else air leaks in.");
  if (change == PumpChange::wet_pump)
    told.next.emplace_back(
        "Let the pump run warm with its gas ballast open before the first vacuum firing, and change its oil where it is "
        "milky.");
}

/// What the doubt of the fit and of the air leaves of a change.
struct SureOf {
  std::optional<PumpChange> change;  ///< absent: not one thing
  bool as_fast = false;
};

SureOf sure_of(const VacuumTold& told, const std::vector<PumpDown>& pumps) {
  const PumpChange change = metrology::pump_change(*told.pump, pumps, std::nullopt);
  bool same = true, slower = true, as_fast = true;
  for (const double sign_s : {-1.0, 1.0}) {
    for (const double sign_mbar : {-1.0, 1.0}) {
      const PumpDown other{told.pump->time_constant_s + sign_s * *told.time_constant_sd_s,
                           told.pump->ultimate_mbar + sign_mbar * *told.ultimate_sd_mbar};
      const PumpChange there = metrology::pump_change(other, pumps, std::nullopt);
      const bool slower_there = there == PumpChange::weak_pump || there == PumpChange::weak_and_leaking;
      same = same && there == change;
      slower = slower && slower_there;
      as_fast = as_fast && !slower_there;
    }
  }
  if (same) return {change, as_fast};
  return {slower ? std::optional(PumpChange::weak_pump) : std::nullopt, as_fast};
}

std::string unsure_sentence(const VacuumTold& told, const PumpDown& usual, bool as_fast) {
  const std::string lowest = fmt::format("{:.0f} mbar ± {:.0f} mbar, beside {:.0f} mbar", told.pump->ultimate_mbar,
                                         2.0 * *told.ultimate_sd_mbar, usual.ultimate_mbar);
  if (as_fast)
    return fmt::format(
        "The pump is as fast as it was, time constant {:.1f} s beside {:.1f} s; whether it still gets as low is not sure: {}.",
        told.pump->time_constant_s, usual.time_constant_s, lowest);
  return fmt::format("Whether the pump changed is not sure: time constant {:.1f} s ± {:.1f} s, beside {:.1f} s; {}.",
                     told.pump->time_constant_s, 2.0 * *told.time_constant_sd_s, usual.time_constant_s, lowest);
}

void look_at_change(const VacuumAsked& asked, VacuumTold& told) {
  const bool warm = asked.test.pump_warm && asked.test.pump_warm->value;
  const bool repeats =
      warm && !asked.earlier.empty() && !asked.earlier.back().warm && asked.day - asked.earlier.back().day <= warm_repeat_days;
  const auto [pumps, when_new] = compared_with(asked, repeats ? 1 : 0);
  if (pumps.size() < 2) {
    told.remarks.emplace_back(
        "There is nothing to compare the pump with yet: two kept checks of this furnace, or its figures when new, tell "
        "whether it changes.");
    return;
  }
  const PumpDown usual = metrology::usual_pump(pumps);
  if (told.pump->time_constant_s < no_pump_gets_quicker * usual.time_constant_s)
    throw std::domain_error(
        fmt::format("This pump empties its chamber with a time constant of {:.1f} s, that of furnace {} with {:.1f} s, and no "
                    "pump gets so much quicker: the readings are of another furnace, or it was repaired (then say so).",
                    told.pump->time_constant_s, asked.furnace.name, usual.time_constant_s));
  told.usual = usual;
  const SureOf sure = sure_of(told, pumps);
  told.change = sure.change.value_or(PumpChange::unknown);
  if (repeats) {
    const PumpDown cold{asked.earlier.back().time_constant_s, asked.earlier.back().ultimate_mbar};
    if (metrology::pump_change(cold, pumps, *told.pump) == PumpChange::wet_pump) told.change = PumpChange::wet_pump;
  }
  CareFinding finding{"pump", CheckLevel::not_good, change_sentence(told.change, *told.pump, usual, when_new)};
  if (told.change == PumpChange::as_before) finding.level = CheckLevel::good;
  if (told.change == PumpChange::unknown) {
    finding.level = CheckLevel::cannot_tell;
    finding.sentence = unsure_sentence(told, usual, sure.as_fast);
    if (!told.air.by_barometer && told.gauge == trade::GaugeKind::below_ambient)
      told.next.emplace_back("Read a barometer with the gauge: the weather moves what this gauge shows.");
    else
      told.next.emplace_back("Record the pump-down again: a reading every 5 s until the gauge no longer falls.");
  } else {
    advise(told.change, !asked.test.rise.empty(), told);
  }
  told.findings.push_back(std::move(finding));
}

void foresee(const VacuumAsked& asked, VacuumTold& told) {
  if (!told.usual || (asked.test.pump_warm && asked.test.pump_warm->value)) return;
  std::vector<double> days, constants_s;
  for (const PumpSeen& seen : asked.earlier) {
    if (seen.warm) continue;
    days.push_back(seen.day);
    constants_s.push_back(seen.time_constant_s);
  }
  days.push_back(asked.day);
  constants_s.push_back(told.pump->time_constant_s);
  told.forecast = forecast_of_limit(days, constants_s, metrology::slow_pump_share * told.usual->time_constant_s, true);
  if (told.forecast)
    told.remarks.push_back(
        fmt::format("The pump slows down: as it goes, it is a quarter slower than usual in about {} ({} at the earliest).",
                    in_time(told.forecast->days), in_time(told.forecast->earliest_days)));
}

}  // namespace

void look_at_pump(const VacuumAsked& asked, VacuumTold& told) {
  if (asked.test.pump_down.empty()) {
    told.remarks.emplace_back("No pump-down was recorded: nothing is said of the pump.");
    return;
  }
  GaugeRecord record;
  record.step_mbar = step_mbar(asked.test.pump_down, told.air);
  for (const auto& [time_s, pressure_mbar] : told.pump_down) {
    record.times_s.push_back(time_s);
    record.pressures_mbar.push_back(pressure_mbar);
  }
  if (!fitted(record, told)) return;
  told.speed_L_per_s = 1000.0 * asked.furnace.chamber_volume.value.si() / told.pump->time_constant_s;
  if (told.pump->ultimate_mbar < porcelain_vacuum_mbar)
    told.to_porcelain_vacuum_s = metrology::pumping_time_s(*told.pump, told.air.pressure_mbar, porcelain_vacuum_mbar);
  look_at_change(asked, told);
  look_at_lowest(told);
  foresee(asked, told);
}

}  // namespace heatwork::furnace_care
