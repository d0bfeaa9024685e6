#include "firing/chamber.h"

#include <algorithm>
#include <cmath>

#include "firing/column.h"
#include "firing/program_run.h"

namespace heatwork::firing {
namespace {

constexpr double bend_K = 0.05;             // largest distance of a drawn line from the exact temperatures
constexpr double bend_of_pressure = 0.005;  // and from the exact pressure, as a share of it
constexpr double same_moment_s = 1e-6;
constexpr double lift_s = 1;  // a change of opening is drawn over this time (assumed)

/// The times between which arcs are straight enough, in order; `bent` says whether a stretch still bends too much.
template <class Bent>
void divide(double from_s, double to_s, const Bent& bent, std::vector<double>& times) {
  constexpr double shortest_s = 0.05;
  if (to_s - from_s > shortest_s && bent(from_s, to_s)) {
    const double middle = 0.5 * (from_s + to_s);
    divide(from_s, middle, bent, times);
    divide(middle, to_s, bent, times);
    return;
  }
  times.push_back(to_s);
}

void times_of_arc(const Arc& arc, std::vector<double>& times) {
  const auto off = [](double low, double middle, double high, double share) {
    return std::abs(middle - low - share * (high - low)) > bend_K;
  };
  const auto bent = [&](double from, double to) {
    const double t0 = arc.true_at(from), t1 = arc.true_at(to), s0 = arc.sensor_at(from), s1 = arc.sensor_at(to);
    for (const double share : {0.25, 0.5, 0.75}) {
      const double u = from + share * (to - from);
      if (off(t0, arc.true_at(u), t1, share) || off(s0, arc.sensor_at(u), s1, share)) return true;
    }
    return false;
  };
  const std::size_t first = times.size();
  divide(0, arc.duration_s, bent, times);
  for (std::size_t i = first; i < times.size(); ++i) times[i] += arc.start_s;
}

void times_of_pressure(const VacuumLine& vacuum, double end_s, std::vector<double>& times) {
  const std::vector<PressureArc>& arcs = vacuum.arcs();
  for (std::size_t i = 1; i < arcs.size(); ++i) {
    const PressureArc& arc = arcs[i];
    const double until = i + 1 < arcs.size() ? arcs[i + 1].start_s : end_s;
    times.push_back(arc.start_s);
    if (arc.time_constant_s <= 0 || until <= arc.start_s) continue;
    const auto bent = [&](double from, double to) {
      const double middle = arc.at(0.5 * (from + to));
      return std::abs(0.5 * (arc.at(from) + arc.at(to)) - middle) > bend_of_pressure * middle;
    };
    divide(arc.start_s, until, bent, times);
  }
}

std::vector<double> times_of(const ProgramRun& run, double end_s) {
  std::vector<double> times;
  times.reserve(512);
  times.push_back(0);
  double opening = run.arcs().empty() ? 0 : run.arcs().front().opening_start;
  for (const Arc& arc : run.arcs()) {
    if (arc.opening_start != opening && arc.duration_s > lift_s) times.push_back(arc.start_s + lift_s);
    opening = arc.opening_end;
    times_of_arc(arc, times);
  }
  times_of_pressure(run.vacuum(), end_s, times);
  for (const ChamberMoment& moment : run.moments()) times.push_back(moment.time_s);
  std::sort(times.begin(), times.end());
  const auto same = [](double a, double b) { return b - a < same_moment_s; };
  times.erase(std::unique(times.begin(), times.end(), same), times.end());
  while (!times.empty() && times.back() > end_s) times.pop_back();
  return times;
}

void reserve(ChamberHistory& history, std::size_t points) {
  for (std::vector<double>* column :
       {&history.time_s, &history.asked_C, &history.display_C, &history.chamber_C, &history.pressure_Pa, &history.opening}) {
    column->reserve(points);
  }
  history.phase.reserve(points);
}

void add_point(ChamberHistory& history, const ProgramRun& run, const Arc& arc, double time_s, double error_K) {
  const double u = std::clamp(time_s - arc.start_s, 0.0, arc.duration_s);
  const double display = arc.sensor_at(u) + error_K;
  history.time_s.push_back(time_s);
  history.display_C.push_back(display);
  history.asked_C.push_back(arc.asked_free ? display : arc.asked_C + arc.asked_slope_K_per_s * u);
  history.chamber_C.push_back(arc.true_at(u));
  history.pressure_Pa.push_back(run.vacuum().at(time_s));
  history.opening.push_back(arc.opening_start + (arc.opening_end - arc.opening_start) * (arc.duration_s > 0 ? u / arc.duration_s : 0));
  history.phase.push_back(arc.phase);
}

void note_extremes(ChamberHistory& history) {
  history.lowest_pressure_Pa = *std::min_element(history.pressure_Pa.begin(), history.pressure_Pa.end());
  for (std::size_t i = 0; i < history.time_s.size(); ++i) {
    if (history.phase[i] != Phase::heating) continue;
    history.largest_lag_behind_asked_K = std::max(history.largest_lag_behind_asked_K, history.asked_C[i] - history.display_C[i]);
  }
}

ChamberConditions surroundings(const trade::ChamberState& state, double ambient_Pa) {
  ChamberConditions conditions;
  conditions.room_C = state.room.value.celsius();
  conditions.room_humidity = state.room_humidity.value.si();
  conditions.ambient_Pa = ambient_Pa;
  return conditions;
}

}  // namespace

const ChamberMoment* ChamberHistory::find(ChamberEvent event) const {
  const auto found = std::find_if(moments.begin(), moments.end(), [event](const ChamberMoment& moment) { return moment.event == event; });
  return found == moments.end() ? nullptr : &*found;
}

double ChamberHistory::display_at(double at_s) const {
  return value_at(time_s, display_C, at_s);
}

/// theory: (chamber.12)
double natural_cooling_per_s(const trade::NaturalCooling& natural, double opening) {
  const double shut = natural.shut.value.si(), half_open = natural.half_open.value.si(), open = natural.open.value.si();
  return opening <= 0.5 ? shut + (half_open - shut) * 2 * opening : half_open + (open - half_open) * (2 * opening - 1);
}

double full_power_K_per_s(const ChamberConditions& conditions, double chamber_C) {
  return conditions.gain_K_per_s - conditions.loss_per_s * (chamber_C - conditions.room_C);
}

ChamberConditions conditions_today(const trade::Furnace& furnace, const trade::ChamberState& state, double ambient_Pa) {
  ChamberConditions today = surroundings(state, ambient_Pa);
  const double mains = furnace.heating.mains.value / furnace.heating.nominal_mains.value;
  today.display_error_K = furnace.display_error ? furnace.display_error->error.value.si() : 0;
  today.gain_K_per_s = furnace.heating.gain.value.si() * mains * mains;
  today.loss_per_s = furnace.heating.loss.value.si();
  today.pump_time_constant_s = furnace.pump.time_constant.value.si();
  today.pump_ultimate_Pa = furnace.pump.ultimate.value.si();
  today.leak_Pa_per_s = furnace.pump.leak.value.si();
  return today;
}

ChamberConditions conditions_true(const trade::Furnace& furnace, const trade::ChamberState& state, double ambient_Pa) {
  ChamberConditions as_new = surroundings(state, ambient_Pa);
  const trade::Heating& heating = furnace.heating;
  const trade::Pump& pump = furnace.pump;
  as_new.gain_K_per_s = (heating.gain_when_new ? heating.gain_when_new->value : heating.gain.value).si();
  as_new.loss_per_s = (heating.loss_when_new ? heating.loss_when_new->value : heating.loss.value).si();
  as_new.pump_time_constant_s = (pump.time_constant_when_new ? pump.time_constant_when_new->value : pump.time_constant.value).si();
  as_new.pump_ultimate_Pa = (pump.ultimate_when_new ? pump.ultimate_when_new->value : pump.ultimate.value).si();
  return as_new;
}

ChamberHistory run_program(const trade::Program& program, const trade::Furnace& furnace, const ChamberConditions& conditions) {
  ProgramRun run(program, furnace, conditions);
  run.run();
  ChamberHistory history;
  history.room_C = conditions.room_C;
  history.room_humidity = conditions.room_humidity;
  history.ambient_Pa = conditions.ambient_Pa;
  history.moments = run.moments();
  history.level_never_reached = run.level_never_reached();
  history.held_back = run.held_back();
  const std::vector<double> times = times_of(run, run.arcs().back().start_s + run.arcs().back().duration_s);
  reserve(history, times.size());
  std::size_t arc = 0;
  for (const double time_s : times) {
    // A point on the seam of two arcs belongs to the one that ends there.
    while (arc + 1 < run.arcs().size() && time_s > run.arcs()[arc].start_s + run.arcs()[arc].duration_s + 0.5 * same_moment_s) ++arc;
    add_point(history, run, run.arcs()[arc], time_s, conditions.display_error_K);
  }
  note_extremes(history);
  return history;
}

}  // namespace heatwork::firing
