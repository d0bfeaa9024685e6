// What a cooling piece is put through: what may be asked, what surrounds it when, and the highest stress on the way.
#pragma once

#include <limits>
#include <span>

#include "physics/cooling_stress.h"

namespace heatwork::physics {

/// Refuses a course that cannot be. source: chosen-here. Throws std::domain_error with one sentence.
void check_course(const CoolingCourse& course);

/// Where the films lead at a time: the surroundings given, else the ambient [K]. source: chosen-here
double surroundings_K(const CoolingCourse& course, double time_s);

/// Top of the parabola through three points of which the middle one is highest [unit of y]. Range: rising x. source: chosen-here
double parabola_top(const double x[3], const double y[3]);

/// Highest of values at rising places, with the parabola over the highest point where it lies inside [unit of the values].
/// source: chosen-here
double highest_between(std::span<const double> places, std::span<const double> values);

/// Times at which a step must end, from the first to come.
class Stops {
 public:
  explicit Stops(std::span<const double> times_s) : times_s_(times_s) {}
  /// The next one after a time; infinity after the last. [s]
  double after(double time_s) {
    while (next_ < times_s_.size() && times_s_[next_] <= time_s) ++next_;
    return next_ < times_s_.size() ? times_s_[next_] : std::numeric_limits<double>::infinity();
  }

 private:
  std::span<const double> times_s_;
  std::size_t next_ = 0;
};

/// The highest of values that come step by step: where one stands above both its neighbours, the top of the parabola through the three.
class StressPeak {
 public:
  /// The next value, later than the last. [s, Pa]
  void add(double time_s, double stress_Pa);
  /// From here on the slope is another one: no parabola over this time.
  void turn() { seen_ = seen_ > 0 ? 1 : 0; }
  /// Minus infinity before the first. [Pa]
  [[nodiscard]] double highest_Pa() const { return highest_Pa_; }

 private:
  double highest_Pa_ = -std::numeric_limits<double>::infinity();
  double before_s_ = 0.0, before_Pa_ = 0.0, last_s_ = 0.0, last_Pa_ = 0.0;
  int seen_ = 0;
};

}  // namespace heatwork::physics
