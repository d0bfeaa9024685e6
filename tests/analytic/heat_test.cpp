// Conduction against exact solutions: plane wall (step and ramp), two layers, sphere, orders of refinement.
#include <algorithm>
#include <cmath>

#include "../reference/evidence_row.h"
#include "physics/biot.h"
#include "physics/section_heating.h"
#include "plane_wall.h"

namespace heatwork::analytic {
namespace {

using namespace physics;
using reference::Evidence;

constexpr double k = 2.5, rho = 6050, cp = 500, half_m = 1e-3;
constexpr double unit_time_s = half_m * half_m * rho * cp / k;

Layer plain(double thickness_m, double contact = 0) {
  return {thickness_m, rho, TemperatureProperty::constant(k), TemperatureProperty::constant(cp), contact};
}

Exposure film(double biot, double start_K, double end_K, double fourier, double length_m = half_m) {
  Exposure x;
  x.time_s = {0, fourier * unit_time_s};
  x.surroundings_K = {start_K, end_K};
  x.film_W_per_m2K = biot * k / length_m;
  return x;
}

std::vector<double> moments(double fourier, int count) {
  std::vector<double> at;
  for (int i = 1; i <= count; ++i) at.push_back(fourier * unit_time_s * i / count);
  at.back() = fourier * unit_time_s;
  return at;
}

double worst_step(double biot, const SectionAccuracy& accuracy, bool two_sides = false) {
  const Layer layer = plain(two_sides ? 2 * half_m : half_m);
  SectionHeater heater({&layer, 1}, SectionForm::plate, 0, accuracy);
  Exposure x = film(biot, 293.15, 293.15, 2);
  x.both_faces = two_sides;
  const auto at = moments(2, 40);
  const auto& T = heater.solve({&x, 1}, 773.15, at);
  const auto roots = wall_roots(biot);
  double worst = 0;
  for (std::size_t i = 0; i < at.size(); ++i) {
    const double fourier = at[i] / unit_time_s;
    worst = std::max(worst, std::abs(T.surface_K[i] - 293.15 - 480 * wall_theta(roots, 1, fourier)));
    worst = std::max(worst, std::abs(T.core_K[i] - 293.15 - 480 * wall_theta(roots, 0, fourier)));
  }
  return worst;
}

class PlaneWall : public ::testing::TestWithParam<double> {};

TEST_P(PlaneWall, StepWithDefaults) {
  Evidence row("plane-wall series, Bi = " + std::to_string(GetParam()) + ", 480 K step, largest error from Fo 0.05, 0.1 % of it", "K");
  row.near(worst_step(GetParam(), {}), 0, 0.48);
}

TEST_P(PlaneWall, StepRefined) {
  SectionAccuracy fine;
  fine.total_spaces = 80;
  fine.step_tolerance_K = 1e-4;
  Evidence row("plane-wall series, Bi = " + std::to_string(GetParam()) + ", 80 spaces", "K");
  row.near(worst_step(GetParam(), fine), 0, 0.02);
}

TEST_P(PlaneWall, BothFacesAreTheWallMirrored) {
  SectionAccuracy fine;
  fine.total_spaces = 80;
  fine.step_tolerance_K = 1e-4;
  Evidence row("plane-wall series, both faces of a plate twice as thick", "K");
  row.near(worst_step(GetParam(), fine, true), 0, 0.08);
}

TEST_P(PlaneWall, RampOf55KPerMinute) {
  const double biot = GetParam(), rate = 55.0 / 60.0;
  const Layer layer = plain(half_m);
  SectionHeater heater({&layer, 1}, SectionForm::plate, 0);
  const double fourier = 40;
  Exposure x = film(biot, 723.15, 723.15 + rate * fourier * unit_time_s, fourier);
  const auto at = moments(fourier, 40);
  const auto& T = heater.solve({&x, 1}, 723.15, at);
  const auto roots = wall_roots(biot);
  double worst = 0;
  for (std::size_t i = 0; i < at.size(); ++i) {
    const double fo = at[i] / unit_time_s, around = 723.15 + rate * at[i];
    worst = std::max(worst, std::abs(T.surface_K[i] - (around - rate * unit_time_s * wall_ramp_lag(roots, 1, fo))));
    worst = std::max(worst, std::abs(T.core_K[i] - (around - rate * unit_time_s * wall_ramp_lag(roots, 0, fo))));
  }
  Evidence row("plane-wall series by Duhamel, Bi = " + std::to_string(biot) + ", 55 K/min", "K");
  row.near(worst, 0, 0.1);
}

INSTANTIATE_TEST_SUITE_P(Biot, PlaneWall, ::testing::Values(0.1, 0.3, 1.0, 3.0, 10.0));

TEST(Heat, ObservedOrderOfGridRefinementIsTwo) {
  const auto error = [](std::size_t spaces) {
    SectionAccuracy a;
    a.total_spaces = spaces;
    a.step_tolerance_K = 1e-5;
    return worst_step(1.0, a);
  };
  Evidence row("control volumes: error falls as the square of the spacing");
  row.near(std::log2(error(8) / error(16)), 2, 0.15);
  row.near(std::log2(error(16) / error(32)), 2, 0.15);
}

TEST(Heat, SphereBehindAFilm) {
  const Layer ball = plain(half_m);
  const double biot = 1.0;
  SectionAccuracy fine;
  fine.total_spaces = 60;
  fine.step_tolerance_K = 1e-4;
  for (const bool defaults : {false, true}) {
    SectionHeater heater({&ball, 1}, SectionForm::shell, 0, defaults ? SectionAccuracy{} : fine);
    const Exposure x = film(biot, 293.15, 293.15, 1);
    const auto at = moments(1, 20);
    const auto& T = heater.solve({&x, 1}, 773.15, at);
    double worst = 0;
    for (std::size_t i = 0; i < at.size(); ++i) {
      const double fo = at[i] / unit_time_s;
      worst = std::max(worst, std::abs(T.surface_K[i] - 293.15 - 480 * sphere_theta(biot, 1, fo)));
      worst = std::max(worst, std::abs(T.core_K[i] - 293.15 - 480 * sphere_theta(biot, 0, fo)));
    }
    Evidence row(defaults ? "sphere series, Bi = 1, 480 K step, defaults: 0.25 % of it" : "sphere series, Bi = 1, 60 spaces", "K");
    row.near(worst, 0, defaults ? 1.2 : 0.1);
  }
}

TEST(Heat, TwoLayersWithAContactCarryOneFlux) {
  // Steady state: both faces at films of one kind cannot be held, so the inside is insulated and the surroundings rise steadily:
  // then each layer's drop is that of the heat it and what lies inside it take up.
  const double rate = 0.5;
  Layer inner{1e-3, 6000, TemperatureProperty::constant(2.5), TemperatureProperty::constant(500), 0};
  Layer outer{2e-3, 2400, TemperatureProperty::constant(1.2), TemperatureProperty::constant(1000), 1e-4};
  const Layer layers[] = {inner, outer};
  SectionAccuracy fine;
  fine.total_spaces = 20;
  fine.step_tolerance_K = 1e-4;
  SectionHeater heater(layers, SectionForm::plate, 0, fine);
  Exposure x;
  x.time_s = {0, 2000};
  x.surroundings_K = {300, 1300};
  x.film_W_per_m2K = 200;
  const double at[] = {2000};
  const auto& T = heater.solve({&x, 1}, 300, at);
  const double heat_inner = 1e-3 * 6000 * 500, heat_outer = 2e-3 * 2400 * 1000;
  Evidence row("closed form: quasi-steady drops of two layers and their contact under a steady rise", "K");
  row.near(1300 - T.surface_K[0], rate * (heat_inner + heat_outer) / 200, 0.02);
  row.near(T.surface_K[0] - T.interface_K[0], rate * (heat_inner * 2e-3 / 1.2 + heat_outer * 2e-3 / 2 / 1.2 + heat_inner * 1e-4), 0.02);
  row.near(T.interface_K[0] - T.inside_K[0], rate * heat_inner * 1e-3 / 2 / 2.5, 0.02);
}

TEST(Heat, TubeCarriesTheLogarithm) {
  // Quasi-steady rise of a thick tube insulated inside: the drop has a closed form with a logarithm.
  const double a = 2e-3, b = 5e-3, rate = 0.2;
  const Layer wall{b - a, 2400, TemperatureProperty::constant(1.2), TemperatureProperty::constant(1000), 0};
  SectionAccuracy fine;
  fine.total_spaces = 60;
  fine.step_tolerance_K = 1e-4;
  SectionHeater heater({&wall, 1}, SectionForm::tube, a, fine);
  Exposure x;
  x.time_s = {0, 3000};
  x.surroundings_K = {300, 900};
  x.film_W_per_m2K = 300;
  const double at[] = {3000};
  const auto& T = heater.solve({&x, 1}, 300, at);
  const double drop = rate * 2400 * 1000 / (2 * 1.2) * ((b * b - a * a) / 2 - a * a * std::log(b / a));
  Evidence row("closed form: tube insulated inside under a steady rise", "K");
  row.near(T.surface_K[0] - T.inside_K[0], drop, 0.005);
}

TEST(Heat, RefusesInOneSentence) {
  const Layer layer = plain(half_m);
  SectionHeater heater({&layer, 1}, SectionForm::plate, 0);
  Exposure x = film(1, 300, 300, 1);
  x.emissivity = 1.2;
  const double at[] = {0.5};
  try {
    heater.solve({&x, 1}, 300, at);
    FAIL();
  } catch (const std::invalid_argument& wrong) {
    EXPECT_STREQ(wrong.what(), "exposure 1: emissivity must be from 0 to 1.");
  }
  EXPECT_THROW(heater.solve({}, 300, at), std::invalid_argument);
  const double late[] = {1e6};
  x.emissivity = 0;
  EXPECT_THROW(heater.solve({&x, 1}, 300, late), std::invalid_argument);
}

}  // namespace
}  // namespace heatwork::analytic
