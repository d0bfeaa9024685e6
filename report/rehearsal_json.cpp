#include "report/rehearsal_json.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "firing/band.h"
#include "report/number.h"
#include "report/readings.h"
#include "report/stress_readings.h"
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

Json MPa(double value_Pa, const char* key) {
  return number(value_Pa / 1e6, key);
}

/// The stresses a layer ends with, and the highest on the way; with bands between what bounds its highest stresses lie.
Json layer_json(const firing::SectionStress& section, const firing::FormStress& form, std::size_t index) {
  const physics::LayerCooling& layer = form.layers[index];
  Json out = {{"material", index < section.materials.size() ? words(section.materials[index]) : Json(nullptr)},
              {"inner_hoop_MPa", MPa(layer.inner_hoop_Pa, "inner_hoop_MPa")},
              {"outer_hoop_MPa", MPa(layer.outer_hoop_Pa, "outer_hoop_MPa")},
              {"lowest_hoop_MPa", MPa(layer.lowest_hoop_Pa, "lowest_hoop_MPa")},
              {"highest_hoop_MPa", MPa(layer.highest_hoop_Pa, "highest_hoop_MPa")},
              {"radial_at_inner_MPa", MPa(layer.radial_at_inner_Pa, "radial_at_inner_MPa")},
              {"transient_highest_MPa", MPa(layer.transient_highest_Pa, "transient_highest_MPa")}};
  const auto bounds = [&](double physics::LayerCooling::*figure, const char* low, const char* high) {
    const physics::StressInterval* interval = interval_of(form, index, figure);
    out[low] = interval ? MPa(interval->low_Pa, low) : Json(nullptr);
    out[high] = interval ? MPa(interval->high_Pa, high) : Json(nullptr);
  };
  bounds(&physics::LayerCooling::highest_hoop_Pa, "low_MPa", "high_MPa");
  bounds(&physics::LayerCooling::transient_highest_Pa, "transient_low_MPa", "transient_high_MPa");
  bounds(&physics::LayerCooling::radial_at_inner_Pa, "radial_low_MPa", "radial_high_MPa");
  return out;
}

/// What is told of every form alike.
Json form_json(const firing::SectionStress& section, const firing::FormStress& form) {
  const bool curved = form.form == physics::StressForm::sphere || form.form == physics::StressForm::cylinder;
  Json out = {{"form", std::string(firing::word(form.form))},
              {"inner_radius_mm", curved ? number(form.inner_radius_m * 1e3, "inner_radius_mm") : Json(nullptr)},
              {"remark_only", form.remark_only},
              {"layers", Json::array()},
              {"error_MPa", MPa(form.error_Pa, "error_MPa")}};
  for (std::size_t i = 0; i < form.layers.size(); ++i) out["layers"].push_back(layer_json(section, form, i));
  return out;
}

Json lever_json(const firing::StressLever& lever) {
  return {{"what", std::string(firing::word(lever.what))},
          {"to_C", number(lever.to_C, "to_C")},
          {"rate_K_per_min", number(lever.rate_K_per_s * 60, "rate_K_per_min")},
          {"transient_before_MPa", MPa(lever.transient_before_Pa, "transient_before_MPa")},
          {"transient_after_MPa", MPa(lever.transient_after_Pa, "transient_after_MPa")},
          {"residual_before_MPa", MPa(lever.residual_before_Pa, "residual_before_MPa")},
          {"residual_after_MPa", MPa(lever.residual_after_Pa, "residual_after_MPa")}};
}

/// A section: its first form, the others beside it, and how it cooled. Where nothing was computed all but the reason is null or empty.
Json section_stress_json(const firing::SectionStress& section, const trade::Words& reader) {
  const bool computed = !section.forms.empty();
  Json out = {{"section", words(section.section)}, {"form", nullptr},     {"inner_radius_mm", nullptr}, {"remark_only", nullptr},
              {"layers", Json::array()},           {"error_MPa", nullptr}};
  if (computed) out.update(form_json(section, section.forms.front()));
  out["worst"] = computed ? words(firing::word(section.forms.at(section.worst).form)) : Json(nullptr);
  out["other_forms"] = Json::array();
  for (std::size_t i = 1; i < section.forms.size(); ++i) out["other_forms"].push_back(form_json(section, section.forms[i]));
  const auto where_computed = [&](double value, const char* key) { return computed ? number(value, key) : Json(nullptr); };
  out["glass"] = computed ? words(section.materials.at(section.glass)) : Json(nullptr);
  out["glass_layer"] = computed ? Json(section.glass) : Json(nullptr);
  out["glass_transition_C"] = where_computed(section.glass_transition_C, "glass_transition_C");
  out["started_C"] = where_computed(section.started_C, "started_C");
  out["carried_in"] = section.carried_in;
  out["opened_at_C"] = number(section.opened_at_C, "opened_at_C");
  out["cooling_K_per_min"] = where_computed(section.cooling_K_per_s * 60, "cooling_K_per_min");
  out["mismatch_ppm_per_K"] = where_computed(section.mismatch_per_K * 1e6, "mismatch_ppm_per_K");
  out["set_size"] = section.set_size;
  out["settled"] = section.set_size > 0 ? Json(section.settled) : Json(nullptr);
  out["levers"] = Json::array();
  for (const firing::StressLever& lever : section.levers) out["levers"].push_back(lever_json(lever));
  out["not_computed"] = section.not_computed.empty() ? Json(nullptr) : Json(trade::in_language(section.not_computed, reader));
  return out;
}

