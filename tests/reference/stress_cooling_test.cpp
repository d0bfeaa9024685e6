// Stress of cooling glasses: one term, sandwich seal, laws, a support inside.
#include <gtest/gtest.h>

#include <cmath>

#include "evidence_row.h"
#include "stress_glasses.h"

namespace heatwork {
namespace {

using namespace reference;
constexpr double MPa = 1e6;

TEST(stress, V6) {
  // One term that follows its clock on the wall (no activation left to move it), held against all strain by a rigid thick core.
  StressLayer glass = solid(1e-3, 65, 0, 9.5, 2400, 1, 1000);
  glass.glass = StressGlass{};
  glass.glass->relaxing = {900, 1e-9, 1, {{1, 1e-3}}};
  glass.glass->liquid_expansion_per_K = 9.5e-6;
  glass.glass->shear = {{1, 10}};
  glass.glass->bulk_remaining = 0;
  glass.glass->bulk = {{1, 10}};
  const StressLayer core = solid(100, 1900, 0, 0, 2400, 1, 1000);
  CoolingCourse course;
  course.time_s = {0, 20};
  course.temperature_K = {1000, 980};
  const auto found = CoolingStress(StressForm::membrane, 0, std::vector{core, glass}, 1000, {5, 2, 2}).run(course).back();
  Evidence evidence("one Maxwell term on a ramp, fully held: E alpha q tau (1 - exp(-t / tau))", "MPa");
  evidence.within_percent(found.layers[1].middle_hoop_Pa / MPa, 5.339, 0.1);
}

TEST(stress, V17) {
  const auto found = sandwich_seal(1);
  Evidence evidence(
      "sandwich seal, published verification of a general finite-element code: 12.5 MPa at 460 C; the rest by the handbook's scheme",
      "MPa");
  evidence.within_percent(found[1].layers[1].middle_hoop_Pa / MPa, 12.5, 2);
  evidence.within_percent(found[0].layers[1].middle_hoop_Pa / MPa, 7.16, 1);
  evidence.within_percent(found[2].layers[1].middle_hoop_Pa / MPa, 7.31, 1);
  evidence.within_percent(found[2].layers[0].middle_hoop_Pa / MPa, -95.1, 1);
  evidence.in("C");
  evidence.near(found[0].layers[1].fictive_K - 273.15, 528.5, 0.3);
  evidence.near(found[1].layers[1].fictive_K - 273.15, 516.1, 0.3);
  evidence.near(found[2].layers[1].fictive_K - 273.15, 515.8, 0.3);
}

TEST(stress, V8) {
  Evidence evidence("force and moment at every step; one elastic material; soak; symmetry", "1");
  for (const auto form : {StressForm::plate_free, StressForm::plate_flat, StressForm::cylinder, StressForm::sphere}) {
    const auto found = cooled(form, {zirconia(), porcelain()}, 750, 25, 17, 60, 4).back();
    evidence.near(found.imbalance, 0, 1e-8);
  }
  evidence.in("MPa");
  const auto elastic = cooled(StressForm::plate_free, {zirconia()}, 750, 25, 60, 200).back();
  evidence.near(elastic.layers[0].highest_hoop_Pa / MPa, 0, 1e-6);
  CoolingStress piece(StressForm::plate_free, 0, std::vector{porcelain(2)}, 1023.15);
  CoolingCourse cooling;
  cooling.inner = cooling.outer = FaceCooling{200, 0};
  const double frozen = piece.run(cooling).back().layers[0].highest_hoop_Pa;
  EXPECT_GT(frozen, 10 * MPa);
  CoolingCourse soak;
  soak.time_s = {0, 600, 1200};
  soak.temperature_K = {298.15, 973.15, 973.15};
  evidence.near(piece.run(soak).back().layers[0].highest_hoop_Pa / MPa, 0, 0.1);
  const auto even = cooled(StressForm::plate_free, {porcelain(2)}, 750, 25, 60, 60).back();
  evidence.near((even.layers[0].inner_hoop_Pa - even.layers[0].outer_hoop_Pa) / MPa, 0, 1e-6);
}

TEST(stress, V18) {
  CoolingCourse course;
  course.mass = InnerMass{15e3, 400, 0};
  Evidence evidence("crowns with thermocouples, Tholey 2011: 80 to 140 K on fast removal, up to 88 K on slow", "K", "validation");
  const auto difference = [&](double film) {
    course.inner = FaceCooling{0, 0};
    course.outer = FaceCooling{film, 0};
    return CoolingStress(StressForm::plate_flat, 0, std::vector{zirconia(), porcelain()}, 1173.15).run(course).back().largest_difference_K;
  };
  evidence.between(difference(60), 80, 140);
  evidence.between(difference(17), 0, 88);
}

TEST(stress, GoesOnFromItsState) {
  CoolingCourse first, second, whole;
  first.time_s = {0, 300};
  first.temperature_K = {1023.15, 800};
  second.time_s = {300, 900};
  second.temperature_K = {800, 300};
  const std::vector<StressLayer> layers = {zirconia(), porcelain()};
  CoolingStress one(StressForm::sphere, 4e-3, layers, 1023.15), other(StressForm::sphere, 4e-3, layers, 1023.15);
  one.run(first);
  other.resume(one.state());
  EXPECT_EQ(one.run(second).back().layers[1].outer_hoop_Pa, other.run(second).back().layers[1].outer_hoop_Pa);
  EXPECT_EQ(one.state(), other.state());
}

}  // namespace
}  // namespace heatwork
