// A drawn line without the points that change nothing one could see.
#pragma once

#include <vector>

#include "report/svg.h"

namespace heatwork::report {

/// How far a thinned line may leave the one given. [px]
inline constexpr double thinned_px = 0.25;

/// Douglas and Peucker's choice of points: first and last, and in between as few as keep every point given within `within_px` of the line
/// through those kept.
std::vector<Point> thinned(const std::vector<Point>& points, double within_px = thinned_px);

}  // namespace heatwork::report
