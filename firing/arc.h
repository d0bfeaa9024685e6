// A stretch of firing under one law of control: the chamber's true temperature and the sensor that follows it, both in closed form.
#pragma once

#include <optional>

#include "firing/chamber.h"

namespace heatwork::firing {

/// How the chamber moves during an arc.
enum class ArcLaw {
  towards,   ///< full or no power: true temperature runs exponentially towards a limit
  line,      ///< true temperature follows a straight line
  settle,    ///< the sensor comes to rest at its target, critically damped
  slow_down  ///< the sensor's rate falls steadily before the target
};

/// One arc. All times `u_s` count from its start; the display is the sensor's temperature plus the display error.
struct Arc {
  ArcLaw law = ArcLaw::line;
  double start_s = 0;
  double duration_s = 0;
  double true_C = 0, sensor_C = 0;     ///< at the start
  double lag_s = 0;                    ///< time constant of the sensor; 0: none
  double limit_C = 0, pace_per_s = 0;  ///< of `towards`
  double slope_K_per_s = 0;            ///< of `line`; of the sensor at the start for `settle` and `slow_down`
  double target_C = 0, rest_s = 0;     ///< of `settle`: sensor's target, its time constant (0: at once)
  double braking_K_per_s2 = 0;         ///< of `slow_down`
  Phase phase{};
  double asked_C = 0, asked_slope_K_per_s = 0;  ///< of the display
  bool asked_free = false;                      ///< natural cooling: nothing is asked, the asked line is the display
  double opening_start = 0, opening_end = 0;

  /// True temperature of the chamber. [C]  theory: (chamber.1) (chamber.4)
  [[nodiscard]] double true_at(double u_s) const;
  /// Temperature of the sensor. [C]  theory: (chamber.2) (chamber.3)
  [[nodiscard]] double sensor_at(double u_s) const;
  /// Rate of the sensor. [K/s]
  [[nodiscard]] double sensor_slope_at(double u_s) const;
};

/// When an arc's true temperature meets the straight line that stands at `line_C` at its start. Absent: never. [s]
/// For the law `towards` alone, which meets a line that it approaches at most once before it turns away.
std::optional<double> meets_line(const Arc& arc, double line_C, double line_slope_K_per_s);

}  // namespace heatwork::firing
