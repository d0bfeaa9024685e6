// Laws that stresses of cooling layers must keep: balance, soak, symmetry, thin shells, orders of steps and points.
#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "../reference/evidence_row.h"
#include "../reference/stress_glasses.h"

namespace heatwork::identity {
namespace {

using namespace reference;
constexpr double MPa = 1e6;
constexpr std::array<StressForm, 4> forms = {StressForm::plate_free, StressForm::plate_flat, StressForm::cylinder, StressForm::sphere};

std::vector<StressLayer> three_layers() {
  StressLayer relaxing = float_glass(0.8, set_B);  // its bulk relaxes too
  return {zirconia(), porcelain(), relaxing};
}

TEST(CoolingLaws, ForceAndMomentBalanceAtEveryStep) {
  Evidence row("largest imbalance of any step: plates, then cylinder and sphere of 4 mm, 0.1, 1, 10 and 100 m", "1");
  for (const StressForm form : forms) {
    const bool curved = form == StressForm::cylinder || form == StressForm::sphere;
    for (const double radius_mm : curved ? std::vector{4.0, 100.0, 1e3, 1e4, 1e5} : std::vector{0.0}) {
      row.near(cooled(form, {zirconia(), porcelain()}, 750, 25, 17, 60, radius_mm, {1, 9, 5}).back().imbalance, 0, 1e-8);
      row.near(cooled(form, three_layers(), 750, 25, 60, 200, radius_mm, {1, 9, 5}).back().imbalance, 0, 1e-8);
    }
  }
}

TEST(CoolingLaws, NothingIsLeftAfterASoakAboveTheTransition) {
  Evidence row("highest stress after 10 min 100 K above the transition, from one cooled by films", "MPa");
  for (const StressForm form : forms) {
    CoolingStress piece(form, 4e-3, std::vector{zirconia(), porcelain()}, 1023.15);
    CoolingCourse cooling, soak;
    cooling.inner = FaceCooling{17, 0};
    cooling.outer = FaceCooling{200, 0};
    const auto frozen = piece.run(cooling).back();
    EXPECT_GT(std::abs(frozen.layers[1].outer_hoop_Pa), 10 * MPa);
    soak.time_s = {0, 600, 1200};
    soak.temperature_K = {298.15, 973.15, 973.15};
    const auto after = piece.run(soak).back();
    for (const LayerCooling& layer : after.layers) row.near(std::max(layer.highest_hoop_Pa, -layer.lowest_hoop_Pa) / MPa, 0, 0.1);
  }
}

TEST(CoolingLaws, ChainOfFiringsIsTheSameFromAnyStoredState) {
  const std::vector<StressLayer> layers = three_layers();
  std::vector<CoolingCourse> chain(6);
  for (std::size_t i = 0; i < chain.size(); ++i) {
    if (i % 2 == 0) {
      chain[i].inner = FaceCooling{10.0 + 7 * static_cast<double>(i), 0.3};
      chain[i].outer = FaceCooling{60, 0.8};
    } else {  // up again: not to the top the second time
      chain[i].time_s = {0, 500, 560};
      chain[i].temperature_K = {298.15, i == 3 ? 850.0 : 1023.15, i == 3 ? 850.0 : 1023.15};
    }
  }
  for (const StressForm form : forms) {
    CoolingStress whole(form, 4e-3, layers, 1023.15);
    for (const CoolingCourse& course : chain) {
      CoolingStress stored(form, 4e-3, layers, 298.15);
      stored.resume(whole.state());
      const auto one = whole.run(course).back(), other = stored.run(course).back();
      EXPECT_EQ(one.layers[1].outer_hoop_Pa, other.layers[1].outer_hoop_Pa);
      EXPECT_EQ(whole.state(), stored.state());
    }
  }
}

TEST(CoolingLaws, NoStepMakesAPeakWhereAHistoryEndsAndFilmsBegin) {
  // A thin section whose last layer still flows: its stress is that of the rate, which the film changes from one moment to the next.
  StressLayer first = solid(0.046, 215, 0.335, 8.17, 4350, 6.5, 800), last = solid(0.127, 100, 0.365, 10, 4000, 5, 800);
  first.glass = soda_lime(63600, 44.6);
  first.glass->relaxing.reference_K = 996.6;
  last.glass = soda_lime(67200, 14.9);
  last.glass->relaxing.reference_K = 796.7;
  for (StressLayer* layer : {&first, &last}) layer->glass->bulk_remaining = 1;
  CoolingCourse course;
  course.time_s = {0, 2496.8, 6000};
  course.temperature_K = {1116.85, 700.27, 363.05};
  course.film_from_K = 780.04;
  course.inner = FaceCooling{80.6, 0};
  course.outer = FaceCooling{2.2, 0};
  Evidence row("highest stress on the way by steps of 2, 1, 0.5 and 0.2 K beside 0.1 K: thin layers, films from 507 C", "MPa");
  const auto peak = [&](double step_K) {
    const std::vector<StressLayer> layers{first, solid(0.145, 26.5, 0.447, 7.02, 4700, 16, 800), last};
    return CoolingStress(StressForm::plate_plane_strain, 0, layers, 1116.85, {step_K, 9, 5})
        .run(course)
        .back()
        .layers[2]
        .transient_highest_Pa;
  };
  const double exact = peak(0.1);
  for (const double step_K : {2.0, 1.0, 0.5, 0.2}) row.near(peak(step_K) / MPa, exact / MPa, 0.1);
}

TEST(CoolingLaws, SameFromBothSides) {
  Evidence row("plates turned round: difference of faces, then of curvatures", "MPa");
  for (const StressForm form : {StressForm::plate_free, StressForm::plate_flat}) {
    const auto one = cooled(form, {zirconia(), porcelain()}, 750, 25, 17, 60).back();
    const auto turned = cooled(form, {porcelain(), zirconia()}, 750, 25, 60, 17).back();
    for (std::size_t l = 0; l < 2; ++l) {
      row.near((one.layers[l].inner_hoop_Pa - turned.layers[1 - l].outer_hoop_Pa) / MPa, 0, 1e-6);
      row.near((one.layers[l].outer_hoop_Pa - turned.layers[1 - l].inner_hoop_Pa) / MPa, 0, 1e-6);
    }
    EXPECT_NEAR(one.curvature_per_m, -turned.curvature_per_m, 1e-9);
  }
  const auto even = cooled(StressForm::plate_free, {porcelain(0.8), zirconia(), porcelain(0.8)}, 750, 25, 60, 60).back();
  row.near((even.layers[0].inner_hoop_Pa - even.layers[2].outer_hoop_Pa) / MPa, 0, 1e-6);
  EXPECT_NEAR(even.curvature_per_m, 0, 1e-10);
}

TEST(CoolingLaws, LargeShellsTendToTheFlatPlate) {
  const auto flat = cooled(StressForm::plate_flat, {zirconia(), porcelain()}, 750, 25, 17, 60).back();
  Evidence row("sphere, then cylinder: distance from the flat plate at 0.1 m over that at 1 m, first order in thickness over radius", "1");
  for (const StressForm form : {StressForm::sphere, StressForm::cylinder}) {
    const auto off = [&](double radius_mm) {
      const auto shell = cooled(form, {zirconia(), porcelain()}, 750, 25, 17, 60, radius_mm).back();
      double most = 0;
      for (std::size_t l = 0; l < 2; ++l) {
        most = std::max(most, std::abs(shell.layers[l].inner_hoop_Pa - flat.layers[l].inner_hoop_Pa));
        most = std::max(most, std::abs(shell.layers[l].outer_hoop_Pa - flat.layers[l].outer_hoop_Pa));
      }
      return most / MPa;
    };
    row.near(off(100) / off(1000), 10, 0.5);
    EXPECT_LT(off(1e5), 0.01);
  }
}

TEST(CoolingLaws, StepsAreOfOrderTwoAtLeast) {
  Evidence row("order of the veneer's interface stress from steps halved: 4 to 2 to 1 K, forms one by one", "1");
  for (const StressForm form : forms) {
    const auto stress = [&](double step_K) {
      return cooled(form, {zirconia(), porcelain()}, 750, 25, 17, 60, 4, {step_K, 9, 5}).back().layers[1].inner_hoop_Pa;
    };
    const double exact = stress(0.02);
    const std::array<double, 3> off = {stress(4) - exact, stress(2) - exact, stress(1) - exact};
    row.above(std::log2(std::abs(off[0] / off[1])), 1.8);
    row.above(std::log2(std::abs(off[1] / off[2])), 1.9);
  }
}

TEST(CoolingLaws, PointsAreOfHighOrder) {
  Evidence row("a strong quench: order of surface stress from spaces halved, 4 to 8 to 16", "1");
  const auto stress = [](std::size_t points) {
    return cooled(StressForm::plate_free, {float_glass(6.1, set_A)}, 650, 20, 450, 450, 0, {0.5, points, 5}).back().layers[0].outer_hoop_Pa;
  };
  const double exact = stress(33);
  row.above(std::log2(std::abs((stress(5) - exact) / (stress(9) - exact))), 3.5);
  row.above(std::log2(std::abs((stress(9) - exact) / (stress(17) - exact))), 3.5);
}

}  // namespace
}  // namespace heatwork::identity
