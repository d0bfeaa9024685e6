// The level of a number against its limits: the one place where bands come in.
#pragma once

#include <optional>
#include <string>

#include "trade/limits.h"
#include "verdict/finding.h"

namespace heatwork::verdict {

/// Which side of a limit is the wrong one; `either` takes the limit on both sides of zero.
enum class Side { above, below, either };

/// A number to be judged. Without a band the level comes from the nominal number alone.
struct Number {
  double nominal = 0;
  std::optional<double> low = std::nullopt, high = std::nullopt;
  /// The same of the maker's own firing with its band, where a limit of calculated physics may be broken by both.
  std::optional<double> maker = std::nullopt, maker_low = std::nullopt, maker_high = std::nullopt;
  bool band_follows = false;  ///< no band was asked for, and one would be computed
  std::string widest = {};    ///< name of the input that the band comes from most
};

struct Assessment {
  Level level = Level::cannot_tell;
  double limit = 0;                  ///< the limit broken, else the first
  bool maker_breaks_too = false;     ///< a limit was broken, and raised no level because the maker's own firing breaks it too
  bool only_the_band = false;        ///< the number itself is inside: only its band keeps it from sound
  bool maker_breaks_at_end = false;  ///< the same of the bad end of the band, where the number itself is inside
};

/// Whole band inside the first: sound. Nominal beyond the second and whole band beyond the first: fault expected. Band from inside the
/// first to beyond the second: cannot tell. Else borderline; a limit without a second gives borderline at most. Where the maker's own
/// firing breaks a limit too, at the same end of the band, this end does not count as beyond it.
Assessment assess(const Number& number, const trade::Limit& limit, Side side);

/// A band with an error more, independent of those it comes from: so far below the nominal number and so far above.
void widen(std::optional<double>& low, std::optional<double>& high, double nominal, double below, double above);

/// The graver of two levels.
constexpr Level graver(Level a, Level b) {
  return a < b ? a : b;
}

}  // namespace heatwork::verdict
