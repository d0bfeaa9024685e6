#include "firing/maker_runs.h"

#include <gtest/gtest.h>

#include <atomic>
#include <filesystem>

#include "trade/deciding_inputs.h"
#include "trade/library.h"
#include "trade/shipped.h"

namespace heatwork::firing {
namespace {

trade::ResolvedFiring demo() {
  return trade::load_firing(std::filesystem::path(HEATWORK_SOURCE_DIR) / "data" / "demo" / "firing.toml",
                            [](quantity::Length) { return quantity::Pressure::si(101325); });
}

const trade::DecidingInputs& inputs() {
  static const trade::DecidingInputs all = trade::read_deciding_inputs("limits/inputs.toml", trade::shipped_text("limits/inputs.toml"));
  return all;
}

void expect_same(const Rehearsal& one, const Rehearsal& other) {
  EXPECT_EQ(one.inputs_hash, other.inputs_hash);
  ASSERT_EQ(one.compared.size(), other.compared.size());
  for (std::size_t i = 0; i < one.compared.size(); ++i) {
    EXPECT_EQ(one.compared[i].shift_K, other.compared[i].shift_K) << i;
    EXPECT_EQ(one.compared[i].hold_s, other.compared[i].hold_s) << i;
    EXPECT_EQ(one.reference[i].end, other.reference[i].end) << i;
  }
  EXPECT_EQ(one.firing.end, other.firing.end);
  ASSERT_EQ(one.varied.size(), other.varied.size());
  for (std::size_t v = 0; v < one.varied.size(); ++v) {
    ASSERT_EQ(one.varied[v].ends.size(), other.varied[v].ends.size()) << v;
    for (std::size_t e = 0; e < one.varied[v].ends.size(); ++e) {
      ASSERT_EQ(one.varied[v].ends[e].compared.size(), other.varied[v].ends[e].compared.size());
      for (std::size_t i = 0; i < one.varied[v].ends[e].compared.size(); ++i)
        EXPECT_EQ(one.varied[v].ends[e].compared[i].shift_K, other.varied[v].ends[e].compared[i].shift_K) << v << ' ' << e << ' ' << i;
    }
  }
}

TEST(MakerRuns, WhatIsKeptChangesNoBit) {
  trade::ResolvedFiring firing = demo();
  MakerRuns runs;
  for (const double top_C : {817.0, 811.0, 817.0, 830.0}) {
    firing.program.heating.front().to.value = quantity::Temperature::celsius(top_C);
    RehearseOptions plain, kept;
    plain.inputs = kept.inputs = &inputs();
    kept.maker_runs = &runs;
    expect_same(rehearse(firing, kept), rehearse(firing, plain));
  }
}

TEST(MakerRuns, AnotherPieceTrayOrInstructionIsAnotherRun) {
  const trade::ResolvedFiring firing = demo();
  const std::string hash = maker_hash(firing, 0, nullptr);
  trade::ResolvedFiring other = firing;
  other.program.heating.front().to.value = quantity::Temperature::celsius(700);
  other.tray.mass->value = quantity::Mass::si(0.2);
  EXPECT_EQ(maker_hash(other, 0, nullptr), hash) << "this firing's own program and tray are not the maker's";
  EXPECT_NE(maker_hash(firing, 1, nullptr), hash);
  other = firing;
  other.instruction_program->heating.front().to.value = quantity::Temperature::celsius(700);
  EXPECT_NE(maker_hash(other, 0, nullptr), hash);
  other = firing;
  other.instruction_tray->mass->value = quantity::Mass::si(0.2);
  EXPECT_NE(maker_hash(other, 0, nullptr), hash);
  other = firing;
  other.pieces[0].sections.front().layers.back().thickness.value = quantity::Length::si(0.0031);
  EXPECT_NE(maker_hash(other, 0, nullptr), hash);
  other = firing;
  other.pieces[0].sections.front().name = "elsewhere";
  EXPECT_NE(maker_hash(other, 0, nullptr), hash) << "results carry the name";
  other = firing;
  other.furnace.display_error->error.value = quantity::kelvins(-3);
  other.furnace_known.leak_u = quantity::PressureRate::si(1);
  EXPECT_EQ(maker_hash(other, 0, nullptr), hash) << "the true furnace has a true display";
  other = firing;
  other.furnace.altitude.value = quantity::Length::si(1600);
  EXPECT_NE(maker_hash(other, 0, nullptr), hash);
}

TEST(MakerRuns, TheOneLongestNotAskedForGoes) {
  MakerRuns runs(2);
  const auto run = [] { return std::make_shared<MakerRun>(FiringResult{}, physics::LoadHistory{}); };
  runs.keep("a", run());
  runs.keep("b", run());
  EXPECT_NE(runs.find("a"), nullptr);
  runs.keep("c", run());
  EXPECT_NE(runs.find("a"), nullptr);
  EXPECT_EQ(runs.find("b"), nullptr);
}

TEST(Rehearse, StopsWhenAskedTo) {
  const trade::ResolvedFiring firing = demo();
  RehearseOptions options;
  options.inputs = &inputs();
  options.workers = 2;
  std::atomic<int> asked{0};
  options.stop = [&] {
    ++asked;
    return false;
  };
  (void)rehearse(firing, options);
  const int often = asked;
  EXPECT_GT(often, 40) << "before each variant and each run of the comparison";
  for (const int at : {1, 5, often / 2}) {
    std::atomic<int> count{0};
    options.stop = [&] { return ++count >= at; };
    EXPECT_THROW((void)rehearse(firing, options), Stopped) << at;
    EXPECT_LE(count, often) << "the rest is not computed";
  }
}

}  // namespace
}  // namespace heatwork::firing
