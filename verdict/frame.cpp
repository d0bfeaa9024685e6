// Metal frames: how far the firing stays below the temperature at which the alloy begins to melt, and what that means for a long span.
#include <limits>
#include <optional>

#include "firing/frame_sag.h"
#include "firing/material_physics.h"
#include "verdict/bench.h"

namespace heatwork::verdict {
namespace {

/// The metal of the piece that melts first; nullptr without one whose solidus is known.
const trade::Material* metal_of(const trade::ResolvedFiring& request, const trade::Piece& piece) {
  const trade::Material* found = nullptr;
  for (const trade::Section& section : piece.sections) {
    for (const trade::Layer& layer : section.layers) {
      const auto material = request.materials.find(layer.material.value);
      if (material == request.materials.end() || material->second.kind != trade::MaterialKind::metal) continue;
      const trade::Estimate* solidus = firing::known_property(material->second, "solidus");
      if (solidus == nullptr) continue;
      if (found == nullptr || solidus->value < found->find("solidus")->value) found = &material->second;
    }
  }
  return found;
}

/// What is known of how far the frame of a span sinks: its bound, or why there is none. Empty for a short one.
std::string told_of_span(const Bench& bench, const PieceCase& piece) {
  const std::size_t units = piece.piece->teeth.size();
  if (units < firing::span_units) return {};
  const std::string told = bench.number(static_cast<double>(units));
  const std::optional<firing::FrameSag>& sag = piece.here->frame_sag;
  if (!sag) return bench.sentence("findings.frame.span", {{"units", told}});
  if (!sag->most_um) return bench.sentence("findings.frame.span_melts", {{"units", told}});
  return bench.sentence("findings.frame.span_bound",
                        {{"units", told},
                         {"span", bench.number(sag->span_mm)},
                         {"diameter", bench.number(2 * sag->radius_mm, 1)},
                         {"sag", *sag->most_um < 1 ? bench.say("findings.frame.below_one") : bench.rounded(*sag->most_um)}});
}

/// How far it stays below its solidus.
Finding told_of_margin(Bench& bench, const PieceCase& piece, const trade::Material& metal) {
  const trade::Estimate& solidus = *metal.find("solidus");
  // The maker of the porcelain does not know the alloy: his own firing excuses nothing here.
  Number margin = bench.banded(Aspect::frame, piece, [&](const PieceCase& one) { return solidus.value - one.here->peak_surface_C; });
  // The alloy's own range: of a class wide, of the lab's own from its sheet narrow.
  widen(margin.low, margin.high, margin.nominal, solidus.value - solidus.low, solidus.high - solidus.value);
  std::string sentence = bench.sentence("findings.frame.margin", {{"piece", piece.here->piece},
                                                                  {"metal", metal.label.empty() ? metal.name : metal.label},
                                                                  {"temperature", bench.degrees(piece.here->peak_surface_C)},
                                                                  {"margin", bench.kelvins(margin.nominal)},
                                                                  {"solidus", bench.degrees(solidus.value)}});
  Finding finding = judged(bench, Aspect::frame, piece.here->piece, margin, "solidus_margin", Side::below, std::move(sentence));
  if (finding.level != Level::sound) finding.change = bench.say("findings.frame.cooler");
  return finding;
}

/// The bound of its sag against the limit; nothing where there is none.
std::optional<Finding> told_of_sag(Bench& bench, const PieceCase& piece) {
  if (!piece.here->frame_sag || !piece.here->frame_sag->most_um) return std::nullopt;
  const Number most = bench.banded(Aspect::frame, piece, [](const PieceCase& one) {
    return one.here->frame_sag ? one.here->frame_sag->most_um.value_or(std::numeric_limits<double>::quiet_NaN())
                               : std::numeric_limits<double>::quiet_NaN();
  });
  Finding finding = judged(bench, Aspect::frame, piece.here->piece, most, "frame_sag", Side::above, {});
  finding.change = bench.say("findings.frame.support");
  return finding;
}

}  // namespace

void judge_frame(Bench& bench, const PieceCase& piece) {
  const trade::Material* metal = metal_of(bench.rehearsal.request, *piece.piece);
  if (metal == nullptr) return;
  Finding finding = told_of_margin(bench, piece, *metal);
  const std::string span = told_of_span(bench, piece);
  if (finding.level == Level::sound && span.empty()) return;  // an ordinary firing of an ordinary alloy is not worth a line
  if (std::optional<Finding> sag = told_of_sag(bench, piece); sag && sag->level < finding.level) {
    sag->sentence = finding.sentence;
    finding = std::move(*sag);
  }
  if (!span.empty()) finding.sentence += ' ' + span;
  bench.add(std::move(finding));
}

}  // namespace heatwork::verdict
