#include <algorithm>

#include "verdict/bench.h"
#include "verdict/finding.h"
#include "verdict/program_checks.h"

namespace heatwork::verdict {
namespace {

/// What can be said of the program before anything is computed.
void judge_program(Bench& bench) {
  judge_units(bench);
  judge_panel(bench);
  judge_maximum(bench);
  judge_impossible(bench);
  judge_instruction(bench);
  judge_chamber(bench);
  judge_entry(bench);
  judge_drying(bench);
  judge_glaze_vacuum(bench);
  judge_cooling(bench);
  judge_zirconia_furnace(bench);
  if (bench.rehearsal.impossible) judge_furnace(bench, {});
}

/// What the rehearsal shows.
void judge_rehearsed(Bench& bench) {
  const std::vector<PieceCase> cases = cases_of(bench.rehearsal);
  judge_furnace(bench, cases);
  judge_hold_start(bench);
  judge_vacuum_level(bench, cases);
  if (!bench.rehearsal.tray_known) {
    judge_unknown_tray(bench);
    return;
  }
  for (const PieceCase& piece : cases) {
    judge_water(bench, piece);
    judge_burst(bench, piece);
    judge_organics(bench, piece);
    judge_heat(bench, piece);
    judge_vacuum(bench, piece);
    judge_pores(bench, piece);
    judge_degree(bench, piece);
    judge_gloss(bench, piece);
    judge_sag(bench, piece);
    judge_crystals(bench, piece);
    judge_leucite(bench, piece);
    judge_stress(bench, piece);
    judge_frame(bench, piece);
    judge_zirconia(bench, piece);
    judge_refiring(bench, piece);
  }
}

}  // namespace

Verdict judge(const firing::Rehearsal& rehearsal, const trade::Limits& limits, const trade::Words& words, quantity::UnitSystem units) {
  Bench bench(rehearsal, limits, words, units);
  judge_program(bench);
  if (!rehearsal.impossible) judge_rehearsed(bench);
  Verdict verdict;
  // A display that is not known sharply has advice of its own.
  for (Finding& finding : bench.findings)
    if (!finding.narrow.empty() && finding.aspect != Aspect::furnace) {
      finding.change = finding.narrow;
      finding.advised.clear();
    }
  verdict.findings = merged(std::move(bench.findings));
  // Pieces of one level and aspect stay in the order of the firing.
  std::stable_sort(verdict.findings.begin(), verdict.findings.end(),
                   [](const Finding& a, const Finding& b) { return std::pair(a.level, a.aspect) < std::pair(b.level, b.aspect); });
  verdict.fault_expected = std::any_of(verdict.findings.begin(), verdict.findings.end(),
                                       [](const Finding& finding) { return finding.level == Level::fault_expected; });
  return verdict;
}

}  // namespace heatwork::verdict
