#include "physics/cooling_stress.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>
#include <string>

#include "physics/cooling_course.h"
#include "physics/stress_case.h"

namespace heatwork::physics {
namespace {

const StressLayer plain = solid(1, 65, 0.21, 9.5);

std::string refusal(const CoolingCourse& course, StressForm form = StressForm::plate_free) {
  try {
    static_cast<void>(CoolingStress(form, 0, std::vector{plain}, 900).run(course));
  } catch (const std::domain_error& wrong) {
    return wrong.what();
  }
  return "";
}

TEST(CoolingStress, RefusesCoursesThatCannotBe) {
  CoolingCourse course;
  EXPECT_EQ(refusal(course), "A course needs a history or films.");
  course.inner = FaceCooling{17, 0};
  EXPECT_EQ(refusal(course), "A film is given for both faces or for none.");
  course.outer = FaceCooling{-1, 0};
  EXPECT_EQ(refusal(course), "A film must be from 0 up, an emissivity from 0 to 1.");
  course.inner = course.outer = FaceCooling{0, 0};
  EXPECT_EQ(refusal(course), "Neither face has a film or radiates: the piece would never cool.");
  course.outer = FaceCooling{17, 0};
  EXPECT_EQ(refusal(course, StressForm::membrane), "A membrane has one temperature: it takes a history, no film.");
  course.around_s = {0, 10};
  EXPECT_EQ(refusal(course), "Surroundings need as many temperatures as times.");
  course.around_K = {900, 0};
  EXPECT_EQ(refusal(course), "Surroundings must rise in time, with temperatures above 0 K.");
  course.inner.reset();
  course.outer.reset();
  course.around_K = {900, 300};
  EXPECT_EQ(refusal(course), "A course needs a history or films.");
  course.time_s = {0, 10};
  course.temperature_K = {900, 800};
  EXPECT_EQ(refusal(course), "Surroundings act through films, and none is given.");
  course.around_s = course.around_K = {};
  course.report_at_s = {20};
  EXPECT_EQ(refusal(course), "A report is asked for after the end of the history.");
  course.temperature_K = {850, 800};
  EXPECT_EQ(refusal(course), "The history begins at 850.000000 K, but the piece is at 900.000000 K.");
}

TEST(CoolingStress, ReportsAtTheTimesAskedForAndEndsAtTheSurroundings) {
  CoolingCourse course;
  course.inner = course.outer = FaceCooling{60, 0.9};
  course.around_s = {0, 100, 300};
  course.around_K = {900, 700, 400};
  course.report_at_s = {0, 50, 100, 5000};
  const auto found = CoolingStress(StressForm::plate_free, 0, std::vector{plain}, 900).run(course);
  ASSERT_EQ(found.size(), 5u);
  for (std::size_t i = 0; i < 4; ++i) EXPECT_EQ(found[i].time_s, course.report_at_s[i]);
  EXPECT_GE(found.back().time_s, 5000);
  EXPECT_LT(std::abs(found.back().layers[0].outer_hoop_Pa), 10);
}

TEST(CoolingStress, ReportsAHistoryFromItsStartOn) {
  CoolingCourse course;
  course.time_s = {5, 100, 200};
  course.temperature_K = {900, 700, 400};
  course.report_at_s = {5, 6, 100, 200};
  const auto reports = CoolingStress(StressForm::plate_free, 0, std::vector{plain}, 900).run(course);
  ASSERT_EQ(reports.size(), 5u);
  for (std::size_t i = 0; i < 4; ++i) EXPECT_EQ(reports[i].time_s, course.report_at_s[i]);
}

// Two liquids at one temperature bend as two elastic strips do, their viscosities in the place of the moduli.
TEST(CoolingStress, LiquidsBendByTheirViscosities) {
  StressLayer runny = glass_layer(1.0), stiff = glass_layer(0.7);
  runny.glass->relaxing.reference_K = 870;
  runny.glass->liquid_expansion_per_K = 20e-6;
  CoolingCourse course;
  course.time_s = {0, 100};
  course.temperature_K = {1120, 1040};
  const auto bent = CoolingStress(StressForm::plate_free, 0, std::vector{runny, stiff}, 1120).run(course).back();
  const double m = 1.0 / 0.7, n = std::exp(-7e4 * (1 / 870.0 - 1 / 933.15)), h = 1.7e-3, free = (20e-6 - 28.5e-6) * -80;
  const double strips = 6 * free * (1 + m) * (1 + m) / (h * (3 * (1 + m) * (1 + m) + (1 + m * n) * (m * m + 1 / (m * n))));
  EXPECT_NEAR(bent.curvature_per_m, -strips, 0.01 * std::abs(strips));
}

TEST(StressPeak, FindsTheTopBetweenSteps) {
  StressPeak peak;
  for (const double t : {0.0, 0.7, 1.6, 2.0, 3.1}) peak.add(t, 5 - (t - 1.3) * (t - 1.3));
  EXPECT_NEAR(peak.highest_Pa(), 5, 1e-12);
  StressPeak corner;  // up to 1 and down again: no rounder than it is
  corner.add(0, 0);
  corner.add(1, 10);
  corner.turn();
  corner.add(2, 5);
  EXPECT_EQ(corner.highest_Pa(), 10);
}

TEST(CoolingCourse, SurroundingsRunStraightAndAreHeld) {
  CoolingCourse course;
  course.ambient_K = 290;
  EXPECT_EQ(surroundings_K(course, 5), 290);
  course.around_s = {10, 20, 40};
  course.around_K = {900, 700, 300};
  EXPECT_EQ(surroundings_K(course, 0), 900);
  EXPECT_EQ(surroundings_K(course, 15), 800);
  EXPECT_EQ(surroundings_K(course, 30), 500);
  EXPECT_EQ(surroundings_K(course, 99), 300);
  Stops stops(course.around_s);
  EXPECT_EQ(stops.after(0), 10);
  EXPECT_EQ(stops.after(20), 40);
  EXPECT_EQ(stops.after(40), std::numeric_limits<double>::infinity());
}

TEST(CoolingStress, StateIsWholeOrRefused) {
  CoolingStress one(StressForm::plate_flat, 0, std::vector{plain}, 900), other(StressForm::plate_flat, 0, std::vector{plain}, 300);
  CoolingCourse course;
  course.inner = course.outer = FaceCooling{60, 0};
  one.run(course);
  const auto state = one.state();
  other.resume(state);
  EXPECT_EQ(other.state(), state);
  EXPECT_THROW(other.resume(std::span(state).first(state.size() - 1)), std::domain_error);
  EXPECT_THROW(other.resume(std::span(state).first(1)), std::domain_error);
}

}  // namespace
}  // namespace heatwork::physics
