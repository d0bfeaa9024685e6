#include "report/rehearsal_json.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "firing/band.h"
#include "report/number.h"
#include "report/readings.h"
#include "trade/sentences.h"
#include "verdict/explanation.h"

namespace heatwork::report {
namespace {

using Json = nlohmann::ordered_json;
using firing::PieceResult;
using firing::Rehearsal;

Json number(double value, const char* key) {
  return written(value, key);
}
Json number(const std::optional<double>& value, const char* key) {
  return value ? Json(written(*value, key)) : Json(nullptr);
}
Json words(std::string_view text) {
  return text.empty() ? Json(nullptr) : Json(std::string(text));
}

Json column(const std::vector<double>& values, const char* key) {
  if (values.empty()) return nullptr;
  Json out = Json::array();
  for (const double value : values) out.push_back(written(value, key));
  return out;
}

const verdict::Finding* degree_of_firing(const verdict::Verdict& verdict, const std::string& piece) {
  for (const verdict::Finding& finding : verdict.findings) {
    if (finding.aspect == verdict::Aspect::degree_of_firing && finding.piece == piece && finding.unit == "K") return &finding;
  }
  return nullptr;
}

Json compared(const Rehearsal& rehearsal, std::size_t index, const verdict::Verdict& verdict) {
  const firing::Comparison none;
  const firing::Comparison& comparison = index < rehearsal.compared.size() ? rehearsal.compared[index] : none;
  const bool known = comparison.quantity != firing::DecidingQuantity::none;
  const verdict::Finding* band = degree_of_firing(verdict, rehearsal.firing.pieces[index].piece);
  const firing::Band hold = firing::band_of_hold(rehearsal, index);
  return {{"quantity", known ? Json(std::string(firing::word(comparison.quantity))) : Json(nullptr)},
          {"shift_K", number(comparison.shift_K, "shift_K")},
          {"shift_low_K", band ? number(band->low, "shift_low_K") : Json(nullptr)},
          {"shift_high_K", band ? number(band->high, "shift_high_K") : Json(nullptr)},
          {"hold_s", number(comparison.hold_s, "hold_s")},
          {"hold_low_s", number(hold.low, "hold_low_s")},
          {"hold_high_s", number(hold.high, "hold_high_s")}};
}

/// Sum over the sections at the end; null where a liquid is not modelled or no trace was kept. [g]
Json water_left(const PieceResult& piece) {
  double left = 0;
  for (const firing::SectionResult& section : piece.sections) {
    if (section.not_water) return nullptr;
    if (!(section.water_start_g > 0)) continue;
    if (section.water_g.empty()) return nullptr;
    left += section.water_g.back();
  }
  return number(left, "water_left_g");
}

Json end_state(const Rehearsal& rehearsal, const PieceResult& piece) {
  Json end = {{"water_left_g", nullptr}, {"porosity_percent", nullptr},      {"heat_work", nullptr},
              {"rounding_um", nullptr},  {"crystallised_fraction", nullptr}, {"crystal_um", nullptr}};
  if (!rehearsal.tray_known) return end;
  end["water_left_g"] = water_left(piece);
  const firing::PointResult* point = deciding_point(piece);
  if (point && sinters(*point)) {
    end["porosity_percent"] = number(point->porosity_percent, "porosity_percent");
    end["heat_work"] = number(point->heat_work, "heat_work");
    end["rounding_um"] = number(point->rounding_um, "rounding_um");
  }
  if (point && crystallises(*point)) {
    end["crystallised_fraction"] = number(point->fraction.back(), "crystallised_fraction");
    end["crystal_um"] = number(point->crystal_um, "crystal_um");
  }
  return end;
}

Json piece_json(const Rehearsal& rehearsal, std::size_t index, const verdict::Verdict& verdict) {
  const PieceResult& piece = rehearsal.firing.pieces[index];
  const bool known = rehearsal.tray_known;
  return {{"piece", piece.piece},
          {"peak_C",
           {{"display", number(piece.peak_display_C, "display")},
            {"chamber", number(piece.peak_chamber_C, "chamber")},
            {"surface", known ? number(piece.peak_surface_C, "surface") : Json(nullptr)},
            {"core", known ? number(piece.peak_core_C, "core") : Json(nullptr)}}},
          {"compared", compared(rehearsal, index, verdict)},
          {"end", end_state(rehearsal, piece)}};
}

/// A piece of a firing that was not rehearsed: all keys, nothing known.
Json unknown_piece(const std::string& piece) {
  Json out = {{"piece", piece}};
  for (const char* key : {"display", "chamber", "surface", "core"}) out["peak_C"][key] = nullptr;
  for (const char* key : {"quantity", "shift_K", "shift_low_K", "shift_high_K", "hold_s", "hold_low_s", "hold_high_s"})
    out["compared"][key] = nullptr;
  for (const char* key : {"water_left_g", "porosity_percent", "heat_work", "rounding_um", "crystallised_fraction", "crystal_um"})
    out["end"][key] = nullptr;
  return out;
}

Json explained(verdict::Aspect aspect) {
  const verdict::Explanation explanation = verdict::explanation_of(aspect);
  return {{"page", words(explanation.page)}, {"equation", words(explanation.equation)}, {"source", words(explanation.source)}};
}

Json advised_json(const verdict::Finding& finding) {
  Json all = Json::array();
  for (const verdict::Advised& one : finding.advised) all.push_back({{"of", "program"}, {"key", one.key}, {"value", one.value}});
  return all;
}

Json finding_json(const verdict::Finding& finding, const trade::Words& reader) {
  return {
      {"aspect", std::string(verdict::word(finding.aspect))},
      {"aspect_words", verdict::aspect_in_words(finding, reader)},
      {"level", std::string(verdict::word(finding.level))},
      {"level_words", verdict::level_in_words(finding, reader)},
      {"band_follows", finding.band_follows},
      {"piece", words(finding.piece)},
      {"sentence", finding.sentence},
      {"number", number(finding.number, "number")},
      {"unit", words(finding.unit)},
      {"low", number(finding.low, "low")},
      {"high", number(finding.high, "high")},
      {"limit", number(finding.limit, "limit")},
      {"limit_from", finding.limit_from == verdict::LimitFrom::none ? Json(nullptr) : Json(std::string(verdict::word(finding.limit_from)))},
      {"change", words(finding.change)},
      {"advised", advised_json(finding)},
      {"where", words(finding.where)},
      {"explain", explained(finding.aspect)}};
}

/// A column of the chamber on the pieces' time grid.
Json on_grid(const Rehearsal& rehearsal, const std::vector<double>& chamber_column, double factor, const char* key) {
  std::vector<double> values;
  values.reserve(rehearsal.firing.time_s.size());
  for (const double at_s : rehearsal.firing.time_s)
    values.push_back(factor * value_at(rehearsal.firing.chamber.time_s, chamber_column, at_s));
  return column(values, key);
}

/// Water of all sections at each time; empty where none was wet. [g]
std::vector<double> water_trace(const PieceResult& piece, std::size_t points) {
  std::vector<double> sum;
  for (const firing::SectionResult& section : piece.sections) {
    if (!(section.water_start_g > 0) || section.water_g.size() != points) continue;
    sum.resize(points, 0.0);
    for (std::size_t i = 0; i < points; ++i) sum[i] += section.water_g[i];
  }
  return sum;
}

Json piece_traces(const PieceResult& piece, std::size_t points) {
  const firing::SectionResult* section = deciding_section(piece);
  const firing::PointResult* point = deciding_point(piece);
  const firing::PointResult none;
  const firing::PointResult& at = point ? *point : none;
  return {{"piece", piece.piece},
          {"surface_C", section ? column(section->surface_C, "surface_C") : Json(nullptr)},
          {"core_C", section ? column(section->core_C, "core_C") : Json(nullptr)},
          {"water_g", column(water_trace(piece, points), "water_g")},
          {"porosity_percent", column(at.porosity_trace_percent, "porosity_percent")},
          {"sealed_share", column(at.sealed_trace, "sealed_share")},
          {"rounding_um", column(at.rounding_trace_um, "rounding_um")},
          {"crystallised_fraction", column(at.fraction_trace, "crystallised_fraction")}};
}

Json traces_json(const Rehearsal& rehearsal) {
  const firing::ChamberHistory& chamber = rehearsal.firing.chamber;
  Json traces = {{"s", column(rehearsal.firing.time_s, "s")},
                 {"display_C", on_grid(rehearsal, chamber.display_C, 1, "display_C")},
                 {"asked_C", on_grid(rehearsal, chamber.asked_C, 1, "asked_C")},
                 {"chamber_C", on_grid(rehearsal, chamber.chamber_C, 1, "chamber_C")},
                 {"pressure_mbar", on_grid(rehearsal, chamber.pressure_Pa, 0.01, "pressure_mbar")},
                 {"pieces", Json::array()}};
  for (const PieceResult& piece : rehearsal.firing.pieces) traces["pieces"].push_back(piece_traces(piece, rehearsal.firing.time_s.size()));
  return traces;
}

Json checks_json(const trade::FurnaceKnown& known, const trade::Words& reader) {
  Json all = Json::array();
  for (const trade::SaidOfCheck& said : known.said) {
    all.push_back({{"of", said.of},
                   {"check", said.check},
                   {"day", said.day},
                   {"used", said.used},
                   {"value", number(said.value, "value")},
                   {"standard_uncertainty", number(said.standard_uncertainty, "standard_uncertainty")},
                   {"unit", words(said.unit)},
                   {"sentence", trade::in_language(said.sentence, reader)}});
  }
  return all;
}

Json head(const Rehearsal& rehearsal, const MadeBy& made_by, const trade::Words& reader) {
  const trade::ResolvedFiring& request = rehearsal.request;
  Json out = {{"format", 1},
              {"program_version", words(made_by.program_version)},
              {"model_version", rehearsal.model_version},
              {"data_version", words(made_by.data_version)},
              {"inputs_hash", words(rehearsal.inputs_hash)},
              {"seed", rehearsal.seed},
              {"firing", words(request.firing.name)},
              {"furnace", words(request.furnace.name)},
              {"program", words(request.program.name)},
              {"instruction", request.instruction ? words(request.instruction->name) : Json(nullptr)},
              {"came_from", Json::object()}};
  for (const auto& [name, place] : request.came_from) out["came_from"][name] = place;
  out["reference"] = {{"tray", words(rehearsal.reference_tray)}, {"assumptions", Json::array()}};
  for (const std::string& assumption : rehearsal.assumptions)
    out["reference"]["assumptions"].push_back(trade::in_language(assumption, reader));
  if (!request.furnace_known.said.empty()) out["checks"] = checks_json(request.furnace_known, reader);
  return out;
}

Json kept_json(const std::optional<KeptAs>& kept) {
  if (!kept) return nullptr;
  return {{"firing", words(kept->firing)}, {"version", kept->version}, {"rehearsal", kept->rehearsal}, {"is_new", kept->is_new},
          {"added", kept->added},          {"differ", kept->differ},   {"head", words(kept->head)}};
}

}  // namespace

std::string rehearsal_json(const Rehearsal& rehearsal, const verdict::Verdict& verdict, const MadeBy& made_by, const trade::Words& reader,
                           bool traces) {
  Json out = head(rehearsal, made_by, reader);
  out["pieces"] = Json::array();
  for (std::size_t i = 0; i < rehearsal.firing.pieces.size(); ++i) out["pieces"].push_back(piece_json(rehearsal, i, verdict));
  if (rehearsal.impossible)
    for (const trade::Piece& piece : rehearsal.request.pieces) out["pieces"].push_back(unknown_piece(piece.name));
  out["moments"] = Json::array();
  for (const firing::Moment& moment : rehearsal.moments) {
    out["moments"].push_back({{"what", std::string(firing::word(moment.what))},
                              {"piece", words(moment.piece)},
                              {"at_s", number(moment.at_s, "at_s")},
                              {"display_C", number(moment.display_C, "display_C")}});
  }
  out["bands"] = rehearsal.bands;
  out["findings"] = Json::array();
  for (const verdict::Finding& finding : verdict.findings) out["findings"].push_back(finding_json(finding, reader));
  out["kept"] = kept_json(made_by.kept);
  // A name in a file may hold bytes that are no UTF-8: they are replaced, so that what is written can always be read.
  out["traces"] = nullptr;
  std::string text = out.dump(1, ' ', false, Json::error_handler_t::replace);
  if (traces && !rehearsal.impossible) {
    // The last key, on one line: a column of numbers down the page helps nobody.
    text.resize(text.rfind("null"));
    text += traces_json(rehearsal).dump(-1, ' ', false, Json::error_handler_t::replace) + "\n}";
  }
  return text + "\n";
}

}  // namespace heatwork::report
