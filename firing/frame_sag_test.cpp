#include "firing/frame_sag.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <string>
#include <vector>

#include "trade/reader.h"
#include "trade/shipped.h"

namespace heatwork::firing {
namespace {

constexpr const char* metal = "base-metal-alloy";
constexpr const char* veneer = "metal-ceramic-veneer";

/// A bridge whose solid sections stand at one temperature for ten minutes.
class FrameSagOf : public ::testing::Test {
 protected:
  FrameSagOf() {
    for (const char* name : {metal, veneer}) {
      const std::string path = std::string("materials/") + name + ".toml";
      materials_[name] = trade::read_noun<trade::Material>(trade::source_of(path, trade::shipped_text(path)));
    }
    piece.teeth = {14, 15, 16, 17};
    piece.sections = {solid(1.5, 0.8), solid(2.2, 2)};
  }
  trade::Estimate& of(const std::string& property) { return materials_.at(metal).properties.at(property); }
  void forget(const std::string& property) { materials_.at(metal).properties.erase(property); }

  static trade::Section solid(double metal_mm, double veneer_mm) {
    trade::Section section;
    section.form.value = trade::SectionForm::tube;
    section.inside.value = trade::SectionInside::closed;
    for (const auto& [name, mm] : {std::pair{metal, metal_mm}, std::pair{veneer, veneer_mm}}) {
      trade::Layer layer;
      layer.material.value = name;
      layer.thickness.value = quantity::millimetres(mm);
      section.layers.push_back(layer);
    }
    return section;
  }
  std::optional<FrameSag> sag(double at_C, double seconds = 600) {
    SectionResult hot;
    hot.surface_C = {at_C, at_C};
    const std::vector<SectionResult> sections(piece.sections.size(), hot);
    const std::vector<double> times_s{0, seconds};
    return frame_sag(piece, {materials_, liquids_, supports_}, times_s, sections);
  }

  trade::Piece piece;

 private:
  std::map<std::string, trade::Material> materials_;
  std::map<std::string, trade::Liquid> liquids_;
  std::map<std::string, trade::Support> supports_;
};

TEST_F(FrameSagOf, ASpanRunsFromTheMiddleOfTheFirstToothToThatOfTheLast) {
  EXPECT_DOUBLE_EQ(span_mm({14, 15, 16}), 4 + 8 + 5.75);
  EXPECT_DOUBLE_EQ(span_mm({16, 14}), span_mm({14, 15, 16}));
  EXPECT_DOUBLE_EQ(span_mm({12, 11, 21, 22}), 3.75 + 9.5 + 9.5 + 3.75);
  EXPECT_DOUBLE_EQ(span_mm({33, 43}), 4 + 6.5 + 6 + 6 + 6.5 + 4);
}

TEST_F(FrameSagOf, GoesWithTimeTemperatureAndTheFourthPowerOfTheSpan) {
  const auto at_950 = sag(950);
  ASSERT_TRUE(at_950 && at_950->most_um);
  EXPECT_DOUBLE_EQ(at_950->radius_mm, 1.5);
  EXPECT_NEAR(*sag(950, 1200)->most_um, 2 * *at_950->most_um, 1e-9 * *at_950->most_um);
  EXPECT_GT(*sag(1000)->most_um, 1.5 * *at_950->most_um);
  EXPECT_GT(*at_950->most_um, 0.1);
  EXPECT_LT(*at_950->most_um, 100);
  const double long_mm = at_950->span_mm;
  piece.teeth = {14, 15, 16};
  const auto shorter = sag(950);
  EXPECT_NEAR(*shorter->most_um, *at_950->most_um * std::pow(shorter->span_mm / long_mm, 4), 1e-9);
}

TEST_F(FrameSagOf, TakesWhatIsNotKnownAtTheEndThatCreepsFaster) {
  const double as_a_class = sag(950)->most_um.value();
  of("grain_diameter").low = of("grain_diameter").value;
  EXPECT_LT(sag(950)->most_um.value(), as_a_class / 20);
  of("solidus").low = of("solidus").value;
  of("self_diffusion_at_solidus").high = of("self_diffusion_at_solidus").value;
  EXPECT_LT(sag(950)->most_um.value(), as_a_class / 100);
}

TEST_F(FrameSagOf, ThinnestAndHeaviestSectionCountWhereverTheyAre) {
  const double both = sag(950)->most_um.value();
  piece.sections.pop_back();
  EXPECT_LT(sag(950)->most_um.value(), both);
  piece.sections = {solid(2.2, 2)};
  EXPECT_LT(sag(950)->most_um.value(), both / 4);
}

TEST_F(FrameSagOf, NothingBoundsItWhereTheAlloyMayMelt) {
  const auto hot = sag(1200);
  ASSERT_TRUE(hot);
  EXPECT_FALSE(hot->most_um);
}

TEST_F(FrameSagOf, IsNotToldOfCrownsOfShellsOrOfAlloysWhoseValuesAreNotKnown) {
  ASSERT_TRUE(sag(950));
  piece.teeth = {16, 17};
  EXPECT_FALSE(sag(950));
  piece.teeth = {16, 17, 47};
  EXPECT_FALSE(sag(950));
  piece.teeth = {14, 15, 16};
  ASSERT_TRUE(sag(950));
  forget("grain_diameter");
  EXPECT_FALSE(sag(950));
  for (trade::Section& section : piece.sections) section.inside.value = trade::SectionInside::open;
  EXPECT_FALSE(sag(950));
}

}  // namespace
}  // namespace heatwork::firing
