// The maker's firing at a few shifts and holds, kept so that a variant of inputs is compared without running it anew each time.
#pragma once

#include <functional>
#include <vector>

#include "firing/piece_life.h"
#include "firing/rehearsal.h"

namespace heatwork::firing {

/// The temperatures one point of a piece lives through.
struct PointHistory {
  std::vector<double> time_s;
  std::vector<double> temperature_K;
};

/// The deciding quantity that a point with this state at the start gets from a history. [pure number]
double deciding_quantity(const Point& point, const PointState& start, const PointHistory& history);

/// The maker's firing at one shift or one change of hold. [K] or [s]
struct Knot {
  double x = 0;
  double quantity = 0;
  PointHistory history;
};

/// One piece's maker's firing around the shift and the hold found, at the point that is the headline.
struct MakerTable {
  std::size_t point = 0;
  double finer = 1;                 ///< factor from the quantities of the knots to those of finer steps
  std::vector<Knot> shifts, holds;  ///< each rising in x, three or more; empty where the search found no number
};

/// How the quantities of a table's knots change in a variant.
using Requantify = std::function<double(const Knot&)>;

/// Shift and hold that give the quantity, read off the table; beyond the bounds as `compare` says it.  theory: (comparison.5)
Comparison read_off_table(const MakerTable& table, const Comparison& nominal, double quantity, const Requantify& requantify);

}  // namespace heatwork::firing
