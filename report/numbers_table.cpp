#include "report/numbers_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>

#include "report/readings.h"
#include "report/stress_readings.h"

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

/// Rows of one table, each said and read in one go.
class Rows {
 public:
  Rows(const Rehearsal& rehearsal, const Numbers& numbers) : rehearsal_(rehearsal), numbers_(numbers) {}
  void add_heat();
  void add_comparison();
  void add_water();
  void add_pores();
  void add_stress();
  std::vector<TableRow> rows;

 private:
  using Text = std::optional<std::string>;
  using OfPoint = std::function<Text(const firing::PointResult&)>;
  void put(std::string_view key, const Reading& reading) { rows.push_back(row(rehearsal_, numbers_.say(key), reading)); }
  /// Under the row before, set in.
  void put_under(std::string_view key, const OfPoint& reading) { put_powder("  " + numbers_.say(key), reading); }
  void put_powder(const std::string& what, const OfPoint& reading) {
    rows.push_back(
        row(rehearsal_, what, of_point([reading](const firing::PointResult& point) { return sinters(point) ? reading(point) : Text(); })));
  }
  void put_crystals(std::string_view key, const OfPoint& reading) {
    put(key, of_point([reading](const firing::PointResult& point) { return crystallises(point) ? reading(point) : Text(); }));
  }
  [[nodiscard]] std::string side(double value, const std::string& by) const {
    return numbers_.say(value < 0 ? "table.less" : "table.more", {{"by", by}});
  }

  const Rehearsal& rehearsal_;
  const Numbers& numbers_;
};

void Rows::add_heat() {
  const auto peak = [&](std::string_view key, double PieceResult::*value_C) {
    put(key, [this, value_C](const PieceResult& piece) { return numbers_.temperature(piece.*value_C); });
  };
  peak("table.display", &PieceResult::peak_display_C);
  peak("table.chamber", &PieceResult::peak_chamber_C);
  peak("table.surface", &PieceResult::peak_surface_C);
  peak("table.core", &PieceResult::peak_core_C);
}

void Rows::add_comparison() {
  TableRow heat{numbers_.say("table.like_heat"), {}}, hold{"  " + numbers_.say("table.like_hold"), {}};
  for (std::size_t i = 0; i < rehearsal_.firing.pieces.size(); ++i) {
    const firing::Comparison none;
    const firing::Comparison& comparison = i < rehearsal_.compared.size() ? rehearsal_.compared[i] : none;
    std::string shift = "-", time = "-";
    if (comparison.shift_K) shift = side(*comparison.shift_K, numbers_.difference(*comparison.shift_K));
    if (comparison.shift_beyond) shift = numbers_.say("numbers.over", {{"value", numbers_.difference(150)}});
    if (comparison.hold_s) time = side(*comparison.hold_s, numbers_.duration(*comparison.hold_s));
    if (comparison.hold_beyond_whole) time = numbers_.say("table.whole_hold");
    if (comparison.hold_beyond_hour) time = numbers_.say("table.hour_hold");
    heat.by_piece.push_back(shift);
    hold.by_piece.push_back(time);
  }
  rows.push_back(heat);
  rows.push_back(hold);
}

void Rows::add_water() {
  const auto wet = [](const PieceResult& piece) {
    return std::any_of(piece.sections.begin(), piece.sections.end(),
                       [](const auto& section) { return section.water_start_g > 0 || section.not_water; });
  };
  const auto worst = [this, wet](const PieceResult& piece, double firing::SectionResult::*share) -> Text {
    if (!wet(piece)) return std::nullopt;
    double most = 0;
    for (const auto& section : piece.sections) {
      if (section.not_water) return numbers_.say("table.cannot_tell");
      most = std::max(most, section.*share);
    }
    return numbers_.percent(most);
  };
  put("table.dry_at", [this, wet](const PieceResult& piece) -> Text {
    if (!wet(piece)) return std::nullopt;
    double last_s = 0;
    for (const auto& section : piece.sections) {
      if (section.not_water) return numbers_.say("table.cannot_tell");
      if (section.water_start_g > 0 && section.dry_s < 0) return numbers_.say("table.never");
      last_s = std::max(last_s, section.dry_s);
    }
    return numbers_.duration(last_s);
  });
  put("table.water_at_closing", [worst](const PieceResult& piece) { return worst(piece, &firing::SectionResult::water_at_close_percent); });
  put("table.water_at_vacuum", [worst](const PieceResult& piece) { return worst(piece, &firing::SectionResult::water_at_vacuum_percent); });
}