Json stress_json(const std::vector<firing::SectionStress>& sections, const trade::Words& reader) {
  Json all = Json::array();
  for (const firing::SectionStress& section : sections) all.push_back(section_stress_json(section, reader));
  return all;
}

Json end_state(const Rehearsal& rehearsal, const PieceResult& piece, const trade::Words& reader) {
  Json end = {{"water_left_g", nullptr},
              {"porosity_percent", nullptr},
              {"heat_work", nullptr},
              {"rounding_um", nullptr},
              {"crystallised_fraction", nullptr},
              {"crystal_um", nullptr},
              {"relative_density", nullptr},
              {"grain_um", nullptr},
              {"frame_sag_most_um", nullptr},
              {"stress", nullptr}};
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
  if (point && point->curve) {
    end["relative_density"] = number(point->sintered_density, "relative_density");
    end["grain_um"] = number(point->grain_um, "grain_um");
  }
  if (piece.frame_sag) end["frame_sag_most_um"] = number(piece.frame_sag->most_um, "frame_sag_most_um");
  if (!piece.stress.empty()) end["stress"] = stress_json(piece.stress, reader);
  return end;
}

Json piece_json(const Rehearsal& rehearsal, std::size_t index, const verdict::Verdict& verdict, const trade::Words& reader) {
  const PieceResult& piece = rehearsal.firing.pieces[index];
  const bool known = rehearsal.tray_known;
  return {{"piece", piece.piece},
          {"peak_C",
           {{"display", number(piece.peak_display_C, "display")},
            {"chamber", number(piece.peak_chamber_C, "chamber")},
            {"surface", known ? number(piece.peak_surface_C, "surface") : Json(nullptr)},
            {"core", known ? number(piece.peak_core_C, "core") : Json(nullptr)}}},
          {"compared", compared(rehearsal, index, verdict)},
          {"end", end_state(rehearsal, piece, reader)}};
}

/// A piece of a firing that was not rehearsed: all keys, nothing known.
Json unknown_piece(const std::string& piece) {
  Json out = {{"piece", piece}};
  for (const char* key : {"display", "chamber", "surface", "core"}) out["peak_C"][key] = nullptr;
  for (const char* key : {"quantity", "shift_K", "shift_low_K", "shift_high_K", "hold_s", "hold_low_s", "hold_high_s"})
    out["compared"][key] = nullptr;
  for (const char* key : {"water_left_g", "porosity_percent", "heat_work", "rounding_um", "crystallised_fraction", "crystal_um",
                          "relative_density", "grain_um", "frame_sag_most_um", "stress"})
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

/// Highest tension of the glass; empty without traces.
std::vector<double> in_MPa(const GlassStress& worst) {
  std::vector<double> values;
  if (worst.section->glass >= worst.form->highest_trace_Pa.size()) return values;
  for (const double value_Pa : worst.form->highest_trace_Pa[worst.section->glass]) values.push_back(value_Pa / 1e6);
  return values;
}

Json piece_traces(const PieceResult& piece, std::size_t points) {
  const firing::SectionResult* section = deciding_section(piece);
  const firing::PointResult* point = deciding_point(piece);
  const firing::PointResult none;
  const firing::PointResult& at = point ? *point : none;
  const auto stressed = worst_glass(piece);
  return {{"piece", piece.piece},
          {"surface_C", section ? column(section->surface_C, "surface_C") : Json(nullptr)},
          {"core_C", section ? column(section->core_C, "core_C") : Json(nullptr)},
          {"water_g", column(water_trace(piece, points), "water_g")},
          {"porosity_percent", column(at.porosity_trace_percent, "porosity_percent")},
          {"sealed_share", column(at.sealed_trace, "sealed_share")},
          {"rounding_um", column(at.rounding_trace_um, "rounding_um")},
          {"crystallised_fraction", column(at.fraction_trace, "crystallised_fraction")},
          {"relative_density", column(at.density_trace, "relative_density")},
          {"stress_s", stressed ? column(stressed->section->time_s, "stress_s") : Json(nullptr)},
          {"stress_MPa", stressed ? column(in_MPa(*stressed), "stress_MPa") : Json(nullptr)}};
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
  out["checks"] = checks_json(request.furnace_known, reader);
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
  for (std::size_t i = 0; i < rehearsal.firing.pieces.size(); ++i) out["pieces"].push_back(piece_json(rehearsal, i, verdict, reader));
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
