// What the comparison with the maker's firing must be, whatever the material: its identities.
#include <gtest/gtest.h>

#include <cmath>

#include "demo_firing.h"
#include "firing/inputs_hash.h"
#include "firing/rehearsal.h"

namespace heatwork {
namespace {

using firing::Comparison;
using tests::demo_firing;
using tests::makers_own;

/// Every stage of the demo lab whose firing has a deciding quantity.
class ComparisonOf : public testing::TestWithParam<const char*> {};

INSTANTIATE_TEST_SUITE_P(stages, ComparisonOf,
                         testing::Values("firing", "correction-firing", "glaze-firing", "crystallise-firing", "metal-ceramic-firing",
                                         "stain-firing"),
                         [](const auto& stage) {
                           std::string name = stage.param;
                           for (char& letter : name)
                             if (letter == '-') letter = '_';
                           return name;
                         });

Comparison compared(const trade::ResolvedFiring& firing) {
  return firing::rehearse(firing).compared.at(0);
}

void record(const char* value, double found, double expected, double tolerance) {
  testing::Test::RecordProperty(std::string(value), std::to_string(found));
  testing::Test::RecordProperty(std::string(value) + " expected", std::to_string(expected) + " within " + std::to_string(tolerance));
}

TEST_P(ComparisonOf, the_makers_own_firing_is_no_different) {
  const Comparison same = compared(makers_own(demo_firing(GetParam())));
  ASSERT_TRUE(same.shift_K && same.hold_s);
  record("shift", *same.shift_K, 0, 0.1);
  EXPECT_NEAR(*same.shift_K, 0, 0.1);
  EXPECT_NEAR(*same.hold_s, 0, 1);
}

TEST_P(ComparisonOf, a_display_that_reads_high_and_nothing_else_takes_that_away) {
  for (const double error_K : {12.0, -9.0, 25.0}) {
    trade::ResolvedFiring firing = makers_own(demo_firing(GetParam()));
    if (!firing.furnace.display_error) firing.furnace.display_error.emplace();
    firing.furnace.display_error->error.value = quantity::kelvins(error_K);
    const Comparison less = compared(firing);
    ASSERT_TRUE(less.shift_K);
    EXPECT_NEAR(*less.shift_K, -error_K, 0.5);
  }
}

TEST_P(ComparisonOf, a_shorter_hold_in_the_true_furnace_is_found_as_such) {
  trade::ResolvedFiring firing = makers_own(demo_firing(GetParam()));
  auto highest = firing.program.heating.begin();
  for (auto stage = firing.program.heating.begin(); stage != firing.program.heating.end(); ++stage)
    if (stage->to.value > highest->to.value) highest = stage;
  ASSERT_GT(highest->hold.value.si(), 40);
  highest->hold.value = highest->hold.value - quantity::seconds(40);
  if (firing.program.vacuum && firing.program.vacuum->hold_under_vacuum.value > highest->hold.value)
    firing.program.vacuum->hold_under_vacuum.value = highest->hold.value;
  const Comparison shorter = compared(firing);
  ASSERT_TRUE(shorter.hold_s);
  EXPECT_NEAR(*shorter.hold_s, -40, 1);
}

TEST_P(ComparisonOf, a_heavier_tray_gives_less) {
  trade::ResolvedFiring firing = makers_own(demo_firing(GetParam()));
  firing.tray.mass->value = 3.0 * firing.tray.mass->value;
  const Comparison heavier = compared(firing);
  ASSERT_TRUE(heavier.shift_K);
  EXPECT_LT(*heavier.shift_K, -0.2);
}

TEST(comparison, beyond_the_bounds_there_is_no_number) {
  trade::ResolvedFiring firing = makers_own(demo_firing("firing"));
  for (auto& stage : firing.program.heating) stage.to.value = stage.to.value - quantity::kelvins(170);
  firing.program.vacuum.reset();
  const Comparison cold = compared(firing);
  EXPECT_FALSE(cold.shift_K);
  EXPECT_TRUE(cold.shift_beyond);
  EXPECT_FALSE(cold.hold_s);
  EXPECT_TRUE(cold.hold_beyond_whole);
}

TEST(comparison, without_an_instruction_there_is_none) {
  trade::ResolvedFiring firing = demo_firing("firing");
  firing.instruction.reset();
  firing.instruction_program.reset();
  const firing::Rehearsal rehearsal = firing::rehearse(firing);
  EXPECT_TRUE(rehearsal.reference.empty());
  EXPECT_EQ(rehearsal.compared.at(0).quantity, firing::DecidingQuantity::none);
}

TEST(rehearsal, the_same_inputs_give_the_same_bytes_and_hash) {
  const trade::ResolvedFiring firing = demo_firing("firing");
  const firing::Rehearsal one = firing::rehearse(firing), two = firing::rehearse(firing);
  EXPECT_EQ(one.inputs_hash, two.inputs_hash);
  ASSERT_EQ(one.firing.time_s, two.firing.time_s);
  EXPECT_EQ(one.firing.end, two.firing.end);
  EXPECT_EQ(*one.compared[0].shift_K, *two.compared[0].shift_K);
  EXPECT_EQ(*one.compared[1].hold_s, *two.compared[1].hold_s);
}

TEST(rehearsal, the_hash_covers_what_changes_a_number_and_nothing_else) {
  const trade::ResolvedFiring firing = demo_firing("firing");
  const std::string hash = firing::rehearse(firing).inputs_hash;
  trade::ResolvedFiring labelled = firing;
  labelled.furnace.note = "another note";
  labelled.program.label = "another label";
  labelled.program.heating[0].to.typed = "1502.6 °F";
  EXPECT_EQ(firing::rehearse(labelled).inputs_hash, hash);
  trade::ResolvedFiring hotter = firing;
  hotter.program.heating[0].to.value = hotter.program.heating[0].to.value + quantity::kelvins(1);
  EXPECT_NE(firing::rehearse(hotter).inputs_hash, hash);
  trade::ResolvedFiring louder = firing;
  louder.materials.at("zirconia-veneer").properties.at("viscosity_B").value += 1;
  EXPECT_NE(firing::rehearse(louder).inputs_hash, hash);
}

TEST(rehearsal, the_energy_of_the_load_closes) {
  for (const char* stem : {"firing", "window-firing", "crystallise-firing", "metal-ceramic-firing", "thick-build-up"})
    EXPECT_LT(std::abs(firing::rehearse(demo_firing(stem)).firing.energy_residual_share), 1e-3) << stem;
}

TEST(rehearsal, an_unknown_tray_is_drawn_as_a_band) {
  trade::ResolvedFiring firing = demo_firing("firing");
  firing.tray.mass.reset();
  const firing::Rehearsal rehearsal = firing::rehearse(firing);
  EXPECT_FALSE(rehearsal.tray_known);
  ASSERT_TRUE(rehearsal.heaviest);
  EXPECT_LT(rehearsal.heaviest->pieces[0].deciding_least, rehearsal.firing.pieces[0].deciding_least);
}

TEST(refiring, the_state_goes_on_where_the_firing_before_left_it) {
  const trade::ResolvedFiring first = demo_firing("window-firing");
  const firing::Rehearsal once = firing::rehearse(first);
  trade::ResolvedFiring again = first;
  again.earlier = {first};
  again.earlier.front().earlier.clear();
  firing::StateCache cache;
  firing::RehearseOptions options;
  options.cache = &cache;
  const firing::Rehearsal twice = firing::rehearse(again, options);
  ASSERT_TRUE(cache.find(firing::kept_under(firing::rehearse(first).inputs_hash, first)))
      << "the state after the first firing stands there";
  for (std::size_t p = 0; p < once.firing.pieces.size(); ++p) {
    for (std::size_t i = 0; i < once.firing.pieces[p].points.size(); ++i) {
      const firing::PointResult &a = once.firing.pieces[p].points[i], &b = twice.firing.pieces[p].points[i];
      EXPECT_GT(b.heat_work, 1.8 * a.heat_work);
      EXPECT_LT(std::abs(b.porosity_percent - a.porosity_percent), 0.1) << "pores stay";
      EXPECT_TRUE(b.decides) << "a second firing of the same layers is judged by them";
    }
    EXPECT_EQ(twice.firing.pieces[p].sections[0].water_start_g, 0) << "and holds no water";
  }
  const firing::Rehearsal cached = firing::rehearse(again, options);
  EXPECT_EQ(cached.firing.end, twice.firing.end);
}

TEST(refiring, crystals_go_on_from_the_stored_argument) {
  const trade::ResolvedFiring first = demo_firing("crystallise-firing");
  trade::ResolvedFiring again = first;
  again.earlier = {first};
  const auto once = firing::rehearse(first).firing.end.at(0), twice = firing::rehearse(again).firing.end.at(0);
  for (std::size_t i = 0; i < once.points.size(); ++i) {
    if (!once.points[i].crystals) continue;
    EXPECT_NEAR(twice.points[i].crystals->z.back(), 2 * once.points[i].crystals->z.back(), 0.02 * once.points[i].crystals->z.back());
    EXPECT_GE(twice.points[i].crystals->crystal_um, once.points[i].crystals->crystal_um);
  }
}

TEST(refiring, minutes_of_leucite_add_up_over_the_firings) {
  const trade::ResolvedFiring first = demo_firing("metal-ceramic-firing");
  trade::ResolvedFiring again = first;
  again.earlier = {first, first};
  again.earlier[0].earlier.clear();
  again.earlier[1].earlier.clear();
  const auto once = firing::rehearse(first).firing.pieces.at(0), third = firing::rehearse(again).firing.pieces.at(0);
  bool any = false;
  for (std::size_t i = 0; i < once.points.size(); ++i) {
    EXPECT_EQ(once.points[i].leucite_minutes_before, 0);
    if (once.points[i].leucite_minutes == 0) continue;
    any = true;
    // Dry and dense the piece is heated through a little faster than when wet.
    EXPECT_NEAR(third.points[i].leucite_minutes_before, 2 * once.points[i].leucite_minutes, 0.1 * once.points[i].leucite_minutes);
    EXPECT_NEAR(third.points[i].leucite_minutes, once.points[i].leucite_minutes, 0.1 * once.points[i].leucite_minutes);
  }
  EXPECT_TRUE(any);
}

}  // namespace
}  // namespace heatwork
