// A veneered crown rehearsed, cooled as it was rehearsed, and judged: what is known of its pair decides whether its stress can be told, and
// what would settle it.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "demo_firing.h"
#include "firing/rehearsal.h"
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

Finding cooling_of(const trade::ResolvedFiring& request) {
  static const trade::Limits limits = trade::read_limits("limits.toml", trade::shipped_text("limits/limits.toml"));
  static const trade::DecidingInputs inputs = trade::read_deciding_inputs("inputs.toml", trade::shipped_text("limits/inputs.toml"));
  firing::RehearseOptions options;
  options.stress = true;
  options.inputs = &inputs;
  const firing::Rehearsal rehearsed = firing::rehearse(request, options);
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
