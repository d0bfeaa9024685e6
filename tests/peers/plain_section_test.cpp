// Our cooling stress against a second, plain solution of the same equations: sections, glasses and coolings drawn at random.
#include "plain_section.h"

#include <gtest/gtest.h>

#include <array>
#include <random>

#include "../reference/evidence_row.h"
#include "../reference/stress_glasses.h"

namespace heatwork::peers {
namespace {

using reference::Evidence;

/// Even numbers of one seed, the same on every machine.
class Draw {
 public:
  explicit Draw(unsigned seed) : of_(seed) {}
  double between(double low, double high) { return low + (high - low) * (static_cast<double>(of_() >> 11) / 9007199254740992.0); }
  bool in(double share) { return between(0, 1) < share; }

 private:
  std::mt19937_64 of_;
};

/// Of quick shear and few terms, as sealing glasses are.
StressGlass quick_glass() {
  StressGlass glass;
  glass.relaxing = {891.0, 6.45e4, 0.53, {{0.2, 3.0}, {0.5, 0.6}, {0.3, 0.06}}};
  glass.shear = {{0.5, 0.07}, {0.5, 0.004}};
  return glass;
}

TemperatureProperty sloped(Draw& draw, double low, double high, double slope_low, double slope_high) {
  const double at_0 = draw.between(low, high);
  return TemperatureProperty::polynomial(std::array<double, 2>{at_0, draw.in(0.5) ? draw.between(slope_low, slope_high) : 0});
}

StressLayer layer_of(Draw& draw, bool glass) {
  StressLayer layer;
  layer.heat.thickness_m = draw.between(0.3e-3, 2.5e-3);
  layer.heat.density_kg_per_m3 = glass ? draw.between(2200, 2700) : draw.between(2400, 8500);
  layer.heat.conductivity_W_per_mK = glass ? sloped(draw, 0.9, 1.6, 0, 6e-4) : sloped(draw, 2, 30, -1e-3, 1e-3);
  layer.heat.specific_heat_J_per_kgK = sloped(draw, glass ? 700 : 300, glass ? 1100 : 900, 0, 0.4);
  layer.youngs_Pa = (glass ? draw.between(50, 90) : draw.between(70, 380)) * 1e9;
  layer.poisson = draw.between(0.18, 0.32);
  layer.expansion_per_K = sloped(draw, 8e-6, 13e-6, -1e-9, 4e-9);
  if (!glass) return layer;
  layer.glass = draw.in(0.6) ? reference::soda_lime(7e4, 25) : quick_glass();
  RelaxingGlass& relaxing = layer.glass->relaxing;
  relaxing.reference_K = draw.between(850, 950);
  relaxing.activation_K = draw.between(5e4, 8.8e4);
  relaxing.nonlinearity = draw.between(0.35, 0.7);
  layer.glass->liquid_expansion_per_K = draw.between(1.8, 4) * layer.expansion_per_K.at_C(0);
  if (draw.in(0.5)) layer.glass->bulk_remaining = 1;
  return layer;
}

struct Case {
  std::vector<StressLayer> layers;
  double inner_radius_m = 0, start_K = 0;
  CoolingCourse course;
  PlainFilms films;
};

Case drawn(unsigned seed) {
  Draw draw(seed);
  Case of;
  const int count = draw.in(0.2) ? 1 : draw.in(0.7) ? 2 : 3;
  for (int l = 0; l < count; ++l) of.layers.push_back(layer_of(draw, l == count - 1 || draw.in(0.5)));
  of.inner_radius_m = draw.between(1e-3, 8e-3);
  of.start_K = draw.between(1030, 1170);
  of.course.ambient_K = of.films.ambient_K = draw.between(288, 303);
  const int kind = static_cast<int>(draw.between(0, 3));  // films, a history, a history and then films
  if (kind > 0) {
    of.course.time_s = {0, draw.between(10, 100)};
    of.course.temperature_K = {of.start_K, of.start_K - 30};
    for (const double to_K : {draw.between(750, 950), draw.between(550, 750), of.course.ambient_K + 5}) {
      of.course.time_s.push_back(of.course.time_s.back() + (of.course.temperature_K.back() - to_K) / draw.between(0.1, 2));
      of.course.temperature_K.push_back(to_K);
    }
  }
  if (kind == 2) of.course.film_from_K = draw.between(680, 970);
  if (kind != 1) {
    of.films.inner = draw.in(0.4) ? 0 : draw.between(5, 100);
    of.films.outer = draw.between(10, 250);
    of.course.inner = FaceCooling{of.films.inner, 0};
    of.course.outer = FaceCooling{of.films.outer, 0};
  }
  if (kind == 0 && draw.in(0.4)) of.course.mass = of.films.mass = {draw.between(500, 8000), draw.between(20, 300), 0};
  return of;
}

/// Largest difference of a stress told, at the end or on the way, as a share of the highest of the section, of 10 MPa at least [%].
double difference_percent(StressForm form, const Case& of) {
  PlainSection plain(form, of.inner_radius_m, of.layers, of.start_K, 50, 0.25);
  plain.follow(of.course.time_s, of.course.temperature_K, of.course.film_from_K.value_or(0));
  if (of.course.outer) plain.cool(of.films);
  CoolingStress ours(form, of.inner_radius_m, of.layers, of.start_K, {0.5, 15, 7});
  const CoolingReport end = ours.run(of.course).back();
  double most = 0, highest_Pa = 1e7;
  for (std::size_t l = 0; l < of.layers.size(); ++l) {
    const LayerCooling other = plain.told(l);
    for (const auto figure : layer_stresses) {
      most = std::max(most, std::abs(end.layers[l].*figure - other.*figure));
      highest_Pa = std::max(highest_Pa, std::abs(other.*figure));
    }
  }
  EXPECT_NEAR(end.curvature_per_m, plain.curvature_per_m(), 0.01 * std::abs(plain.curvature_per_m()) + 1e-5);
  return 100 * most / highest_Pa;
}

void all_of(StressForm form, const std::string& name, unsigned seed) {
  Evidence row(name +
                   ", 10 sections, glasses and coolings drawn at random: largest difference of a stress to a second, plain solution, "
                   "of the highest",
               "%");
  double most = 0;
  for (unsigned i = 0; i < 10; ++i) {
    SCOPED_TRACE(seed + i);
    most = std::max(most, difference_percent(form, drawn(seed + i)));
  }
  row.near(most, 0, 0.15);
}

TEST(PlainSection, PlateFree) {
  all_of(StressForm::plate_free, "plate that bends", 100);
}

TEST(PlainSection, PlateFlat) {
  all_of(StressForm::plate_flat, "plate held flat", 200);
}

TEST(PlainSection, PlateOfPlaneStrain) {
  all_of(StressForm::plate_plane_strain, "plate of plane strain", 300);
}

TEST(PlainSection, Cylinder) {
  all_of(StressForm::cylinder, "cylinder", 400);
}

TEST(PlainSection, Sphere) {
  all_of(StressForm::sphere, "sphere", 500);
}

}  // namespace
}  // namespace heatwork::peers
