// Stress in a rehearsal: it moves nothing else, hangs on no number of threads, and goes on from firing to firing.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "demo_firing.h"
#include "firing/rehearsal.h"
#include "trade/shipped.h"

namespace heatwork::firing {
namespace {

trade::ResolvedFiring crown() {
  trade::ResolvedFiring request = tests::demo_firing("firing");
  request.pieces.resize(1);
  request.places.resize(1);
  request.firing.pieces.resize(1);
  return request;
}

RehearseOptions with_stress() {
  RehearseOptions options;
  options.stress = true;
  return options;
}

const trade::DecidingInputs& inputs() {
  static const trade::DecidingInputs read = trade::read_deciding_inputs("inputs.toml", trade::shipped_text("limits/inputs.toml"));
  return read;
}

/// Too cold for the glass to lose its stress: dried and taken out.
trade::ResolvedFiring dried_again() {
  trade::ResolvedFiring request = crown();
  request.firing.name = "dried-again";
  request.instruction.reset();
  request.instruction_program.reset();
  request.firing.instruction.reset();
  for (trade::HeatingStage& stage : request.program.heating) stage.to.value = quantity::Temperature::celsius(455);
  request.program.vacuum.reset();
  request.program.cooling.clear();
  request.program.opening_temperature.reset();
  return request;
}

void expect_alike(const SectionStress& one, const SectionStress& other, double within_Pa) {
  ASSERT_EQ(one.forms.size(), other.forms.size());
  for (std::size_t f = 0; f < one.forms.size(); ++f)
    for (std::size_t l = 0; l < one.forms[f].layers.size(); ++l)
      for (const auto figure : {&physics::LayerCooling::inner_hoop_Pa, &physics::LayerCooling::outer_hoop_Pa,
                                &physics::LayerCooling::highest_hoop_Pa, &physics::LayerCooling::radial_at_inner_Pa})
        EXPECT_NEAR(one.forms[f].layers[l].*figure, other.forms[f].layers[l].*figure, within_Pa) << word(one.forms[f].form) << ' ' << l;
}

TEST(Stress, MovesNothingElse) {
  const Rehearsal without = rehearse(crown()), with = rehearse(crown(), with_stress());
  EXPECT_TRUE(without.firing.pieces[0].stress.empty());
  ASSERT_EQ(with.firing.pieces[0].stress.size(), 2U);
  EXPECT_EQ(with.firing.end[0].points, without.firing.end[0].points);
  EXPECT_EQ(with.firing.pieces[0].sections[0].surface_C, without.firing.pieces[0].sections[0].surface_C);
  EXPECT_EQ(with.compared[0].shift_K, without.compared[0].shift_K);
}

TEST(Stress, HangsOnNoNumberOfThreads) {
  RehearseOptions one = with_stress(), four = with_stress();
  one.inputs = four.inputs = &inputs();
  one.workers = 1;
  four.workers = 4;
  const Rehearsal alone = rehearse(crown(), one), together = rehearse(crown(), four);
  for (std::size_t s = 0; s < 2; ++s) {
    const SectionStress& a = alone.firing.pieces[0].stress[s];
    const SectionStress& b = together.firing.pieces[0].stress[s];
    EXPECT_EQ(a.set_size, b.set_size);
    ASSERT_EQ(a.levers.size(), b.levers.size());
    for (std::size_t i = 0; i < a.levers.size(); ++i) EXPECT_EQ(a.levers[i].residual_after_Pa, b.levers[i].residual_after_Pa);
    for (std::size_t f = 0; f < a.forms.size(); ++f) {
      ASSERT_EQ(a.forms[f].interval.has_value(), !a.forms[f].remark_only);
      if (!a.forms[f].interval) continue;
      EXPECT_EQ(a.forms[f].interval->layers[1][4].low_Pa, b.forms[f].interval->layers[1][4].low_Pa);
      EXPECT_EQ(a.forms[f].interval->layers[1][4].high_Pa, b.forms[f].interval->layers[1][4].high_Pa);
      EXPECT_LE(a.forms[f].interval->layers[1][4].low_Pa, a.forms[f].layers[1].highest_hoop_Pa);
      EXPECT_GE(a.forms[f].interval->layers[1][4].high_Pa, a.forms[f].layers[1].highest_hoop_Pa);
    }
  }
}

TEST(Stress, TakenFromACacheIsTheSameAndGoesByTheNamesOfToday) {
  StressCache cache;
  RehearseOptions cached = with_stress();
  cached.inputs = &inputs();
  cached.stress_cache = &cache;
  const Rehearsal first = rehearse(crown(), cached), again = rehearse(crown(), cached);
  trade::ResolvedFiring renamed = crown();
  renamed.pieces[0].sections[0].name = "another";
  const Rehearsal other = rehearse(renamed, cached);
  EXPECT_EQ(other.inputs_hash, first.inputs_hash) << "the hash knows no names, so the cache must";
  EXPECT_EQ(other.firing.pieces[0].stress[0].section, "another");
  for (std::size_t s = 0; s < 2; ++s) {
    const SectionStress& one = first.firing.pieces[0].stress[s];
    for (const Rehearsal* each : {&again, &other}) {
      const SectionStress& two = each->firing.pieces[0].stress[s];
      EXPECT_EQ(two.set_size, one.set_size);
      EXPECT_EQ(two.levers.size(), one.levers.size());
      for (std::size_t f = 0; f < one.forms.size(); ++f) {
        ASSERT_EQ(two.forms[f].interval.has_value(), one.forms[f].interval.has_value());
        if (!one.forms[f].interval) continue;
        EXPECT_EQ(two.forms[f].interval->layers[1][4].high_Pa, one.forms[f].interval->layers[1][4].high_Pa);
      }
    }
  }
}

TEST(Stress, IsSmallBesideItsOwnError) {
  const Rehearsal rehearsed = rehearse(crown(), with_stress());
  for (const SectionStress& section : rehearsed.firing.pieces[0].stress)
    for (const FormStress& form : section.forms) {
      EXPECT_GT(form.error_Pa, 0);
      EXPECT_LT(form.error_Pa, 1e6) << word(form.form);
    }
}

TEST(Stress, OfAColdFiringIsThatOfTheOneBefore) {
  const Rehearsal fired = rehearse(crown(), with_stress());
  trade::ResolvedFiring again = dried_again();
  again.earlier = {crown()};
  again.firing.after = {trade::Given<std::string>{again.earlier[0].firing.name, "", {}}};
  const Rehearsal dried = rehearse(again, with_stress());
  ASSERT_EQ(dried.firing.pieces[0].stress.size(), 2U);
  for (std::size_t s = 0; s < 2; ++s) {
    EXPECT_TRUE(dried.firing.pieces[0].stress[s].carried_in) << dried.firing.pieces[0].stress[s].not_computed;
    expect_alike(dried.firing.pieces[0].stress[s], fired.firing.pieces[0].stress[s], 0.1e6);
  }
}

TEST(Stress, OfAColdFiringHasTheBoundsOfTheOneBefore) {
  RehearseOptions bounded = with_stress();
  bounded.inputs = &inputs();
  const Rehearsal fired = rehearse(crown(), bounded);
  trade::ResolvedFiring again = dried_again();
  again.earlier = {crown()};
  const Rehearsal dried = rehearse(again, bounded);
  for (std::size_t s = 0; s < 2; ++s) {
    const SectionStress& before = fired.firing.pieces[0].stress[s];
    const SectionStress& after = dried.firing.pieces[0].stress[s];
    ASSERT_TRUE(after.carried_in) << after.not_computed;
    EXPECT_TRUE(after.settled);
    for (std::size_t f = 0; f < after.forms.size(); ++f) {
      ASSERT_EQ(after.forms[f].interval.has_value(), before.forms[f].interval.has_value());
      if (!after.forms[f].interval) continue;
      const physics::StressInterval& was = before.forms[f].interval->layers[1][4];
      const physics::StressInterval& is = after.forms[f].interval->layers[1][4];
      EXPECT_NEAR(is.low_Pa, was.low_Pa, 0.5e6) << word(after.forms[f].form);
      EXPECT_NEAR(is.high_Pa, was.high_Pa, 0.5e6) << word(after.forms[f].form);
      EXPECT_GT(is.high_Pa - is.low_Pa, 5e6) << "a class is known no better for having been dried";
    }
  }
  // Ground thinner in between, the bounds are those of what is left, about the figure itself.
  for (trade::Section& section : again.pieces[0].sections)
    section.layers.back().thickness.value = quantity::Length::si(0.8 * section.layers.back().thickness.value.si());
  const Rehearsal ground = rehearse(again, bounded);
  for (const SectionStress& section : ground.firing.pieces[0].stress)
    for (const FormStress& form : section.forms) {
      if (form.remark_only) continue;
      ASSERT_TRUE(form.interval);
      EXPECT_LT(form.interval->layers[1][4].low_Pa, form.layers[1].highest_hoop_Pa);
      EXPECT_GT(form.interval->layers[1][4].high_Pa, form.layers[1].highest_hoop_Pa);
    }
}

TEST(Stress, ReplayedIsTheStateThatWasStored) {
  trade::ResolvedFiring again = dried_again();
  again.earlier = {crown()};
  StateCache cache;
  RehearseOptions cached = with_stress();
  cached.cache = &cache;
  const Rehearsal replayed = rehearse(again, cached), taken = rehearse(again, cached);
  RehearseOptions stored = with_stress();
  stored.start = rehearse(crown(), with_stress()).firing.end;
  trade::ResolvedFiring alone = dried_again();
  const Rehearsal resumed = rehearse(alone, stored);
  for (const Rehearsal* other : {&taken, &resumed}) {
    ASSERT_EQ(other->firing.end[0].stress.size(), 2U);
    for (std::size_t s = 0; s < 2; ++s)
      for (std::size_t f = 0; f < replayed.firing.end[0].stress[s].forms.size(); ++f) {
        const auto& one = replayed.firing.end[0].stress[s].forms[f].state;
        const auto& two = other->firing.end[0].stress[s].forms[f].state;
        ASSERT_EQ(one.size(), two.size());
        for (std::size_t i = 0; i < one.size(); ++i) EXPECT_NEAR(one[i], two[i], 1e-9 * std::max(1.0, std::abs(one[i])));
      }
  }
}

TEST(Stress, WithoutWhatAnEarlierFiringLeftAColdOneTellsNone) {
  const Rehearsal dried = rehearse(dried_again(), with_stress());
  for (const SectionStress& section : dried.firing.pieces[0].stress) {
    EXPECT_TRUE(section.forms.empty());
    EXPECT_NE(section.not_computed.find("loses the stress of earlier firings from 670 °C on"), std::string::npos) << section.not_computed;
  }
  EXPECT_TRUE(dried.firing.end[0].stress.empty());
}

TEST(Stress, OfAGroundVeneerGoesOnInWhatIsLeft) {
  trade::ResolvedFiring again = dried_again();
  again.earlier = {crown()};
  for (trade::Section& section : again.pieces[0].sections)
    section.layers.back().thickness.value = quantity::Length::si(0.8 * section.layers.back().thickness.value.si());
  const Rehearsal ground = rehearse(again, with_stress());
  for (const SectionStress& section : ground.firing.pieces[0].stress) EXPECT_TRUE(section.carried_in) << section.not_computed;
  for (trade::Section& section : again.pieces[0].sections)
    section.layers.back().thickness.value = quantity::Length::si(1.6 * section.layers.back().thickness.value.si());
  const Rehearsal laid_on = rehearse(again, with_stress());
  for (const SectionStress& section : laid_on.firing.pieces[0].stress)
    EXPECT_FALSE(section.not_computed.empty()) << "what was laid on never became liquid";
}

}  // namespace
}  // namespace heatwork::firing
