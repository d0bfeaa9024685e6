#include "report/rehearsal_json.h"

#include <gtest/gtest.h>

#include <fstream>
#include <limits>
#include <nlohmann/json.hpp>
#include <sstream>

#include "report/made_up_rehearsal.h"

namespace heatwork::report {
namespace {

using Json = nlohmann::ordered_json;
using Keys = std::vector<std::string>;

const trade::Words& reader() {
  return trade::words_of(trade::Language::english);
}

Json made(bool traces = false) {
  return Json::parse(rehearsal_json(made_up::rehearsal(), made_up::verdict(), {"0.1.0", "7"}, reader(), traces));
}

Keys keys_of(const Json& object) {
  Keys keys;
  for (const auto& [key, value] : object.items()) keys.push_back(key);
  return keys;
}

// The keys as the contract of the format lists them, in its order.
const Keys top_keys = {"format",  "program_version", "model_version", "data_version", "inputs_hash", "seed",   "firing",
                       "furnace", "program",         "instruction",   "came_from",    "reference",   "checks", "pieces",
                       "moments", "bands",           "findings",      "kept",         "traces"};
const Keys reference_keys = {"tray", "assumptions"};
const Keys piece_keys = {"piece", "peak_C", "compared", "end"};
const Keys peak_keys = {"display", "chamber", "surface", "core"};
const Keys compared_keys = {"quantity", "shift_K", "shift_low_K", "shift_high_K", "hold_s", "hold_low_s", "hold_high_s"};
const Keys end_keys = {"water_left_g", "porosity_percent", "heat_work", "rounding_um",       "crystallised_fraction",
                       "crystal_um",   "relative_density", "grain_um",  "frame_sag_most_um", "stress"};
const Keys moment_keys = {"what", "piece", "at_s", "display_C"};
const Keys finding_keys = {"aspect", "aspect_words", "level", "level_words", "band_follows", "piece",   "sentence", "number", "unit",
                           "low",    "high",         "limit", "limit_from",  "change",       "advised", "where",    "explain"};
const Keys trace_keys = {"s", "display_C", "asked_C", "chamber_C", "pressure_mbar", "pieces"};
const Keys piece_trace_keys = {"piece",
                               "surface_C",
                               "core_C",
                               "water_g",
                               "porosity_percent",
                               "sealed_share",
                               "rounding_um",
                               "crystallised_fraction",
                               "relative_density",
                               "stress_s",
                               "stress_MPa"};

void expect_contract(const Json& json) {
  EXPECT_EQ(keys_of(json), top_keys);
  EXPECT_EQ(keys_of(json["reference"]), reference_keys);
  for (const Json& piece : json["pieces"]) {
    EXPECT_EQ(keys_of(piece), piece_keys);
    EXPECT_EQ(keys_of(piece["peak_C"]), peak_keys);
    EXPECT_EQ(keys_of(piece["compared"]), compared_keys);
    EXPECT_EQ(keys_of(piece["end"]), end_keys);
  }
  for (const Json& moment : json["moments"]) EXPECT_EQ(keys_of(moment), moment_keys);
  for (const Json& finding : json["findings"]) EXPECT_EQ(keys_of(finding), finding_keys);
}

TEST(RehearsalJson, KeysAreThoseOfTheContractInItsOrder) {
  const Json json = made(true);
  expect_contract(json);
  EXPECT_EQ(json["format"], 1);
  EXPECT_EQ(json["pieces"].size(), 2U);
  EXPECT_EQ(json["findings"].size(), 3U);
  EXPECT_EQ(keys_of(json["traces"]), trace_keys);
  for (const Json& piece : json["traces"]["pieces"]) EXPECT_EQ(keys_of(piece), piece_trace_keys);
}

TEST(RehearsalJson, NoKeyIsAbsentWhereNothingIsKnown) {
  firing::Rehearsal rehearsal = made_up::rehearsal();
  rehearsal.compared.clear();
  rehearsal.request.instruction.reset();
  rehearsal.request.came_from.clear();
  rehearsal.reference_tray.clear();
  rehearsal.assumptions.clear();
  rehearsal.tray_known = false;
  for (auto& piece : rehearsal.firing.pieces) piece.deciding_point = -1;
  const Json json = Json::parse(rehearsal_json(rehearsal, {}, {"", ""}, reader(), true));
  expect_contract(json);
  EXPECT_TRUE(json["instruction"].is_null());
  EXPECT_TRUE(json["data_version"].is_null());
  EXPECT_TRUE(json["came_from"].is_object());
  EXPECT_TRUE(json["checks"].empty() && json["checks"].is_array());
  EXPECT_TRUE(json["reference"]["tray"].is_null());
  EXPECT_TRUE(json["pieces"][0]["peak_C"]["core"].is_null()) << "the tray decides it, and is not known";
  EXPECT_FALSE(json["pieces"][0]["peak_C"]["display"].is_null());
  for (const auto& [key, value] : json["pieces"][0]["compared"].items()) EXPECT_TRUE(value.is_null()) << key;
  for (const auto& [key, value] : json["pieces"][0]["end"].items()) EXPECT_TRUE(value.is_null()) << key;
  EXPECT_TRUE(json["traces"]["pieces"][0]["porosity_percent"].is_null());
}

TEST(RehearsalJson, TracesOnlyWhereAskedFor) {
  EXPECT_TRUE(made()["traces"].is_null());
  const Json traces = made(true)["traces"];
  const std::size_t points = traces["s"].size();
  EXPECT_GT(points, 100U);
  for (const char* key : {"display_C", "asked_C", "chamber_C", "pressure_mbar"}) EXPECT_EQ(traces[key].size(), points) << key;
  EXPECT_EQ(traces["pieces"][1]["core_C"].size(), points);
  EXPECT_TRUE(traces["pieces"][1]["crystallised_fraction"].is_null());
}

TEST(RehearsalJson, ChamberColumnsAreReadOnThePiecesGrid) {
  firing::Rehearsal rehearsal = made_up::rehearsal();
  firing::ChamberHistory& chamber = rehearsal.firing.chamber;
  chamber.time_s = {0, 1000};
  chamber.display_C = {100, 200};
  chamber.asked_C = chamber.chamber_C = chamber.display_C;
  chamber.pressure_Pa = {101325, 101325};
  const Json traces = Json::parse(rehearsal_json(rehearsal, {}, {"", ""}, reader(), true))["traces"];
  EXPECT_EQ(traces["s"][1], 5.0);
  EXPECT_EQ(traces["display_C"][1], 100.5);
  EXPECT_EQ(traces["pressure_mbar"][1], 1013.25);
}

TEST(RehearsalJson, EndIsThatOfTheDecidingPoint) {
  firing::Rehearsal rehearsal = made_up::rehearsal();
  firing::PieceResult& piece = rehearsal.firing.pieces[0];
  piece.points.push_back(piece.points[0]);
  piece.points[1].porosity_percent = 2.5;
  piece.deciding_point = 1;
  EXPECT_EQ(Json::parse(rehearsal_json(rehearsal, {}, {"", ""}, reader()))["pieces"][0]["end"]["porosity_percent"], 2.5);
}

TEST(RehearsalJson, ABandOfTheDegreeOfFiringIsThatOfTheShift) {
  verdict::Verdict verdict = made_up::verdict();
  verdict.findings[0].low = -27.5;
  verdict.findings[0].high = -9;
  const Json pieces = Json::parse(rehearsal_json(made_up::rehearsal(), verdict, {"", ""}, reader()))["pieces"];
  EXPECT_EQ(pieces[1]["compared"]["shift_low_K"], -27.5);
  EXPECT_EQ(pieces[1]["compared"]["shift_high_K"], -9.0);
  EXPECT_TRUE(pieces[0]["compared"]["shift_low_K"].is_null());
}

TEST(RehearsalJson, ALiquidThatIsNotModelledHasNoWaterLeft) {
  firing::Rehearsal rehearsal = made_up::rehearsal();
  rehearsal.firing.pieces[0].sections[0].not_water = true;
  const Json pieces = Json::parse(rehearsal_json(rehearsal, {}, {"", ""}, reader()))["pieces"];
  EXPECT_TRUE(pieces[0]["end"]["water_left_g"].is_null());
  EXPECT_FALSE(pieces[1]["end"]["water_left_g"].is_null());
}

TEST(RehearsalJson, NumbersCarryTenDigitsAndNaNIsABug) {
  firing::Rehearsal rehearsal = made_up::rehearsal();
  rehearsal.firing.pieces[0].peak_core_C = 900.0 + 1.0 / 3.0;
  EXPECT_NE(rehearsal_json(rehearsal, {}, {"", ""}, reader()).find("\"core\": 900.3333333\n"), std::string::npos);
  rehearsal.firing.pieces[0].peak_core_C = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THROW(rehearsal_json(rehearsal, {}, {"", ""}, reader()), std::logic_error);
}

TEST(RehearsalJson, BytesThatAreNoTextAreReplaced) {
  firing::Rehearsal rehearsal = made_up::rehearsal();
  rehearsal.request.firing.name = "caf\xe9";
  const Json json = Json::parse(rehearsal_json(rehearsal, {}, {"", ""}, reader()));
  EXPECT_EQ(json["firing"], "caf\xef\xbf\xbd");
}

TEST(RehearsalJson, TheFormatPageNamesEveryKey) {
  std::ifstream file(HEATWORK_SOURCE_DIR "/docs/formats/rehearsal-json.md");
  ASSERT_TRUE(file) << "the page of the format stands in docs/formats";
  std::stringstream page;
  page << file.rdbuf();
  for (const Keys& keys : {top_keys, reference_keys, piece_keys, peak_keys, compared_keys, end_keys, moment_keys, finding_keys, trace_keys,
                           piece_trace_keys}) {
    for (const std::string& key : keys) EXPECT_NE(page.str().find("`" + key + "`"), std::string::npos) << key;
  }
}

TEST(RehearsalJson, AFiringThatCannotBeRunHasEveryKeyAndNoNumber) {
  firing::Rehearsal rehearsal = made_up::rehearsal();
  rehearsal.firing = {};
  rehearsal.moments.clear();
  rehearsal.reference.clear();
  rehearsal.compared.clear();
  rehearsal.impossible = "This furnace ends at 1101.0 °C.";
  for (const bool traces : {false, true}) {
    const Json json = Json::parse(rehearsal_json(rehearsal, made_up::verdict(), {"0.1.0", "7"}, reader(), traces));
    expect_contract(json);
    ASSERT_EQ(json["pieces"].size(), rehearsal.request.pieces.size());
    for (const Json& piece : json["pieces"])
      for (const char* part : {"peak_C", "compared", "end"})
        for (const auto& [key, value] : piece[part].items()) EXPECT_TRUE(value.is_null()) << key;
    EXPECT_TRUE(json["moments"].empty());
    EXPECT_TRUE(json["traces"].is_null());
  }
}

}  // namespace
}  // namespace heatwork::report
