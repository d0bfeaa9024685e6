#include "firing/inputs_hash.h"

#include <fmt/format.h>

#include "physics/powder.h"
#include "physics/zirconia_sintering.h"
#include "trade/writer.h"

namespace heatwork::firing {
namespace {

void append(std::string& text, const char* what, const std::vector<double>& values) {
  text += what;
  for (const double value : values) text += fmt::format(" {:a}", value);
  text += '\n';
}

void append(std::string& text, const PointState& point) {
  if (point.powder) append(text, "powder", physics::canonical_values(*point.powder));
  if (point.crystals) {
    std::vector<double> values = point.crystals->z;
    values.insert(values.end(), {point.crystals->loss, point.crystals->crystal_um, point.crystals->highest_K});
    append(text, "crystals", values);
  }
  if (point.zirconia) append(text, "zirconia", physics::canonical_values(*point.zirconia));
  if (point.leucite_minutes > 0) append(text, "leucite", {point.leucite_minutes});
}

}  // namespace

std::string inputs_hash(const trade::ResolvedFiring& request, const std::vector<PieceState>& start, bool stress) {
  std::string text = fmt::format("model {}\n", model_version) + trade::canonical_text(request, stress);
  for (const PieceState& piece : start) {
    text += "state\n";
    for (const PointState& point : piece.points) append(text, point);
    if (!stress) continue;
    for (const SectionStressState& section : piece.stress)
      for (const FormStressState& form : section.forms) append(text, section.must_melt ? "laid on" : "stress", form.state);
  }
  return trade::blake2b_256(text);
}

std::string kept_under(const std::string& inputs_hash, const trade::ResolvedFiring& request) {
  std::string key = inputs_hash;
  for (const trade::Piece& piece : request.pieces)
    for (const trade::Section& section : piece.sections) {
      key += '\n' + section.name;
      for (const trade::Layer& layer : section.layers) key += '\t' + layer.material.value;
    }
  return key;
}

}  // namespace heatwork::firing
