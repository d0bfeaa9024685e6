// Places labels so that none covers another: each goes into the first lane with room for it.
#pragma once

#include <string>
#include <vector>

namespace heatwork::report {

/// A label of a given width wanted at x, in pixels or terminal columns; `lane` and `left` are set by `place_in_lanes`.
struct LaneLabel {
  std::string words;
  double x = 0;      ///< of the moment
  int lane = 0;      ///< 0 is nearest the plot
  double left = 0;   ///< where the text begins
  double width = 0;  ///< of the words
};

/// Where labels may stand, and how far apart.
struct LaneEnds {
  double left = 0, right = 0;
  double clear = 4;  ///< between a leader and its words
  double gap = 8;    ///< between words
};

/// Places labels between two ends and returns how many lanes that took. Words run right from their moment or left to it; a way is sought
/// that keeps leaders off words and words inside the ends, and needs few lanes; the same labels always stand in the same places.
int place_in_lanes(std::vector<LaneLabel>& labels, const LaneEnds& ends);

}  // namespace heatwork::report
