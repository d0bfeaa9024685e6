// A veneered crown rehearsed, cooled as it was rehearsed, and judged: what is known of its pair decides whether its stress can be told, and
// what would settle it.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "demo_firing.h"
#include "firing/rehearsal.h"
#include "firing/stress_layers.h"
#include "trade/limits.h"
#include "trade/shipped.h"
#include "verdict/finding.h"

namespace heatwork::verdict {
namespace {

void set(trade::ResolvedFiring& request, const std::string& material, const std::string& property, double value, double either_way) {
  trade::Estimate& estimate = request.materials.at(material).properties.at(property);
  estimate.value = value;
  estimate.low = value - either_way;
  estimate.high = value + either_way;
}

/// The demo's crown alone in its firing, its pair with a mismatch known so well.
trade::ResolvedFiring crown(double mismatch_ppm, double either_way) {
  trade::ResolvedFiring request = tests::demo_firing("firing");
  request.pieces.resize(1);
  request.places.resize(1);
  request.firing.pieces.resize(1);
  set(request, "zirconia-veneer", "expansion", 9.5, either_way / std::sqrt(2.0));
  set(request, "zirconia-3y", "expansion", 9.5 + mismatch_ppm, either_way / std::sqrt(2.0));
  return request;
}

trade::ResolvedFiring measured_crown(double mismatch_ppm) {
  trade::ResolvedFiring request = crown(mismatch_ppm, 0.1);
  set(request, "zirconia-veneer", "liquid_expansion_ratio", 3, 0.15);
  set(request, "zirconia-veneer", "relaxation_activation", 70000, 7000);
  return request;
}

/// What a firing does to the stress of one section of the crown as a closed shell: uniform through the wall, along its surface from the
/// hottest moment to the end of the firing, then down to the room by air and radiation.
firing::SectionStress stress_of(const trade::ResolvedFiring& request, const firing::FiringResult& fired, std::size_t section, bool bands) {
  const trade::Section& of = request.pieces[0].sections[section];
  const firing::StressLayers layers = firing::stress_layers(of, {request.materials, request.liquids, request.supports});
  EXPECT_EQ(layers.missing, "");
  const std::vector<double>& surface_C = fired.pieces[0].sections[section].surface_C;
  const auto hottest = static_cast<std::size_t>(std::max_element(surface_C.begin(), surface_C.end()) - surface_C.begin());
  physics::CoolingCourse course;
  for (std::size_t i = hottest; i < surface_C.size(); ++i) {
    const double moved_K =
        course.time_s.empty() ? HUGE_VAL : std::abs(surface_C[i] + physics::zero_celsius_K - course.temperature_K.back());
    if (moved_K < 5 && i + 1 < surface_C.size()) continue;  // thinned, for time
    course.time_s.push_back(fired.time_s[i]);
    course.temperature_K.push_back(surface_C[i] + physics::zero_celsius_K);
  }
  course.film_from_K = course.temperature_K.back();
  course.outer = physics::FaceCooling{10, 0.9};
  course.inner = physics::FaceCooling{5, 0};
  course.ambient_K = request.firing.chamber.room.value.celsius() + physics::zero_celsius_K;
  firing::SectionStress stress;
  stress.section = of.name;
  stress.materials = layers.materials;
  stress.glass = layers.glass;
  stress.glass_transition_C = layers.transition_K[layers.glass] - physics::zero_celsius_K;
  stress.mismatch_per_K = layers.mismatch_per_K;
  stress.settled = true;
  firing::FormStress form;
  form.form = physics::StressForm::sphere;
  form.inner_radius_m = of.inner_radius->value.si();
  const double start_K = course.temperature_K.front();
  form.layers = physics::CoolingStress(form.form, form.inner_radius_m, layers.layers, start_K, {3.0, 7, 4}).run(course).back().layers;
  if (bands) {
    const physics::SectionCase one{form.form, form.inner_radius_m};
    const physics::StressBounds bounds = physics::stress_bounds({&one, 1}, layers.layers, layers.ranges, start_K, course);
    form.interval = bounds.forms.at(0);
    stress.set_size = bounds.count;
    stress.settled = bounds.settled;
  }
  stress.forms = {form};
  return stress;
}

Finding cooling_of(const trade::ResolvedFiring& request) {
  static const trade::Limits limits = trade::read_limits("limits.toml", trade::shipped_text("limits/limits.toml"));
  firing::Rehearsal rehearsed = firing::rehearse(request);
  rehearsed.bands = true;
  for (std::size_t s = 0; s < request.pieces[0].sections.size(); ++s) {
    rehearsed.firing.pieces[0].stress.push_back(stress_of(request, rehearsed.firing, s, true));
    if (!rehearsed.reference.empty())
      rehearsed.reference[0].pieces[0].stress.push_back(stress_of(request, rehearsed.reference[0], s, false));
  }
  const Verdict verdict = judge(rehearsed, limits, trade::words_of(trade::Language::english));
  const auto found = std::find_if(verdict.findings.begin(), verdict.findings.end(),
                                  [](const Finding& one) { return one.aspect == Aspect::cooling && one.piece == "crown-16"; });
  if (found == verdict.findings.end()) {
    ADD_FAILURE() << "nothing is said of the cooling of the crown";
    return {};
  }
  return *found;
}

TEST(pair_verdict, known_to_half_a_ppm_it_cannot_be_told_and_the_pair_is_named) {
  const Finding found = cooling_of(crown(0.75, 0.5));
  EXPECT_EQ(found.level, Level::cannot_tell) << found.sentence;
  ASSERT_TRUE(found.low && found.high);
  EXPECT_LT(*found.low, 10);
  EXPECT_GT(*found.high, 20);
  EXPECT_NE(found.sentence.find("What would settle it: the expansion of the pair, measured on cooling."), std::string::npos)
      << found.sentence;
}

TEST(pair_verdict, known_to_a_tenth_the_liquids_expansion_is_named) {
  const Finding found = cooling_of(crown(0.75, 0.1));
  EXPECT_TRUE(found.level == Level::cannot_tell || found.level == Level::borderline) << found.sentence;
  EXPECT_NE((found.sentence + found.change).find("the expansion of the liquid glass"), std::string::npos) << found.sentence << found.change;
  EXPECT_EQ((found.sentence + found.change).find("the expansion of the pair"), std::string::npos) << found.sentence << found.change;
}

TEST(pair_verdict, measured_it_gets_a_level) {
  const Finding found = cooling_of(measured_crown(0.75));
  EXPECT_NE(found.level, Level::cannot_tell) << found.sentence;
  EXPECT_EQ(found.unit, "MPa");
}

TEST(pair_verdict, a_bad_pair_is_a_fault_whoever_wrote_the_program) {
  const Finding found = cooling_of(measured_crown(-0.5));
  EXPECT_NE(found.sentence.find("expands by 0.5 ppm/K more than"), std::string::npos) << found.sentence;
  EXPECT_EQ(found.level, Level::fault_expected) << found.sentence;
  trade::ResolvedFiring alone = measured_crown(-0.5);
  alone.instruction.reset();
  alone.instruction_program.reset();
  alone.firing.instruction.reset();
  EXPECT_EQ(cooling_of(alone).level, Level::fault_expected);
}

}  // namespace
}  // namespace heatwork::verdict