void Rows::add_pores() {
  put_powder(numbers_.say("table.half_sealed_at"), [this](const auto& point) -> Text {
    if (!point.sealed_trace.empty() && point.sealed_trace.front() >= 0.5) return numbers_.say("table.before");
    return point.half_sealed_s < 0 ? numbers_.say("table.never") : numbers_.duration(point.half_sealed_s);
  });
  put_under("table.temperature_there",
            [this](const auto& point) { return point.half_sealed_s < 0 ? Text() : numbers_.temperature(point.half_sealed_C); });
  put_under("table.pressure_then",
            [this](const auto& point) { return point.half_sealed_s < 0 ? Text() : numbers_.pressure(point.pressure_at_sealing_Pa); });
  put_powder(numbers_.say("table.porosity"), [this](const auto& point) { return numbers_.percent(point.porosity_percent); });
  put_powder(numbers_.say("table.edges"), [this](const auto& point) { return numbers_.micrometres(point.rounding_um); });
  put_crystals("table.crystals", [this](const auto& point) { return numbers_.percent(100.0 * point.fraction.back()); });
  put_crystals("table.crystals_length",
               [this](const auto& point) { return point.crystal_um > 0 ? Text(numbers_.micrometres(point.crystal_um)) : Text(); });
  put("table.density", of_point([this](const firing::PointResult& point) {
        return point.curve ? Text(numbers_.percent(100.0 * point.sintered_density)) : Text();
      }));
  put("table.grain",
      of_point([this](const firing::PointResult& point) { return point.curve ? Text(numbers_.micrometres(point.grain_um)) : Text(); }));
  put("table.frame_sag", [this](const PieceResult& piece) -> Text {
    if (!piece.frame_sag || !piece.frame_sag->most_um) return std::nullopt;
    return numbers_.micrometres(*piece.frame_sag->most_um);
  });
}

void Rows::add_stress() {
  if (!tells_stress(rehearsal_)) return;
  const auto put_figure = [this](std::string_view key, double physics::LayerCooling::*figure) {
    put(key, [this, figure](const PieceResult& piece) -> Text {
      const auto worst = figure == &physics::LayerCooling::radial_at_inner_Pa ? strongest_pull(piece) : worst_glass(piece);
      if (!worst) return std::nullopt;
      const auto* band = worst->interval(figure);
      if (band == nullptr) return stress(worst->glass().*figure, numbers_);
      return numbers_.say("table.stress_band", {{"stress", bare_stress(worst->glass().*figure, numbers_)},
                                                {"low", bare_stress(band->low_Pa, numbers_)},
                                                {"high", bare_stress(band->high_Pa, numbers_)}});
    });
  };
  put_figure("table.tension_on_the_way", &physics::LayerCooling::transient_highest_Pa);
  put_figure("table.tension_that_stays", &physics::LayerCooling::highest_hoop_Pa);
  put_figure("table.tension_between_layers", &physics::LayerCooling::radial_at_inner_Pa);
  put("table.stress_of", [this](const PieceResult& piece) -> Text {
    const auto worst = worst_glass(piece);
    return worst ? worst->section->section : numbers_.say("table.stress_not_computed");
  });
  rows.push_back(row(rehearsal_, "  " + numbers_.say("table.taken_as"), [this](const PieceResult& piece) -> Text {
    const auto worst = worst_glass(piece);
    return worst ? Text(form_in_words(worst->form->form, numbers_)) : std::nullopt;
  }));
}

}  // namespace

std::vector<TableRow> numbers_of(const Rehearsal& rehearsal, const Numbers& numbers) {
  Rows made(rehearsal, numbers);
  made.add_heat();
  made.add_comparison();
  made.add_water();
  made.add_pores();
  made.add_stress();
  std::vector<TableRow>& rows = made.rows;
  const auto says_nothing = [](const TableRow& each) {
    return std::all_of(each.by_piece.begin(), each.by_piece.end(), [](const std::string& text) { return text == "-"; });
  };
  rows.erase(std::remove_if(rows.begin(), rows.end(), says_nothing), rows.end());
  return rows;
}

}  // namespace heatwork::report
