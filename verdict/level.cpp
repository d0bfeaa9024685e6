#include "verdict/level.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace heatwork::verdict {
namespace {

/// How bad a number is: grows towards the wrong side, so that "beyond a limit" is one comparison.
double badness(double value, Side side) {
  switch (side) {
    case Side::above:
      return value;
    case Side::below:
      return -value;
    case Side::either:
      return std::abs(value);
  }
  return value;
}

struct Band {
  double least, nominal, most;
};

Band band_of(const Number& number, Side side) {
  const double at_low = badness(number.low.value_or(number.nominal), side);
  const double at_high = badness(number.high.value_or(number.nominal), side);
  const double nominal = badness(number.nominal, side);
  Band band{std::min({at_low, at_high, nominal}), nominal, std::max({at_low, at_high, nominal})};
  const bool across_zero = number.low && number.high && *number.low < 0 && *number.high > 0;
  if (side == Side::either && across_zero) band.least = 0;
  return band;
}

}  // namespace

Assessment assess(const Number& number, const trade::Limit& limit, Side side) {
  constexpr double never = std::numeric_limits<double>::infinity();
  const Band band = band_of(number, side);
  double first = badness(limit.first, side);
  double second = limit.second ? badness(*limit.second, side) : never;
  Assessment assessment;
  assessment.limit = limit.second && band.nominal > second ? *limit.second : limit.first;
  if (number.maker) {
    const double maker = badness(*number.maker, side);
    if (maker > second) second = never;
    if (maker > first) {
      assessment.maker_breaks_too = band.nominal > first && band.nominal <= second;
      first = second;
    }
  }
  if (band.most <= first) {
    assessment.level = Level::sound;
  } else if (band.nominal > second && band.least > first) {
    assessment.level = Level::fault_expected;
  } else if (band.least <= first && band.most > second && first < second) {
    assessment.level = Level::cannot_tell;
  } else {
    assessment.level = band.nominal > second ? Level::fault_expected : Level::borderline;
  }
  return assessment;
}

}  // namespace heatwork::verdict
