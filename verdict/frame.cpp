// Metal frames: how far the firing stays below the temperature at which the alloy begins to melt, and what that means for a long span.
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

/// Teeth from which a frame counts as a long span.
constexpr std::size_t long_span = 3;

}  // namespace

void judge_frame(Bench& bench, const PieceCase& piece) {
  const trade::Material* metal = metal_of(bench.rehearsal.request, *piece.piece);
  if (metal == nullptr) return;
  const trade::Estimate& solidus = *metal->find("solidus");
  // The maker of the porcelain does not know the alloy: his own firing excuses nothing here.
  Number margin = bench.banded(Aspect::frame, piece, [&](const PieceCase& one) { return solidus.value - one.here->peak_surface_C; });
  // The alloy's own range: of a class wide, of the lab's own from its sheet narrow.
  widen(margin.low, margin.high, margin.nominal, solidus.value - solidus.low, solidus.high - solidus.value);
  std::string sentence = bench.sentence("findings.frame.margin", {{"piece", piece.here->piece},
                                                                  {"metal", metal->label.empty() ? metal->name : metal->label},
                                                                  {"temperature", bench.degrees(piece.here->peak_surface_C)},
                                                                  {"margin", bench.kelvins(margin.nominal)},
                                                                  {"solidus", bench.degrees(solidus.value)}});
  if (piece.piece->teeth.size() >= long_span)
    sentence += ' ' + bench.sentence("findings.frame.span", {{"units", bench.number(static_cast<double>(piece.piece->teeth.size()))}});
  Finding finding = judged(bench, Aspect::frame, piece.here->piece, margin, "solidus_margin", Side::below, std::move(sentence));
  if (finding.level == Level::sound) return;  // an ordinary firing of an ordinary alloy is not worth a line
  finding.change = bench.say("findings.frame.cooler");
  bench.add(std::move(finding));
}

}  // namespace heatwork::verdict
