#include "firing/maker_table.h"

#include <algorithm>
#include <cmath>

#include "firing/comparison.h"
#include "physics/crystallisation.h"
#include "physics/powder.h"
#include "physics/zirconia_sintering.h"

namespace heatwork::firing {
namespace {

/// x where a rising column meets a value: a parabola through the three knots nearest to it, a straight line beyond the knots.
double inverse(const std::vector<double>& x, const std::vector<double>& column, double value) {
  const std::size_t last = x.size() - 1;
  const auto line = [&](std::size_t a, std::size_t b) { return x[a] + (value - column[a]) * (x[b] - x[a]) / (column[b] - column[a]); };
  if (value <= column[0]) return line(0, 1);
  if (value >= column[last]) return line(last - 1, last);
  std::size_t first = 0;
  while (first + 2 < last && value > column[first + 1]) ++first;
  const double a = column[first], b = column[first + 1], c = column[first + 2];
  return x[first] * (value - b) * (value - c) / ((a - b) * (a - c)) + x[first + 1] * (value - a) * (value - c) / ((b - a) * (b - c)) +
         x[first + 2] * (value - a) * (value - b) / ((c - a) * (c - b));
}

/// The same over the knots of a table; the logarithm of the quantity is nearly straight in the shift, the quantity itself in the hold.
double inverse(const std::vector<Knot>& knots, bool logarithm, double quantity, const Requantify& requantify) {
  std::vector<double> x, column;
  for (const Knot& knot : knots) {
    const double value = requantify(knot);
    if (!column.empty() && !(value > (logarithm ? std::exp(column.back()) : column.back()))) continue;
    x.push_back(knot.x);
    column.push_back(logarithm ? std::log(value) : value);
  }
  if (x.size() < 2) return x.empty() ? 0 : x.front();
  if (x.size() == 2) {
    x.push_back(2 * x[1] - x[0]);
    column.push_back(2 * column[1] - column[0]);
  }
  return inverse(x, column, logarithm ? std::log(quantity) : quantity);
}

}  // namespace

double deciding_quantity(const Point& point, const PointState& start, const PointHistory& history) {
  if (point.powder) return start.powder->heat_work + physics::powder_work(*point.powder, history.time_s, history.temperature_K).heat_work;
  if (point.zirconia)
    return std::exp(start.zirconia->log_theta) +
           std::exp(physics::log_theta_of_history(point.zirconia->curve.energy_kJ_per_mol, history.time_s, history.temperature_K));
  physics::CrystallisationState state = *start.crystals;
  physics::advance_crystallisation(*point.crystals, state, history.time_s, history.temperature_K);
  return state.z.back();
}

Comparison read_off_table(const MakerTable& table, const Comparison& nominal, double quantity, const Requantify& requantify) {
  Comparison result;
  result.quantity = nominal.quantity;
  result.hold_of_maker_s = nominal.hold_of_maker_s;
  if (!table.shifts.empty()) {
    const double shift_K = inverse(table.shifts, true, quantity / table.finer, requantify);
    result.shift_beyond = std::abs(shift_K) > widest_shift_K;
    if (!result.shift_beyond) result.shift_K = shift_K;
  }
  if (!table.holds.empty()) {
    const double hold_s = inverse(table.holds, false, quantity / table.finer, requantify);
    result.hold_beyond_whole = hold_s < -nominal.hold_of_maker_s;
    result.hold_beyond_hour = hold_s > longest_added_hold_s;
    if (!result.hold_beyond_whole && !result.hold_beyond_hour) result.hold_s = hold_s;
  }
  return result;
}

}  // namespace heatwork::firing
