// Ten times the accuracy on twice the mesh: no number that is reported may move by more than 0.1 % of it or half its last shown digit.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "every_firing.h"
#include "firing/column.h"
#include "firing/rehearsal.h"
#include "physics/powder.h"
#include "report/number.h"

namespace heatwork::tests {
namespace {

using reference::Evidence;

constexpr physics::LoadAccuracy usual{};
/// Every tolerance a tenth, every space halved.
constexpr physics::LoadAccuracy finer{0.1 * usual.step_tolerance_K, 2 * usual.spaces_per_section,      0.1 * usual.longest_output_gap_s,
                                      0.1 * usual.row_error_K,      0.1 * usual.water_tolerance_share, false};

struct Number {
  std::string what;
  double value;
  std::string unit;
  double within = 0;  ///< how far it swings within the second its moment is shown to; 0 where it belongs to no moment
};

/// Half the last digit a number is shown with; of "under 0.1" that of the 0.1.
double half_last_digit(double value, const std::string& unit) {
  if (unit == "s") return 0.5;
  std::string text = report::Numbers(trade::words_of(trade::Language::english)).shown(value, unit);
  const std::size_t first = text.find_first_of("0123456789");
  const std::size_t last = text.find_first_not_of("0123456789.", first);
  text = text.substr(first, last == std::string::npos ? last : last - first);
  const std::size_t point = text.find('.');
  return 0.5 * std::pow(10.0, point == std::string::npos ? 0.0 : -static_cast<double>(text.size() - point - 1));
}

double allowed(const Number& number) {
  return std::max({1e-3 * std::abs(number.value), half_last_digit(number.value, number.unit), number.within});
}

/// How far the chamber's pressure goes from what it is at a moment within half a second, the last digit the moment is shown to. [mbar]
double swing_mbar(const firing::ChamberHistory& chamber, double at_s) {
  const auto at = [&](double time_s) { return firing::value_at(chamber.time_s, chamber.pressure_Pa, time_s); };
  return std::max(std::abs(at(at_s + 0.5) - at(at_s)), std::abs(at(at_s - 0.5) - at(at_s))) / 100;
}

std::vector<Number> numbers_of(const Fired& fired) {
  std::vector<Number> all;
  const firing::PieceResult& piece = fired.piece();
  all.push_back({"surface", piece.peak_surface_C, "°C", 0});
  all.push_back({"core", piece.peak_core_C, "°C", 0});
  const firing::SectionResult& section = piece.sections.front();
  if (section.water_start_g > 0) {
    all.push_back({"dry at", section.dry_s, "s", 0});
    all.push_back({"water at closing", section.water_at_close_percent, "%", 0});
    all.push_back({"water at vacuum", section.water_at_vacuum_percent, "%", 0});
    all.push_back({"burst index", section.burst_index, "", 0});
  }
  for (const firing::PointResult& point : piece.points) {
    if (!point.decides) continue;
    const std::string face = point.outer_face ? "outer " : "inner ";
    if (point.viscous) {
      all.push_back({face + "half sealed at", point.half_sealed_s, "s", 0});
      all.push_back({face + "sealed at", point.sealed_s, "s", 0});
      all.push_back({face + "temperature then", point.half_sealed_C, "°C", 0});
      all.push_back({face + "pressure then", point.pressure_at_sealing_Pa / 100, "mbar", swing_mbar(fired.chamber, point.half_sealed_s)});
      all.push_back({face + "porosity", point.porosity_percent, "%", 0});
      all.push_back({face + "edges", point.rounding_um, "µm", 0});
      all.push_back({face + "heat-work", point.heat_work, "", 0});
    } else {
      all.push_back({face + "crystals", 100 * point.fraction.back(), "%", 0});
      all.push_back({face + "crystal", point.crystal_um, "µm", 0});
    }
  }
  return all;
}

class EveryNumber : public testing::TestWithParam<std::string> {};
class EveryPorosity : public testing::TestWithParam<std::string> {};
INSTANTIATE_TEST_SUITE_P(classes, EveryNumber, testing::ValuesIn(Shipped::all().classes), test_name);
INSTANTIATE_TEST_SUITE_P(classes, EveryPorosity, testing::ValuesIn(Shipped::all().powders()), test_name);

/// The one number that the usual steps do not hold to the law on the full grid, by how many times what is allowed at most: the burst index
/// of a film, a thousandth where 0.3 is a limit. It stands as a miss in the evidence.
const std::map<std::string, double>& known_misses() {
  static const std::map<std::string, double> known = {{"burst index", 1.2}};
  return known;
}

TEST_P(EveryNumber, a_tenth_of_the_tolerance_on_twice_the_mesh_changes_nothing_shown) {
  std::map<std::string, Worst> worst;
  for (const Combination& of : Shipped::all().sample_of_class(GetParam())) {
    const trade::ResolvedFiring firing = Shipped::all().firing(of);
    const Fired coarse = fired(firing);
    if (coarse.impossible) continue;
    const std::vector<Number> as_is = numbers_of(coarse), fine = numbers_of(fired_in(firing, coarse.chamber, finer));
    ASSERT_EQ(as_is.size(), fine.size());
    for (std::size_t i = 0; i < as_is.size(); ++i)
      worst[as_is[i].what].meet(std::abs(as_is[i].value - fine[i].value) / allowed(fine[i]),
                                fmt::format("{:.5g} against {:.5g} of {}", as_is[i].value, fine[i].value, of.name()));
  }
  int row = 0;
  for (const auto& [what, met] : worst) {
    const std::string tail = ++row == 1 ? "" : "_" + std::to_string(row);
    RecordProperty("value" + tail, fmt::format("{:.4g}", met.residual()));
    RecordProperty("expected" + tail, "0");
    RecordProperty("tolerance" + tail, "1");
    RecordProperty("unit" + tail, "1");
    RecordProperty("kind" + tail, "verification");
    RecordProperty("source" + tail,
                   what + ": change with a tenth of the tolerance on twice the mesh, over 0.1 % or half the last digit; " + met.where());
    const auto known = known_misses().find(what.starts_with("inner ") || what.starts_with("outer ") ? what.substr(6) : what);
    EXPECT_LE(met.residual(), known == known_misses().end() ? 1.0 : known->second) << what << ": " << met.where();
  }
}

TEST_P(EveryPorosity, a_tenth_of_the_tolerance_of_closed_pores_changes_nothing_shown) {
  Worst worst;
  for (const Combination& of : Shipped::all().sample_of_class(GetParam())) {
    const trade::ResolvedFiring firing = Shipped::all().firing(of);
    const Fired as_is = fired(firing);
    if (as_is.impossible) continue;
    const auto& times_s = as_is.result.time_s;
    const std::vector<double> pressure_Pa = firing::read_off(as_is.chamber.time_s, as_is.chamber.pressure_Pa, times_s);
    const std::vector<firing::Point> points = firing::points_of(firing.pieces.front(), stock_of(firing));
    for (std::size_t i = 0; i < points.size(); ++i) {
      if (!points[i].powder) continue;
      const physics::SectionHistory& section = as_is.load.sections.front();
      const std::size_t node = firing::node_of(section, points[i]);
      std::vector<double> column;
      for (std::size_t row = 0; row < as_is.load.time_s.size(); ++row) column.push_back(section.node_at(row, node));
      physics::PowderState state = physics::start_powder(*points[i].powder);
      physics::advance_powder(*points[i].powder, state, times_s, firing::read_off(as_is.load.time_s, column, times_s), pressure_Pa, nullptr,
                              {1e-4, 0.02});
      const double fine = 100 * physics::powder_porosity(*points[i].powder, state);
      const double coarse = as_is.piece().points[i].porosity_percent;
      const double share = std::abs(coarse - fine) / allowed({"", fine, "%", 0});
      worst.meet(share, fmt::format("{} against {} of {}", coarse, fine, of.name()));
    }
  }
  Evidence row("change of porosity over 0.1 % of it or half its last shown digit");
  record(row, worst, 1);
}

/// The deciding quantity of one point in the maker's firing with the chamber shifted, or its hold changed.
double maker_does(const trade::ResolvedFiring& firing, const firing::ChamberHistory& chamber, double shift_K, double hold_s,
                  const physics::LoadAccuracy& accuracy, std::size_t point) {
  const firing::ChamberHistory changed = firing::with_hold_changed(firing::shifted(chamber, shift_K), hold_s);
  return std::log(fired_in(firing, changed, accuracy).piece().points.at(point).deciding);
}

TEST_P(EveryNumber, a_tenth_of_the_tolerance_changes_no_shown_shift_or_hold) {
  Worst worst;
  for (const Combination& of : Shipped::all().few_of_class(GetParam())) {
    trade::ResolvedFiring here = Shipped::all().firing(of);
    if (!here.furnace.display_error) here.furnace.display_error.emplace();
    here.furnace.display_error->error.value = quantity::kelvins(12);
    firing::RehearseOptions options;
    options.workers = 1;
    const firing::Rehearsal rehearsal = firing::rehearse(here, options);
    if (rehearsal.impossible || rehearsal.reference.empty()) continue;
    const firing::Comparison& found = rehearsal.compared.front();
    ASSERT_TRUE(found.shift_K) << of.name();
    const firing::ChamberHistory& chamber = rehearsal.reference.front().chamber;
    const Fired finely = fired_in(here, rehearsal.firing.chamber, finer);
    // The headline is one of the points, and not told: the one that fits. Two that lie close must not be taken one for the other.
    double off_K = 1e9, off_s = 1e9;
    for (std::size_t i = 0; i < finely.piece().points.size(); ++i) {
      if (!finely.piece().points[i].decides) continue;
      const double wanted = std::log(finely.piece().points[i].deciding);
      const double at = maker_does(here, chamber, *found.shift_K, 0, finer, i);
      const double slope = maker_does(here, chamber, *found.shift_K + 1, 0, finer, i) - at;
      const auto nearer = [](double one, double other) { return std::abs(one) < std::abs(other) ? one : other; };
      off_K = nearer((wanted - at) / slope, off_K);
      if (!found.hold_s) continue;
      const double held = maker_does(here, chamber, 0, *found.hold_s, finer, i);
      off_s = nearer((wanted - held) / (maker_does(here, chamber, 0, *found.hold_s + 1, finer, i) - held), off_s);
    }
    worst.meet(off_K / allowed({"", *found.shift_K, "K", 0}), fmt::format("shift {} off by {} K, {}", *found.shift_K, off_K, of.name()));
    if (found.hold_s)
      worst.meet(off_s / allowed({"", *found.hold_s, "s", 0}), fmt::format("hold {} off by {} s, {}", *found.hold_s, off_s, of.name()));
  }
  Evidence row("change of the shift or the hold over 0.1 % of it or half its last shown digit");
  record(row, worst, 1);
}

}  // namespace
}  // namespace heatwork::tests
