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

Band band_of(double value, const std::optional<double>& low, const std::optional<double>& high, Side side) {
  const double at_low = badness(low.value_or(value), side);
  const double at_high = badness(high.value_or(value), side);
  const double nominal = badness(value, side);
  Band band{std::min({at_low, at_high, nominal}), nominal, std::max({at_low, at_high, nominal})};
  const bool across_zero = low && high && *low < 0 && *high > 0;
  if (side == Side::either && across_zero) band.least = 0;
  return band;
}

/// Where a number stands: inside the first limit, between the two, beyond the second.
enum class Zone { inside, between, beyond };

/// The zone of a badness; a limit that the maker's own breaks too does not count.
Zone zone_of(double bad, double first, double second, std::optional<double> maker) {
  constexpr double never = std::numeric_limits<double>::infinity();
  if (maker && *maker > second) second = never;
  if (maker && *maker > first) first = second;
  return bad > second ? Zone::beyond : bad > first ? Zone::between : Zone::inside;
}

}  // namespace

Assessment assess(const Number& number, const trade::Limit& limit, Side side) {
  constexpr double never = std::numeric_limits<double>::infinity();
  const Band band = band_of(number.nominal, number.low, number.high, side);
  const double first = badness(limit.first, side);
  const double second = limit.second ? badness(*limit.second, side) : never;
  std::optional<Band> maker;
  if (number.maker) maker = band_of(*number.maker, number.maker_low, number.maker_high, side);
  const auto of_maker = [&](double Band::*end) { return maker ? std::optional((*maker).*end) : std::nullopt; };
  const Zone least = zone_of(band.least, first, second, of_maker(&Band::least));
  const Zone nominal = zone_of(band.nominal, first, second, of_maker(&Band::nominal));
  const Zone most = zone_of(band.most, first, second, of_maker(&Band::most));

  Assessment assessment;
  assessment.limit = limit.second && band.nominal > second ? *limit.second : limit.first;
  const bool broken = band.nominal > first;
  assessment.maker_breaks_too = broken && maker && maker->nominal > first && nominal == Zone::inside;
  assessment.maker_breaks_at_end = !broken && band.most > first && maker && maker->most > first && most == Zone::inside;
  assessment.only_the_band = nominal == Zone::inside && std::max(least, most) != Zone::inside;
  if (std::max({least, nominal, most}) == Zone::inside) {
    assessment.level = Level::sound;
  } else if (nominal == Zone::beyond && least != Zone::inside) {
    assessment.level = Level::fault_expected;
  } else if (std::min({least, nominal, most}) == Zone::inside && std::max({least, nominal, most}) == Zone::beyond) {
    assessment.level = Level::cannot_tell;
  } else {
    assessment.level = nominal == Zone::beyond ? Level::fault_expected : Level::borderline;
  }
  return assessment;
}

void widen(std::optional<double>& low, std::optional<double>& high, double nominal, double below, double above) {
  if (low) low = nominal - std::hypot(nominal - *low, below);
  if (high) high = nominal + std::hypot(*high - nominal, above);
}

}  // namespace heatwork::verdict
