#include "firing/band.h"

#include <algorithm>
#include <cmath>

namespace heatwork::firing {

Band band_of(const Rehearsal& rehearsal, std::string_view aspect, double nominal, const Measure& measure) {
  double down = 0, up = 0;
  bool any = false;
  std::optional<double> coarse;
  for (const Varied& varied : rehearsal.varied) {
    if (!varied.input.decides(aspect)) continue;
    any = true;
    if (varied.coarse && !coarse) coarse = measure(rehearsal.coarse, rehearsal.coarse.reference);
    const double base = varied.coarse ? *coarse : nominal;
    const std::vector<FiringResult>& unchanged = varied.coarse ? rehearsal.coarse.reference : rehearsal.reference;
    double least = 0, most = 0;
    for (const Outcome& end : varied.ends) {
      const double change = measure(end, end.reference.empty() ? unchanged : end.reference) - base;
      if (!std::isfinite(change)) continue;
      least = std::min(least, change);
      most = std::max(most, change);
    }
    down += least * least;
    up += most * most;
  }
  if (!any) return {};
  return {nominal - std::sqrt(down), nominal + std::sqrt(up)};
}

}  // namespace heatwork::firing
