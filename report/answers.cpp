#include "report/answers.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "firing/band.h"
#include "report/number.h"
#include "report/readings.h"
#include "report/stress_readings.h"

namespace heatwork::report {
namespace {

using firing::MomentKind;
using firing::PieceResult;
using firing::Rehearsal;

std::string when_dry(const Rehearsal& rehearsal, const PieceResult& piece, const Numbers& numbers) {
  const auto water_start = [](double sum, const firing::SectionResult& section) { return sum + section.water_start_g; };
  double start = 0, left = 0;
  for (const auto& section : piece.sections) {
    if (section.not_water) return numbers.say("answers.dry_said.not_water");
    start = water_start(start, section);
    left = std::max(left, section.water_at_close_percent);
  }
  if (!(start > 0)) return numbers.say("answers.dry_said.from_start");
  const auto dry = find_moment(rehearsal, MomentKind::dry, piece.piece);
  const auto closed = find_moment(rehearsal, MomentKind::closed);
  if (!dry && !closed) return numbers.say("answers.dry_said.never");
  if (!dry) return numbers.say("answers.dry_said.never_before_shut", {{"left", numbers.percent(left)}});
  const double at_s = rehearsal.moments[*dry].at_s;
  const std::string at = numbers.duration(at_s);
  if (!closed) return numbers.say("answers.dry_said.at", {{"time", at}});
  const double before_s = rehearsal.moments[*closed].at_s - at_s;
  const std::string apart = numbers.duration(before_s);
  if (before_s >= 0) return numbers.say("answers.dry_said.before_shut", {{"time", at}, {"before", apart}});
  return numbers.say("answers.dry_said.after_shut", {{"time", at}, {"after", apart}, {"left", numbers.percent(left)}});
}

std::string when_sealed(const Rehearsal& rehearsal, const PieceResult& piece, const Numbers& numbers) {
  const firing::PointResult* point = deciding_point(piece);
  if (!point || !sinters(*point)) return numbers.say("answers.pores_said.no_powder");
  const auto half = find_moment(rehearsal, MomentKind::half_sealed, piece.piece);
  if (!half) return numbers.say("answers.pores_said.stay_open", {{"porosity", numbers.percent(point->porosity_percent)}});
  const auto sealed = find_moment(rehearsal, MomentKind::sealed, piece.piece);
  const std::string first = numbers.duration(rehearsal.moments[*half].at_s);
  if (!sealed) return numbers.say("answers.pores_said.never_wholly", {{"half", first}});
  return numbers.say("answers.pores_said.sealed", {{"half", first}, {"whole", numbers.duration(rehearsal.moments[*sealed].at_s)}});
}

std::string vacuum_then(const Rehearsal& rehearsal, const PieceResult& piece, const Numbers& numbers) {
  const firing::PointResult* point = deciding_point(piece);
  if (!point || !sinters(*point)) return numbers.say("answers.vacuum_said.no_matter");
  const auto half = find_moment(rehearsal, MomentKind::half_sealed, piece.piece);
  if (!half) return numbers.say("answers.vacuum_said.never_sealed");
  const auto said = [&](std::string_view key) { return numbers.say(key, {{"pressure", numbers.pressure(point->pressure_at_sealing_Pa)}}); };
  const auto on = find_moment(rehearsal, MomentKind::vacuum_started), off = find_moment(rehearsal, MomentKind::released);
  const double half_s = rehearsal.moments[*half].at_s;
  if (!rehearsal.request.program.vacuum && !on) return said("answers.vacuum_said.no_vacuum");
  if (!on || rehearsal.moments[*on].at_s > half_s) return said("answers.vacuum_said.not_yet");
  if (off && rehearsal.moments[*off].at_s < half_s) return said("answers.vacuum_said.air_before");
  const auto sealed = find_moment(rehearsal, MomentKind::sealed, piece.piece);
  const bool early = off && (!sealed || rehearsal.moments[*off].at_s < rehearsal.moments[*sealed].at_s);
  if (early) return said("answers.vacuum_said.partly");
  return said(off ? "answers.vacuum_said.yes_released" : "answers.vacuum_said.yes_kept");
}

std::string reached(const Rehearsal& rehearsal, std::size_t index, const Numbers& numbers) {
  const PieceResult& piece = rehearsal.firing.pieces[index];
  const bool heavy = rehearsal.heaviest && index < rehearsal.heaviest->pieces.size();
  const double heavy_core_C = heavy ? rehearsal.heaviest->pieces[index].peak_core_C : piece.peak_core_C;
  const std::string display = numbers.temperature(piece.peak_display_C);
  if (rehearsal.heaviest) {
    return numbers.say("answers.reached_said.tray_unknown",
                       {{"core", numbers.temperatures(heavy_core_C, piece.peak_core_C)}, {"display", display}});
  }
  // The difference is that of the whole degrees shown, so that the reader's own subtraction agrees.
  const double under =
      std::round(in_scale(piece.peak_display_C, numbers.scale())) - std::round(in_scale(piece.peak_core_C, numbers.scale()));
  const std::string core = numbers.temperature(piece.peak_core_C);
  if (under == 0) return numbers.say("answers.reached_said.as_display", {{"core", core}, {"display", display}});
  const std::string by = fmt::format("{:.0f} {}", std::fabs(under), numbers.unit_of_difference());
  return numbers.say(under > 0 ? "answers.reached_said.under" : "answers.reached_said.over",
                     {{"core", core}, {"by", by}, {"display", display}});
}

std::string compared(const Rehearsal& rehearsal, std::size_t index, const Numbers& numbers) {
  if (index >= rehearsal.compared.size() || rehearsal.compared[index].quantity == firing::DecidingQuantity::none)
    return numbers.say("answers.compared_said.no_instruction");
  const firing::Comparison& comparison = rehearsal.compared[index];
  const std::string heat = comparison_in_words(comparison, numbers);
  if (heat.empty()) return numbers.say("answers.compared_said.no_number");
  const firing::Band band = firing::band_of_shift(rehearsal, index);
  if (!band.low || !band.high) return heat;
  // A minus like that of the numbers, and no minus before nothing.
  const auto shown = [&](double shift_K) {
    const double rounded = std::round(numbers.scale() == TemperatureScale::celsius ? shift_K : 1.8 * shift_K);
    return fmt::format("{}{:.0f}", rounded < 0 ? "−" : "", std::fabs(rounded));
  };
  return numbers.say("answers.compared_said.band",
                     {{"heat", heat}, {"low", shown(*band.low)}, {"high", shown(*band.high) + " " + numbers.unit_of_difference()}});
}

/// The difference in heat; empty where there is no number and no bound.
std::string heat_in_words(const firing::Comparison& comparison, const Numbers& numbers) {
  if (comparison.shift_K) {
    const double shift_K = *comparison.shift_K;
    if (std::fabs(shift_K) < 0.5) return numbers.say("answers.compared_said.same_heat");
    return numbers.say(shift_K < 0 ? "answers.compared_said.less_heat" : "answers.compared_said.more_heat",
                       {{"by", numbers.difference(shift_K)}});
  }
  return comparison.shift_beyond ? numbers.say("answers.compared_said.beyond", {{"by", numbers.difference(150)}}) : "";
}

/// The difference in hold; empty where there is none to speak of.
std::string hold_in_words(const firing::Comparison& comparison, const Numbers& numbers) {
  if (comparison.hold_s) {
    const double hold_s = *comparison.hold_s;
    if (std::fabs(hold_s) < 0.5) return "";
    return numbers.say(hold_s < 0 ? "answers.compared_said.less_hold" : "answers.compared_said.more_hold",
                       {{"by", numbers.duration(hold_s)}});
  }
  if (comparison.hold_beyond_whole) return numbers.say("answers.compared_said.whole_hold");
  return comparison.hold_beyond_hour ? numbers.say("answers.compared_said.hour_hold") : "";
}

/// What its glass carries on the way and what stays; of the section that keeps most.
std::string tension(const Rehearsal& rehearsal, std::size_t index, const Numbers& numbers) {
  const PieceResult& piece = rehearsal.firing.pieces[index];
  const auto worst = worst_glass(piece);
  if (!worst) {
    std::string all;
    for (const std::string& why : why_no_stress(piece, numbers.words())) all += (all.empty() ? "" : " ") + why;
    return all.empty() ? numbers.say("answers.stress_said.none") : all;
  }
  const physics::LayerCooling& glass = worst->glass();
  std::string stays = stress(glass.highest_hoop_Pa, numbers);
  if (const auto* band = worst->interval(&physics::LayerCooling::highest_hoop_Pa))
    stays = numbers.say("answers.stress_said.band",
                        {{"stays", stays}, {"low", bare_stress(band->low_Pa, numbers)}, {"high", stress(band->high_Pa, numbers)}});
  return numbers.say("answers.stress_said.of", {{"way", stress(glass.transient_highest_Pa, numbers)},
                                                {"stays", stays},
                                                {"section", worst->section->section},
                                                {"form", form_in_words(worst->form->form, numbers)}});
}

}  // namespace

std::string comparison_in_words(const firing::Comparison& comparison, const Numbers& numbers) {
  const std::string heat = heat_in_words(comparison, numbers), hold = hold_in_words(comparison, numbers);
  if (hold.empty()) return heat;
  if (heat.empty()) return numbers.say("answers.compared_said.like_hold", {{"hold", hold}});
  return numbers.say("answers.compared_said.or_hold", {{"heat", heat}, {"hold", hold}});
}

std::vector<Answer> answers_of(const Rehearsal& rehearsal, const Numbers& numbers) {
  std::vector<Answer> answers;
  for (const char* key : {"answers.dry", "answers.pores", "answers.vacuum", "answers.reached", "answers.compared"})
    answers.push_back({numbers.say(key), {}});
  for (std::size_t i = 0; i < rehearsal.firing.pieces.size(); ++i) {
    const PieceResult& piece = rehearsal.firing.pieces[i];
    answers[0].by_piece.push_back(when_dry(rehearsal, piece, numbers));
    answers[1].by_piece.push_back(when_sealed(rehearsal, piece, numbers));
    answers[2].by_piece.push_back(vacuum_then(rehearsal, piece, numbers));
    answers[3].by_piece.push_back(reached(rehearsal, i, numbers));
    answers[4].by_piece.push_back(compared(rehearsal, i, numbers));
  }
  if (!tells_stress(rehearsal)) return answers;
  answers.push_back({numbers.say("answers.stress"), {}});
  for (std::size_t i = 0; i < rehearsal.firing.pieces.size(); ++i) answers.back().by_piece.push_back(tension(rehearsal, i, numbers));
  return answers;
}

}  // namespace heatwork::report
