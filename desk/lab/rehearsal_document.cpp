#include "desk/lab/rehearsal_document.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>
#include <utility>

#include "desk/version.h"
#include "report/readings.h"
#include "report/stress_readings.h"

namespace heatwork::desk {
namespace {

KeptFinding kept(const verdict::Finding& finding) {
  KeptFinding out;
  out.aspect = verdict::word(finding.aspect);
  out.level = verdict::word(finding.level);
  out.piece = finding.piece;
  out.sentence = finding.sentence;
  out.number = finding.number;
  out.unit = finding.unit;
  out.low = finding.low;
  out.high = finding.high;
  out.limit = finding.limit;
  if (finding.limit_from != verdict::LimitFrom::none) out.limit_from = verdict::word(finding.limit_from);
  out.narrow = finding.narrow;
  out.change = finding.change;
  out.where = finding.where;
  return out;
}

LayerReading reading(const firing::PieceResult& piece, const firing::PointResult& point) {
  LayerReading out;
  out.section = piece.sections.at(static_cast<std::size_t>(point.section)).name;
  out.material = point.material;
  if (report::sinters(point)) {
    out.porosity_percent = point.porosity_percent;
    if (!point.sealed_trace.empty()) out.sealed_share = point.sealed_trace.back();
    out.heat_work = point.heat_work;
    out.rounding_um = point.rounding_um;
  }
  if (report::crystallises(point) && !point.fraction.empty()) {
    out.crystallised_share = point.fraction.back();
    out.crystal_um = point.crystal_um;
  }
  return out;
}

/// Of each layer that decides the face that got least.
std::vector<LayerReading> layers_of(const firing::PieceResult& piece) {
  std::vector<const firing::PointResult*> least;
  for (const firing::PointResult& point : piece.points) {
    if (!point.decides) continue;
    const auto same = std::find_if(least.begin(), least.end(),
                                   [&](const auto* known) { return known->section == point.section && known->layer == point.layer; });
    if (same == least.end()) {
      least.push_back(&point);
    } else if (point.deciding < (*same)->deciding) {
      *same = &point;
    }
  }
  std::vector<LayerReading> layers;
  for (const firing::PointResult* point : least) layers.push_back(reading(piece, *point));
  return layers;
}

StressReading reading(const firing::SectionStress& section) {
  StressReading out;
  out.section = section.section;
  out.not_computed = section.not_computed;
  if (section.forms.empty()) return out;
  const report::GlassStress worst{&section, &section.forms.at(section.worst)};
  out.material = section.materials.at(section.glass);
  out.form = firing::word(worst.form->form);
  out.stays_MPa = worst.glass().highest_hoop_Pa / 1e6;
  out.on_the_way_MPa = worst.glass().transient_highest_Pa / 1e6;
  if (const auto* interval = worst.interval(&physics::LayerCooling::highest_hoop_Pa)) {
    out.low_MPa = interval->low_Pa / 1e6;
    out.high_MPa = interval->high_Pa / 1e6;
  }
  return out;
}

/// Of all sections; nothing where one was mixed with a liquid that is not modelled. [g]
std::optional<double> water_left(const firing::PieceResult& piece) {
  double left = 0;
  for (const firing::SectionResult& section : piece.sections) {
    if (section.not_water) return std::nullopt;
    if (!(section.water_start_g > 0)) continue;
    if (section.water_g.empty()) return std::nullopt;
    left += section.water_g.back();
  }
  return left;
}

PieceReading reading(const firing::Rehearsal& rehearsal, std::size_t index) {
  const firing::PieceResult& piece = rehearsal.firing.pieces[index];
  PieceReading out;
  out.piece = piece.piece;
  if (index < rehearsal.compared.size() && rehearsal.compared[index].quantity != firing::DecidingQuantity::none) {
    out.quantity = firing::word(rehearsal.compared[index].quantity);
    out.shift_K = rehearsal.compared[index].shift_K;
    out.hold_s = rehearsal.compared[index].hold_s;
  }
  if (!rehearsal.tray_known) return out;  // heat is a band then: nothing is known of the piece
  out.peak_C = piece.peak_surface_C;
  out.water_left_g = water_left(piece);
  out.layers = layers_of(piece);
  for (const firing::SectionStress& section : piece.stress) out.stress.push_back(reading(section));
  return out;
}

}  // namespace

bool TextStoodFor::operator==(const TextStoodFor& other) const {
  return name.kind == other.name.kind && name.name == other.name.name && name.version == other.name.version &&
         name.snapshot == other.name.snapshot;
}

std::vector<PieceReading> piece_readings(const firing::Rehearsal& rehearsal) {
  std::vector<PieceReading> out;
  if (rehearsal.impossible) return out;
  for (std::size_t i = 0; i < rehearsal.firing.pieces.size(); ++i) out.push_back(reading(rehearsal, i));
  return out;
}

RehearsalDocument rehearsal_document(const Rehearsed& rehearsed, int firing_version, std::vector<TextStoodFor> used) {
  const firing::Rehearsal& rehearsal = rehearsed.rehearsal;
  RehearsalDocument out;
  out.firing = rehearsal.request.firing.name;
  out.firing_version = firing_version;
  out.program_version = program_version();
  out.data_version = data_version();
  out.model_version = rehearsal.model_version;
  out.seed = rehearsal.seed;
  out.inputs_hash = rehearsal.inputs_hash;
  out.used = std::move(used);
  out.impossible = rehearsal.impossible;
  for (const verdict::Finding& finding : rehearsed.verdict.findings) out.findings.push_back(kept(finding));
  out.pieces = piece_readings(rehearsal);
  if (!rehearsal.impossible) out.states = rehearsal.firing.end;
  // Stress fills more room than all else together, and is replayed where a later firing asks for it.
  for (firing::PieceState& state : out.states) state.stress.clear();
  return out;
}

}  // namespace heatwork::desk
