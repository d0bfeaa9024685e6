#include "physics/cooling_mesh.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>

#include "physics/layered_elastic.h"
#include "physics/stress_case.h"

namespace heatwork::physics {
namespace {

double heat_in(const CoolingMesh& mesh, const std::vector<StressLayer>& layers, const std::vector<double>& T) {
  double sum = 0;
  for (std::size_t l = 0; l < layers.size(); ++l)
    for (std::size_t q = 0; q < mesh.points[l].count(); ++q)
      sum += mesh.measure[l][q] * layers[l].heat.density_kg_per_m3 *
             layers[l].heat.specific_heat_J_per_kgK.integral_K(300, T[mesh.first[l] + q]);
  return sum;
}

TEST(CoolingMesh, MeasuresVolumePerOuterArea) {
  const std::vector<StressLayer> layers = {solid(0.7, 205, 0.3, 10.5), solid(1.5, 65, 0.21, 9.5)};
  const CoolingMesh mesh = cooling_mesh(StressForm::sphere, 4e-3, layers, {});
  double volume = 0;
  for (const auto& layer : mesh.measure)
    for (const double w : layer) volume += w;
  EXPECT_NEAR(volume, (std::pow(6.2e-3, 3) - std::pow(4e-3, 3)) / (3 * 6.2e-3 * 6.2e-3), 1e-12);
  EXPECT_EQ(mesh.place_m[0].back(), mesh.place_m[1].front());
}

TEST(CoolingHeat, KeepsItsHeatWhereNothingTakesIt) {
  const std::vector<StressLayer> layers = {solid(0.7, 205, 0.3, 10.5), solid(1.5, 65, 0.21, 9.5)};
  const CoolingMesh mesh = cooling_mesh(StressForm::cylinder, 4e-3, layers, {});
  CoolingHeat heat(mesh, layers);
  heat.cool_by({}, {}, nullptr);
  std::vector<double> T(mesh.nodes);
  for (std::size_t i = 0; i < T.size(); ++i) T[i] = 600 + 10.0 * static_cast<double>(i * i);
  const double before = heat_in(mesh, layers, T);
  double mass_K = 300;
  for (int i = 0; i < 2000; ++i) heat.step(T, mass_K, 0.05, 300, 300);
  EXPECT_NEAR(heat_in(mesh, layers, T) / before, 1, 1e-12);
  EXPECT_NEAR(T.front(), T.back(), 1e-9);
}

// A wall of 2 mm suddenly cooled on both faces, Bi = 0.5: first term of the series late enough.
double wall_error_K(double step_s, bool curved_property) {
  StressLayer layer = solid(2, 65, 0.2, 9);
  if (curved_property) layer.heat.specific_heat_J_per_kgK = TemperatureProperty::linear(0, 900, 1000, 1500);
  const std::vector<StressLayer> layers = {layer};
  const CoolingMesh mesh = cooling_mesh(StressForm::plate_flat, 0, layers, {1, 9, 9});
  const auto run = [&](double step) {
    CoolingHeat heat(mesh, layers);
    const FaceCooling film{650, curved_property ? 0.9 : 0.0};
    heat.cool_by(film, film, nullptr);
    std::vector<double> T(mesh.nodes, 1000);
    double mass_K = 300;
    for (int i = 0; i < static_cast<int>(std::lround(4 / step)); ++i) heat.step(T, mass_K, step, 300, 300);
    return T[4];
  };
  if (curved_property) return run(step_s) - run(1.0 / 1024);
  double root = 0.6;
  for (int i = 0; i < 50; ++i) root -= (root * std::tan(root) - 0.5) / (std::tan(root) + root / std::pow(std::cos(root), 2));
  const double fourier = 1.3 / (2400.0 * 1000) * 4 / 1e-6;
  return run(step_s) - 300 - 700 * 4 * std::sin(root) / (2 * root + std::sin(2 * root)) * std::exp(-root * root * fourier);
}

TEST(CoolingHeat, MeetsTheSeriesOfAWall) {
  EXPECT_NEAR(wall_error_K(1.0 / 64, false), 0, 0.005);
}

TEST(CoolingHeat, IsOfOrderTwo) {
  for (const bool curved_property : {false, true})
    EXPECT_NEAR(std::log2(wall_error_K(1.0 / 32, curved_property) / wall_error_K(1.0 / 64, curved_property)), 2, 0.3) << curved_property;
}

TEST(CoolingHeat, FollowsSurroundingsThatHoldItsFaces) {
  const std::vector<StressLayer> layers = {solid(1, 65, 0.2, 9)};
  const CoolingMesh mesh = cooling_mesh(StressForm::plate_flat, 0, layers, {});
  CoolingHeat heat(mesh, layers);
  heat.cool_by({1e7, 0}, {1e7, 0}, nullptr);
  std::vector<double> T(mesh.nodes, 900);
  double mass_K = 900;
  for (int i = 0; i < 100; ++i) heat.step(T, mass_K, 1, 900 - 2.0 * i, 898 - 2.0 * i);
  EXPECT_NEAR(T.front(), 700, 0.01);
}

TEST(CoolingHeat, SupportGivesWhatTheFaceTakes) {
  const std::vector<StressLayer> layers = {solid(1, 65, 0.2, 9)};
  const CoolingMesh mesh = cooling_mesh(StressForm::sphere, 4e-3, layers, {});
  CoolingHeat heat(mesh, layers);
  const InnerMass mass{15e3, 400, 0};
  heat.cool_by({}, {}, &mass);
  std::vector<double> T(mesh.nodes, 500);
  double mass_K = 900;
  const double before = heat_in(mesh, layers, T) + mesh.inner_area * 15e3 * (mass_K - 300);
  for (int i = 0; i < 3000; ++i) heat.step(T, mass_K, 0.5, 300, 300);
  EXPECT_NEAR((heat_in(mesh, layers, T) + mesh.inner_area * 15e3 * (mass_K - 300)) / before, 1, 1e-12);
  EXPECT_NEAR(mass_K, T.back(), 1e-6);
}

TEST(CoolingBalance, MeetsClosedFormsOfElasticLayers) {
  const std::vector<StressLayer> layers = {solid(0.7, 205, 0.3, 10.5), solid(1.5, 65, 0.21, 9.5)};
  const std::array<ElasticLayer, 2> closed = {{{0.7e-3, 205e9, 0.30, 10.5e-6}, {1.5e-3, 65e9, 0.21, 9.5e-6}}};
  struct Pair {
    StressForm form;
    ElasticForm other;
  };
  for (const Pair& pair : {Pair{StressForm::plate_free, ElasticForm::plate_free}, Pair{StressForm::plate_flat, ElasticForm::plate_flat},
                           Pair{StressForm::cylinder, ElasticForm::cylinder}, Pair{StressForm::sphere, ElasticForm::sphere}}) {
    const CoolingMesh mesh = cooling_mesh(pair.form, 4e-3, layers, {1, 9, 9});
    CoolingBalance balance(mesh);
    std::vector<CoolingLayer> through;
    for (const StressLayer& layer : layers) through.emplace_back(layer, 9, 900);
    const std::vector<double> cooler(9, 325);
    for (CoolingLayer& layer : through) layer.prepare(cooler.data(), 1);
    double curvature = 0;
    balance.advance(through, curvature);
    const LayeredStress expected = layered_stress(pair.other, 4e-3, closed, -575);
    const bool curved = pair.form == StressForm::cylinder || pair.form == StressForm::sphere;
    for (std::size_t l = 0; l < 2; ++l) {
      const auto& hoop = curved ? through[l].stress_2 : through[l].stress_1;
      EXPECT_NEAR(hoop.front(), expected.layers[l].inner_hoop_Pa, 50);
      EXPECT_NEAR(hoop.back(), expected.layers[l].outer_hoop_Pa, 50);
    }
    EXPECT_LT(balance.imbalance(through), 1e-13);
  }
}

}  // namespace
}  // namespace heatwork::physics
