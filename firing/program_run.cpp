#include "firing/program_run.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "firing/crossing.h"

namespace heatwork::firing {
namespace {

constexpr double longest_rest_s = 30;  // a control without power in reserve overshoots less (assumed)
constexpr int closing_steps = 16;      // of the opening while the chamber shuts and full power does not keep the entry temperature
constexpr double same_K = 1e-9;
constexpr double least_spare_K_per_s = 1e-3;  // keeps the time to come to rest finite where nothing is to spare
constexpr double lift_s = 1;                  // the chamber's lift takes this long in the history (assumed)
constexpr double near_top_K = 0.5;            // a display of whole degrees shows the top from here

double between(double low, double high, double share) {
  return low + (high - low) * share;
}

}  // namespace

ProgramRun::ProgramRun(const trade::Program& program, const trade::Furnace& furnace, const ChamberConditions& conditions)
    : program_(program),
      furnace_(furnace),
      today_(conditions),
      lag_s_(furnace.sensor_lag.value.si()),
      overshoot_K_(furnace.heating.overshoot.value.si()),
      vacuum_(conditions.ambient_Pa, conditions.pump_ultimate_Pa + conditions.leak_Pa_per_s * conditions.pump_time_constant_s,
              conditions.pump_time_constant_s, furnace.pump.release_time.value.si(), furnace.ability.vacuum_level_settable.value) {
  check();
  arcs_.reserve(64);
  moments_.reserve(16);
  for (int i = 0; i < static_cast<int>(program.heating.size()); ++i) {
    if (top_stage_ < 0 || stage_at(i).to.value >= stage_at(top_stage_).to.value) top_stage_ = i;
  }
  if (!program.vacuum) return;
  check_vacuum();
  vacuum_from_C_ = program.vacuum->from.value.celsius();
  vacuum_hold_s_ = program.vacuum->hold_under_vacuum.value.si();
  if (program.vacuum->to) vacuum_to_C_ = program.vacuum->to->value.celsius();
}

void ProgramRun::run() {
  dry_and_close();
  preheat();
  for (int stage = 0; stage < static_cast<int>(program_.heating.size()); ++stage) heating_stage(stage);
  for (int stage = 0; stage < static_cast<int>(program_.cooling.size()); ++stage) cooling_stage(stage);
  open_and_unload();
  std::stable_sort(moments_.begin(), moments_.end(), [](const ChamberMoment& a, const ChamberMoment& b) { return a.time_s < b.time_s; });
}

// ---- what the chamber can do

double ProgramRun::cooling_constant(double opening) const {
  return natural_cooling_per_s(furnace_.natural_cooling, opening);
}

/// An opened chamber loses what the shut one loses, and what natural cooling gains by the opening.  theory: (chamber.5)
double ProgramRun::loss_at(double opening) const {
  return today_.loss_per_s + cooling_constant(opening) - cooling_constant(0);
}

double ProgramRun::level_of(int stage) const {
  if (stage >= 0 && stage < static_cast<int>(program_.heating.size()) && stage_at(stage).vacuum_level) {
    return stage_at(stage).vacuum_level->value.si();
  }
  return program_.vacuum->level.value.si();
}

// ---- arcs and moments

Arc ProgramRun::arc_now(Phase phase) const {
  Arc arc;
  arc.start_s = now_s_;
  arc.true_C = true_C_;
  arc.sensor_C = sensor_C_;
  arc.lag_s = lag_s_;
  arc.phase = phase;
  arc.asked_C = asked_C_;
  arc.opening_start = arc.opening_end = opening_;
  return arc;
}

/// Takes the chamber to the end of the arc. Between calls the arcs are without gap and the state is that of the last arc's end.
void ProgramRun::advance(Arc arc, double duration_s) {
  if (!(duration_s > 0)) return;
  arc.duration_s = duration_s;
  now_s_ = arc.start_s + duration_s;
  true_C_ = arc.true_at(duration_s);
  sensor_C_ = arc.sensor_at(duration_s);
  last_slope_K_per_s_ = arc.sensor_slope_at(duration_s);
  asked_C_ = arc.asked_free ? display() : arc.asked_C + arc.asked_slope_K_per_s * duration_s;
  opening_ = arc.opening_end;
  arcs_.push_back(arc);
}

void ProgramRun::mark(ChamberEvent event, double time_s) {
  moments_.push_back({event, time_s});
}

// ---- before heating

void ProgramRun::dry_and_close() {
  const double drying_s = program_.drying_time.value.si();
  const double closing_s = program_.closing_time.value.si();
  asked_C_ = program_.entry.value.celsius();
  true_C_ = sensor_C_ = asked_C_ - today_.display_error_K;
  opening_ = drying_s + closing_s > 0 ? program_.drying_opening.value.si() : 0;
  keep_entry(drying_s, opening_, Phase::drying);
  if (closing_s > 0) {
    keep_entry(closing_s, 0, Phase::closing);
  } else {
    opening_ = 0;
  }
  mark(ChamberEvent::closed, now_s_);
}

void ProgramRun::preheat() {
  if (program_.heating.empty()) {
    keep_entry(program_.preheat_hold.value.si(), 0, Phase::preheating);
    return;
  }
  if (vacuum_from_C_ && asked_C_ >= *vacuum_from_C_) start_vacuum(0);
  keep_entry(program_.preheat_hold.value.si(), 0, Phase::preheating);
}

/// The control keeps the entry temperature; the opened chamber loses more, and where full power is not enough it cools.  theory:
/// (chamber.5)
void ProgramRun::keep_entry(double duration_s, double opening_end, Phase phase) {
  if (!(duration_s > 0)) return;
  const double entry_C = program_.entry.value.celsius() - today_.display_error_K;
  const auto enough = [&](double opening) { return today_.gain_K_per_s >= loss_at(opening) * (entry_C - today_.room_C); };
  const bool kept = std::abs(true_C_ - entry_C) < same_K && std::abs(sensor_C_ - entry_C) < same_K;
  if (kept && enough(std::max(opening_, opening_end))) {
    Arc arc = arc_now(phase);
    arc.opening_end = opening_end;
    advance(arc, duration_s);
    return;
  }
  const int steps = opening_ == opening_end ? 1 : closing_steps;
  const double from = opening_;
  for (int i = 1; i <= steps; ++i) keep_entry_step(duration_s / steps, between(from, opening_end, static_cast<double>(i) / steps), phase);
}

void ProgramRun::keep_entry_step(double duration_s, double opening_end, Phase phase) {
  const double entry_C = program_.entry.value.celsius() - today_.display_error_K;
  const double until_s = now_s_ + duration_s;
  const double from = opening_;
  const auto opening_at = [&](double time_s) { return between(opening_end, from, (until_s - time_s) / duration_s); };
  const double loss = loss_at(0.5 * (from + opening_end));
  const double limit_C = today_.room_C + today_.gain_K_per_s / loss;
  if (true_C_ < entry_C - same_K || limit_C < entry_C) {
    Arc arc = arc_now(phase);
    arc.law = ArcLaw::towards;
    arc.limit_C = limit_C;
    arc.pace_per_s = loss;
    const double back_s = limit_C > entry_C ? meets_line(arc, entry_C, 0).value_or(duration_s) : duration_s;
    arc.opening_end = opening_at(now_s_ + std::min(back_s, duration_s));
    advance(arc, std::min(back_s, duration_s));
  }
  if (until_s - now_s_ < same_K) return;
  Arc arc = arc_now(phase);  // the true temperature is kept; the sensor comes after
  arc.opening_end = opening_end;
  advance(arc, until_s - now_s_);
}

// ---- the vacuum

void ProgramRun::start_vacuum(int stage) {
  vacuum_started_ = true;
  vacuum_started_s_ = now_s_;
  waited_ = !furnace_.ability.waits_for_vacuum.value;
  mark(ChamberEvent::vacuum_started, now_s_);
  ask_level(level_of(stage));
}

void ProgramRun::ask_level(double level_Pa) {
  if (vacuum_.pumping()) {
    if (level_Pa == level_asked_Pa_) return;
    settle_level(level_Pa);
  }
  level_asked_Pa_ = level_Pa;
  level_due_s_ = vacuum_.pump_to(now_s_, level_Pa);
}

/// Closes the book on the level asked until now, before another is asked or air comes in (then `next_level_Pa` is infinite).
void ProgramRun::settle_level(double next_level_Pa) {
  if (level_due_s_ && *level_due_s_ <= now_s_ + same_K) {
    const auto marked = [](const ChamberMoment& moment) { return moment.event == ChamberEvent::vacuum_reached; };
    if (std::none_of(moments_.begin(), moments_.end(), marked)) mark(ChamberEvent::vacuum_reached, *level_due_s_);
  } else if (next_level_Pa > level_asked_Pa_) {
    level_never_reached_ = true;
  }
}

void ProgramRun::release() {
  if (!vacuum_.pumping()) return;
  settle_level(today_.ambient_Pa);
  vacuum_ended_ = true;
  waited_ = true;
  vacuum_.release(now_s_);
  mark(ChamberEvent::released, now_s_);
}

/// Heating pauses at the asked temperature until the level is reached, at most for the stated time.
void ProgramRun::wait_for_vacuum() {
  waited_ = true;
  const double last_s = vacuum_started_s_ + longest_wait_for_vacuum_s;
  const double until_s = level_due_s_ ? std::min(*level_due_s_, last_s) : last_s;
  if (until_s <= now_s_) return;
  arrive(asked_C_);
  rest_at(asked_C_, until_s - now_s_, Phase::heating);
}

// ---- cooling and the end

void ProgramRun::change_opening(double opening) {
  opening_ = opening;
  if (opening > 0) release();
}

void ProgramRun::natural_cooling_to(double display_C, const char* what, Phase phase) {
  if (display() <= display_C) return;
  Arc arc = arc_now(phase);
  arc.law = ArcLaw::towards;
  arc.limit_C = today_.room_C;
  arc.pace_per_s = cooling_constant(opening_);
  arc.asked_free = true;
  constexpr double day_s = 86400;
  const double error_K = today_.display_error_K;
  const auto after_s = first_rise([&](double u_s) { return display_C - error_K - arc.sensor_at(u_s); }, day_s);
  if (!after_s) {
    throw std::domain_error(fmt::format("{} asks for {:.1f} °C; with the room at {:.1f} °C the display does not fall to it within 24 h.",
                                        what, display_C, today_.room_C));
  }
  advance(arc, *after_s);
}

void ProgramRun::cooling_stage(int stage) {
  const trade::CoolingStage& cooling = program_.cooling[static_cast<std::size_t>(stage)];
  change_opening(cooling.opening.value.si());
  const double to_C = cooling.to.value.celsius();
  if (cooling.rate) {
    Ramp ramp;
    ramp.to_C = to_C;
    ramp.rate_K_per_s = cooling.rate->value.si();
    ramp.sign = -1;
    ramp.stage = stage;
    if (display() > to_C) climb(ramp);
  } else {
    natural_cooling_to(to_C, fmt::format("Cooling stage {}", stage + 1).c_str(), Phase::cooling);
  }
  asked_C_ = to_C;
  if (!cooling.hold || !(cooling.hold->value.si() > 0)) return;
  arrive(to_C);
  rest_at(to_C, cooling.hold->value.si(), Phase::cooling);
}

void ProgramRun::open_and_unload() {
  if (program_.opening_temperature)
    natural_cooling_to(program_.opening_temperature->value.celsius(), "The opening temperature", Phase::cooling);
  change_opening(1);
  mark(ChamberEvent::open, now_s_);
  const double open_s = now_s_;
  const double unloading_C = (program_.unloading_temperature ? program_.unloading_temperature->value : program_.standby.value).celsius();
  natural_cooling_to(unloading_C, "The unloading temperature", Phase::opened);
  if (now_s_ < open_s + lift_s) {
    Arc arc = arc_now(Phase::opened);
    arc.law = ArcLaw::towards;
    arc.limit_C = today_.room_C;
    arc.pace_per_s = cooling_constant(1);
    arc.asked_free = true;
    advance(arc, open_s + lift_s - now_s_);
  }
  mark(ChamberEvent::end, now_s_);
}

// ---- holds

/// Chooses how the control comes to rest from the slope the sensor has now: its overshoot is the furnace's own. theory: (chamber.9)
/// Where the sensor is still away from its target, no quicker than full power or natural cooling can bring it there.
void ProgramRun::arrive(double display_C) {
  const double slope = std::abs(sensor_slope());
  const double cooling = std::max(cooling_constant(opening_) * (true_C_ - today_.room_C), least_spare_K_per_s);
  const double heating = std::max(loss_at(opening_) * (full_power_limit_C() - true_C_), least_spare_K_per_s);
  const double against = sensor_slope() < 0 ? heating : cooling;
  const double away_K = std::abs(display_C - display());
  const double towards = display() < display_C ? heating : cooling;
  rest_s_ = slope < same_K ? 2 * lag_s_ : std::min(overshoot_K_ * std::numbers::e / slope, longest_rest_s);
  rest_s_ = std::max({rest_s_, 2 * lag_s_ * slope / (slope + against), away_K / (std::numbers::e * towards)});
  if (away_K > same_K) rest_s_ = std::max(rest_s_, std::sqrt(lag_s_ * away_K / towards));
}

void ProgramRun::rest_at(double display_C, double duration_s, Phase phase) {
  Arc arc = arc_now(phase);
  arc.law = ArcLaw::settle;
  arc.slope_K_per_s = sensor_slope();
  arc.target_C = display_C - today_.display_error_K;
  arc.rest_s = rest_s_;
  arc.asked_C = display_C;
  advance(arc, duration_s);
}

void ProgramRun::hold_stage(const Ramp& ramp) {
  const double begins_s = ramp.clock_by_asked ? ramp.asked_reached_s.value_or(now_s_) : now_s_;
  const double ends_s = begins_s + ramp.hold_s;
  const bool top = ramp.stage == top_stage_;
  if (top) mark(ChamberEvent::hold_begins, begins_s);
  if (ramp.display_reached) {
    if (vacuum_from_C_ && !vacuum_started_ && std::abs(*vacuum_from_C_ - ramp.to_C) < same_K) start_vacuum(ramp.stage);
    arrive(ramp.to_C);
    if (vacuum_to_C_ && vacuum_.pumping() && std::abs(*vacuum_to_C_ - ramp.to_C) < same_K) {
      rest_at(ramp.to_C, begins_s + vacuum_hold_s_ - now_s_, Phase::holding);
      release();
    }
    rest_at(ramp.to_C, ends_s - now_s_, Phase::holding);
  }
  if (top && ramp.clock_by_asked && !ramp.display_reached && ramp.to_C - display() < near_top_K) mark(ChamberEvent::top, now_s_);
  if (top) mark(ChamberEvent::hold_ends, now_s_);
}

}  // namespace heatwork::firing
