#include "report/stress_readings.h"

#include <algorithm>

#include "trade/sentences.h"

namespace heatwork::report {

const physics::StressInterval* GlassStress::interval(double physics::LayerCooling::*figure) const {
  return interval_of(*form, section->glass, figure);
}

const physics::StressInterval* interval_of(const firing::FormStress& form, std::size_t layer, double physics::LayerCooling::*figure) {
  if (!form.interval || layer >= form.interval->layers.size()) return nullptr;
  const auto at = std::find(physics::layer_stresses.begin(), physics::layer_stresses.end(), figure);
  return &form.interval->layers[layer].at(static_cast<std::size_t>(at - physics::layer_stresses.begin()));
}

bool tells_stress(const firing::Rehearsal& rehearsal) {
  const auto& pieces = rehearsal.firing.pieces;
  return std::any_of(pieces.begin(), pieces.end(), [](const auto& piece) { return !piece.stress.empty(); });
}

std::optional<GlassStress> worst_glass(const firing::PieceResult& piece) {
  std::optional<GlassStress> worst;
  for (const firing::SectionStress& section : piece.stress) {
    if (section.worst >= section.forms.size()) continue;
    const GlassStress one{&section, &section.forms[section.worst]};
    if (section.glass >= one.form->layers.size()) continue;
    if (!worst || one.glass().highest_hoop_Pa > worst->glass().highest_hoop_Pa) worst = one;
  }
  return worst;
}

std::optional<GlassStress> strongest_pull(const firing::PieceResult& piece) {
  std::optional<GlassStress> most;
  for (const firing::SectionStress& section : piece.stress) {
    if (section.glass == 0) continue;
    for (const firing::FormStress& form : section.forms) {
      const bool curved = form.form == physics::StressForm::sphere || form.form == physics::StressForm::cylinder;
      const GlassStress one{&section, &form};
      if (form.remark_only || !curved) continue;
      if (!most || one.glass().radial_at_inner_Pa > most->glass().radial_at_inner_Pa) most = one;
    }
  }
  return most;
}

std::vector<std::string> why_no_stress(const firing::PieceResult& piece, const trade::Words& reader) {
  std::vector<std::string> said;
  for (const firing::SectionStress& section : piece.stress) {
    if (section.not_computed.empty()) continue;
    const std::string sentence = trade::in_language(section.not_computed, reader);
    if (std::find(said.begin(), said.end(), sentence) == said.end()) said.push_back(sentence);
  }
  return said;
}

std::string form_in_words(physics::StressForm form, const Numbers& numbers) {
  std::string key = "forms." + std::string(firing::word(form));
  std::replace(key.begin(), key.end(), '-', '_');
  return numbers.say(key);
}

std::string stress(double value_Pa, const Numbers& numbers) {
  return numbers.shown(value_Pa / 1e6, "MPa");
}

std::string bare_stress(double value_Pa, const Numbers& numbers) {
  const std::string told = stress(value_Pa, numbers);
  return told.substr(0, told.rfind(' '));
}

double shown_until_s(double firing_ends_s) {
  return 1.25 * firing_ends_s;
}

}  // namespace heatwork::report
