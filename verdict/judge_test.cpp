#include <gtest/gtest.h>

#include "verdict/judge_case.h"

namespace heatwork::verdict {
namespace {

using namespace judge_case;

TEST(Judge, TheMakersOwnFiringIsSoundThroughout) {
  const Verdict verdict = judged(rehearsal());
  EXPECT_FALSE(verdict.fault_expected);
  for (const Finding& one : verdict.findings) {
    EXPECT_EQ(one.level, Level::sound) << word(one.aspect) << ": " << one.sentence;
    EXPECT_FALSE(one.sentence.empty());
    EXPECT_EQ(one.sentence.find('{'), std::string::npos) << one.sentence;
    EXPECT_EQ(one.sentence.find("OK"), std::string::npos);
  }
  for (const Aspect aspect : {Aspect::furnace, Aspect::water, Aspect::burst, Aspect::heat, Aspect::vacuum, Aspect::pores,
                              Aspect::degree_of_firing, Aspect::gloss_and_edges}) {
    EXPECT_TRUE(has(verdict, aspect)) << word(aspect);
  }
  for (const Aspect aspect : {Aspect::organics, Aspect::sag, Aspect::crystals, Aspect::leucite}) EXPECT_FALSE(has(verdict, aspect));
}

TEST(Judge, GraveFirstThenCausesBeforeConsequences) {
  firing::Rehearsal made = rehearsal();
  made.firing.pieces[0].points[0].porosity_percent = 4.4;         // fault
  made.firing.pieces[0].sections[0].water_at_vacuum_percent = 3;  // borderline
  made.firing.pieces[0].sections[0].burst_index = 1.4;            // fault
  made.request.furnace.display_error.reset();                     // cannot tell
  const Verdict verdict = judged(made);
  ASSERT_GE(verdict.findings.size(), 5U);
  EXPECT_EQ(verdict.findings[0].aspect, Aspect::burst);
  EXPECT_EQ(verdict.findings[1].aspect, Aspect::pores);
  EXPECT_EQ(verdict.findings[2].aspect, Aspect::furnace);
  EXPECT_EQ(verdict.findings[2].level, Level::cannot_tell);
  EXPECT_EQ(verdict.findings[3].aspect, Aspect::water);
  EXPECT_TRUE(verdict.fault_expected);
  for (std::size_t i = 1; i < verdict.findings.size(); ++i) {
    const Finding &a = verdict.findings[i - 1], &b = verdict.findings[i];
    EXPECT_TRUE(a.level < b.level || (a.level == b.level && a.aspect <= b.aspect));
  }
}

TEST(Judge, OneFindingAnAspectAndPiece) {
  firing::Rehearsal made = rehearsal();
  made.request.pieces.push_back(made.request.pieces[0]);
  made.firing.pieces.push_back(made.firing.pieces[0]);
  made.firing.pieces[1].piece = "bridge";
  made.reference.push_back(made.reference[0]);
  made.compared.push_back(made.compared[0]);
  const Verdict verdict = judged(made);
  for (const Finding& one : verdict.findings) static_cast<void>(finding(verdict, one.aspect, one.piece));
  EXPECT_EQ(finding(verdict, Aspect::pores, "bridge").piece, "bridge");
}

TEST(Judge, EachBrokenLimitSaysWhatToChange) {
  firing::Rehearsal made = rehearsal();
  firing::PointResult& point = made.firing.pieces[0].points[0];
  firing::SectionResult& section = made.firing.pieces[0].sections[0];
  point.porosity_percent = 4;
  point.rounding_um = 30;
  section.water_at_vacuum_percent = 12;
  section.dry_s = 372;
  section.burst_index = 2;
  section.sag_um = 333;
  made.compared[0].shift_K = -33.0;
  made.firing.pieces[0].peak_core_C = 770;
  for (const Finding& one : judged(made).findings) {
    if (one.level == Level::sound) continue;
    EXPECT_FALSE(one.change.empty()) << one.sentence;
    EXPECT_TRUE(one.number.has_value()) << one.sentence;
    EXPECT_TRUE(one.limit.has_value()) << one.sentence;
    EXPECT_NE(one.limit_from, LimitFrom::none) << one.sentence;
  }
  EXPECT_EQ(finding(made, Aspect::water).change, "Dry 50 s longer.");
  ASSERT_EQ(finding(made, Aspect::water).advised.size(), 1U);
  EXPECT_EQ(finding(made, Aspect::water).advised[0].key, "drying_time");
}

TEST(Judge, AMissingTrayMassIsOneFindingAndHangingAspectsGetNone) {
  firing::Rehearsal made = rehearsal();
  made.tray_known = false;
  made.heaviest = made.firing;
  made.heaviest->pieces[0].peak_core_C = 771;
  made.firing.pieces[0].points[0].porosity_percent = 40;
  const Verdict verdict = judged(made);
  const Finding heat = finding(verdict, Aspect::heat, "");
  EXPECT_EQ(heat.level, Level::cannot_tell);
  EXPECT_EQ(heat.low, 771);
  EXPECT_EQ(heat.high, 806);
  for (const char* hanging : {"water", "burst", "pores", "degree of firing", "gloss and edges", "crystals"}) {
    EXPECT_NE(heat.sentence.find(hanging), std::string::npos) << hanging;
  }
  for (const Aspect aspect : {Aspect::water, Aspect::burst, Aspect::pores, Aspect::degree_of_firing, Aspect::gloss_and_edges}) {
    EXPECT_FALSE(has(verdict, aspect)) << word(aspect);
  }
  EXPECT_EQ(finding(verdict, Aspect::vacuum, "").level, Level::sound) << "the pump does not hang on the tray";
  EXPECT_EQ(finding(verdict, Aspect::furnace, "").sentence, "The display of north is true within 3 K.");
  EXPECT_FALSE(verdict.fault_expected);
}

TEST(Judge, WithoutAnInstructionThereIsNothingToCompareWith) {
  firing::Rehearsal made = rehearsal();
  made.request.instruction.reset();
  made.request.instruction_program.reset();
  made.reference.clear();
  made.compared = {firing::Comparison{}};
  const Verdict verdict = judged(made);
  const Finding degree = finding(verdict, Aspect::degree_of_firing);
  EXPECT_EQ(degree.level, Level::cannot_tell);
  EXPECT_NE(degree.sentence.find("nothing to compare"), std::string::npos);
  EXPECT_NE(degree.sentence.find("806 °C"), std::string::npos) << degree.sentence;
  EXPECT_NE(degree.sentence.find("heat-work 25"), std::string::npos) << degree.sentence;
  EXPECT_EQ(finding(verdict, Aspect::pores).limit, 1);
  EXPECT_EQ(finding(verdict, Aspect::pores).unit, "%");
  EXPECT_EQ(finding(verdict, Aspect::heat).level, Level::cannot_tell);
}

TEST(Judge, RefusesResultsThatDoNotBelongTogether) {
  firing::Rehearsal made = rehearsal();
  made.request.pieces.clear();
  EXPECT_THROW(static_cast<void>(judged(made)), std::logic_error);
}

// ---- the headline

TEST(Headline, AWrongDisplayIsSaidFirstAndInOneSentence) {
  firing::Rehearsal made = rehearsal();
  made.request.furnace.display_error = trade::DisplayError{given(quantity::kelvins(12)), given(quantity::kelvins(3)), "invented"};
  made.compared[0].shift_K = -13.4;
  made.compared[0].hold_s = -34.0;
  const Verdict verdict = judged(made);
  EXPECT_EQ(verdict.findings[0].aspect, Aspect::furnace);
  EXPECT_EQ(verdict.findings[0].level, Level::borderline);
  EXPECT_EQ(verdict.findings[0].sentence,
            "The display of north reads 12 K too high (within 6 K): crown gets the firing of the maker's program about 13 K too cold, like "
            "34 s less hold.");
  EXPECT_EQ(verdict.findings[0].change,
            "Key in all temperatures 12 K higher, or set the panel's correction from 0 to -12 K (it is added to the display).");
  const Finding degree = finding(verdict, Aspect::degree_of_firing);
  EXPECT_EQ(degree.number, -13.4);
  EXPECT_EQ(degree.unit, "K");
  EXPECT_EQ(degree.limit, 10);
  EXPECT_EQ(degree.change, "Key in 833 °C at the top instead of 820 °C, or correct the furnace north.");
  ASSERT_EQ(degree.advised.size(), 1U);
  EXPECT_EQ(degree.advised[0].key, "heating[1].to");
  EXPECT_EQ(degree.advised[0].value, "833 °C");
  const std::vector<Advised>& all = verdict.findings[0].advised;
  ASSERT_GT(all.size(), 2U) << "all temperatures are 12 K higher";
  const auto top = std::find_if(all.begin(), all.end(), [](const Advised& one) { return one.key == "heating[1].to"; });
  ASSERT_NE(top, all.end());
  EXPECT_EQ(top->value, "832 °C");
}

TEST(Headline, TheCorrectionGoesByItsConvention) {
  firing::Rehearsal made = rehearsal();
  made.request.furnace.display_error = trade::DisplayError{given(quantity::kelvins(-8)), given(quantity::kelvins(3)), "invented"};
  made.request.furnace.correction_keyed = given(quantity::kelvins(3));
  made.request.furnace.correction_convention = given(trade::CorrectionConvention::added_to_setting);
  made.compared[0].shift_K = 8.2;
  const Finding furnace = finding(made, Aspect::furnace, "");
  EXPECT_EQ(furnace.change,
            "Key in all temperatures 8 K lower, or set the panel's correction from 3 to -5 K (it is added to the setting).");
  EXPECT_NE(furnace.sentence.find("like 8.2 K more"), std::string::npos) << furnace.sentence;
}

TEST(Headline, ATrueDisplayIsNotBlamed) {
  firing::Rehearsal made = rehearsal();
  made.compared[0].shift_K = -17.0;
  made.compared[0].hold_beyond_whole = true;
  made.compared[0].hold_s.reset();
  const Finding furnace = finding(made, Aspect::furnace, "");
  EXPECT_EQ(furnace.level, Level::sound);
  EXPECT_NE(furnace.sentence.find("by itself that does not explain why"), std::string::npos);
  const Finding degree = finding(made, Aspect::degree_of_firing);
  EXPECT_NE(degree.sentence.find("more than the whole hold of 3 min 20 s"), std::string::npos) << degree.sentence;
  EXPECT_EQ(degree.change, "Key in 837 °C at the top instead of 820 °C.");
}

TEST(Headline, WhatIsKeyedInOtherwiseThanTheMakerIsTakenBackFirst) {
  firing::Rehearsal made = rehearsal();
  made.compared[0].shift_K = -23;
  made.request.instruction_program = made.request.program;
  made.request.instruction_program->heating[0].hold = given(quantity::seconds(275));
  EXPECT_EQ(finding(made, Aspect::degree_of_firing).change,
            "Hold 4 min 35 s at the top instead of 3 min 20 s, as the maker's program has it.");
  ASSERT_EQ(finding(made, Aspect::degree_of_firing).advised.size(), 1U);
  EXPECT_EQ(finding(made, Aspect::degree_of_firing).advised[0].key, "heating[1].hold");
  EXPECT_EQ(finding(made, Aspect::degree_of_firing).advised[0].value, "4 min 35 s");
  made.request.instruction_program->heating[0].to = given(quantity::Temperature::celsius(841));
  EXPECT_EQ(finding(made, Aspect::degree_of_firing).change, "Key in 841 °C at the top instead of 820 °C, as the maker's program has it.");
  made.compared[0].shift_K = 23;
  EXPECT_EQ(finding(made, Aspect::degree_of_firing).change, "Key in 797 °C at the top instead of 820 °C.") << "the other way round";
}

TEST(Headline, ADisplayThatIsLittleOffIsNotBlamedForALotMore) {
  firing::Rehearsal made = rehearsal();
  made.request.furnace.display_error->error.value = quantity::kelvins(12);
  made.compared[0].shift_K = -42.0;
  const Finding furnace = finding(made, Aspect::furnace, "");
  EXPECT_EQ(furnace.level, Level::borderline) << "its own 12 K, not the 42 K of the program";
  EXPECT_NE(furnace.sentence.find("by itself that does not explain why"), std::string::npos) << furnace.sentence;
  made.compared[0].shift_K = -13.0;
  EXPECT_EQ(finding(made, Aspect::furnace, "").sentence.find("by itself"), std::string::npos);
  made.compared[0].shift_K.reset();
  made.compared[0].shift_beyond = true;
  EXPECT_NE(finding(made, Aspect::furnace, "").sentence.find("by itself"), std::string::npos);
}

TEST(Headline, BeyondTheBoundsThereIsNoNumber) {
  firing::Rehearsal made = rehearsal();
  made.compared[0].shift_K.reset();
  made.compared[0].shift_beyond = true;
  made.compared[0].hold_s.reset();
  made.compared[0].hold_beyond_hour = true;
  const Finding degree = finding(made, Aspect::degree_of_firing);
  EXPECT_EQ(degree.level, Level::fault_expected);
  EXPECT_FALSE(degree.number.has_value());
  EXPECT_NE(degree.sentence.find("more than 150 K away, like more than an hour more hold"), std::string::npos) << degree.sentence;
}

TEST(Headline, WhereNothingSintersTheHeatDecidesAndSaysSo) {
  firing::Rehearsal made = rehearsal();
  made.compared[0] = firing::Comparison{};
  made.firing.pieces[0].deciding_point = -1;
  made.firing.pieces[0].points.clear();
  made.reference[0].pieces[0].points.clear();
  EXPECT_FALSE(has(judged(made), Aspect::degree_of_firing));
  const Finding heat = finding(made, Aspect::heat);
  EXPECT_EQ(heat.level, Level::sound);
  EXPECT_NE(heat.sentence.find("Nothing in crown sinters or crystallises in this firing, so the heat decides."), std::string::npos);
  made.firing.pieces[0].peak_core_C -= 14;
  EXPECT_EQ(finding(made, Aspect::heat).level, Level::borderline);
  made.request.instruction.reset();
  made.request.instruction_program.reset();
  made.reference.clear();
  const Verdict alone = judged(made);
  EXPECT_FALSE(has(alone, Aspect::degree_of_firing)) << "said once, not twice";
  EXPECT_EQ(finding(alone, Aspect::heat).level, Level::cannot_tell);
  EXPECT_EQ(finding(alone, Aspect::heat).change, "Name the maker's instruction in the firing.");
}

TEST(Furnace, ADisplayNeverCheckedCannotBeTold) {
  firing::Rehearsal made = rehearsal();
  made.request.furnace.display_error.reset();
  const Finding furnace = finding(made, Aspect::furnace, "");
  EXPECT_EQ(furnace.level, Level::cannot_tell);
  EXPECT_EQ(furnace.limit, 24);
  EXPECT_NE(furnace.sentence.find("never been checked"), std::string::npos);
}

TEST(Furnace, WantOfPowerIsSaid) {
  firing::Rehearsal made = rehearsal();
  made.firing.chamber.held_back = true;
  made.firing.chamber.largest_lag_behind_asked_K = 41;
  const Finding furnace = finding(made, Aspect::furnace, "");
  EXPECT_EQ(furnace.level, Level::fault_expected);
  EXPECT_NE(furnace.sentence.find("falls 41 K behind"), std::string::npos);
}

}  // namespace
}  // namespace heatwork::verdict
