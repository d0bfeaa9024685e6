// Ramps of a program: the control follows the asked line as far as power and natural cooling allow, and slows down before a hold.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <stdexcept>

#include "firing/crossing.h"
#include "firing/program_run.h"

namespace heatwork::firing {
namespace {

constexpr double same_K = 1e-9;
constexpr double never_s = 200000;  // longer than any program runs
constexpr double infinite_s = std::numeric_limits<double>::infinity();
constexpr double fallen_behind_K = 5;  // beyond what the sensor's lag costs at the start of a ramp

}  // namespace

void ProgramRun::heating_stage(int stage) {
  const trade::HeatingStage& heating = stage_at(stage);
  Ramp ramp;
  ramp.to_C = heating.to.value.celsius();
  ramp.rate_K_per_s = heating.rate.value.si();
  ramp.hold_s = heating.hold.value.si();
  ramp.comes_to_rest = ramp.hold_s > 0;
  ramp.clock_by_asked = furnace_.ability.hold_starts.value == trade::HoldStart::asked_reaches;
  ramp.stage = stage;
  if (vacuum_.pumping()) ask_level(level_of(stage));
  check_reachable(ramp);
  plan_arrival(ramp);
  climb(ramp);
  hold_stage(ramp);
}

void ProgramRun::check_reachable(const Ramp& ramp) const {
  if (ramp.sign > 0 && ramp.to_C - today_.display_error_K >= full_power_limit_C()) {
    throw std::domain_error(fmt::format("Heating stage {} asks for {:.1f} °C; at full power the display of this furnace ends at {:.1f} °C.",
                                        ramp.stage + 1, ramp.to_C, full_power_limit_C() + today_.display_error_K));
  }
}

void ProgramRun::check_held_back(const Ramp& ramp) const {
  if (ramp.sign < 0 || ramp.clock_by_asked || now_s_ - ramp.asked_reached_s.value_or(now_s_) <= longest_held_back_s) return;
  throw std::domain_error(fmt::format(
      "Heating stage {} asks for {:.1f} °C; this furnace gets there more than 2 h late, for at full power its display ends at {:.1f} °C.",
      ramp.stage + 1, ramp.to_C, full_power_limit_C() + today_.display_error_K));
}

/// The slope at which coming to rest overshoots as the furnace does, and the braking to it that half the natural cooling allows.
/// theory: (chamber.10) (chamber.11)
void ProgramRun::plan_arrival(Ramp& ramp) const {
  ramp.resting_slope_K_per_s = infinite_s;
  if (!ramp.comes_to_rest || lag_s_ <= 0) return;
  const double spare = std::max(cooling_constant(opening_) * (ramp.to_C - today_.display_error_K - today_.room_C), 1e-3);
  const double reach = overshoot_K_ * std::numbers::e;
  ramp.resting_slope_K_per_s = (reach + std::sqrt(reach * reach + 8 * lag_s_ * reach * spare)) / (4 * lag_s_);
  ramp.braking_K_per_s2 = 0.5 * spare / lag_s_;
}

void ProgramRun::climb(Ramp& ramp) {
  if (ramp.sign > 0 && !waited_) wait_for_vacuum();
  while (!ramp.display_reached) {
    const Arc arc = law_of(ramp);
    const NextEnd end = next_end(ramp, arc);
    if (end.after_s >= never_s) {
      throw std::domain_error(fmt::format("{} stage {} asks for {:.1f} °C; this furnace's display never gets there (room {:.1f} °C).",
                                          ramp.sign > 0 ? "Heating" : "Cooling", ramp.stage + 1, ramp.to_C, today_.room_C));
    }
    advance(arc, end.after_s);
    if (end.what == Ends::hold) return;
    act(ramp, end.what);
  }
}

/// The law of control now: on the line where power allows, else full or no power.  theory: (chamber.1) (chamber.8)
Arc ProgramRun::law_of(const Ramp& ramp) const {
  const bool asked_there = ramp.asked_reached_s.has_value();
  Arc arc = arc_now(ramp.sign < 0 ? Phase::cooling : asked_there && ramp.clock_by_asked ? Phase::holding : Phase::heating);
  const double slope = ramp.sign * ramp.rate_K_per_s;
  arc.asked_slope_K_per_s = asked_there ? 0 : slope;
  if (ramp.slowing) {
    arc.law = ArcLaw::slow_down;
    arc.slope_K_per_s = sensor_slope();
    arc.braking_K_per_s2 = ramp.braking_K_per_s2;
    return arc;
  }
  if (ramp.on_line) {
    arc.slope_K_per_s = slope;
    return arc;
  }
  const double line = asked_there ? ramp.to_C + slope * (now_s_ - *ramp.asked_reached_s) : asked_C_;
  const bool full_power = ramp.lost_line ? ramp.sign > 0 : true_C_ < line - today_.display_error_K + lag_s_ * slope;
  arc.law = ArcLaw::towards;
  arc.limit_C = full_power ? full_power_limit_C() : today_.room_C;
  arc.pace_per_s = full_power ? loss_at(opening_) : cooling_constant(opening_);
  return arc;
}

double ProgramRun::law_ends(const Ramp& ramp, const Arc& arc) const {
  const double slope = ramp.sign * ramp.rate_K_per_s;
  if (arc.law == ArcLaw::slow_down) return (arc.slope_K_per_s - ramp.resting_slope_K_per_s) / arc.braking_K_per_s2;
  if (arc.law == ArcLaw::line) {
    // The line is lost where power (or natural cooling) just allows its rate.
    const double last_C = ramp.sign > 0 ? full_power_limit_C() - ramp.rate_K_per_s / loss_at(opening_)
                                        : today_.room_C + ramp.rate_K_per_s / cooling_constant(opening_);
    return std::max(0.0, (last_C - true_C_) / slope);
  }
  if (ramp.lost_line) return infinite_s;
  const double line = ramp.asked_reached_s ? ramp.to_C + slope * (now_s_ - *ramp.asked_reached_s) : asked_C_;
  return meets_line(arc, line - today_.display_error_K + lag_s_ * slope, slope).value_or(infinite_s);
}

ProgramRun::NextEnd ProgramRun::next_end(const Ramp& ramp, const Arc& arc) const {
  NextEnd end{never_s, Ends::law};
  end.earlier(law_ends(ramp, arc), ramp.slowing ? Ends::reached : Ends::law);
  if (!ramp.asked_reached_s) end.earlier(std::max(0.0, ramp.sign * (ramp.to_C - asked_C_) / ramp.rate_K_per_s), Ends::asked);
  if (ramp.clock_by_asked && ramp.asked_reached_s) end.earlier(std::max(0.0, *ramp.asked_reached_s + ramp.hold_s - now_s_), Ends::hold);
  const double error_K = today_.display_error_K;
  const auto passes = [&](double display_C, Ends what) {
    const auto after = first_rise([&](double u_s) { return ramp.sign * (arc.sensor_at(u_s) + error_K - display_C); }, end.after_s);
    if (after) end.earlier(*after, what);
  };
  if (ramp.sign > 0 && vacuum_from_C_ && !vacuum_started_ && *vacuum_from_C_ < ramp.to_C - same_K)
    passes(*vacuum_from_C_, Ends::vacuum_from);
  if (ramp.sign > 0 && vacuum_to_C_ && vacuum_.pumping() && *vacuum_to_C_ < ramp.to_C - same_K) passes(*vacuum_to_C_, Ends::vacuum_to);
  if (ramp.slowing) return end;
  if (!std::isfinite(ramp.resting_slope_K_per_s) || ramp.sign < 0) {
    passes(ramp.to_C, Ends::reached);
    return end;
  }
  const auto must_brake = [&](double u_s) {
    const double slope = arc.sensor_slope_at(u_s);
    const double excess = slope * slope - ramp.resting_slope_K_per_s * ramp.resting_slope_K_per_s;
    const double room_K = slope > 0 && excess > 0 ? excess / (2 * ramp.braking_K_per_s2) : 0;
    return arc.sensor_at(u_s) + error_K - ramp.to_C + room_K;
  };
  if (const auto after = first_rise(must_brake, end.after_s)) end.earlier(*after, Ends::slow_down);
  return end;
}

void ProgramRun::act(Ramp& ramp, Ends what) {
  switch (what) {
    case Ends::law:
      ramp.lost_line = ramp.on_line;
      ramp.on_line = !ramp.on_line;
      if (ramp.lost_line && ramp.sign > 0) held_back_ = true;
      break;
    case Ends::asked:
      ramp.asked_reached_s = now_s_;
      asked_C_ = ramp.to_C;
      if (ramp.sign > 0 && ramp.to_C - display() > fallen_behind_K) held_back_ = true;
      break;
    case Ends::slow_down: {
      const double slope = sensor_slope();
      if (slope <= ramp.resting_slope_K_per_s * (1 + same_K) || display() >= ramp.to_C) {
        reached(ramp);
        break;
      }
      brake(ramp, slope);
      break;
    }
    case Ends::reached:
      reached(ramp);
      break;
    case Ends::vacuum_from:
      start_vacuum(ramp.stage);
      if (waited_) break;
      asked_C_ = *vacuum_from_C_;
      ramp.asked_reached_s.reset();
      ramp.on_line = ramp.lost_line = ramp.slowing = false;
      plan_arrival(ramp);
      wait_for_vacuum();
      break;
    case Ends::vacuum_to:
      release();
      break;
    case Ends::hold:
      break;
  }
}

/// Begins to slow down. Where the way left is too short for the planned braking, as hard as natural cooling allows, and then the display
/// arrives faster and overshoots more.
void ProgramRun::brake(Ramp& ramp, double slope) {
  const double way_K = ramp.to_C - display();
  const double resting = ramp.resting_slope_K_per_s;
  const double hardest = 2 * ramp.braking_K_per_s2 + slope / lag_s_;
  ramp.slowing = true;
  ramp.braking_K_per_s2 = std::min((slope * slope - resting * resting) / (2 * way_K), hardest);
  ramp.resting_slope_K_per_s = std::max(resting, std::sqrt(std::max(0.0, slope * slope - 2 * ramp.braking_K_per_s2 * way_K)));
}

void ProgramRun::reached(Ramp& ramp) {
  ramp.display_reached = true;
  check_held_back(ramp);
  if (!ramp.asked_reached_s) ramp.asked_reached_s = now_s_;
  asked_C_ = ramp.to_C;
  if (ramp.sign > 0 && ramp.stage == top_stage_) mark(ChamberEvent::top, now_s_);
}

// ---- what no furnace can run

namespace {

void demand(bool holds, const std::string& sentence) {
  if (!holds) throw std::domain_error(sentence);
}

}  // namespace

void ProgramRun::check() const {
  demand(today_.gain_K_per_s > 0 && today_.loss_per_s > 0, "The furnace's heating gain and loss must be above 0.");
  demand(cooling_constant(0) > 0 && cooling_constant(0.5) > 0 && cooling_constant(1) > 0,
         "The furnace's natural cooling must be above 0 /s.");
  demand(lag_s_ >= 0 && overshoot_K_ >= 0, "The furnace's sensor lag and overshoot must be 0 or more.");
  demand(today_.ambient_Pa > 0, "The air pressure outside must be above 0 mbar.");
  demand(program_.drying_time.value.si() >= 0 && program_.closing_time.value.si() >= 0 && program_.preheat_hold.value.si() >= 0,
         "Drying, closing and preheat times must be 0 s or more.");
  double before_C = program_.entry.value.celsius();
  int number = 1;
  for (const trade::HeatingStage& stage : program_.heating) {
    const double to_C = stage.to.value.celsius();
    demand(to_C >= before_C - same_K,
           fmt::format("Heating stage {} goes down from {:.1f} to {:.1f} °C; a heating stage can only go up.", number, before_C, to_C));
    demand(stage.rate.value.si() > 0, fmt::format("The rate of heating stage {} must be above 0 K/min.", number));
    demand(stage.hold.value.si() >= 0, fmt::format("The hold of heating stage {} must be 0 s or more.", number));
    demand(!stage.vacuum_level || program_.vacuum,
           fmt::format("Heating stage {} has a vacuum level, but the program has no vacuum.", number));
    before_C = to_C;
    ++number;
  }
  number = 1;
  for (const trade::CoolingStage& stage : program_.cooling) {
    const double to_C = stage.to.value.celsius();
    demand(to_C <= before_C + same_K,
           fmt::format("Cooling stage {} goes up from {:.1f} to {:.1f} °C; a cooling stage can only go down.", number, before_C, to_C));
    demand(!stage.rate || stage.rate->value.si() > 0, fmt::format("The rate of cooling stage {} must be above 0 K/min.", number));
    before_C = to_C;
    ++number;
  }
}

void ProgramRun::check_vacuum() const {
  const trade::Vacuum& vacuum = *program_.vacuum;
  demand(today_.pump_time_constant_s > 0, "The pump's time constant must be above 0 s.");
  const auto below_ambient = [&](double level_Pa) {
    demand(level_Pa > 0 && level_Pa < today_.ambient_Pa,
           fmt::format("The vacuum level of {:.1f} mbar must be above 0 and below the air outside, {:.1f} mbar.", level_Pa / 100,
                       today_.ambient_Pa / 100));
  };
  below_ambient(vacuum.level.value.si());
  for (const trade::HeatingStage& stage : program_.heating) {
    if (stage.vacuum_level) below_ambient(stage.vacuum_level->value.si());
  }
  const double kept_s = vacuum.hold_under_vacuum.value.si();
  demand(kept_s >= 0, "The hold under vacuum must be 0 s or more.");
  if (!vacuum.to) return;
  const double to_C = vacuum.to->value.celsius();
  demand(vacuum.to->value > vacuum.from.value,
         fmt::format("The vacuum from {:.1f} to {:.1f} °C ends where it has not begun.", vacuum.from.value.celsius(), to_C));
  if (!(kept_s > 0)) return;
  const auto there = [&](const trade::HeatingStage& stage) { return std::abs(stage.to.value.celsius() - to_C) < same_K; };
  const auto stage = std::find_if(program_.heating.begin(), program_.heating.end(), there);
  demand(stage != program_.heating.end(),
         fmt::format("The program keeps vacuum during a hold at {:.1f} °C, but it has no hold there.", to_C));
  demand(kept_s <= stage->hold.value.si(),
         fmt::format("The vacuum is to be kept {:.0f} s of a hold of {:.0f} s at {:.1f} °C.", kept_s, stage->hold.value.si(), to_C));
}

}  // namespace heatwork::firing
