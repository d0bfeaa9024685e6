// Stress as every kind of report tells it; and that reports without it are as they were.
#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "report/answers.h"
#include "report/firing_picture.h"
#include "report/made_up_rehearsal.h"
#include "report/numbers_table.h"
#include "report/rehearsal_json.h"
#include "report/stress_readings.h"
#include "report/strips.h"
#include "report/terminal_strip.h"
#include "report/text_width.h"

namespace heatwork::report {
namespace {

using Json = nlohmann::ordered_json;
using Keys = std::vector<std::string>;

const Keys section_keys = {"section",
                           "form",
                           "inner_radius_mm",
                           "remark_only",
                           "layers",
                           "error_MPa",
                           "worst",
                           "other_forms",
                           "glass",
                           "glass_layer",
                           "glass_transition_C",
                           "started_C",
                           "carried_in",
                           "opened_at_C",
                           "cooling_K_per_min",
                           "mismatch_ppm_per_K",
                           "set_size",
                           "settled",
                           "levers",
                           "not_computed"};
const Keys form_keys = {"form", "inner_radius_mm", "remark_only", "layers", "error_MPa"};
const Keys layer_keys = {"material",         "inner_hoop_MPa",      "outer_hoop_MPa",        "lowest_hoop_MPa",
                         "highest_hoop_MPa", "radial_at_inner_MPa", "transient_highest_MPa", "low_MPa",
                         "high_MPa",         "transient_low_MPa",   "transient_high_MPa",    "radial_low_MPa",
                         "radial_high_MPa"};
const Keys lever_keys = {
    "what", "to_C", "rate_K_per_min", "transient_before_MPa", "transient_after_MPa", "residual_before_MPa", "residual_after_MPa"};

firing::Rehearsal stressed() {
  firing::Rehearsal rehearsal = made_up::rehearsal();
  made_up::add_stress(rehearsal);
  return rehearsal;
}

const Numbers& numbers(trade::Language language = trade::Language::english) {
  static const Numbers english(made_up::words()), german(made_up::words(trade::Language::german));
  return language == trade::Language::german ? german : english;
}

Keys keys_of(const Json& object) {
  Keys keys;
  for (const auto& [key, value] : object.items()) keys.push_back(key);
  return keys;
}

Json json_of(const firing::Rehearsal& rehearsal, bool traces = false) {
  return Json::parse(rehearsal_json(rehearsal, made_up::verdict(), {"0", "0"}, made_up::words(), traces));
}

std::string drawn(const firing::Rehearsal& rehearsal, const PictureOptions& options = {}) {
  return firing_picture(rehearsal, made_up::verdict(), made_up::limits(), made_up::words(), options);
}

Strip strip_of(const firing::Rehearsal& rehearsal, const Numbers& by = numbers()) {
  return strips_of(rehearsal, made_up::limits(), by).back();
}

TEST(StressReport, NoKeyOfTheJsonIsEverAbsent) {
  const Json pieces = json_of(stressed())["pieces"];
  EXPECT_EQ(pieces[0]["end"]["stress"].size(), 1U);
  EXPECT_EQ(pieces[1]["end"]["stress"].size(), 2U);
  for (const Json& piece : pieces)
    for (const Json& section : piece["end"]["stress"]) {
      EXPECT_EQ(keys_of(section), section_keys);
      for (const Json& layer : section["layers"]) EXPECT_EQ(keys_of(layer), layer_keys);
      for (const Json& lever : section["levers"]) EXPECT_EQ(keys_of(lever), lever_keys);
      for (const Json& other : section["other_forms"]) {
        EXPECT_EQ(keys_of(other), form_keys);
        for (const Json& layer : other["layers"]) EXPECT_EQ(keys_of(layer), layer_keys);
      }
    }
  const Json& unknown = pieces[1]["end"]["stress"][1];
  EXPECT_TRUE(unknown["form"].is_null());
  EXPECT_TRUE(unknown["layers"].empty());
  EXPECT_EQ(unknown["not_computed"], "made-up powder has no liquid expansion ratio, so no stress of the pontic is computed.");
}

TEST(StressReport, TheJsonTellsFiguresInMPaWithTheirBounds) {
  const Json section = json_of(stressed())["pieces"][1]["end"]["stress"][0];
  EXPECT_EQ(section["form"], "sphere");
  EXPECT_EQ(section["worst"], "sphere");
  EXPECT_EQ(section["inner_radius_mm"], 4.0);
  EXPECT_EQ(section["glass"], "made-up powder");
  EXPECT_EQ(section["layers"][1]["highest_hoop_MPa"], 12.1);
  EXPECT_EQ(section["layers"][1]["low_MPa"], 3.1);
  EXPECT_EQ(section["layers"][1]["high_MPa"], 23.1);
  EXPECT_EQ(section["layers"][1]["transient_highest_MPa"], 27.8);
  EXPECT_EQ(section["layers"][1]["transient_high_MPa"], 38.8);
  EXPECT_EQ(section["other_forms"][0]["form"], "plate-flat");
  EXPECT_EQ(section["other_forms"][0]["remark_only"], true);
  EXPECT_TRUE(section["other_forms"][0]["inner_radius_mm"].is_null());
  EXPECT_TRUE(section["other_forms"][0]["layers"][1]["low_MPa"].is_null());
  EXPECT_EQ(section["levers"][0]["rate_K_per_min"], 18.0);
}

TEST(StressReport, WhereItWasNotAskedForItIsNullAndNothingTellsOfIt) {
  const firing::Rehearsal plain = made_up::rehearsal();
  EXPECT_FALSE(tells_stress(plain));
  const Json json = json_of(plain, true);
  for (const Json& piece : json["pieces"]) EXPECT_TRUE(piece["end"]["stress"].is_null());
  for (const Json& piece : json["traces"]["pieces"]) EXPECT_TRUE(piece["stress_MPa"].is_null());
  EXPECT_EQ(answers_of(plain, numbers()).size(), 5U);
  EXPECT_EQ(drawn(plain).find("Stress"), std::string::npos);
  for (const TableRow& row : numbers_of(plain, numbers())) EXPECT_EQ(row.what.find("tension"), std::string::npos) << row.what;
  EXPECT_EQ(terminal_strip(plain, numbers()).find("tension"), std::string::npos);
}

TEST(StressReport, TracesGoOnTillThePieceIsCold) {
  const Json traces = json_of(stressed(), true)["traces"];
  const Json& piece = traces["pieces"][0];
  EXPECT_EQ(piece["stress_s"].size(), piece["stress_MPa"].size());
  EXPECT_GT(piece["stress_s"].back().get<double>(), traces["s"].back().get<double>());
  EXPECT_EQ(piece["stress_MPa"].back(), 6.4);
}

TEST(StressReport, DensityAndGrainOfZirconiaStandInTheJson) {
  firing::Rehearsal rehearsal = made_up::rehearsal();
  EXPECT_TRUE(json_of(rehearsal)["pieces"][0]["end"]["grain_um"].is_null());
  firing::PointResult& point = rehearsal.firing.pieces[0].points[0];
  point.curve = physics::CurveStanding{};
  point.sintered_density = 0.993;
  point.grain_um = 0.41;
  point.density_trace = {0.5, 0.993};
  const Json json = json_of(rehearsal, true);
  EXPECT_EQ(json["pieces"][0]["end"]["relative_density"], 0.993);
  EXPECT_EQ(json["pieces"][0]["end"]["grain_um"], 0.41);
  EXPECT_EQ(json["traces"]["pieces"][0]["relative_density"].back(), 0.993);
}

TEST(StressReport, TheFormatPageNamesEveryKey) {
  std::ifstream file(HEATWORK_SOURCE_DIR "/docs/formats/rehearsal-json.md");
  std::stringstream page;
  page << file.rdbuf();
  for (const Keys& keys : {section_keys, layer_keys, lever_keys})
    for (const std::string& key : keys) EXPECT_NE(page.str().find("`" + key + "`"), std::string::npos) << key;
}

TEST(StressReport, TheSectionThatKeepsMostSpeaksForThePiece) {
  firing::PieceResult piece = stressed().firing.pieces[1];
  EXPECT_EQ(worst_glass(piece)->glass().highest_hoop_Pa, 12.1e6);
  piece.stress.push_back(made_up::section_stress({}, 22, 14));
  EXPECT_EQ(worst_glass(piece)->glass().highest_hoop_Pa, 14e6);
  piece.stress.back().worst = 1;
  EXPECT_EQ(worst_glass(piece)->glass().highest_hoop_Pa, 12.1e6) << "0.6 of 14 in its worst form";
  piece.stress = {piece.stress[1]};
  EXPECT_FALSE(worst_glass(piece));
}

TEST(StressReport, TheStripShowsTheTensionTillThePictureEndsAndItsLimits) {
  const firing::Rehearsal rehearsal = stressed();
  const Strip strip = strip_of(rehearsal);
  const double ends_s = rehearsal.firing.time_s.back(), until_s = shown_until_s(ends_s);
  ASSERT_EQ(strip.lines.size(), 2U);
  EXPECT_EQ(strip.lines[0].reading, "18 MPa, then 6.4 MPa");
  for (const StripLine& line : strip.lines) {
    EXPECT_EQ(line.time_s.back(), until_s);
    EXPECT_EQ(line.time_s.size(), line.value.size());
  }
  ASSERT_EQ(strip.wanted.size(), 2U);
  EXPECT_EQ(strip.wanted[0].high, 25);
  EXPECT_EQ(strip.wanted[1].high, 10);
  EXPECT_GT(strip.wanted[1].from_s, ends_s);
  EXPECT_EQ(strip.wanted[1].to_s, until_s);
  EXPECT_GE(strip.high, 27.8);
  EXPECT_EQ(strip.notes[0], "on the way: 25 MPa or less");
}

TEST(StressReport, PressureIsDrawnBelowNothing) {
  firing::Rehearsal rehearsal = stressed();
  for (auto& piece : rehearsal.firing.pieces) piece.stress = {made_up::section_stress({}, 2, -34)};
  const Strip strip = strip_of(rehearsal);
  EXPECT_EQ(strip.lines[0].reading, "2.0 MPa, then −34 MPa");
  EXPECT_LE(strip.low, -33);
  EXPECT_NE(drawn(rehearsal).find(">−25<"), std::string::npos);
}

TEST(StressReport, WhatWasNotComputedIsSaidInTheStripAndTheAnswer) {
  firing::Rehearsal rehearsal = stressed();
  auto& pieces = rehearsal.firing.pieces;
  pieces[1].stress = {pieces[1].stress[1]};
  EXPECT_EQ(strip_of(rehearsal).lines.size(), 1U);
  EXPECT_EQ(strip_of(rehearsal).notes.back(), pieces[1].stress[0].not_computed);
  EXPECT_EQ(answers_of(rehearsal, numbers()).back().by_piece[1], pieces[1].stress[0].not_computed);
  pieces[0].stress = pieces[1].stress;
  const Strip nothing = strip_of(rehearsal);
  EXPECT_TRUE(nothing.lines.empty());
  EXPECT_TRUE(nothing.wanted.empty());
  EXPECT_EQ(nothing.notes, Keys{pieces[0].stress[0].not_computed}) << "said once";
}

TEST(StressReport, WhileItFollowsItsPlaceIsKept) {
  PictureOptions options;
  options.own_style = false;
  options.pane_width_px = 640;
  const std::string without = drawn(made_up::rehearsal(), options);
  options.stress_follows = true;
  const std::string follows = drawn(made_up::rehearsal(), options), there = drawn(stressed(), options);
  EXPECT_EQ(without.find("out of the furnace"), std::string::npos);
  EXPECT_NE(follows.find("The stress is still being computed and follows here."), std::string::npos);
  EXPECT_EQ(there.find("follows here"), std::string::npos);
  // The time axis does not move when the stress comes.
  const auto tick_of_10_min = [](const std::string& svg) {
    const std::size_t end = svg.rfind("text-anchor=\"middle\">10</text>");
    const std::size_t begin = svg.rfind("x=\"", end);
    return svg.substr(begin, svg.find('"', begin + 3) - begin);
  };
  EXPECT_EQ(tick_of_10_min(follows), tick_of_10_min(there));
  EXPECT_NE(tick_of_10_min(follows), tick_of_10_min(without));
}

TEST(StressReport, ThePictureTellsItWithoutEyes) {
  const std::string svg = drawn(stressed());
  const std::string told = svg.substr(svg.find("<desc"), svg.find("</desc>") - svg.find("<desc"));
  EXPECT_NE(told.find("What tension is left? crown-16: on the way 18 MPa, stays 6.4 MPa; crown wall as a closed shell; bridge-24-26: "
                      "on the way 28 MPa, stays 12 MPa (3.1 to 23 MPa); crown wall as a closed shell."),
            std::string::npos)
      << told;
}

TEST(StressReport, TheTableHasEveryFigureWithItsBand) {
  std::map<std::string, Keys> rows;
  for (const TableRow& row : numbers_of(stressed(), numbers())) rows[row.what] = row.by_piece;
  EXPECT_EQ(rows["tension on the way, highest"], (Keys{"18 MPa", "28 (19 to 39) MPa"}));
  EXPECT_EQ(rows["tension that stays"], (Keys{"6.4 MPa", "12 (3.1 to 23) MPa"}));
  EXPECT_EQ(rows["pull between the layers"], (Keys{"1.3 MPa", "1.3 (−7.7 to 12) MPa"}));
  EXPECT_EQ(rows["  taken as"], (Keys{"closed shell", "closed shell"}));
}

TEST(StressReport, WordsOfTheTableFitTheirColumn) {
  for (const auto language : {trade::Language::english, trade::Language::german})
    for (const TableRow& row : numbers_of(stressed(), numbers(language))) EXPECT_LE(signs(row.what), 27U) << row.what;
}

TEST(StressReport, TheTerminalDrawsHowTheGlassCools) {
  const std::string text = terminal_strip(stressed(), numbers());
  const std::size_t at = text.find("Highest tension of the glass of crown-16 till it is cold, 17:14 to ");
  ASSERT_NE(at, std::string::npos) << text;
  EXPECT_NE(text.find("18 MPa ", at), std::string::npos) << text;
  TerminalStripOptions plain;
  plain.plain_ascii = true;
  for (const char letter : terminal_strip(stressed(), numbers(), plain)) EXPECT_LT(static_cast<unsigned char>(letter), 128U);
}

TEST(StressReport, OfAnUnknownTrayBothEndsAreTold) {
  firing::Rehearsal rehearsal = made_up::rehearsal();
  for (auto& piece : rehearsal.firing.pieces) {
    firing::PointResult& point = piece.points[0];
    point.density_trace.assign(point.rounding_trace_um.size(), 0.99);
    point.grain_um = 0.41;
  }
  const auto density = [&] {
    for (const Strip& strip : strips_of(rehearsal, made_up::limits(), numbers()))
      if (strip.title == "Density") return strip.lines[0].reading;
    return std::string();
  };
  EXPECT_EQ(density(), "99 %, 0.41 µm");
  rehearsal.heaviest = rehearsal.firing;
  rehearsal.tray_known = false;
  EXPECT_EQ(density(), "99 %, 0.41 µm");
  for (auto& piece : rehearsal.heaviest->pieces) {
    piece.points[0].density_trace.assign(piece.points[0].rounding_trace_um.size(), 0.96);
    piece.points[0].grain_um = 0.33;
  }
  EXPECT_EQ(density(), "99 %, 0.41 µm or 96 %, 0.33 µm");
}

TEST(StressReport, StressesHaveNoMoreDigitsThanAreKnown) {
  EXPECT_EQ(numbers().shown(8.13, "MPa"), "8.1 MPa");
  EXPECT_EQ(numbers().shown(-0.02, "MPa"), "0 MPa");
  EXPECT_EQ(numbers().shown(-22.3, "MPa"), "−22 MPa");
  EXPECT_EQ(numbers(trade::Language::german).shown(9.94, "MPa"), "9,9 MPa");
  EXPECT_EQ(numbers().shown(9.97, "MPa"), "10 MPa");
  EXPECT_EQ(numbers().tick(-10), "−10");
  EXPECT_EQ(numbers().tick(-0.5), "−0.5");
}

}  // namespace
}  // namespace heatwork::report
