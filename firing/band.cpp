#include "firing/band.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "firing/comparison.h"

namespace heatwork::firing {

Band band_of(const Rehearsal& rehearsal, std::string_view aspect, double nominal, const Measure& measure) {
  double down = 0, up = 0, largest = 0;
  std::string widest;
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
    if (least * least + most * most <= largest) continue;
    largest = least * least + most * most;
    widest = varied.input.name;
  }
  if (!any) return {};
  return {nominal - std::sqrt(down), nominal + std::sqrt(up), widest};
}

double shift_in(const Comparison& compared) {
  return compared.shift_K.value_or(std::numeric_limits<double>::quiet_NaN());
}

double hold_in(const Comparison& compared) {
  if (compared.hold_beyond_whole) return -compared.hold_of_maker_s;
  if (compared.hold_beyond_hour) return longest_added_hold_s;
  return compared.hold_s.value_or(std::numeric_limits<double>::quiet_NaN());
}

Band band_of_shift(const Rehearsal& rehearsal, std::size_t piece) {
  if (piece >= rehearsal.compared.size() || !rehearsal.compared[piece].shift_K) return {};
  return band_of(rehearsal, "degree of firing", *rehearsal.compared[piece].shift_K,
                 [piece](const Outcome& outcome, const std::vector<FiringResult>&) { return shift_in(outcome.compared.at(piece)); });
}

Band band_of_hold(const Rehearsal& rehearsal, std::size_t piece) {
  if (piece >= rehearsal.compared.size() || !rehearsal.compared[piece].hold_s) return {};
  return band_of(rehearsal, "degree of firing", *rehearsal.compared[piece].hold_s,
                 [piece](const Outcome& outcome, const std::vector<FiringResult>&) { return hold_in(outcome.compared.at(piece)); });
}

}  // namespace heatwork::firing
