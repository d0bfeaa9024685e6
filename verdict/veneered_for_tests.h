// A made-up rehearsal of a veneered core, with stresses of a made-up cooling by the real models, for the judge's proofs.
#pragma once

#include <cmath>
#include <string>

#include "firing/stress_layers.h"
#include "trade/reader.h"
#include "trade/shipped.h"
#include "verdict/judge_case.h"

namespace heatwork::verdict::veneered {

inline trade::Material shipped(const std::string& name) {
  const std::string path = "materials/" + name + ".toml";
  return trade::read_noun<trade::Material>(trade::source_of(path, trade::shipped_text(path)));
}

inline void set(trade::Material& material, const std::string& property, double value, double either_way) {
  trade::Estimate& estimate = material.properties.at(property);
  estimate.value = value;
  estimate.low = value - either_way;
  estimate.high = value + either_way;
}

/// A core of zirconia under a veneer: 0.7 and 1.5 mm.
struct Pair {
  trade::Material core = shipped("zirconia-3y"), veneer = shipped("zirconia-veneer");
  double core_mm = 0.7, veneer_mm = 1.5;

  /// The mismatch of the pair in ppm/K and how far it may be off either way, shared evenly between the two.
  Pair& mismatch(double ppm_per_K, double either_way) {
    set(veneer, "expansion", 9.5, either_way / std::sqrt(2.0));
    set(core, "expansion", 9.5 + ppm_per_K, either_way / std::sqrt(2.0));
    return *this;
  }
};

inline trade::Layer layer(const std::string& material, double mm) {
  trade::Layer made;
  made.material = judge_case::given(material);
  made.thickness = judge_case::given(quantity::millimetres(mm));
  return made;
}

/// The crown of judge_case with this pair in its section, no stress yet.
inline firing::Rehearsal rehearsed(const Pair& pair) {
  firing::Rehearsal made = judge_case::rehearsal();
  made.request.materials["zirconia-3y"] = pair.core;
  made.request.materials["zirconia-veneer"] = pair.veneer;
  made.request.pieces[0].sections[0].layers = {layer("zirconia-3y", pair.core_mm), layer("zirconia-veneer", pair.veneer_mm)};
  made.bands = true;
  return made;
}

/// Out of the furnace at 800 °C into air at 25 °C that takes 60 W/(m2 K) from the outside, 5 from the inside.
inline physics::CoolingCourse on_the_bench() {
  physics::CoolingCourse course;
  course.inner = physics::FaceCooling{5, 0};
  course.outer = physics::FaceCooling{60, 0};
  return course;
}

/// The stress of a section in one form, with intervals over the ranges of its materials where asked.
inline firing::SectionStress cooled(const firing::Rehearsal& made, bool intervals, physics::StressForm form = physics::StressForm::sphere) {
  const trade::ResolvedFiring& request = made.request;
  const firing::StressLayers layers =
      firing::stress_layers(request.pieces[0].sections[0], {request.materials, request.liquids, request.supports});
  EXPECT_EQ(layers.missing, "");
  firing::SectionStress section;
  section.section = "thickest";
  section.materials = layers.materials;
  section.glass = layers.glass;
  section.glass_transition_C = layers.transition_K[layers.glass] - physics::zero_celsius_K;
  section.mismatch_per_K = layers.mismatch_per_K;
  section.started_C = 800;
  firing::FormStress one;
  one.form = form;
  one.inner_radius_m = 4e-3;
  one.error_Pa = 0.05e6;
  const double start_K = 800 + physics::zero_celsius_K;
  physics::CoolingStress piece(form, one.inner_radius_m, layers.layers, start_K, {3.0, 7, 4});
  one.layers = piece.run(on_the_bench()).back().layers;
  if (intervals) {
    const physics::SectionCase of{form, one.inner_radius_m};
    const physics::StressBounds bounds = physics::stress_bounds({&of, 1}, layers.layers, layers.ranges, start_K, on_the_bench());
    one.interval = bounds.forms.at(0);
    section.set_size = bounds.count;
    section.settled = bounds.settled;
  }
  section.forms = {one};
  return section;
}

}  // namespace heatwork::verdict::veneered
