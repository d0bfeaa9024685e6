// Scales and ticks of the picture: from a value to a pixel, and the round values worth a mark.
#pragma once

#include <vector>

namespace heatwork::report {

/// Maps values to pixels, straight or by the logarithm; `from_px` is where `low` stands.
struct Axis {
  double low = 0, high = 1;
  double from_px = 0, to_px = 1;
  bool logarithmic = false;
  bool bounded = true;
  /// Values beyond the ends are drawn at the ends, or beyond them where the axis is not bounded (a straight one). [px]
  [[nodiscard]] double at(double value) const;
  [[nodiscard]] Axis unbounded() const;
};

/// Round values (1, 2, 2.5 or 5 times a power of ten) inside the ends, about `wanted` of them.
std::vector<double> round_ticks(double low, double high, int wanted);
/// Powers of ten inside the ends.
std::vector<double> decade_ticks(double low, double high);
/// Seconds of the ticks of a time axis: whole minutes 1, 2, 5, 10, 15, 30, 60 ..., at most `most` of them. [s]
std::vector<double> minute_ticks(double end_s, int most);
/// The smallest round number not under a value.
double round_up(double value);

}  // namespace heatwork::report
