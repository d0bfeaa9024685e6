#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>

#include "verdict/veneered_for_tests.h"

namespace heatwork::verdict {
namespace {

using namespace judge_case;
using veneered::Pair;

firing::Rehearsal cooled(const Pair& pair, bool intervals = true, physics::StressForm form = physics::StressForm::sphere) {
  firing::Rehearsal made = veneered::rehearsed(pair);
  made.firing.pieces[0].stress = {veneered::cooled(made, intervals, form)};
  return made;
}

/// A rehearsal whose stress says what a test wants it to say, in MPa.
struct Says {
  double stays = 5, low = 4, high = 6, way = 12, across = 3;
};

firing::FormStress form_that(const Says& says, physics::StressForm form) {
  firing::FormStress made;
  made.form = form;
  made.inner_radius_m = 4e-3;
  made.layers.resize(2);
  physics::LayerCooling& glass = made.layers[1];
  glass.highest_hoop_Pa = says.stays * 1e6;
  glass.transient_highest_Pa = says.way * 1e6;
  glass.radial_at_inner_Pa = says.across * 1e6;
  made.interval.emplace();
  made.interval->layers.resize(2);
  for (std::size_t i = 0; i < physics::stress_figures; ++i) {
    const double middle = glass.*physics::layer_stresses[i];
    made.interval->layers[1][i] = {middle, middle, middle};
  }
  made.interval->layers[1][4] = {says.low * 1e6, says.stays * 1e6, says.high * 1e6};
  made.interval->swing_Pa = {1e6, 2e6, 0.5e6, 0.1e6};
  return made;
}

firing::SectionStress section_that(const Says& says) {
  firing::SectionStress section;
  section.section = "thickest";
  section.materials = {"zirconia-3y", "zirconia-veneer"};
  section.glass = 1;
  section.glass_transition_C = 590;
  section.mismatch_per_K = 0.8e-6;
  section.settled = true;
  section.opened_at_C = 500;
  section.forms = {form_that(says, physics::StressForm::sphere)};
  return section;
}

firing::Rehearsal made_up(const Says& says) {
  firing::Rehearsal made = veneered::rehearsed(Pair().mismatch(0.8, 0.1));
  made.firing.pieces[0].stress = {section_that(says)};
  return made;
}

firing::SectionStress& section(firing::Rehearsal& made) {
  return made.firing.pieces[0].stress[0];
}

// ---- the pair, by the real models

TEST(Pair, ThatIsKnownToHalfAPpmCannotBeToldAndNamesThePairsExpansion) {
  const Finding found = finding(cooled(Pair().mismatch(0.75, 0.5)), Aspect::cooling);
  EXPECT_EQ(found.level, Level::cannot_tell) << found.sentence;
  EXPECT_LT(*found.low, 10);
  EXPECT_GT(*found.high, 20);
  EXPECT_NE(found.sentence.find("What would settle it: the expansion of the pair, measured on cooling."), std::string::npos)
      << found.sentence;
}

TEST(Pair, ThatIsKnownToATenthLeavesTheLiquidsExpansion) {
  const Finding found = finding(cooled(Pair().mismatch(0.75, 0.1)), Aspect::cooling);
  EXPECT_EQ(found.level, Level::cannot_tell) << found.sentence;
  EXPECT_NE(found.sentence.find("What would settle it: the expansion of the liquid glass, measured above its transition."),
            std::string::npos)
      << found.sentence;
}

/// Liquid expansion to 5 %, activation to 10 %.
Pair measured(double mismatch_ppm) {
  Pair pair = Pair().mismatch(mismatch_ppm, 0.1);
  veneered::set(pair.veneer, "liquid_expansion_ratio", 3, 0.15);
  veneered::set(pair.veneer, "relaxation_activation", 70000, 7000);
  return pair;
}

TEST(Pair, ThatIsMeasuredGetsALevel) {
  const Finding found = finding(cooled(measured(0.75)), Aspect::cooling);
  EXPECT_NE(found.level, Level::cannot_tell) << found.sentence;
  EXPECT_LT(*found.high - *found.low, 14);
}

TEST(Pair, ThatIsBadIsAFaultWhereItIsMeasured) {
  const Finding found = finding(cooled(measured(-0.5)), Aspect::cooling);
  EXPECT_EQ(found.level, Level::fault_expected) << found.sentence;
  EXPECT_NE(found.sentence.find("expands by 0.5 ppm/K more than zirconia with 3 mol % yttria: cooling puts it under tension"),
            std::string::npos)
      << found.sentence;
}

TEST(Pair, ThatIsBadIsNotExcusedByTheMakersOwnFiring) {
  firing::Rehearsal made = cooled(measured(-0.5));
  made.reference[0].pieces[0].stress = made.firing.pieces[0].stress;
  EXPECT_EQ(finding(made, Aspect::cooling).level, Level::fault_expected);
}

// ---- levels and sentences

TEST(Stress, IsToldForTheSectionAndFormAndIsSoundWhereItIsSmall) {
  const Finding found = finding(made_up({}), Aspect::cooling);
  EXPECT_EQ(found.level, Level::sound);
  EXPECT_EQ(found.sentence,
            "Crown (thickest, taken as a closed shell): up to 5.0 MPa of tension stay in the porcelain when it is cold. On the way there "
            "the tension is 12 MPa at most. Over all that its materials may be: 4.0 to 6.0 MPa.");
  EXPECT_EQ(found.change, "");
  EXPECT_EQ(found.number, 5.0);
  EXPECT_EQ(found.unit, "MPa");
  EXPECT_EQ(found.limit, 10);
  EXPECT_EQ(found.where, "thickest");
}

TEST(Stress, OfAGlassThatIsPressedEverywhereSaysSo) {
  const Finding found = finding(made_up({-8, -12, -4, 2, 3}), Aspect::cooling);
  EXPECT_EQ(found.level, Level::sound);
  EXPECT_NE(
      found.sentence.find("the porcelain is under pressure everywhere, 8.0 MPa at least. On the way there the tension is 2.0 MPa at most."),
      std::string::npos)
      << found.sentence;
}

TEST(Stress, TellsOfTheWayOnce) {
  const std::string apart = finding(made_up({15, 12, 18, 30, 3}), Aspect::cooling).sentence;
  EXPECT_NE(apart.find("on the way to cold the tension in the porcelain is 30 MPa at most."), std::string::npos) << apart;
  EXPECT_EQ(apart.find("On the way there"), std::string::npos) << apart;
}

TEST(Stress, HasTheLevelOfItsBand) {
  EXPECT_EQ(finding(made_up({25, 12, 30, 22, 3}), Aspect::cooling).level, Level::fault_expected);
  EXPECT_EQ(finding(made_up({15, 12, 18, 22, 3}), Aspect::cooling).level, Level::borderline);
  EXPECT_EQ(finding(made_up({15, 8, 25, 22, 3}), Aspect::cooling).level, Level::cannot_tell);
  const Finding reached = finding(made_up({8, 5, 15, 22, 3}), Aspect::cooling);
  EXPECT_EQ(reached.level, Level::borderline);
  EXPECT_EQ(reached.change,
            "By the number itself nothing need change; most of its range comes from the expansion of the liquid glass (measure it above "
            "the transition).");
}

TEST(Stress, WithoutABandIsNotFinal) {
  firing::Rehearsal made = made_up({25, 12, 30, 22, 3});
  made.bands = false;
  section(made).forms[0].interval.reset();
  const Finding found = finding(made, Aspect::cooling);
  EXPECT_TRUE(found.band_follows);
  EXPECT_FALSE(found.low);
  EXPECT_EQ(found.sentence.find("may be"), std::string::npos);
}

TEST(Stress, WithoutABandWhereBandsWereAskedForTellsNoLevel) {
  for (const double stays_MPa : {2.0, 25.0}) {
    firing::Rehearsal made = made_up({stays_MPa, 1, 30, 12, 3});
    section(made).carried_in = true;
    section(made).forms[0].interval.reset();
    const Finding found = finding(made, Aspect::cooling);
    EXPECT_EQ(found.level, Level::cannot_tell);
    EXPECT_FALSE(found.band_follows);
    EXPECT_NE(found.sentence.find("no level is told"), std::string::npos) << found.sentence;
  }
}

TEST(Stress, NotAskedForIsNotToldOf) {
  firing::Rehearsal made = made_up({25, 12, 30, 22, 3});
  made.firing.pieces[0].stress.clear();
  EXPECT_FALSE(has(judged(made), Aspect::cooling));
}

TEST(Stress, TheGravestFormCountsAndARemarkDoesNot) {
  firing::Rehearsal made = made_up({});
  section(made).forms.push_back(form_that({14, 12, 16, 20, 3}, physics::StressForm::cylinder));
  section(made).forms.push_back(form_that({40, 35, 45, 50, 3}, physics::StressForm::plate_free));
  section(made).forms[2].remark_only = true;
  const Finding found = finding(made, Aspect::cooling);
  EXPECT_EQ(found.level, Level::borderline);
  EXPECT_EQ(found.number, 14);
  EXPECT_NE(found.sentence.find("taken as a tube"), std::string::npos) << found.sentence;
}

TEST(Stress, OfTheMakersOwnFiringRaisesNoLevel) {
  firing::Rehearsal made = made_up({25, 22, 30, 22, 3});
  made.reference[0].pieces[0].stress = made.firing.pieces[0].stress;
  const Finding found = finding(made, Aspect::cooling);
  EXPECT_EQ(found.level, Level::sound);
  EXPECT_NE(found.sentence.find("The maker's own firing is beyond this limit too (25 MPa): it raises no level."), std::string::npos)
      << found.sentence;
  made.reference[0].pieces[0].stress[0].forms[0].layers[1].highest_hoop_Pa = 5e6;
  EXPECT_EQ(finding(made, Aspect::cooling).level, Level::fault_expected);
}

TEST(Stress, TensionOnTheWayAndAcrossTheBondAreNamedWhereTheyAreHigh) {
  const Finding way = finding(made_up({5, 4, 6, 31, 3}), Aspect::cooling);
  EXPECT_EQ(way.level, Level::borderline);
  EXPECT_NE(way.sentence.find("on the way to cold the tension in the porcelain is 31 MPa at most"), std::string::npos) << way.sentence;
  const Finding bond = finding(made_up({5, 4, 6, 12, 18}), Aspect::cooling);
  EXPECT_EQ(bond.level, Level::borderline);
  EXPECT_NE(bond.sentence.find("across the bond the layer below draws at the porcelain with 18 MPa"), std::string::npos) << bond.sentence;
}

TEST(Stress, OfASetThatIsNotSettledSaysSo) {
  firing::Rehearsal made = made_up({});
  section(made).settled = false;
  EXPECT_NE(finding(made, Aspect::cooling).sentence.find("The ends of this range are not settled to 1 MPa."), std::string::npos);
}

TEST(Stress, IsNotToldTwice) {
  // The tension on the way is what stays; or its band alone reaches the limit while what stays is graver.
  EXPECT_EQ(finding(made_up({43, 38, 48, 43, 3}), Aspect::cooling).sentence.find("on the way to cold"), std::string::npos);
  firing::Rehearsal made = made_up({15, 8, 25, 22, 3});
  section(made).forms[0].interval->layers[1][6].high_Pa = 34e6;
  EXPECT_EQ(finding(made, Aspect::cooling).sentence.find("on the way to cold"), std::string::npos);
  made = made_up({5, 4, 6, 22, 3});
  section(made).forms[0].interval->layers[1][6].high_Pa = 34e6;
  EXPECT_NE(finding(made, Aspect::cooling).sentence.find("on the way to cold"), std::string::npos);
}

TEST(Stress, LeversAreSentencesWithTheirDirection) {
  firing::Rehearsal made = made_up({25, 12, 30, 22, 3});
  using What = firing::StressLever::What;
  section(made).levers = {{What::slower, 520, 0.25, 22e6, 14e6, 25e6, 24.6e6}, {What::opened_lower, 540, 0, 22e6, 30e6, 25e6, 21e6}};
  const Finding found = finding(made, Aspect::cooling);
  EXPECT_EQ(found.change,
            "Take a veneer that expands less than its core, by 0.5 to 1 ppm/K as a rule. Or lay it thinner. Cooled more slowly (15 K/min "
            "down to 520 °C): the tension on the way falls from 22 to 14 MPa; what stays hardly changes (25 MPa). Opened only at 540 "
            "°C: the tension on the way rises from 22 to 30 MPa; what stays falls from 25 to 21 MPa.");
}

// ---- what pair and program show

TEST(Opening, AboveTheTransitionIsBorderlineAndSaysWhereToOpen) {
  firing::Rehearsal made = made_up({});
  section(made).opened_at_C = 640;
  const Finding found = finding(made, Aspect::cooling);
  EXPECT_EQ(found.level, Level::borderline);
  EXPECT_NE(found.sentence.find("Crown (thickest): the chamber opens while the porcelain is at 640 °C, 50 K above its transition of 590 "
                                "°C: what it goes through from there on freezes in."),
            std::string::npos)
      << found.sentence;
  EXPECT_EQ(found.change, "Open at 500 °C on the display or below.");
  ASSERT_EQ(found.advised.size(), 1U);
  EXPECT_EQ(found.advised[0].key, "opening_temperature");
  // The maker's own firing opens there too.
  made.reference[0].pieces[0].stress = made.firing.pieces[0].stress;
  EXPECT_EQ(finding(made, Aspect::cooling).level, Level::sound);
}

TEST(Opening, BelowTheTransitionIsNothingToSay) {
  firing::Rehearsal made = made_up({});
  section(made).opened_at_C = 530;
  EXPECT_EQ(finding(made, Aspect::cooling).sentence.find("opens"), std::string::npos);
  section(made).opened_at_C.reset();
  EXPECT_EQ(finding(made, Aspect::cooling).sentence.find("opens"), std::string::npos);
}

TEST(Veneer, ThatIsThickIsBorderline) {
  Pair pair = Pair().mismatch(0.8, 0.1);
  pair.veneer_mm = 2.6;
  firing::Rehearsal made = veneered::rehearsed(pair);
  made.firing.pieces[0].stress = {section_that({})};
  const Finding found = finding(made, Aspect::cooling);
  EXPECT_EQ(found.level, Level::borderline);
  EXPECT_NE(found.sentence.find("Crown (thickest): 2.6 mm of veneer is a lot"), std::string::npos) << found.sentence;
}

TEST(Heating, TooFastIsNamedForVeneerAndCore) {
  firing::Rehearsal made = made_up({});
  made.reference.clear();
  made.compared.clear();
  // 500 K in 20 s through 2.2 mm: far beyond any program, as when a cold piece goes into a hot muffle.
  made.firing.time_s = {0, 20, 400, 800, 1000, 1100, 1200};
  made.firing.pieces[0].sections[0].surface_C = {22, 522, 530, 805, 809, 610, 420};
  const Finding found = finding(made, Aspect::cooling);
  EXPECT_EQ(found.level, Level::borderline);
  EXPECT_NE(found.sentence.find("veneering porcelain for zirconia is heated by 1500 K/min at 522 °C: its inside is drawn with up to "),
            std::string::npos)
      << found.sentence;
  EXPECT_NE(found.change.find("Enter at a lower temperature, or heat more slowly."), std::string::npos);
  made.firing.time_s[1] = 4;
  EXPECT_NE(finding(made, Aspect::cooling).sentence.find("zirconia with 3 mol % yttria is heated by"), std::string::npos);
}

TEST(Heating, BoundIsThatOfTheHandbook) {
  // v_max = sigma (1 - nu) k A / (alpha E r^2 c rho), A = 3: solved for the tension of 25 K/s through 2.2 mm at 522 °C.
  firing::Rehearsal made = made_up({});
  made.reference.clear();
  made.compared.clear();
  made.firing.time_s = {0, 20, 400, 800, 1000, 1100, 1200};
  made.firing.pieces[0].sections[0].surface_C = {22, 522, 530, 805, 809, 610, 420};
  const double share = (522.0 - 25) / 575, k = 1.1 + 0.3 * share, cp = 750 + 330 * share;
  const double tension = 25 * 9.5e-6 * 65e9 * 2.2e-3 * 2.2e-3 * cp * 2420 / (3 * (1 - 0.21) * k) / 1e6;
  EXPECT_NE(finding(made, Aspect::cooling).sentence.find(fmt::format("is drawn with up to {:.0f} MPa", tension)), std::string::npos)
      << tension;
}

// ---- what is not computed

TEST(Stress, NotComputedCannotBeToldAndSaysWhy) {
  firing::Rehearsal made = made_up({});
  section(made) = {};
  section(made).section = "thickest";
  section(made).not_computed =
      "Material glaze has no expansion, which the stress of its layer needs; give it with value, range, standing and source.";
  const Finding found = finding(made, Aspect::cooling);
  EXPECT_EQ(found.level, Level::cannot_tell);
  EXPECT_EQ(found.sentence, "Crown (thickest): the stress of cooling is not computed. " + section(made).not_computed);
  EXPECT_EQ(finding(judge(made, limits(), words("de")), Aspect::cooling).sentence,
            "Crown (thickest): Die Spannung beim Abkühlen ist nicht gerechnet. Das Material glaze hat kein expansion, das die Spannung "
            "seiner Schicht braucht; mit Wert, Bereich, Herkunft und Quelle angeben.");
}

TEST(Stress, OfASectionWithoutGlassIsNoQuestion) {
  firing::Rehearsal made = made_up({});
  made.request.pieces[0].sections[0].layers = {veneered::layer("zirconia-3y", 0.7)};
  section(made) = {};
  section(made).not_computed = "No layer of it relaxes as a glass: what its elastic layers keep from earlier firings is not known.";
  EXPECT_FALSE(has(judged(made), Aspect::cooling));
}

TEST(Refiring, SaysWhetherStressWasFollowedAndCountsLeuciteOverAllFirings) {
  firing::Rehearsal made = made_up({});
  trade::ResolvedFiring before;
  before.pieces = made.request.pieces;
  made.request.earlier = {before, before};
  made.firing.pieces[0].points[0].leucite_minutes = 4;
  made.firing.pieces[0].points[0].leucite_minutes_before = 9.5;
  Finding found = finding(made, Aspect::refiring);
  EXPECT_NE(
      found.sentence.find("In its firings so far 13.5 min lie in the range where leucite changes in holds, 4.0 min of them in this one."),
      std::string::npos)
      << found.sentence;
  EXPECT_NE(found.sentence.find("Not computed: the leucite share"), std::string::npos) << found.sentence;
  made.firing.pieces[0].stress.clear();
  found = finding(made, Aspect::refiring);
  EXPECT_NE(found.sentence.find("Not computed: the stress that earlier firings left; the leucite share"), std::string::npos)
      << found.sentence;
}

TEST(Stress, IsJudgedAlikeInGermanAndInFahrenheit) {
  firing::Rehearsal made = cooled(Pair().mismatch(0.75, 0.5));
  section(made).opened_at_C = 640;
  section(made).levers = {{firing::StressLever::What::opened_lower, 520, 0, 22e6, 14e6, 25e6, 24.6e6}};
  const Finding german = finding(judge(made, limits(), words("de")), Aspect::cooling);
  EXPECT_EQ(german.level, Level::cannot_tell);
  EXPECT_NE(german.sentence.find("Klären würde es: die Wärmeausdehnung des Paars, beim Abkühlen gemessen."), std::string::npos)
      << german.sentence;
  const Finding fahrenheit = finding(judge(made, limits(), words(), quantity::UnitSystem::fahrenheit), Aspect::cooling);
  EXPECT_EQ((fahrenheit.sentence + fahrenheit.change).find("°C"), std::string::npos) << fahrenheit.sentence << fahrenheit.change;
}

}  // namespace
}  // namespace heatwork::verdict
