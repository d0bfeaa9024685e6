#include "firing/comparison.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "physics/rising_root.h"

namespace heatwork::firing {
namespace {

/// Slope of ln Q against temperature to start the search with: twice the work in about 25 K.
constexpr double usual_slope_per_K = 0.028;

/// The maker's firing, to be run again and again, read at chosen points of the piece.
class Maker {
 public:
  Maker(const FiringSetup& setup, const Stock& stock, const ChamberHistory& chamber, physics::LoadSolver& solver)
      : start_(setup.start.empty() ? start_state(points_of(*setup.pieces.front(), stock)) : setup.start.front()),
        points_(points_of(*setup.pieces.front(), stock, &start_)),
        chamber_(chamber),
        around_(surroundings_of(chamber)),
        solver_(solver) {
    solver_.set_load(load_of(setup, stock));
  }

  /// Natural logarithm of the deciding quantity at every deciding point, with a constant added to the chamber.
  std::vector<double> with_shift(double shift_K) { return quantities(solver_.solve(around_, shift_K)); }

  /// The same with time added to the hold at the highest temperature.
  std::vector<double> with_hold(double added_s) { return quantities(solver_.solve(surroundings_of(with_hold_changed(chamber_, added_s)))); }

 private:
  std::vector<double> quantities(const physics::LoadHistory& history) const {
    std::vector<double> values(points_.size(), 0.0);
    for (std::size_t i = 0; i < points_.size(); ++i) {
      if (!points_[i].decides) continue;
      const physics::SectionHistory& section = history.sections[static_cast<std::size_t>(points_[i].section)];
      const std::size_t node = node_of(section, points_[i]);
      std::vector<double> temperature_K(history.time_s.size());
      for (std::size_t row = 0; row < temperature_K.size(); ++row) temperature_K[row] = section.node_at(row, node);
      values[i] = std::log(quantity(i, history.time_s, temperature_K));
    }
    return values;
  }

  double quantity(std::size_t i, const std::vector<double>& times_s, const std::vector<double>& temperature_K) const {
    const Point& point = points_[i];
    if (point.powder) return start_.points[i].powder->heat_work + physics::powder_work(*point.powder, times_s, temperature_K).heat_work;
    physics::CrystallisationState state = *start_.points[i].crystals;
    physics::advance_crystallisation(*point.crystals, state, times_s, temperature_K);
    return state.z.back();
  }

  PieceState start_;
  std::vector<Point> points_;
  const ChamberHistory& chamber_;
  physics::Surroundings around_;
  physics::LoadSolver& solver_;
};

/// Points with the least and the greatest quantity of each deciding material.
std::vector<std::size_t> extreme_points(const PieceResult& here) {
  std::map<std::string, std::pair<std::size_t, std::size_t>> by_material;
  for (std::size_t i = 0; i < here.points.size(); ++i) {
    if (!here.points[i].decides) continue;
    const auto [entry, is_new] = by_material.try_emplace(here.points[i].material, i, i);
    if (is_new) continue;
    if (here.points[i].deciding < here.points[entry->second.first].deciding) entry->second.first = i;
    if (here.points[i].deciding > here.points[entry->second.second].deciding) entry->second.second = i;
  }
  std::vector<std::size_t> chosen;
  for (const auto& [material, pair] : by_material) {
    chosen.push_back(pair.first);
    if (pair.second != pair.first) chosen.push_back(pair.second);
  }
  return chosen;
}

/// Keeps what a run gave, so that two points share the runs at the same argument.
class Memory {
 public:
  explicit Memory(std::function<std::vector<double>(double)> run) : run_(std::move(run)) {}
  double at(double x, std::size_t point) {
    const auto found = kept_.find(x);
    return (found != kept_.end() ? found->second : kept_.emplace(x, run_(x)).first->second)[point];
  }

 private:
  std::function<std::vector<double>(double)> run_;
  std::map<double, std::vector<double>> kept_;
};

}  // namespace

Comparison compare(const FiringSetup& reference, const Stock& stock, const ChamberHistory& reference_chamber, double hold_of_maker_s,
                   const PieceResult& here, physics::LoadSolver& solver) {
  Comparison result;
  result.hold_of_maker_s = hold_of_maker_s;
  const std::vector<std::size_t> points = extreme_points(here);
  if (points.empty()) return result;
  result.quantity = here.points[points.front()].viscous ? DecidingQuantity::heat_work : DecidingQuantity::crystallisation_z;

  Maker maker(reference, stock, reference_chamber, solver);
  Memory shifts([&](double shift_K) { return maker.with_shift(shift_K); });
  Memory holds([&](double added_s) { return maker.with_hold(added_s); });
  double largest = -1;
  for (const std::size_t point : points) {
    const double wanted = std::log(here.points[point].deciding);
    const physics::RisingRoot shift = physics::rising_root([&](double x) { return shifts.at(x, point) - wanted; },
                                                           {-widest_shift_K, widest_shift_K, 0.0, usual_slope_per_K, shift_resolution_K});
    if (std::abs(shift.x) <= largest) continue;
    largest = std::abs(shift.x);
    result.shift_beyond = !shift.within();
    result.shift_K = shift.within() ? std::optional(shift.x) : std::nullopt;

    const double slope_per_s = 1.0 / std::max(60.0, 2.0 * hold_of_maker_s);
    const physics::RisingRoot hold = physics::rising_root([&](double x) { return holds.at(x, point) - wanted; },
                                                          {-hold_of_maker_s, longest_added_hold_s, 0.0, slope_per_s, hold_resolution_s});
    result.hold_beyond_whole = hold.below;
    result.hold_beyond_hour = hold.above;
    result.hold_s = hold.within() ? std::optional(hold.x) : std::nullopt;
  }
  return result;
}

}  // namespace heatwork::firing
