#include "report/answers.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "firing/band.h"
#include "report/number.h"
#include "report/readings.h"

namespace heatwork::report {
namespace {

using firing::MomentKind;
using firing::PieceResult;
using firing::Rehearsal;

std::string when_dry(const Rehearsal& rehearsal, const PieceResult& piece) {
  const auto water_start = [](double sum, const firing::SectionResult& section) { return sum + section.water_start_g; };
  double start = 0, left = 0;
  for (const auto& section : piece.sections) {
    if (section.not_water) return "cannot tell: mixed with a liquid that is not water";
    start = water_start(start, section);
    left = std::max(left, section.water_at_close_percent);
  }
  if (!(start > 0)) return "dry from the start";
  const auto dry = find_moment(rehearsal, MomentKind::dry, piece.piece);
  const auto closed = find_moment(rehearsal, MomentKind::closed);
  if (!dry) return closed ? fmt::format("never; {} of the water left as the chamber shuts", percent(left)) : "never";
  const double at_s = rehearsal.moments[*dry].at_s;
  if (!closed) return "at " + duration(at_s);
  const double before_s = rehearsal.moments[*closed].at_s - at_s;
  if (before_s >= 0) return fmt::format("at {}, {} before the chamber shuts", duration(at_s), duration(before_s));
  return fmt::format("at {}, {} AFTER the chamber shuts ({} left then)", duration(at_s), duration(before_s), percent(left));
}

std::string when_sealed(const Rehearsal& rehearsal, const PieceResult& piece) {
  const firing::PointResult* point = deciding_point(piece);
  if (!point || !sinters(*point)) return "no powder that sinters";
  const auto half = find_moment(rehearsal, MomentKind::half_sealed, piece.piece);
  if (!half) return fmt::format("they stay open; {} porosity at the end", percent(point->porosity_percent));
  const auto sealed = find_moment(rehearsal, MomentKind::sealed, piece.piece);
  const std::string first = "half sealed at " + duration(rehearsal.moments[*half].at_s);
  return first + (sealed ? ", sealed at " + duration(rehearsal.moments[*sealed].at_s) : ", never wholly");
}

std::string vacuum_then(const Rehearsal& rehearsal, const PieceResult& piece) {
  const firing::PointResult* point = deciding_point(piece);
  if (!point || !sinters(*point)) return "does not matter here";
  const auto half = find_moment(rehearsal, MomentKind::half_sealed, piece.piece);
  if (!half) return "pores never sealed";
  const std::string then = pressure(point->pressure_at_sealing_Pa);
  const auto on = find_moment(rehearsal, MomentKind::vacuum_started), off = find_moment(rehearsal, MomentKind::released);
  const double half_s = rehearsal.moments[*half].at_s;
  if (!rehearsal.request.program.vacuum && !on) return then + ": this program has no vacuum";
  if (!on || rehearsal.moments[*on].at_s > half_s) return fmt::format("NO, not yet: {} as pores sealed", then);
  if (off && rehearsal.moments[*off].at_s < half_s) return fmt::format("NO, air was let in before: {}", then);
  const auto sealed = find_moment(rehearsal, MomentKind::sealed, piece.piece);
  const bool early = off && (!sealed || rehearsal.moments[*off].at_s < rehearsal.moments[*sealed].at_s);
  if (early) return fmt::format("partly: {} at half, air let in before sealed", then);
  return fmt::format("yes, {}{}", then, off ? "; air let in after sealing" : "; never released");
}

std::string reached(const Rehearsal& rehearsal, std::size_t index, TemperatureScale scale) {
  const PieceResult& piece = rehearsal.firing.pieces[index];
  const auto range = [&](double light_C, double heavy_C) {
    return rehearsal.heaviest ? fmt::format("{:.0f} to {}", in_scale(heavy_C, scale), temperature(light_C, scale))
                              : temperature(light_C, scale);
  };
  const bool heavy = rehearsal.heaviest && index < rehearsal.heaviest->pieces.size();
  const std::string core = range(piece.peak_core_C, heavy ? rehearsal.heaviest->pieces[index].peak_core_C : piece.peak_core_C);
  const std::string display = "display " + temperature(piece.peak_display_C, scale);
  if (rehearsal.heaviest) return fmt::format("core {}, {} (tray's mass unknown)", core, display);
  // The difference is that of the whole degrees shown, so that the reader's own subtraction agrees.
  const double under = std::round(in_scale(piece.peak_display_C, scale)) - std::round(in_scale(piece.peak_core_C, scale));
  const std::string unit = scale == TemperatureScale::celsius ? "K" : "°F";
  if (under == 0) return fmt::format("core {}, as the {}", core, display);
  return fmt::format("core {}, {:.0f} {} {} the {}", core, std::fabs(under), unit, under > 0 ? "under" : "over", display);
}

std::string compared(const Rehearsal& rehearsal, std::size_t index, TemperatureScale scale) {
  if (index >= rehearsal.compared.size() || rehearsal.compared[index].quantity == firing::DecidingQuantity::none)
    return "no instruction to compare with";
  const firing::Comparison& comparison = rehearsal.compared[index];
  const std::string heat = comparison_in_words(comparison, scale);
  if (heat.empty()) return "no number: beyond what is compared";
  const firing::Band band = firing::band_of_shift(rehearsal, index);
  if (!band.low || !band.high) return heat;
  const bool celsius = scale == TemperatureScale::celsius;
  // A minus like that of the numbers, and no minus before nothing.
  const auto shown = [&](double shift_K) {
    const double rounded = std::round(celsius ? shift_K : 1.8 * shift_K);
    return fmt::format("{}{:.0f}", rounded < 0 ? "−" : "", std::fabs(rounded));
  };
  return fmt::format("{}; band {} to {} {}", heat, shown(*band.low), shown(*band.high), celsius ? "K" : "°F");
}

}  // namespace

std::string comparison_in_words(const firing::Comparison& comparison, TemperatureScale scale) {
  std::string words;
  if (comparison.shift_K) {
    const double shift_K = *comparison.shift_K;
    words = std::fabs(shift_K) < 0.5 ? "like the maker's own heat"
                                     : fmt::format("like {} {}", difference(shift_K, scale), shift_K < 0 ? "less" : "more");
  } else if (comparison.shift_beyond) {
    words = "more than " + difference(150, scale) + " away";
  }
  std::string hold;
  if (comparison.hold_s) {
    const double hold_s = *comparison.hold_s;
    if (std::fabs(hold_s) >= 0.5) hold = fmt::format("{} {} hold", duration(hold_s), hold_s < 0 ? "less" : "more");
  } else if (comparison.hold_beyond_whole) {
    hold = "more than the whole hold less";
  } else if (comparison.hold_beyond_hour) {
    hold = "more than an hour more hold";
  }
  if (words.empty()) return hold.empty() ? "" : "like " + hold;
  return hold.empty() ? words : words + ", or " + hold;
}

std::vector<Answer> answers_of(const Rehearsal& rehearsal, TemperatureScale scale) {
  std::vector<Answer> answers = {{"When is it dry?", {}},
                                 {"When do pores close?", {}},
                                 {"Was vacuum on then?", {}},
                                 {"What did it reach?", {}},
                                 {"Against the maker's firing", {}}};
  for (std::size_t i = 0; i < rehearsal.firing.pieces.size(); ++i) {
    const PieceResult& piece = rehearsal.firing.pieces[i];
    answers[0].by_piece.push_back(when_dry(rehearsal, piece));
    answers[1].by_piece.push_back(when_sealed(rehearsal, piece));
    answers[2].by_piece.push_back(vacuum_then(rehearsal, piece));
    answers[3].by_piece.push_back(reached(rehearsal, i, scale));
    answers[4].by_piece.push_back(compared(rehearsal, i, scale));
  }
  return answers;
}

}  // namespace heatwork::report
