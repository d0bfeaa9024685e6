// Places labels so that none covers another: each goes into the first lane with room for it.
#pragma once

#include <string>
#include <vector>

namespace heatwork::report {

/// A label wanted at x; `lane`, `left` and `width` are set by `place_in_lanes`.
struct LaneLabel {
  std::string words;
  double x = 0;      ///< of the moment [px]
  int lane = 0;      ///< 0 is nearest the plot
  double left = 0;   ///< where the text begins [px]
  double width = 0;  ///< of the text [px]
};

/// Places labels between two ends and returns how many lanes that took. Words run right from their moment or left to it; of the ways tried
/// the one is taken that keeps leaders off words, words inside the ends, and needs fewest lanes.
int place_in_lanes(std::vector<LaneLabel>& labels, double left_px, double right_px, double size_px, double gap_px = 8);

}  // namespace heatwork::report
