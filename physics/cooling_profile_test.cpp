#include "physics/cooling_profile.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <stdexcept>
#include <string>

#include "physics/cooling_error.h"
#include "physics/stress_case.h"

namespace heatwork::physics {
namespace {

constexpr double MPa = 1e6, hot_K = 1073.15;
constexpr std::array<StressForm, 4> forms = {StressForm::plate_free, StressForm::plate_flat, StressForm::cylinder, StressForm::sphere};
constexpr StressAccuracy fine = {0.1, 13, 7};
const std::vector<StressLayer> crown = {solid(0.7, 205, 0.3, 10.5, 6050, 2.5, 580), glass_layer(1.5)};

CoolingCourse by_films(double inner = 17, double outer = 60) {
  CoolingCourse course;
  course.inner = FaceCooling{inner, 0};
  course.outer = FaceCooling{outer, 0.5};
  return course;
}

/// The temperatures of a cooling by films, told as a profile of rows so far apart, to 150 s. [s]
CoolingCourse prescribed(StressForm form, const CoolingCourse& films, double row_gap_s) {
  constexpr double step_s = 0.05, end_s = 150;
  const CoolingMesh mesh = cooling_mesh(form, 4e-3, crown, fine);
  CoolingHeat heat(mesh, crown);
  heat.cool_by(*films.inner, *films.outer, nullptr);
  SectionProfile profile;
  for (std::size_t l = 0; l < crown.size(); ++l)
    for (std::size_t q = l == 0 ? 0 : 1; q < mesh.points[l].count(); ++q)
      profile.depth_m.push_back(mesh.place_m[l][q] - mesh.place_m[0][0]);
  std::vector<double> T(mesh.nodes, hot_K);
  double mass_K = hot_K;
  const auto every = static_cast<int>(std::lround(row_gap_s / step_s)), count = static_cast<int>(std::lround(end_s / step_s));
  for (int i = 0; i <= count; ++i) {
    if (i % every == 0) {
      profile.time_s.push_back(i * step_s);
      profile.node_K.insert(profile.node_K.end(), T.begin(), T.end());
    }
    heat.step(T, mass_K, step_s, films.ambient_K, films.ambient_K);
  }
  CoolingCourse course = films;
  course.profile = profile;
  course.from_liquid = true;
  return course;
}

CoolingReport cooled(StressForm form, const CoolingCourse& course, const StressAccuracy& accuracy = fine,
                     const std::vector<StressLayer>& layers = crown) {
  return CoolingStress(form, 4e-3, layers, hot_K, accuracy).run(course).back();
}

TEST(CoolingProfile, IsTheCoolingThatGaveIt) {
  for (const StressForm form : forms) {
    const CoolingReport films = cooled(form, by_films());
    const auto off_Pa = [&](double row_gap_s) { return largest_change_Pa(cooled(form, prescribed(form, by_films(), row_gap_s)), films); };
    const double eight = off_Pa(7.5), four = off_Pa(3.75);
    EXPECT_LT(four, 0.2 * MPa);
    EXPECT_GT(std::log2(eight / four), 1.7) << eight / MPa << " " << four / MPa;
  }
}

TEST(CoolingProfile, StepsAreOfOrderTwo) {
  for (const StressForm form : forms) {
    const CoolingCourse course = prescribed(form, by_films(), 0.5);
    const auto stress = [&](double step_K) { return cooled(form, course, {step_K, 9, 5}).layers[1].inner_hoop_Pa; };
    const double exact = stress(0.02);
    const std::array<double, 3> off = {stress(4) - exact, stress(2) - exact, stress(1) - exact};
    EXPECT_GT(std::log2(std::abs(off[0] / off[1])), 1.6);
    EXPECT_GT(std::log2(std::abs(off[1] / off[2])), 1.8);
  }
}

TEST(CoolingProfile, BalancesAtEveryStepAndTheErrorIsTold) {
  for (const StressForm form : forms) {
    const CoolingCourse course = prescribed(form, by_films(), 4);
    const auto told = estimated_cooling(form, 4e-3, crown, hot_K, course, {1, 9, 5});
    EXPECT_LT(told.reports.back().imbalance, 1e-8);
    EXPECT_GT(told.reports.back().steps, 50u);
    EXPECT_LT(largest_change_Pa(told.reports.back(), cooled(form, by_films())), told.error_Pa);
  }
}

TEST(CoolingProfile, SameFromBothSides) {
  const std::vector<StressLayer> even = {glass_layer(0.8), solid(0.7, 205, 0.3, 10.5, 6050, 2.5, 580), glass_layer(0.8)};
  CoolingCourse course = by_films(60, 60);
  course.inner->emissivity = 0.5;
  course.from_liquid = true;
  course.profile = SectionProfile{{0, 1.15e-3, 2.3e-3}, {0, 30, 90}, {1080, 1100, 1080, 800, 850, 800, 500, 520, 500}, {}, {30}};
  const CoolingReport told = cooled(StressForm::plate_free, course, {1, 9, 5}, even);
  EXPECT_NEAR(told.layers[0].inner_hoop_Pa / MPa, told.layers[2].outer_hoop_Pa / MPa, 1e-6);
  EXPECT_NEAR(told.layers[0].transient_highest_Pa / MPa, told.layers[2].transient_highest_Pa / MPa, 1e-6);
  EXPECT_NEAR(told.curvature_per_m, 0, 1e-10);
}

TEST(CoolingProfile, GoesOnFromAStoredStateAsIfItHadNeverStopped) {
  const CoolingCourse down = prescribed(StressForm::sphere, by_films(), 5);
  CoolingCourse up = by_films();
  up.profile = SectionProfile{{0, 2.2e-3}, {0, 300, 400, 600}, {293, 293, 820, 860, 820, 830, 500, 480}, {}, {300, 400}};
  CoolingStress whole(StressForm::sphere, 4e-3, crown, hot_K), stored(StressForm::sphere, 4e-3, crown, 300);
  whole.run(down);
  stored.resume(whole.state());
  const CoolingReport one = whole.run(up).back(), other = stored.run(up).back();
  EXPECT_EQ(one.layers[1].outer_hoop_Pa, other.layers[1].outer_hoop_Pa);
  EXPECT_EQ(one.layers[1].transient_highest_Pa, other.layers[1].transient_highest_Pa);
  EXPECT_EQ(whole.state(), stored.state());
}

TEST(CoolingProfile, TraceTellsTheHighestOnTheWayAndChangesNothing) {
  const CoolingCourse course = prescribed(StressForm::sphere, by_films(), 2);
  CoolingTrace trace;
  const CoolingReport with = CoolingStress(StressForm::sphere, 4e-3, crown, hot_K).run(course, &trace).back();
  const CoolingReport without = CoolingStress(StressForm::sphere, 4e-3, crown, hot_K).run(course).back();
  EXPECT_EQ(largest_change_Pa(with, without), 0);
  ASSERT_EQ(trace.highest_Pa.size(), 2u);
  ASSERT_EQ(trace.highest_Pa[1].size(), trace.time_s.size());
  EXPECT_EQ(trace.time_s.front(), 0);
  const double top_Pa = *std::max_element(trace.highest_Pa[1].begin(), trace.highest_Pa[1].end());
  EXPECT_NEAR(top_Pa, with.layers[1].transient_highest_Pa, 0.1 * MPa);
  EXPECT_LT(std::abs(trace.highest_Pa[1].front()), 0.01 * MPa);  // a liquid
}

TEST(CoolingProfile, MovesThereAndBackAddUp) {
  const SectionProfile profile{{0, 2.2e-3}, {0, 10, 20, 40}, {300, 300, 320, 310, 300, 300, 300, 290}, {}, {}};
  ProfileOnMesh at(profile, cooling_mesh(StressForm::plate_flat, 0, crown, {1, 9, 5}));
  EXPECT_NEAR(at.moved_K(0, 20), 40, 1e-12);
  EXPECT_NEAR(at.moved_K(5, 15), 20, 1e-12);
  std::vector<double> T(13);
  double mass_K = 1;
  at.read(5, T, mass_K);
  EXPECT_NEAR(T.front(), 310, 1e-12);
  EXPECT_NEAR(T.back(), 305, 1e-12);
  EXPECT_EQ(mass_K, 1);
  EXPECT_EQ(thinned(profile).time_s, (std::vector<double>{0, 20, 40}));
}

std::string refusal(const SectionProfile& profile, const CoolingCourse& films = {}) {
  CoolingCourse course = films;
  course.profile = profile;
  try {
    static_cast<void>(CoolingStress(StressForm::plate_free, 0, crown, 900).run(course));
  } catch (const std::domain_error& wrong) {
    return wrong.what();
  }
  return "";
}

TEST(CoolingProfile, RefusesWhatCannotBe) {
  const SectionProfile right{{0, 2.2e-3}, {0, 10}, {300, 300, 310, 310}, {}, {}};
  EXPECT_EQ(refusal(right), "");
  SectionProfile wrong = right;
  wrong.time_s = {0};
  EXPECT_EQ(refusal(wrong), "A profile needs two times and two depths at least.");
  wrong = right;
  wrong.node_K.pop_back();
  EXPECT_EQ(refusal(wrong), "A profile needs a temperature for each time and depth.");
  wrong = right;
  wrong.depth_m = {1e-3, 2.2e-3};
  EXPECT_EQ(refusal(wrong), "The depths of a profile begin at 0 m and never fall.");
  wrong.depth_m = {0, 2.1e-3};
  EXPECT_EQ(refusal(wrong), "The depths of a profile must reach the outside face.");
  wrong = right;
  wrong.time_s = {0, 0};
  EXPECT_EQ(refusal(wrong), "The times of a profile must rise.");
  wrong = right;
  wrong.turn_s = {5, 4};
  EXPECT_EQ(refusal(wrong), "The times at which a profile turns must rise.");
  wrong = right;
  wrong.node_K[1] = 0;
  EXPECT_EQ(refusal(wrong), "The temperatures of a profile must be above 0 K.");
  CoolingCourse with;
  with.mass = InnerMass{1e4, 400, 0};
  EXPECT_EQ(refusal(right, with), "A profile in front of a support needs the temperatures of the support.");
  with = {};
  with.time_s = {0, 10};
  with.temperature_K = {900, 800};
  EXPECT_EQ(refusal(right, with), "A course has a history or a profile, not both.");
  CoolingCourse liquid = by_films();
  liquid.from_liquid = true;
  EXPECT_THROW(static_cast<void>(CoolingStress(StressForm::plate_free, 0, crown, 900).run(liquid)), std::domain_error);
}

}  // namespace
}  // namespace heatwork::physics
