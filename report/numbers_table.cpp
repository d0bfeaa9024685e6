#include "report/numbers_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>

#include "report/readings.h"

namespace heatwork::report {
namespace {

using firing::MomentKind;
using firing::PieceResult;
using firing::Rehearsal;
using Reading = std::function<std::optional<std::string>(const PieceResult&)>;

/// A row read off each piece; where the tray's mass is not known, for the lightest and the heaviest tray.
TableRow row(const Rehearsal& rehearsal, const std::string& what, const Reading& reading) {
  TableRow made{what, {}};
  for (std::size_t i = 0; i < rehearsal.firing.pieces.size(); ++i) {
    const auto light = reading(rehearsal.firing.pieces[i]);
    std::string shown = light.value_or("-");
    if (rehearsal.heaviest && i < rehearsal.heaviest->pieces.size()) {
      const auto heavy = reading(rehearsal.heaviest->pieces[i]);
      if (heavy.value_or("-") != shown) shown += " … " + heavy.value_or("-");
    }
    made.by_piece.push_back(shown);
  }
  return made;
}

Reading of_point(const std::function<std::optional<std::string>(const firing::PointResult&)>& reading) {
  return [reading](const PieceResult& piece) -> std::optional<std::string> {
    const firing::PointResult* point = deciding_point(piece);
    return point ? reading(*point) : std::nullopt;
  };
}

std::optional<std::string> at(double time_s) {
  return time_s < 0 ? std::optional<std::string>("never") : duration(time_s);
}

void add_heat(std::vector<TableRow>& rows, const Rehearsal& rehearsal, TemperatureScale scale) {
  rows.push_back(
      row(rehearsal, "display, highest", [scale](const PieceResult& piece) { return temperature(piece.peak_display_C, scale); }));
  rows.push_back(
      row(rehearsal, "chamber in truth", [scale](const PieceResult& piece) { return temperature(piece.peak_chamber_C, scale); }));
  rows.push_back(
      row(rehearsal, "surface of the piece", [scale](const PieceResult& piece) { return temperature(piece.peak_surface_C, scale); }));
  rows.push_back(row(rehearsal, "core of the piece", [scale](const PieceResult& piece) { return temperature(piece.peak_core_C, scale); }));
}

void add_comparison(std::vector<TableRow>& rows, const Rehearsal& rehearsal, TemperatureScale scale) {
  TableRow heat{"like the maker's heat, but", {}}, hold{"  or like its hold, but", {}};
  for (std::size_t i = 0; i < rehearsal.firing.pieces.size(); ++i) {
    const firing::Comparison none;
    const firing::Comparison& comparison = i < rehearsal.compared.size() ? rehearsal.compared[i] : none;
    const auto side = [](double value, const char* less, const char* more) { return value < 0 ? less : more; };
    std::string shift = "-", time = "-";
    if (comparison.shift_K) shift = difference(*comparison.shift_K, scale) + side(*comparison.shift_K, " less", " more");
    if (comparison.shift_beyond) shift = "over " + difference(150, scale);
    if (comparison.hold_s) time = duration(*comparison.hold_s) + side(*comparison.hold_s, " less", " more");
    if (comparison.hold_beyond_whole) time = "over all of it less";
    if (comparison.hold_beyond_hour) time = "over 1 h more";
    heat.by_piece.push_back(shift);
    hold.by_piece.push_back(time);
  }
  rows.push_back(heat);
  rows.push_back(hold);
}

void add_water(std::vector<TableRow>& rows, const Rehearsal& rehearsal) {
  const auto wet = [](const PieceResult& piece) {
    return std::any_of(piece.sections.begin(), piece.sections.end(),
                       [](const auto& section) { return section.water_start_g > 0 || section.not_water; });
  };
  const auto worst = [wet](const PieceResult& piece, double firing::SectionResult::*share) -> std::optional<std::string> {
    if (!wet(piece)) return std::nullopt;
    double most = 0;
    for (const auto& section : piece.sections) {
      if (section.not_water) return "cannot tell";
      most = std::max(most, section.*share);
    }
    return percent(most);
  };
  rows.push_back(row(rehearsal, "dry at", [wet](const PieceResult& piece) -> std::optional<std::string> {
    if (!wet(piece)) return std::nullopt;
    double last_s = 0;
    for (const auto& section : piece.sections) {
      if (section.not_water) return "cannot tell";
      if (section.water_start_g > 0 && section.dry_s < 0) return "never";
      last_s = std::max(last_s, section.dry_s);
    }
    return duration(last_s);
  }));
  rows.push_back(row(rehearsal, "water as the chamber shuts",
                     [worst](const PieceResult& piece) { return worst(piece, &firing::SectionResult::water_at_close_percent); }));
  rows.push_back(row(rehearsal, "water as vacuum starts",
                     [worst](const PieceResult& piece) { return worst(piece, &firing::SectionResult::water_at_vacuum_percent); }));
}

void add_pores(std::vector<TableRow>& rows, const Rehearsal& rehearsal, TemperatureScale scale) {
  using Text = std::optional<std::string>;
  const auto of_powder = [&](const std::string& what, const std::function<Text(const firing::PointResult&)>& reading) {
    rows.push_back(
        row(rehearsal, what, of_point([reading](const firing::PointResult& point) { return sinters(point) ? reading(point) : Text(); })));
  };
  of_powder("pores half sealed at", [](const auto& point) {
    const bool before = !point.sealed_trace.empty() && point.sealed_trace.front() >= 0.5;
    return before ? Text("before") : at(point.half_sealed_s);
  });
  of_powder("  temperature there",
            [scale](const auto& point) { return point.half_sealed_s < 0 ? Text() : temperature(point.half_sealed_C, scale); });
  of_powder("  chamber pressure then",
            [](const auto& point) { return point.half_sealed_s < 0 ? Text() : pressure(point.pressure_at_sealing_Pa); });
  of_powder("porosity at the end", [](const auto& point) { return percent(point.porosity_percent); });
  of_powder("edges rounded over", [](const auto& point) { return micrometres(point.rounding_um); });
  const auto of_crystals = [&](const std::string& what, const std::function<Text(const firing::PointResult&)>& reading) {
    rows.push_back(row(rehearsal, what,
                       of_point([reading](const firing::PointResult& point) { return crystallises(point) ? reading(point) : Text(); })));
  };
  of_crystals("crystals, last step", [](const auto& point) { return percent(100.0 * point.fraction.back()); });
  of_crystals("crystals, length", [](const auto& point) { return point.crystal_um > 0 ? Text(micrometres(point.crystal_um)) : Text(); });
}

}  // namespace

std::vector<TableRow> numbers_of(const Rehearsal& rehearsal, TemperatureScale scale) {
  std::vector<TableRow> rows;
  add_heat(rows, rehearsal, scale);
  add_comparison(rows, rehearsal, scale);
  add_water(rows, rehearsal);
  add_pores(rows, rehearsal, scale);
  const auto says_nothing = [](const TableRow& each) {
    return std::all_of(each.by_piece.begin(), each.by_piece.end(), [](const std::string& text) { return text == "-"; });
  };
  rows.erase(std::remove_if(rows.begin(), rows.end(), says_nothing), rows.end());
  return rows;
}

}  // namespace heatwork::report
