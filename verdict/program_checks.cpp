#include "verdict/program_checks.h"

#include <algorithm>

#include "firing/load_of_firing.h"

namespace heatwork::verdict {

Finding broken_rule(const Bench& bench, Aspect aspect, std::string_view rule, std::string sentence, std::string change) {
  const trade::Rule& broken = bench.limits.rule(rule);
  Finding finding;
  finding.aspect = aspect;
  finding.level = broken.level == trade::RuleLevel::fault_expected ? Level::fault_expected : Level::borderline;
  finding.sentence = std::move(sentence);
  finding.change = std::move(change);
  finding.limit_from = broken.of_lab ? LimitFrom::lab : LimitFrom::heatwork;
  return finding;
}

namespace {

void join(std::string& text, const std::string& more) {
  if (more.empty() || text.find(more) != std::string::npos) return;
  if (!text.empty()) text += ' ';
  text += more;
}

}  // namespace

std::vector<Finding> merged(std::vector<Finding> findings) {
  std::stable_sort(findings.begin(), findings.end(), [](const Finding& a, const Finding& b) { return a.level < b.level; });
  std::vector<Finding> kept;
  for (Finding& finding : findings) {
    const auto same = std::find_if(kept.begin(), kept.end(),
                                   [&](const Finding& other) { return other.aspect == finding.aspect && other.piece == finding.piece; });
    if (same == kept.end()) {
      kept.push_back(std::move(finding));
    } else if (finding.level != Level::sound || same->level == Level::sound) {
      join(same->sentence, finding.sentence);
      join(same->change, finding.change);
      for (Advised& advised : finding.advised) {
        const bool there =
            std::any_of(same->advised.begin(), same->advised.end(), [&](const Advised& one) { return one.key == advised.key; });
        if (!there) same->advised.push_back(std::move(advised));
      }
      same->band_follows = same->band_follows || finding.band_follows;
    }
  }
  return kept;
}

std::vector<const trade::Material*> materials_fired(const trade::ResolvedFiring& request, const trade::Piece& piece) {
  std::vector<const trade::Material*> green, all;
  for (const trade::Section& section : piece.sections) {
    for (const trade::Layer& layer : section.layers) {
      const auto found = request.materials.find(layer.material.value);
      if (found == request.materials.end()) continue;
      all.push_back(&found->second);
      if (layer.green) green.push_back(&found->second);
    }
  }
  return green.empty() ? all : green;
}

bool goes_in_wet(const trade::Piece& piece) {
  return std::any_of(piece.sections.begin(), piece.sections.end(), [](const trade::Section& section) {
    return std::any_of(section.layers.begin(), section.layers.end(),
                       [](const trade::Layer& layer) { return layer.green && layer.liquid.has_value(); });
  });
}

bool liquid_not_computed(const trade::ResolvedFiring& request, const trade::Piece& piece) {
  const firing::Stock stock{request.materials, request.liquids, request.supports};
  return std::any_of(piece.sections.begin(), piece.sections.end(), [&](const trade::Section& section) {
    return std::any_of(section.layers.begin(), section.layers.end(),
                       [&](const trade::Layer& layer) { return layer.green && firing::wet_with_other_than_water(layer, stock); });
  });
}

double top_C(const trade::Program& program) {
  double top = program.entry.value.celsius();
  for (const trade::HeatingStage& stage : program.heating) top = std::max(top, stage.to.value.celsius());
  return top;
}

const trade::HeatingStage* hottest_stage(const trade::Program& program) {
  const trade::HeatingStage* hottest = nullptr;
  for (const trade::HeatingStage& stage : program.heating)
    if (hottest == nullptr || stage.to.value.celsius() >= hottest->to.value.celsius()) hottest = &stage;
  return hottest;
}

}  // namespace heatwork::verdict
