#include "report/strips.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/axis.h"
#include "report/stress_strip.h"

namespace heatwork::report {
namespace {

using firing::FiringResult;
using firing::MomentKind;
using firing::PieceResult;
using firing::Rehearsal;

const PieceResult* heaviest_piece(const Rehearsal& rehearsal, std::size_t index) {
  return rehearsal.heaviest && index < rehearsal.heaviest->pieces.size() ? &rehearsal.heaviest->pieces[index] : nullptr;
}

std::string css_of(std::size_t piece, const char* part) {
  return fmt::format("line {} p{}", part, piece % 4);
}

std::vector<double> scaled(const std::vector<double>& values, double factor, double shift = 0) {
  std::vector<double> out(values.size());
  std::transform(values.begin(), values.end(), out.begin(), [&](double value) { return value * factor + shift; });
  return out;
}

std::vector<double> in_scale_all(const std::vector<double>& values_C, TemperatureScale scale) {
  return scale == TemperatureScale::celsius ? values_C : scaled(values_C, 1.8, 32.0);
}

double highest(const std::vector<double>& values) {
  return values.empty() ? 0.0 : *std::max_element(values.begin(), values.end());
}

/// Marks of the kinds asked for, on the line that `value` reads; of one piece or of the chamber.
template <class Value>
void mark(Strip& strip, const Rehearsal& rehearsal, std::initializer_list<MomentKind> kinds, const std::string& piece,
          const Numbers& numbers, const std::string& css, const Value& value) {
  for (const MomentKind kind : kinds) {
    const auto found = find_moment(rehearsal, kind, piece);
    if (!found) continue;
    const firing::Moment& moment = rehearsal.moments[*found];
    const std::string prefix = piece.empty() || rehearsal.firing.pieces.size() < 2 ? "" : piece + ": ";
    strip.marks.push_back({*found, prefix + mark_word(kind, numbers) + " " + clock(moment.at_s), moment.at_s, value(moment.at_s), css});
  }
}

void add_piece_heat(Strip& strip, const Rehearsal& rehearsal, std::size_t index, const std::string& name, const Numbers& numbers) {
  const PieceResult& piece = rehearsal.firing.pieces[index];
  const firing::SectionResult* section = deciding_section(piece);
  if (!section) return;
  const PieceResult* heavy = heaviest_piece(rehearsal, index);
  const firing::SectionResult* heavy_section = heavy ? deciding_section(*heavy) : nullptr;
  const auto reading = [&](double light_C, double heavy_C) {
    return heavy ? numbers.temperatures(heavy_C, light_C) : numbers.temperature(light_C);
  };
  StripLine surface{numbers.say("picture.line.surface", {{"piece", name}}),
                    css_of(index, "surface"),
                    reading(piece.peak_surface_C, heavy ? heavy->peak_surface_C : 0),
                    rehearsal.firing.time_s,
                    in_scale_all(section->surface_C, numbers.scale()),
                    {},
                    {}};
  StripLine core{numbers.say("picture.line.core", {{"piece", name}}),
                 css_of(index, "core"),
                 reading(piece.peak_core_C, heavy ? heavy->peak_core_C : 0),
                 rehearsal.firing.time_s,
                 in_scale_all(section->core_C, numbers.scale()),
                 {},
                 {}};
  if (heavy_section) {
    surface.other_time_s = core.other_time_s = rehearsal.heaviest->time_s;
    surface.other_value = in_scale_all(heavy_section->surface_C, numbers.scale());
    core.other_value = in_scale_all(heavy_section->core_C, numbers.scale());
  }
  strip.lines.push_back(std::move(surface));
  strip.lines.push_back(std::move(core));
}

Strip temperature_strip(const Rehearsal& rehearsal, const std::vector<std::string>& names, const Numbers& numbers) {
  const firing::ChamberHistory& chamber = rehearsal.firing.chamber;
  Strip strip;
  strip.title = numbers.say("picture.strip.temperature");
  strip.names_bench = true;
  strip.unit = unit_of(numbers.scale());
  strip.height_px = 262;
  const auto line = [&](const char* key, const char* css, const std::vector<double>& values_C) {
    strip.lines.push_back(
        {numbers.say(key), css, numbers.temperature(highest(values_C)), chamber.time_s, in_scale_all(values_C, numbers.scale()), {}, {}});
  };
  line("picture.line.asked", "line asked", chamber.asked_C);
  line("picture.line.achievable", "line display", chamber.display_C);
  line("picture.line.chamber", "line chamber", chamber.chamber_C);
  for (std::size_t i = 0; i < names.size(); ++i) add_piece_heat(strip, rehearsal, i, names[i], numbers);
  double top = 0;
  for (const StripLine& each : strip.lines) top = std::max(top, highest(each.value));
  strip.high = std::max(100.0, top * 1.04);
  strip.ticks = round_ticks(0, strip.high, 6);
  mark(strip, rehearsal, {MomentKind::closed, MomentKind::top, MomentKind::hold_ends, MomentKind::open}, {}, numbers, "mark",
       [&](double at_s) { return in_scale(value_at(chamber.time_s, chamber.display_C, at_s), numbers.scale()); });
  return strip;
}

/// The level the chamber should be pumped down to: the instruction's limit, else the maker's program's, else the own program's. [mbar]
std::optional<double> level_wanted_mbar(const Rehearsal& rehearsal) {
  const trade::ResolvedFiring& request = rehearsal.request;
  if (request.instruction && request.instruction->limits.vacuum_level_at_most)
    return request.instruction->limits.vacuum_level_at_most->value.si() / 100.0;
  if (request.instruction_program && request.instruction_program->vacuum)
    return request.instruction_program->vacuum->level.value.si() / 100.0;
  if (request.program.vacuum) return request.program.vacuum->level.value.si() / 100.0;
  return std::nullopt;
}

Strip pressure_strip(const Rehearsal& rehearsal, const Numbers& numbers) {
  const firing::ChamberHistory& chamber = rehearsal.firing.chamber;
  Strip strip;
  strip.title = numbers.say("picture.strip.pressure");
  strip.shows_sealing = true;
  strip.unit = "mbar";
  strip.logarithmic = true;
  strip.height_px = 74;
  strip.lines.push_back({numbers.say("picture.line.pressure"),
                         "line display",
                         numbers.say("picture.line.lowest", {{"pressure", numbers.pressure(chamber.lowest_pressure_Pa)}}),
                         chamber.time_s,
                         scaled(chamber.pressure_Pa, 0.01),
                         {},
                         {}});
  const auto level = level_wanted_mbar(rehearsal);
  const double lowest = std::min(chamber.lowest_pressure_Pa / 100.0, level.value_or(1e9));
  strip.low = lowest > 12 ? 10 : std::max(0.1, std::pow(10.0, std::floor(std::log10(std::max(lowest, 0.1)))));
  strip.high = 1200;
  strip.ticks = decade_ticks(strip.low, strip.high);
  const auto windows = sealing_windows(rehearsal);
  if (level && !windows.empty()) {
    double from = windows.front().from_s, to = windows.front().to_s;
    for (const SealingWindow& window : windows) from = std::min(from, window.from_s), to = std::max(to, window.to_s);
    strip.wanted.push_back({strip.low, *level, from, to});
    strip.notes.push_back(numbers.say("picture.note.level_wanted", {{"limit", numbers.pressure(*level * 100.0)}}));
  }
  if (!rehearsal.request.program.vacuum) strip.notes.push_back(numbers.say("picture.note.no_vacuum"));
  if (chamber.level_never_reached) strip.notes.push_back(numbers.say("picture.note.level_missed"));
  mark(strip, rehearsal, {MomentKind::vacuum_started, MomentKind::vacuum_reached, MomentKind::released}, {}, numbers, "mark",
       [&](double at_s) { return value_at(chamber.time_s, chamber.pressure_Pa, at_s) / 100.0; });
  return strip;
}

/// Adds a trace of a piece to a strip, with its band where the tray's mass is unknown.
void add_trace(Strip& strip, const Rehearsal& rehearsal, std::size_t index, const std::string& name, std::string reading,
               std::vector<double> values, std::vector<double> heavy_values) {
  StripLine line{name, css_of(index, "surface"), std::move(reading), rehearsal.firing.time_s, std::move(values), {}, {}};
  if (rehearsal.heaviest && !heavy_values.empty()) {
    line.other_time_s = rehearsal.heaviest->time_s;
    line.other_value = std::move(heavy_values);
  }
  strip.lines.push_back(std::move(line));
}

std::string reading_of(const Rehearsal& rehearsal, const std::string& light, const std::optional<std::string>& heavy,
                       const Numbers& numbers) {
  if (rehearsal.heaviest && heavy && *heavy != light) return numbers.say("picture.line.either", {{"light", light}, {"heavy", *heavy}});
  return numbers.say("picture.line.at_the_end", {{"value", light}});
}

std::optional<Strip> water_strip(const Rehearsal& rehearsal, const trade::Limits& limits, const std::vector<std::string>& names,
                                 const Numbers& numbers) {
  Strip strip;
  strip.title = numbers.say("picture.strip.water");
  strip.unit = numbers.say("picture.strip.water_unit");
  strip.high = 110;
  strip.ticks = {0, 50, 100};
  strip.height_px = 58;
  for (std::size_t i = 0; i < names.size(); ++i) {
    const PieceResult& piece = rehearsal.firing.pieces[i];
    std::vector<double> left = water_left_percent(piece, rehearsal.firing.time_s.size());
    if (left.empty()) continue;
    const PieceResult* heavy = heaviest_piece(rehearsal, i);
    const auto heavy_left = heavy ? water_left_percent(*heavy, rehearsal.heaviest->time_s.size()) : std::vector<double>{};
    const double end = left.back();
    const std::string reading =
        end < 0.05 ? numbers.say("picture.line.no_water") : numbers.say("picture.line.at_the_end", {{"value", numbers.percent(end)}});
    const auto curve = left;
    add_trace(strip, rehearsal, i, names[i], reading, std::move(left), heavy_left);
    mark(strip, rehearsal, {MomentKind::dry}, piece.piece, numbers, fmt::format("mark p{}", i % 4),
         [&](double at_s) { return value_at(rehearsal.firing.time_s, curve, at_s); });
  }
  if (strip.lines.empty()) return std::nullopt;
  const auto vacuum = find_moment(rehearsal, MomentKind::vacuum_started), closed = find_moment(rehearsal, MomentKind::closed);
  const auto limit = limits.by_name.find(vacuum ? "water_at_vacuum" : "water_at_closing");
  const auto from = vacuum ? vacuum : closed;
  if (limit != limits.by_name.end() && from) {
    strip.wanted.push_back({0, limit->second.first, rehearsal.moments[*from].at_s, rehearsal.firing.time_s.back()});
    strip.notes.push_back(numbers.say(vacuum ? "picture.note.water_from_vacuum" : "picture.note.water_once_shut",
                                      {{"limit", numbers.limit(limit->second.first, "%")}}));
  }
  return strip;
}

/// Calls `add(piece, point, heavy_point)` for each piece drawn whose deciding point has the trace; `heavy_point` is null without a
/// heaviest tray.
template <class Add>
void each_deciding(const Rehearsal& rehearsal, std::size_t pieces, std::vector<double> firing::PointResult::*trace, const Add& add) {
  for (std::size_t i = 0; i < pieces; ++i) {
    const firing::PointResult* point = deciding_point(rehearsal.firing.pieces[i]);
    if (!point || (point->*trace).empty()) continue;
    const PieceResult* heavy = heaviest_piece(rehearsal, i);
    add(i, *point, heavy ? deciding_point(*heavy) : nullptr);
  }
}

std::optional<Strip> open_pores_strip(const Rehearsal& rehearsal, const std::vector<std::string>& names, const Numbers& numbers) {
  Strip strip;
  strip.title = numbers.say("picture.strip.open_pores");
  strip.shows_sealing = true;
  strip.unit = numbers.say("picture.strip.open_pores_unit");
  strip.high = 110;
  strip.ticks = {0, 50, 100};
  strip.height_px = 44;
  each_deciding(
      rehearsal, names.size(), &firing::PointResult::sealed_trace,
      [&](std::size_t i, const firing::PointResult& point, const firing::PointResult* heavy) {
        const auto open = scaled(point.sealed_trace, -100.0, 100.0);
        const std::string reading = point.half_sealed_s < 0 ? numbers.say("picture.line.never_close")
                                                            : numbers.say("picture.line.half_sealed",
                                                                          {{"pressure", numbers.pressure(point.pressure_at_sealing_Pa)}});
        add_trace(strip, rehearsal, i, names[i], reading, open, heavy ? scaled(heavy->sealed_trace, -100.0, 100.0) : std::vector<double>{});
        mark(strip, rehearsal, {MomentKind::half_sealed, MomentKind::sealed}, rehearsal.firing.pieces[i].piece, numbers,
             fmt::format("mark p{}", i % 4), [&](double at_s) { return value_at(rehearsal.firing.time_s, open, at_s); });
      });
  if (strip.lines.empty()) return std::nullopt;
  return strip;
}

/// Porosity at the end of the maker's own firing, the least of the pieces drawn; nothing without one. [%]
std::optional<double> maker_porosity_percent(const Rehearsal& rehearsal, std::size_t pieces) {
  std::optional<double> least;
  for (std::size_t i = 0; i < std::min(pieces, rehearsal.reference.size()); ++i) {
    const firing::PointResult* point =
        rehearsal.reference[i].pieces.empty() ? nullptr : deciding_point(rehearsal.reference[i].pieces.front());
    if (point && sinters(*point)) least = std::min(least.value_or(100.0), point->porosity_percent);
  }
  return least;
}

std::optional<Strip> porosity_strip(const Rehearsal& rehearsal, const trade::Limits& limits, const std::vector<std::string>& names,
                                    const Numbers& numbers) {
  Strip strip;
  strip.title = numbers.say("picture.strip.porosity");
  strip.shows_sealing = true;
  strip.unit = "%";
  strip.logarithmic = true;
  strip.low = 0.1;
  strip.high = 70;
  strip.ticks = {1, 10};
  strip.height_px = 58;
  each_deciding(rehearsal, names.size(), &firing::PointResult::porosity_trace_percent,
                [&](std::size_t i, const firing::PointResult& point, const firing::PointResult* heavy) {
                  const auto end = heavy ? std::optional(numbers.percent(heavy->porosity_percent)) : std::nullopt;
                  add_trace(strip, rehearsal, i, names[i], reading_of(rehearsal, numbers.percent(point.porosity_percent), end, numbers),
                            point.porosity_trace_percent, heavy ? heavy->porosity_trace_percent : std::vector<double>{});
                });
  if (strip.lines.empty()) return std::nullopt;
  const auto maker = maker_porosity_percent(rehearsal, names.size());
  const auto limit = limits.by_name.find(maker ? "porosity_over_maker" : "porosity");
  const auto ends = find_moment(rehearsal, MomentKind::hold_ends);
  if (limit != limits.by_name.end() && ends) {
    const double most = maker.value_or(0) + limit->second.first;
    strip.wanted.push_back({strip.low, most, rehearsal.moments[*ends].at_s, rehearsal.firing.time_s.back()});
    strip.notes.push_back(maker ? numbers.say("picture.note.over_maker",
                                              {{"limit", numbers.percent(most)}, {"more", numbers.limit(limit->second.first, "points")}})
                                : numbers.say("picture.note.at_most", {{"limit", numbers.limit(most, "%")}}));
  }
  return strip;
}

std::optional<Strip> edges_strip(const Rehearsal& rehearsal, const trade::Limits& limits, const std::vector<std::string>& names,
                                 const Numbers& numbers) {
  Strip strip;
  strip.title = numbers.say("picture.strip.edges");
  strip.unit = numbers.say("picture.strip.edges_unit");
  strip.height_px = 58;
  double top = 0;
  each_deciding(rehearsal, names.size(), &firing::PointResult::rounding_trace_um,
                [&](std::size_t i, const firing::PointResult& point, const firing::PointResult* heavy) {
                  const auto end = heavy ? std::optional(numbers.micrometres(heavy->rounding_um)) : std::nullopt;
                  add_trace(strip, rehearsal, i, names[i], reading_of(rehearsal, numbers.micrometres(point.rounding_um), end, numbers),
                            point.rounding_trace_um, heavy ? heavy->rounding_trace_um : std::vector<double>{});
                  top = std::max(top, highest(point.rounding_trace_um));
                });
  if (strip.lines.empty()) return std::nullopt;
  const auto low = limits.by_name.find("rounding_least"), high = limits.by_name.find("rounding_most");
  const auto ends = find_moment(rehearsal, MomentKind::hold_ends);
  if (low != limits.by_name.end() && high != limits.by_name.end() && ends) {
    top = std::max(top, high->second.first);
    strip.wanted.push_back({low->second.first, high->second.first, rehearsal.moments[*ends].at_s, rehearsal.firing.time_s.back()});
    const std::string range =
        numbers.say("numbers.range", {{"from", numbers.limit(low->second.first, "")}, {"to", numbers.limit(high->second.first, "µm")}});
    strip.notes.push_back(numbers.say("picture.note.between", {{"range", range}}));
  }
  strip.high = round_up(top * 1.1);
  strip.ticks = {0, strip.high / 2, strip.high};
  return strip;
}

/// A share that rises towards 1, and the least it is wanted to have when the hold ends.
struct RisingShare {
  std::vector<double> firing::PointResult::*trace;
  double firing::PointResult::*grown_um;  ///< told beside the share at the end
  const char* title;
  const char* unit;
  double low, high;  ///< of the strip [%]
  std::vector<double> ticks;
  const char* limit;
};

std::optional<Strip> rising_strip(const RisingShare& share, const Rehearsal& rehearsal, const trade::Limits& limits,
                                  const std::vector<std::string>& names, const Numbers& numbers) {
  Strip strip;
  strip.title = numbers.say(share.title);
  strip.unit = numbers.say(share.unit);
  strip.low = share.low;
  strip.high = share.high;
  strip.ticks = share.ticks;
  strip.height_px = 58;
  each_deciding(rehearsal, names.size(), share.trace,
                [&](std::size_t i, const firing::PointResult& point, const firing::PointResult* heavy) {
                  const auto told = [&](const firing::PointResult& at) {
                    return numbers.percent(100.0 * (at.*share.trace).back()) + ", " + numbers.micrometres(at.*share.grown_um);
                  };
                  const bool either = rehearsal.heaviest && heavy && !(heavy->*share.trace).empty() && told(*heavy) != told(point);
                  add_trace(strip, rehearsal, i, names[i],
                            either ? numbers.say("picture.line.either", {{"light", told(point)}, {"heavy", told(*heavy)}}) : told(point),
                            scaled(point.*share.trace, 100.0), heavy ? scaled(heavy->*share.trace, 100.0) : std::vector<double>{});
                });
  if (strip.lines.empty()) return std::nullopt;
  const auto limit = limits.by_name.find(share.limit);
  const auto ends = find_moment(rehearsal, MomentKind::hold_ends);
  if (limit != limits.by_name.end() && ends) {
    const double least = limit->second.first * (limit->second.unit == "%" ? 1.0 : 100.0);
    strip.wanted.push_back({least, 100, rehearsal.moments[*ends].at_s, rehearsal.firing.time_s.back()});
    strip.notes.push_back(numbers.say("picture.note.at_least", {{"limit", numbers.limit(least, "%")}}));
  }
  return strip;
}

std::optional<Strip> crystals_strip(const Rehearsal& rehearsal, const trade::Limits& limits, const std::vector<std::string>& names,
                                    const Numbers& numbers) {
  return rising_strip({&firing::PointResult::fraction_trace,
                       &firing::PointResult::crystal_um,
                       "picture.strip.crystals",
                       "picture.strip.crystals_unit",
                       0,
                       110,
                       {0, 50, 100},
                       "crystallised_fraction"},
                      rehearsal, limits, names, numbers);
}

/// Density of zirconia that sinters.
std::optional<Strip> density_strip(const Rehearsal& rehearsal, const trade::Limits& limits, const std::vector<std::string>& names,
                                   const Numbers& numbers) {
  return rising_strip({&firing::PointResult::density_trace,
                       &firing::PointResult::grain_um,
                       "picture.strip.density",
                       "picture.strip.density_unit",
                       40,
                       105,
                       {40, 70, 100},
                       "sintered_density"},
                      rehearsal, limits, names, numbers);
}

}  // namespace

std::vector<Strip> strips_of(const Rehearsal& rehearsal, const trade::Limits& limits, const Numbers& numbers, bool stress_follows) {
  auto names = piece_names(rehearsal);
  names.resize(std::min(names.size(), pieces_drawn));
  std::vector<Strip> strips = {temperature_strip(rehearsal, names, numbers)};
  for (auto strip : {water_strip(rehearsal, limits, names, numbers), std::optional(pressure_strip(rehearsal, numbers)),
                     open_pores_strip(rehearsal, names, numbers), porosity_strip(rehearsal, limits, names, numbers),
                     edges_strip(rehearsal, limits, names, numbers), crystals_strip(rehearsal, limits, names, numbers),
                     density_strip(rehearsal, limits, names, numbers), stress_strip(rehearsal, limits, names, numbers)}) {
    if (strip) strips.push_back(std::move(*strip));
  }
  if (stress_follows) strips.push_back(report::stress_follows(numbers));
  return strips;
}

}  // namespace heatwork::report
