#include "furnace_care/probe_check.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>
#include <string>
#include <vector>

#include "furnace_care/chamber_map.h"
#include "furnace_care/correction.h"
#include "furnace_care/furnace_for_tests.h"
#include "metrology/display_offset.h"
#include "metrology/thermocouple.h"

namespace heatwork::furnace_care {
namespace {

using quantity::kelvins;
using quantity::Temperature;

trade::ProbeReading read(double display_C, double probe_C) {
  trade::ProbeReading reading;
  reading.display = given(Temperature::celsius(display_C));
  reading.probe = given(Temperature::celsius(probe_C));
  return reading;
}

trade::ProbeReading volts(double display_C, double emf_mV, double cold_C) {
  trade::ProbeReading reading;
  reading.display = given(Temperature::celsius(display_C));
  reading.emf_mV = given(emf_mV);
  reading.cold_junction = given(Temperature::celsius(cold_C));
  return reading;
}

trade::Probe probe(const std::string& type, trade::ProbeUse use, int tolerance_class) {
  trade::Probe made;
  made.type = type;
  made.use = given(use);
  made.tolerance_class = given(tolerance_class);
  return made;
}

ProbeTold tell(const trade::Probe& with, const std::vector<trade::ProbeReading>& compared) {
  const trade::Furnace furnace = own_furnace();
  return tell_probe_check({furnace, with, compared, std::nullopt, std::nullopt});
}

std::string refusal(const trade::Probe& with, const std::vector<trade::ProbeReading>& compared) {
  try {
    (void)tell(with, compared);
  } catch (const std::domain_error& refused) {
    return refused.what();
  }
  return "nothing was refused";
}

TEST(ProbeCheck, TheBudgetIsThatOfTheHandbook) {
  const auto fresh = probe("S", trade::ProbeUse::fresh, 2);
  EXPECT_NEAR(tell(fresh, {read(961.78, 961.78)}).found.front().standard_uncertainty_K, 2.8, 0.05);
  trade::Probe certified = probe("S", trade::ProbeUse::used, 2);
  certified.correction = given(kelvins(0.4));
  certified.correction_u = given(kelvins(0.3));
  const ProbeTold told = tell(certified, {read(961.78, 961.78)});
  EXPECT_NEAR(told.found.front().standard_uncertainty_K, 2.5, 0.05);
  EXPECT_NEAR(told.found.front().error_K, -0.4, 1e-9) << "true is what it reads and the certificate's correction";
  trade::Furnace old = own_furnace();
  old.sensor_type = "K";
  const auto used = probe("K", trade::ProbeUse::used, 2);
  EXPECT_NEAR(tell_probe_check({old, used, {read(850, 850)}, std::nullopt, std::nullopt}).found.front().standard_uncertainty_K, 5.3, 0.1);
}

TEST(ProbeCheck, AVoltageIsReadWithItsColdJunction) {
  const auto fresh = probe("S", trade::ProbeUse::fresh, 1);
  EXPECT_NEAR(tell(fresh, {volts(962, 9.0, 25)}).found.front().probe_C, 961.273, 0.002);
}

TEST(ProbeCheck, WhatCannotBeAReferenceIsRefusedAndWhy) {
  EXPECT_EQ(
      refusal(probe("K", trade::ProbeUse::used, 1), {}),
      "A type K thermocouple that was hot before cannot be the reference of furnace attic, whose own sensor is of type S: use changes "
      "type K by up to 5 K and no class or certificate covers that; take a new one, or one of type S.");
  EXPECT_EQ(tell(probe("K", trade::ProbeUse::fresh, 1), {read(850, 851)}).verdict.level, CheckLevel::cannot_tell);
  const auto fresh = probe("S", trade::ProbeUse::fresh, 1);
  EXPECT_NE(refusal(fresh, {volts(800, -7.2, 23)}).find("revers"), std::string::npos);
  EXPECT_EQ(refusal(fresh, {read(800, 12)}), "The thermocouple reads 12 °C while the display shows 800 °C: its wires look reversed.");
  EXPECT_EQ(refusal(fresh, {read(800, 700)}),
            "Display 800 °C and thermocouple 700 °C are too far apart for an error of a furnace: reversed or wrong wires, another type, or "
            "two places; look at the probe first.");
  EXPECT_NE(refusal(fresh, {volts(800, 60, 23)}), "nothing was refused");
  EXPECT_EQ(refusal({}, {read(800, 801)}), "A thermocouple was read before it is known what it is: first answer probe.type.");
}

TEST(ProbeCheck, AnOldCertificateIsSaidAndOneOfTomorrowRefused) {
  const trade::Furnace furnace = own_furnace();
  trade::Probe with = probe("R", trade::ProbeUse::used, 1);
  with.correction = given(kelvins(-0.4));
  with.certified = "2024-01-01";
  const auto told = [&](double age_days) { return tell_probe_check({furnace, with, {read(850, 852)}, age_days, std::nullopt}); };
  EXPECT_EQ(told(1063).remarks.front(), "The certificate is 1063 days old: have the thermocouple calibrated again.");
  EXPECT_GT(told(1063).found.front().standard_uncertainty_K, told(100).found.front().standard_uncertainty_K);
  const ProbeTold short_lived = tell_probe_check({furnace, with, {read(850, 852)}, 100, std::nullopt, {}, 0, 90});
  EXPECT_EQ(short_lived.remarks.front(), "The certificate is 100 days old: have the thermocouple calibrated again.");
  EXPECT_EQ(told(100).found.front().budget.front().standing, trade::Standing::assumed) << "its own uncertainty is not given";
  EXPECT_THROW((void)told(-2), std::domain_error);
}

TEST(ProbeCheck, SaysWhatItCanAndCannotTell) {
  trade::Probe with = probe("S", trade::ProbeUse::fresh, 1);
  const ProbeTold unsure = tell(with, {read(800, 802), read(950, 951)});
  EXPECT_EQ(unsure.verdict.level, CheckLevel::cannot_tell) << "2 K, but anything from -3 to 7 K";
  EXPECT_FALSE(unsure.verdict.correct);
  EXPECT_EQ(unsure.verdict.settled_by.back(),
            "Where the lab's own procedure allows 8 K or more, give that as the limit: the display is then shown to be within it.");
  ASSERT_TRUE(unsure.line);
  EXPECT_TRUE(unsure.line->is_line);
  const trade::Furnace furnace = own_furnace();
  const ProbeTold good = tell_probe_check({furnace, with, {read(800, 802), read(950, 951)}, std::nullopt, 8.0});
  EXPECT_EQ(good.verdict.level, CheckLevel::good) << "as was said";
  EXPECT_TRUE(good.verdict.settled_by.empty());
  const ProbeTold high = tell(with, {read(800, 791), read(950, 941)});
  EXPECT_EQ(high.verdict.level, CheckLevel::cannot_tell) << "9 K, but perhaps no more than 4 K";
  EXPECT_TRUE(high.verdict.correct) << "surely too high, so a correction makes it truer";
  const ProbeTold bad = tell(with, {read(800, 789), read(950, 939)});
  EXPECT_EQ(bad.verdict.level, CheckLevel::not_good);
  EXPECT_TRUE(bad.verdict.correct);
  const ProbeTold leaning = tell(with, {read(800, 803), read(950, 961)});
  EXPECT_NEAR(leaning.mend_K, -7, 1e-9) << "one correction for all: in the middle";
  EXPECT_EQ(leaning.remarks.back(),
            "One correction serves every temperature: that of -7.0 K, in the middle of what was found, leaves up to 4.0 K.");
  for (const ProbeTold* told : {&unsure, &good, &high, &bad, &leaning}) {
    EXPECT_TRUE(has_german(told->verdict.sentence)) << told->verdict.sentence;
    for (const std::string& sentence : told->verdict.settled_by) EXPECT_TRUE(has_german(sentence)) << sentence;
  }
}

TEST(ProbeCheck, ComparisonsThatContradictEachOtherAreSaid) {
  const auto fresh = probe("S", trade::ProbeUse::fresh, 1);
  const ProbeTold told = tell(fresh, {read(800, 803), read(800, 790)});
  ASSERT_FALSE(told.remarks.empty());
  EXPECT_EQ(told.remarks.front(),
            "Two comparisons near 800 °C contradict each other by 13 K: one reading may be wrong. Compare once more, both steady, and take "
            "the wrong one out.");
  for (const std::string& sentence : told.verdict.settled_by)
    EXPECT_EQ(sentence.find("or more, give that as the limit"), std::string::npos);
  EXPECT_TRUE(tell(fresh, {read(800, 803), read(800, 799)}).remarks.empty());
  for (const std::string& remark : tell(fresh, {read(800, 803), read(900, 890)}).remarks)
    EXPECT_EQ(remark.find("contradict"), std::string::npos) << "far apart the error may well be another";
}

TEST(ProbeCheck, ReadingOneProbeAgainDoesNotMakeItsCalibrationSurer) {
  const trade::Probe with = probe("S", trade::ProbeUse::fresh, 1);
  const ProbeTold once = tell(with, {read(800, 800)}), often = tell(with, {read(800, 800), read(800, 800), read(801, 801), read(800, 800)});
  EXPECT_LT(often.judged.front().standard_uncertainty_K, once.judged.front().standard_uncertainty_K);
  EXPECT_GT(often.judged.front().standard_uncertainty_K, 0.9 * once.judged.front().standard_uncertainty_K);
}

TEST(TemperatureLine, WithoutSharedUncertaintyItIsTheWeightedLine) {
  const std::vector<ErrorFound> found{{790, 3.1, 1.1, 0, 0}, {870, 3.9, 1.7, 0, 1}, {958, 5.2, 3.2, 0, 2}};
  std::vector<metrology::OffsetPoint> points;
  for (const auto& each : found) points.push_back({each.temperature_C, each.error_K, each.own_u_K});
  const ErrorLine line = line_of(found);
  for (const double at_C : {700.0, 820.0, 960.0}) {
    const auto wanted = metrology::offset_at(points, at_C);
    EXPECT_NEAR(line.at(at_C).error_K, wanted.offset_K, 1e-9);
    EXPECT_NEAR(line.at(at_C).standard_uncertainty_K, wanted.uncertainty_K, 1e-9);
  }
}

TEST(TemperatureLine, WhatAProbesReadingsShareDoesNotAverageOut) {
  std::vector<ErrorFound> many;
  for (int i = 0; i < 50; ++i) many.push_back({700 + 5.0 * i, 4, 1, 2, 0});
  EXPECT_GE(line_of(many).at(820).standard_uncertainty_K, 2.0);
  for (auto& each : many) each.own_u_K = std::hypot(1, 2), each.shared_u_K = 0;
  EXPECT_LT(line_of(many).at(820).standard_uncertainty_K, 0.4);
}

TEST(TemperatureLine, OneTemperatureIsCarriedAsABand) {
  const auto at = line_of({{960, 10, 2, 1, 0}, {965, 10, 2, 1, 0}}).at(800);
  EXPECT_NEAR(at.low_K, 10 * 800 / 962.5, 1e-9);
  EXPECT_NEAR(at.high_K, 10, 1e-9);
  EXPECT_THROW((void)line_of({}), std::domain_error);
  EXPECT_THROW((void)line_of({{960, 10, 0, 0, 0}}), std::domain_error);
  EXPECT_THROW((void)line_of({{960, 10, 1, 0, 0}}).at(5), std::domain_error);
}

TEST(TemperatureLine, ScatterBeyondWhatIsClaimedWidensIt) {
  const auto calm = line_of({{700, 1, 1, 0, 0}, {800, 1, 1, 0, 1}, {900, 1, 1, 0, 2}});
  const auto wild = line_of({{700, 1, 1, 0, 0}, {800, 9, 1, 0, 1}, {900, 1, 1, 0, 2}});
  EXPECT_GT(wild.at(800).standard_uncertainty_K, 4 * calm.at(800).standard_uncertainty_K);
}

TEST(Correction, BothConventionsLeaveTheSameTrueTemperature) {
  trade::Furnace furnace = own_furnace();
  for (const double error_K : {-13.0, -6.0, 7.0, 18.0}) {
    const Keying display = keying_for(furnace, -2, error_K);
    furnace.correction_convention = given(trade::CorrectionConvention::added_to_setting);
    const Keying setting = keying_for(furnace, -2, error_K);
    furnace.correction_convention = given(trade::CorrectionConvention::added_to_display);
    EXPECT_DOUBLE_EQ(display.to_key_K, -2 - error_K);
    EXPECT_DOUBLE_EQ(setting.to_key_K, -2 + error_K);
    EXPECT_NEAR(display.left_K, 0, 1e-12);
    EXPECT_NEAR(setting.left_K, 0, 1e-12);
  }
}

TEST(Correction, ComesInStepsThePanelTakesAndSaysWhichWay) {
  trade::Furnace furnace = own_furnace();
  furnace.ability.temperature_step = given(kelvins(5));
  const Keying keying = keying_for(furnace, 0, 7.3);
  EXPECT_DOUBLE_EQ(keying.to_key_K, -5);
  EXPECT_NEAR(keying.left_K, 2.3, 1e-12);
  EXPECT_EQ(keying.sentence,
            "Key -5 K in place of 0 K: this furnace adds the correction to its display, so the chamber gets hotter at the "
            "same setting.");
  const auto ways = ways_with(own_furnace(), 0, 7.3);
  ASSERT_EQ(ways.size(), 2U);
  EXPECT_EQ(ways[0].sentences[1], "Every program then fires 7 K hotter than it did at the same setting.");
  EXPECT_EQ(ways[1].sentences[2],
            "Programs typed in as a maker states them need 7 K on this furnace: raise their temperatures by so much.");
}

TEST(Correction, IsToldAsFineAsThePanelsStepAndNotWhereNoStepHelps) {
  trade::Furnace furnace = own_furnace();
  furnace.ability.temperature_step = given(kelvins(0.1));
  EXPECT_EQ(keying_for(furnace, 0, 7.34).sentence,
            "Key -7.3 K in place of 0 K: this furnace adds the correction to its display, so the chamber gets hotter at the same setting.");
  furnace.ability.temperature_step = given(kelvins(20));
  const auto ways = ways_with(furnace, 0, 8);
  ASSERT_EQ(ways[0].sentences.size(), 2U);
  EXPECT_EQ(ways[0].sentences[1], "The panel takes no step so small that it would bring the display nearer.");
  EXPECT_EQ(ways[1].sentences[2],
            "Programs typed in as a maker states them need 8 K on this furnace: raise their temperatures by so much.");
}

trade::MapTab tab(trade::MapPlace where, double hotter_K) {
  trade::MapTab made;
  made.where = given(where);
  made.looked_like = given(kelvins(hotter_K));
  return made;
}

TEST(ChamberMap, TellsTheSpreadAgainstALimit) {
  using trade::MapPlace;
  std::vector<trade::MapTab> tabs{tab(MapPlace::middle, 0), tab(MapPlace::front, -7), tab(MapPlace::back, 2), tab(MapPlace::left, 1)};
  EXPECT_EQ(tell_chamber_map({tabs, std::nullopt}).question->sentence, "How did the tab from the right look?");
  tabs.push_back(tab(MapPlace::right, 5));
  const MapTold told = tell_chamber_map({tabs, std::nullopt});
  EXPECT_EQ(told.level, CheckLevel::not_good);
  EXPECT_EQ(told.sentence, "From the front (coldest) to the right (hottest) the chamber differs by 12 K; allowed are 10 K.");
  EXPECT_EQ(tell_chamber_map({tabs, 12.0}).level, CheckLevel::good);

  const std::vector<trade::MapTab> one_cold{tab(MapPlace::middle, 0), tab(MapPlace::front, 0), tab(MapPlace::back, 0),
                                            tab(MapPlace::left, 0), tab(MapPlace::right, -14)};
  EXPECT_EQ(tell_chamber_map({one_cold, std::nullopt}).sentence,
            "From the right (coldest) to the middle (hottest) the chamber differs by 14 K; allowed are 10 K.");
}

TEST(ChamberMap, ByColourItIsTheDifferenceFromTheMiddle) {
  std::vector<trade::MapTab> tabs;
  const double yellow[] = {17.9, 17.9, 26.0, 18.3, 17.2};
  for (int i = 0; i < 5; ++i) {
    trade::MapTab made;
    made.where = given(static_cast<trade::MapPlace>(i));
    made.lightness = given(71.3);
    made.redness = given(1.1);
    made.yellowness = given(yellow[i]);
    tabs.push_back(made);
  }
  const MapTold told = tell_chamber_map({tabs, std::nullopt});
  EXPECT_EQ(told.level, CheckLevel::not_good);
  EXPECT_NEAR(*told.colour_difference, 8.1 / (1 + 0.045 * 21.97), 0.05) << "almost all chroma, weighed by its mean";
  tabs[2] = tab(trade::MapPlace::back, 3);
  EXPECT_THROW((void)tell_chamber_map({tabs, std::nullopt}), std::domain_error);
}

}  // namespace
}  // namespace heatwork::furnace_care
