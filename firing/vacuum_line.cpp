#include "firing/vacuum_line.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace heatwork::firing {

double PressureArc::at(double time_s) const {
  if (time_constant_s <= 0) return limit_Pa;
  return limit_Pa + (start_Pa - limit_Pa) * std::exp(-(time_s - start_s) / time_constant_s);
}

VacuumLine::VacuumLine(double ambient_Pa, double floor_Pa, double pump_time_constant_s, double release_time_constant_s, bool level_settable)
    : ambient_Pa_(ambient_Pa),
      floor_Pa_(std::min(floor_Pa, ambient_Pa)),  // a leak never lifts the chamber above the air outside
      pump_s_(pump_time_constant_s),
      release_s_(release_time_constant_s),
      settable_(level_settable) {
  arcs_.reserve(16);
  arcs_.push_back({-std::numeric_limits<double>::infinity(), ambient_Pa, ambient_Pa, 0});
}

double VacuumLine::at(double time_s) const {
  auto arc = arcs_.rbegin();
  while (arc->start_s > time_s) ++arc;
  return arc->at(time_s);
}

void VacuumLine::drop_from(double time_s) {
  while (arcs_.size() > 1 && arcs_.back().start_s >= time_s) arcs_.pop_back();
}

void VacuumLine::begin(double time_s, double limit_Pa, double time_constant_s) {
  const double now = at(time_s);
  drop_from(time_s);
  arcs_.push_back({time_s, now, limit_Pa, time_constant_s});
}

std::optional<double> VacuumLine::pump_to(double time_s, double level_Pa) {
  pumping_ = true;
  const double now = at(time_s);
  if (settable_ && now == level_Pa) {
    begin(time_s, level_Pa, 0);
    return time_s;
  }
  const bool lets_in = settable_ && now < level_Pa;
  begin(time_s, lets_in ? ambient_Pa_ : floor_Pa_, lets_in ? release_s_ : pump_s_);
  if (!lets_in && now <= level_Pa) return time_s;
  const PressureArc& arc = arcs_.back();
  const double share = (level_Pa - arc.limit_Pa) / (now - arc.limit_Pa);
  if (!(share > 0) || arc.time_constant_s <= 0) {
    return arc.time_constant_s <= 0 && arc.limit_Pa <= level_Pa ? std::optional<double>(time_s) : std::nullopt;
  }
  const double reached = time_s - arc.time_constant_s * std::log(share);
  if (settable_) arcs_.push_back({reached, level_Pa, level_Pa, 0});
  return reached;
}

void VacuumLine::release(double time_s) {
  pumping_ = false;
  begin(time_s, ambient_Pa_, release_s_);
}

}  // namespace heatwork::firing
