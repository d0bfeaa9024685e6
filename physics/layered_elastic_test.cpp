#include "physics/layered_elastic.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <stdexcept>
#include <vector>

namespace heatwork::physics {
namespace {

constexpr std::array<ElasticLayer, 3> three = {{{0.5e-3, 100e9, 0.22, 10e-6}, {0.2e-3, 205e9, 0.3, 10.5e-6}, {1.5e-3, 65e9, 0.21, 9e-6}}};

TEST(LayeredElastic, RadialStressIsContinuousAndNothingAtTheFaces) {
  for (const auto form : {ElasticForm::ring, ElasticForm::cylinder, ElasticForm::sphere}) {
    const auto found = layered_stress(form, 3e-3, three, -500);
    EXPECT_NEAR(found.layers.front().inner_radial_Pa, 0, 1);
    EXPECT_NEAR(found.layers.back().outer_radial_Pa, 0, 1);
    for (std::size_t i = 0; i + 1 < three.size(); ++i) EXPECT_NEAR(found.layers[i].outer_radial_Pa, found.layers[i + 1].inner_radial_Pa, 1);
  }
}

TEST(LayeredElastic, ASphereOfALargeRadiusIsAFlatPlate) {
  const auto sphere = layered_stress(ElasticForm::sphere, 20, three, -500), plate = layered_stress(ElasticForm::plate_flat, 0, three, -500);
  for (std::size_t i = 0; i < three.size(); ++i)
    EXPECT_NEAR(sphere.layers[i].outer_hoop_Pa, plate.layers[i].outer_hoop_Pa, 1e-3 * std::abs(plate.layers[i].outer_hoop_Pa));
}

TEST(LayeredElastic, TheRingOfTwoLayersAgreesWithItsInterfacePressure) {
  const double a = 4e-3, b = 4.7e-3, c = 6.2e-3, E_c = 205e9, E_v = 65e9, nu_c = 0.3, nu_v = 0.21, dT = -575;
  const std::array<ElasticLayer, 2> pair = {{{b - a, E_c, nu_c, 10.5e-6}, {c - b, E_v, nu_v, 9.5e-6}}};
  const double pressure = 1e-6 * dT / (((c * c + b * b) / (c * c - b * b) + nu_v) / E_v + ((b * b + a * a) / (b * b - a * a) - nu_c) / E_c);
  EXPECT_NEAR(layered_stress(ElasticForm::ring, a, pair, dT).layers[1].inner_radial_Pa, -pressure, 1e-6 * std::abs(pressure));
}

TEST(LayeredElastic, OneMaterialHasNoStress) {
  const std::vector<ElasticLayer> same(3, three[0]);
  for (const auto form : {ElasticForm::plate_free, ElasticForm::plate_flat, ElasticForm::strip_free, ElasticForm::ring,
                          ElasticForm::cylinder, ElasticForm::sphere})
    for (const LayerStress& layer : layered_stress(form, 3e-3, same, -500).layers) EXPECT_NEAR(layer.outer_hoop_Pa, 0, 1);
}

TEST(LayeredElastic, RefusesWhatCannotBe) {
  auto wrong = three;
  wrong[1].poisson = 0.5;
  EXPECT_THROW(layered_stress(ElasticForm::plate_free, 0, wrong, -500), std::domain_error);
  EXPECT_THROW(layered_stress(ElasticForm::sphere, 0, three, -500), std::domain_error);
  EXPECT_THROW(layered_stress(ElasticForm::plate_free, 0, {}, -500), std::domain_error);
  EXPECT_THROW(thermal_shock(0), std::domain_error);
  EXPECT_THROW(shock_stress(1, -1), std::domain_error);
  EXPECT_THROW(indentation_stress_Pa(1e6, 0, 5e-5), std::domain_error);
}

TEST(ThermalShock, RisesFromNothingAndGoesToTheWholeStressAtHighBiot) {
  EXPECT_NEAR(shock_stress(1, 20), 0, 1e-6);
  EXPECT_GT(thermal_shock(1000).peak, 0.93);
  EXPECT_NEAR(thermal_shock(0.001).peak, 0.001 / 3, 1e-6);
}

}  // namespace
}  // namespace heatwork::physics
