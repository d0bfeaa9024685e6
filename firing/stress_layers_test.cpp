#include "firing/stress_layers.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <string>

#include "trade/reader.h"
#include "trade/shipped.h"

namespace heatwork::firing {
namespace {

/// Shipped materials, of which a test may change its own copy.
class StressLayersOf : public ::testing::Test {
 protected:
  trade::Material& material(const std::string& name) {
    const auto found = materials_.find(name);
    if (found != materials_.end()) return found->second;
    const std::string path = "materials/" + name + ".toml";
    return materials_[name] = trade::read_noun<trade::Material>(trade::source_of(path, trade::shipped_text(path)));
  }
  trade::Estimate& of(const std::string& name, const std::string& property) { return material(name).properties.at(property); }

  trade::Layer layer(const std::string& name, double mm, bool green = false) {
    material(name);
    trade::Layer made;
    made.material.value = name;
    made.thickness.value = quantity::millimetres(mm);
    made.green = green;
    return made;
  }
  StressLayers layers(const std::vector<trade::Layer>& of_section) {
    trade::Section section;
    section.name = "thickest";
    section.layers = of_section;
    return stress_layers(section, {materials_, liquids_, supports_});
  }

 private:
  std::map<std::string, trade::Material> materials_;
  std::map<std::string, trade::Liquid> liquids_;
  std::map<std::string, trade::Support> supports_;
};

TEST_F(StressLayersOf, AVeneeredCoreIsAnElasticLayerAndAGlass) {
  const StressLayers pair = layers({layer("zirconia-3y", 0.7), layer("zirconia-veneer", 1.5)});
  ASSERT_EQ(pair.missing, "");
  ASSERT_EQ(pair.layers.size(), 2U);
  EXPECT_EQ(pair.left_out, "");
  EXPECT_EQ(pair.materials, (std::vector<std::string>{"zirconia-3y", "zirconia-veneer"}));
  const physics::StressLayer& core = pair.layers[0];
  const physics::StressLayer& veneer = pair.layers[1];
  EXPECT_FALSE(core.glass);
  EXPECT_DOUBLE_EQ(core.youngs_Pa, 205e9);
  EXPECT_DOUBLE_EQ(core.poisson, 0.3);
  EXPECT_DOUBLE_EQ(core.heat.thickness_m, 0.7e-3);
  ASSERT_TRUE(veneer.glass);
  EXPECT_DOUBLE_EQ(veneer.youngs_Pa, 65e9);
  EXPECT_NEAR(veneer.expansion_per_K.at_C(25), 9.2e-6, 1e-15);
  EXPECT_NEAR(veneer.expansion_per_K.at_C(600), 9.2e-6, 1e-15);
  EXPECT_NEAR(veneer.glass->liquid_expansion_per_K, 27.6e-6, 1e-15);
  EXPECT_EQ(veneer.glass->bulk_remaining, 1.0);
  EXPECT_EQ(veneer.glass->shear.size(), 6U);
  EXPECT_EQ(pair.transition_K, (std::vector<double>{0, 863.15}));
  EXPECT_EQ(pair.glass, 1U);
  EXPECT_EQ(pair.partner, 0U);
  EXPECT_NEAR(pair.mismatch_per_K, 1.3e-6, 1e-15);
  // The clock stands where a dilatometer at 5 K/min finds the transition.
  EXPECT_NEAR(physics::frozen_fictive_K(veneer.glass->relaxing, 1100, 5.0 / 60.0), 863.15, 0.05);
}

TEST_F(StressLayersOf, ThePairsExpansionIsKnownByBothItsRanges) {
  // Veneer 9.2 (8.8 to 10), core 10.5 (10.2 to 10.8).
  const StressLayers pair = layers({layer("zirconia-3y", 0.7), layer("zirconia-veneer", 1.5)});
  EXPECT_EQ(pair.ranges.layer, 1U);
  EXPECT_NEAR(pair.ranges.expansion_per_K.low, -std::hypot(0.4, 0.3) * 1e-6, 1e-15);
  EXPECT_NEAR(pair.ranges.expansion_per_K.high, std::hypot(0.8, 0.3) * 1e-6, 1e-15);
  EXPECT_EQ(pair.ranges.liquid_ratio.low, 2);
  EXPECT_EQ(pair.ranges.liquid_ratio.high, 4);
  EXPECT_EQ(pair.ranges.activation_K.low, 55000);
  EXPECT_EQ(pair.ranges.transition_K.low, 823.15);
  EXPECT_EQ(pair.ranges.transition_K.high, 893.15);
  // Above and below are of the other sign in the partner.
  of("zirconia-3y", "expansion").high = 11.5;
  EXPECT_NEAR(layers({layer("zirconia-3y", 0.7), layer("zirconia-veneer", 1.5)}).ranges.expansion_per_K.low, -std::hypot(0.4, 1.0) * 1e-6,
              1e-15);
}

TEST_F(StressLayersOf, AGreenLayerIsAsThickAsWhenDense) {
  const StressLayers pair = layers({layer("zirconia-3y", 0.7), layer("zirconia-veneer", 1.5, true)});
  EXPECT_DOUBLE_EQ(pair.layers.at(1).heat.thickness_m, 1.5e-3 * 0.58);
}

TEST_F(StressLayersOf, OfSeveralGlassesTheThickestIsJudgedAgainstTheFrame) {
  const StressLayers bridge =
      layers({layer("base-metal-alloy", 0.4), layer("metal-ceramic-opaque", 0.2), layer("metal-ceramic-veneer", 1.4)});
  ASSERT_EQ(bridge.missing, "");
  EXPECT_EQ(bridge.layers.size(), 3U);
  EXPECT_EQ(bridge.glass, 2U);
  EXPECT_EQ(bridge.partner, 0U);
  EXPECT_NEAR(bridge.mismatch_per_K, 1.3e-6, 1e-15);
  EXPECT_EQ(bridge.transition_K, (std::vector<double>{0, 843.15, 843.15}));
  const StressLayers alike = layers({layer("zirconia-3y", 0.5), layer("zirconia-veneer", 1), layer("zirconia-veneer-lower", 1)});
  EXPECT_EQ(alike.glass, 2U);
}

TEST_F(StressLayersOf, OneGlassAloneIsComputed) {
  const StressLayers alone = layers({layer("zirconia-veneer", 2)});
  ASSERT_EQ(alone.missing, "");
  EXPECT_EQ(alone.partner, alone.glass);
  EXPECT_EQ(alone.mismatch_per_K, 0);
  EXPECT_NEAR(alone.ranges.expansion_per_K.high, 0.8e-6, 1e-15);
}

TEST_F(StressLayersOf, AnOuterFilmOfUnknownGlazeIsLeftOutAndSaid) {
  const StressLayers glazed = layers({layer("zirconia-3y", 0.7), layer("zirconia-veneer", 1.5), layer("glaze", 0.05)});
  ASSERT_EQ(glazed.missing, "");
  EXPECT_EQ(glazed.layers.size(), 2U);
  EXPECT_EQ(glazed.left_out, "The outer film of glaze is left out of the stress, for not all of its properties are known.");
  // Not where it is thick, nor where it is the only glass.
  EXPECT_EQ(layers({layer("zirconia-3y", 0.7), layer("zirconia-veneer", 1.5), layer("glaze", 0.3)}).missing,
            "Material glaze has no expansion, which the stress of its layer needs; give it with value, range, standing and source.");
  EXPECT_EQ(layers({layer("lithium-disilicate-block", 1.5), layer("glaze", 0.05)}).missing,
            "Material glaze has no expansion, which the stress of its layer needs; give it with value, range, standing and source.");
}

TEST_F(StressLayersOf, WhatLacksIsNamedByMaterialAndProperty) {
  EXPECT_EQ(layers({layer("zirconia-3y", 0.7)}).missing,
            "No layer of it relaxes as a glass: what its elastic layers keep from earlier firings is not known.");
  EXPECT_EQ(layers({layer("leucite-glass-ceramic", 2)}).missing,
            "Material leucite-glass-ceramic has no liquid_expansion_ratio, which the stress of its layer needs; give it with value, range, "
            "standing and source.");
  EXPECT_EQ(
      layers({layer("die-material", 5), layer("zirconia-veneer", 1)}).missing,
      "Material die-material has no youngs_modulus, which the stress of its layer needs; give it with value, range, standing and source.");
  material("zirconia-veneer").relaxation.clear();
  EXPECT_EQ(
      layers({layer("zirconia-veneer", 2)}).missing,
      "Material zirconia-veneer names no relaxation, which the stress of its layer needs; name one of sealing-glass, soda-lime-float.");
  material("zirconia-veneer").relaxation = "soda-lime-float";
  of("zirconia-veneer", "relaxation_activation").value = 900;
  const std::string frozen = layers({layer("zirconia-veneer", 2)}).missing;
  EXPECT_TRUE(frozen.starts_with("The glass of material zirconia-veneer cannot be followed: ")) << frozen;
}

}  // namespace
}  // namespace heatwork::firing
