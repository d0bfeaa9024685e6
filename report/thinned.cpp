#include "report/thinned.h"

#include <cmath>
#include <cstddef>
#include <utility>

namespace heatwork::report {
namespace {

/// Distance of a point from a stretch between two others. [px]
double distance(const Point& point, const Point& from, const Point& to) {
  const double dx = to.x - from.x, dy = to.y - from.y, square = dx * dx + dy * dy;
  double along = square > 0 ? ((point.x - from.x) * dx + (point.y - from.y) * dy) / square : 0;
  along = along < 0 ? 0 : along > 1 ? 1 : along;
  return std::hypot(point.x - from.x - along * dx, point.y - from.y - along * dy);
}

}  // namespace

std::vector<Point> thinned(const std::vector<Point>& points, double within_px) {
  if (points.size() < 3) return points;
  std::vector<bool> kept(points.size(), false);
  kept.front() = kept.back() = true;
  std::vector<std::pair<std::size_t, std::size_t>> stretches{{0, points.size() - 1}};
  while (!stretches.empty()) {
    const auto [from, to] = stretches.back();
    stretches.pop_back();
    double farthest_px = within_px;
    std::size_t at = from;
    for (std::size_t i = from + 1; i < to; ++i) {
      const double off_px = distance(points[i], points[from], points[to]);
      if (off_px > farthest_px) farthest_px = off_px, at = i;
    }
    if (at == from) continue;
    kept[at] = true;
    stretches.emplace_back(from, at);
    stretches.emplace_back(at, to);
  }
  std::vector<Point> out;
  for (std::size_t i = 0; i < points.size(); ++i)
    if (kept[i]) out.push_back(points[i]);
  return out;
}

}  // namespace heatwork::report
