// A made-up rehearsal for the judge's proofs: one crown, all in order, to be spoiled one number at a time.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <sstream>
#include <string>

#include "verdict/finding.h"

namespace heatwork::verdict::judge_case {

inline std::string text_of(const std::string& path) {
  const std::ifstream file(std::string(HEATWORK_SOURCE_DIR) + "/" + path);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

inline const trade::Limits& limits() {
  static const trade::Limits read = trade::read_limits("limits.toml", text_of("data/limits/limits.toml"));
  return read;
}

inline const trade::Words& words(const std::string& language = "en") {
  return trade::words_of(trade::language_of(language).value());
}

template <class T>
trade::Given<T> given(T value) {
  return {value, "", {}};
}

inline firing::ChamberHistory chamber() {
  firing::ChamberHistory history;
  history.time_s = {0, 300, 400, 800, 1000, 1100, 1200};
  history.asked_C = {450, 450, 500, 820, 820, 600, 400};
  history.display_C = {450, 450, 500, 820, 820, 600, 400};
  history.chamber_C = history.display_C;
  history.pressure_Pa = {101325, 101325, 5500, 5500, 101325, 101325, 101325};
  history.opening = {0.7, 0, 0, 0, 0, 0, 1};
  history.phase = std::vector<firing::Phase>(7, firing::Phase::heating);
  using Event = firing::ChamberEvent;
  history.moments = {{Event::closed, 300},     {Event::vacuum_started, 330}, {Event::vacuum_reached, 400},
                     {Event::top, 800},        {Event::hold_begins, 800},    {Event::released, 800},
                     {Event::hold_ends, 1000}, {Event::open, 1100},          {Event::end, 1200}};
  history.lowest_pressure_Pa = 5500;
  return history;
}

inline firing::PointResult powder_point() {
  firing::PointResult point;
  point.outer_face = true;
  point.material = "veneer";
  point.decides = point.viscous = true;
  point.peak_C = 808;
  point.deciding = point.heat_work = 25;
  point.porosity_percent = 0.15;
  point.rounding_um = 150;
  point.levelling_exponent = 19;
  point.half_sealed_s = 700;
  point.sealed_s = 760;
  point.pressure_at_sealing_Pa = 5500;
  return point;
}

inline firing::FiringResult fired() {
  firing::FiringResult result;
  result.chamber = chamber();
  result.time_s = result.chamber.time_s;
  firing::PieceResult piece;
  piece.piece = "crown";
  piece.peak_display_C = 820;
  piece.peak_chamber_C = 820;
  piece.peak_surface_C = 809;
  piece.peak_core_C = 806;
  firing::SectionResult section;
  section.name = "thickest";
  section.surface_C = {22, 380, 420, 805, 809, 610, 420};
  section.core_C = {22, 370, 410, 800, 806, 615, 425};
  section.water_start_g = 0.1;
  section.dry_s = 250;
  section.burst_index = 0.1;
  section.burst_at_s = 120;
  piece.sections = {section};
  piece.points = {powder_point()};
  piece.deciding_point = 0;
  piece.deciding_least = piece.deciding_greatest = 25;
  result.pieces = {piece};
  return result;
}

inline trade::ResolvedFiring request() {
  trade::ResolvedFiring request;
  trade::Piece piece;
  piece.name = "crown";
  trade::Section section;
  section.name = "thickest";
  trade::Layer layer;
  layer.material = given(std::string("veneer"));
  layer.liquid = given(std::string("water"));
  layer.green = true;
  section.layers = {layer};
  piece.sections = {section};
  request.pieces = {piece};
  trade::Liquid water;
  water.name = "water";
  request.liquids["water"] = water;
  request.materials["veneer"].name = "veneer";
  request.furnace.name = "north";
  request.furnace.display_error = trade::DisplayError{given(quantity::kelvins(0)), given(quantity::kelvins(1.5)), "invented"};
  request.materials["veneer"].family = "veneer";
  request.furnace.maximum = given(quantity::Temperature::celsius(1171));
  request.furnace.heating.gain = given(quantity::HeatingRate::si(3.3));
  request.furnace.heating.loss = given(quantity::Frequency::si(0.0016));
  request.furnace.heating.mains = request.furnace.heating.nominal_mains = given(quantity::Voltage::si(230));
  request.furnace.natural_cooling = {given(quantity::Frequency::si(0.0009)), given(quantity::Frequency::si(0.0022)),
                                     given(quantity::Frequency::si(0.0055))};
  request.furnace.pump.time_constant = given(quantity::seconds(7));
  request.furnace.pump.ultimate = given(quantity::millibars(37));
  trade::FurnaceAbility& ability = request.furnace.ability;
  ability.temperature_step = given(quantity::kelvins(1));
  ability.rate_step = ability.slowest_rate = given(quantity::kelvins_per_minute(1));
  ability.fastest_rate = given(quantity::kelvins_per_minute(149));
  ability.time_step = given(quantity::seconds(5));
  ability.longest_hold = given(quantity::minutes(83));
  ability.heating_stages = ability.cooling_stages = given(3);
  ability.hold_starts = given(trade::HoldStart::display_reaches);
  request.firing.stage = given(trade::StageOfWork::dentine);
  request.firing.chamber.room = given(quantity::Temperature::celsius(22));
  request.firing.chamber.room_humidity = given(quantity::Fraction::si(0.5));
  request.program.standby = given(quantity::Temperature::celsius(400));
  request.program.entry = given(quantity::Temperature::celsius(450));
  request.program.drying_time = given(quantity::seconds(240));
  request.program.closing_time = given(quantity::seconds(60));
  request.program.name = "dentine";
  request.program.heating.push_back(
      {given(quantity::Temperature::celsius(820)), given(quantity::kelvins_per_minute(47)), given(quantity::seconds(200)), {}});
  trade::Vacuum vacuum;
  vacuum.from = given(quantity::Temperature::celsius(460));
  vacuum.to = given(quantity::Temperature::celsius(820));
  vacuum.level = given(quantity::millibars(55));
  request.program.vacuum = vacuum;
  request.program.opening_temperature = given(quantity::Temperature::celsius(600));
  request.instruction = trade::Instruction{};
  request.instruction->name = "sheet";
  request.instruction->material = given(std::string("veneer"));
  request.instruction->stage = request.firing.stage;
  request.instruction_program = request.program;
  request.tray.name = "light";
  return request;
}

/// Everything in order: the firing is the maker's own.
inline firing::Rehearsal rehearsal() {
  firing::Rehearsal made;
  made.request = request();
  made.firing = fired();
  made.reference = {fired()};
  firing::Comparison compared;
  compared.quantity = firing::DecidingQuantity::heat_work;
  compared.shift_K = 0.0;
  compared.hold_s = 0.0;
  compared.hold_of_maker_s = 200;
  made.compared = {compared};
  return made;
}

inline Verdict judged(const firing::Rehearsal& made) {
  return judge(made, limits(), words());
}

/// The finding of an aspect and piece; a failure where there is not just one.
inline Finding finding(const Verdict& verdict, Aspect aspect, const std::string& piece = "crown") {
  std::vector<Finding> found;
  std::copy_if(verdict.findings.begin(), verdict.findings.end(), std::back_inserter(found),
               [&](const Finding& one) { return one.aspect == aspect && one.piece == piece; });
  EXPECT_EQ(found.size(), 1U) << word(aspect) << " of " << piece;
  return found.empty() ? Finding{} : found.front();
}

inline Finding finding(const firing::Rehearsal& made, Aspect aspect, const std::string& piece = "crown") {
  return finding(judged(made), aspect, piece);
}

inline bool has(const Verdict& verdict, Aspect aspect) {
  return std::any_of(verdict.findings.begin(), verdict.findings.end(), [&](const Finding& one) { return one.aspect == aspect; });
}

}  // namespace heatwork::verdict::judge_case
