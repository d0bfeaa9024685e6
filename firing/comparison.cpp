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

/// Distance of the table's outer knots from the shift and the hold found.
constexpr double knot_distance_K = 20.0;
constexpr double knot_distance_s = 60.0;

/// The maker's firing, to be run again and again, read at chosen points of the piece.
class Maker {
 public:
  Maker(const FiringSetup& setup, const Stock& stock, const ChamberHistory& chamber, physics::LoadSolver& solver, MakerRun& kept,
        const std::function<void()>& go_on)
      : start_(setup.start.empty() ? start_state(points_of(*setup.pieces.front(), stock)) : setup.start.front()),
        points_(points_of(*setup.pieces.front(), stock, &start_)),
        chamber_(chamber),
        around_(surroundings_of(chamber)),
        load_(load_of(setup, stock)),
        solver_(solver),
        kept_(kept),
        go_on_(go_on) {}

  /// The deciding quantity at the chosen points, with a constant added to the chamber.
  std::vector<Knot> with_shift(double shift_K, const std::vector<std::size_t>& chosen) {
    return kept_.knots(MakerRun::Change::shift, shift_K, chosen, [&] { return knots(shift_K, solver().solve(around_, shift_K), chosen); });
  }
  /// The same with time added to the hold at the highest temperature.
  std::vector<Knot> with_hold(double added_s, const std::vector<std::size_t>& chosen) {
    return kept_.knots(MakerRun::Change::hold, added_s, chosen,
                       [&] { return knots(added_s, solver().solve(surroundings_of(with_hold_changed(chamber_, added_s))), chosen); });
  }

 private:
  /// Takes the load in for the first run that is not there yet.
  physics::LoadSolver& solver() {
    go_on_();
    if (!load_taken_) solver_.set_load(load_, coarse_steps);
    load_taken_ = true;
    return solver_;
  }

  std::vector<Knot> knots(double x, const physics::LoadHistory& history, const std::vector<std::size_t>& chosen) const {
    std::vector<Knot> made;
    for (const std::size_t i : chosen) {
      const physics::SectionHistory& section = history.sections[static_cast<std::size_t>(points_[i].section)];
      const std::size_t node = node_of(section, points_[i]);
      Knot knot{x, 0, {history.time_s, std::vector<double>(history.time_s.size())}};
      for (std::size_t row = 0; row < history.time_s.size(); ++row) knot.history.temperature_K[row] = section.node_at(row, node);
      knot.quantity = deciding_quantity(points_[i], start_.points[i], knot.history);
      made.push_back(std::move(knot));
    }
    return made;
  }

  PieceState start_;
  std::vector<Point> points_;
  const ChamberHistory& chamber_;
  physics::Surroundings around_;
  physics::Load load_;
  physics::LoadSolver& solver_;
  MakerRun& kept_;
  const std::function<void()>& go_on_;
  bool load_taken_ = false;
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
  using Run = std::function<std::vector<Knot>(double)>;
  explicit Memory(Run run) : run_(std::move(run)) {}

  const std::vector<Knot>& all_at(double x) {
    const auto found = kept_.find(x);
    return found != kept_.end() ? found->second : kept_.emplace(x, run_(x)).first->second;
  }
  const Knot& at(double x, std::size_t chosen) { return all_at(x)[chosen]; }
  void put(double x, const std::vector<Knot>& knots) { kept_.emplace(x, knots); }

  /// Three knots: the run nearest to the root, and one on either side of it within the bounds.
  std::vector<Knot> around(double root, std::size_t chosen, double distance, double low, double high) {
    const auto nearest = std::min_element(
        kept_.begin(), kept_.end(), [&](const auto& a, const auto& b) { return std::abs(a.first - root) < std::abs(b.first - root); });
    std::vector<double> wanted{std::max(low, root - distance), nearest->first, std::min(high, root + distance)};
    std::sort(wanted.begin(), wanted.end());
    wanted.erase(std::unique(wanted.begin(), wanted.end()), wanted.end());
    std::vector<Knot> knots;
    for (const double x : wanted) knots.push_back(at(x, chosen));
    return knots;
  }

 private:
  Run run_;
  std::map<double, std::vector<Knot>> kept_;
};

}  // namespace

Comparison compare(const FiringSetup& reference, const Stock& stock, const ChamberHistory& reference_chamber, double hold_of_maker_s,
                   const PieceResult& maker, const PieceResult& here, physics::LoadSolver& solver, MakerRun& kept,
                   const std::function<void()>& go_on, MakerTable* table) {
  Comparison result;
  result.hold_of_maker_s = hold_of_maker_s;
  const std::vector<std::size_t> points = extreme_points(here);
  if (points.empty()) return result;
  const PointResult& first = here.points[points.front()];
  result.quantity = first.viscous ? DecidingQuantity::heat_work
                    : first.curve ? DecidingQuantity::log_theta
                                  : DecidingQuantity::crystallisation_z;

  Maker again(reference, stock, reference_chamber, solver, kept, go_on);
  Memory shifts([&](double shift_K) { return again.with_shift(shift_K, points); });
  Memory holds([&](double added_s) { return again.with_hold(added_s, points); });
  holds.put(0, shifts.all_at(0));
  double largest = -1;
  std::size_t headline = 0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const double finer = maker.points[points[i]].deciding / shifts.at(0, i).quantity;
    const double wanted = std::log(here.points[points[i]].deciding / finer);
    const physics::RisingRoot shift = physics::rising_root([&](double x) { return std::log(shifts.at(x, i).quantity) - wanted; },
                                                           {-widest_shift_K, widest_shift_K, 0.0, usual_slope_per_K, shift_resolution_K});
    if (std::abs(shift.x) <= largest) continue;
    largest = std::abs(shift.x);
    headline = i;
    result.shift_beyond = !shift.within();
    result.shift_K = shift.within() ? std::optional(shift.x) : std::nullopt;

    const double slope_per_s = 1.0 / std::max(60.0, 2.0 * hold_of_maker_s);
    const physics::RisingRoot hold = physics::rising_root([&](double x) { return std::log(holds.at(x, i).quantity) - wanted; },
                                                          {-hold_of_maker_s, longest_added_hold_s, 0.0, slope_per_s, hold_resolution_s});
    result.hold_beyond_whole = hold.below;
    result.hold_beyond_hour = hold.above;
    result.hold_s = hold.within() ? std::optional(hold.x) : std::nullopt;
  }
  if (table == nullptr) return result;
  table->point = points[headline];
  table->finer = maker.points[table->point].deciding / shifts.at(0, headline).quantity;
  if (result.shift_K) table->shifts = shifts.around(*result.shift_K, headline, knot_distance_K, -widest_shift_K, widest_shift_K);
  if (result.hold_s) table->holds = holds.around(*result.hold_s, headline, knot_distance_s, -hold_of_maker_s, longest_added_hold_s);
  return result;
}

}  // namespace heatwork::firing
