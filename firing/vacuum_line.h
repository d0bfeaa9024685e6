// The chamber's pressure in time: pumping down against a leak, kept at a level, let in again. Closed forms from command to command.
#pragma once

#include <optional>
#include <vector>

namespace heatwork::firing {

/// One exponential piece of the pressure: p = limit + (start - limit) exp(-u / time constant); time constant 0: constant.
struct PressureArc {
  double start_s = 0;
  double start_Pa = 0;
  double limit_Pa = 0;
  double time_constant_s = 0;
  [[nodiscard]] double at(double time_s) const;
};

/// Pressure under the commands of a program, given in order of time.
class VacuumLine {
 public:
  VacuumLine(double ambient_Pa, double floor_Pa, double pump_time_constant_s, double release_time_constant_s, bool level_settable);

  /// From now the pump runs for this level; called again it changes the level. Returns when it is reached, absent: never.
  /// theory: (chamber.6)
  std::optional<double> pump_to(double time_s, double level_Pa);
  /// From now air comes in.  theory: (chamber.7)
  void release(double time_s);

  [[nodiscard]] bool pumping() const { return pumping_; }
  [[nodiscard]] double at(double time_s) const;
  /// Pieces in order of time; each lasts until the next.
  [[nodiscard]] const std::vector<PressureArc>& arcs() const { return arcs_; }

 private:
  void begin(double time_s, double limit_Pa, double time_constant_s);
  void drop_from(double time_s);
  double ambient_Pa_, floor_Pa_, pump_s_, release_s_;
  bool settable_;
  bool pumping_ = false;
  std::vector<PressureArc> arcs_;
};

}  // namespace heatwork::firing
