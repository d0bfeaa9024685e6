#include <algorithm>

#include "verdict/bench.h"
#include "verdict/finding.h"

namespace heatwork::verdict {

Verdict judge(const firing::Rehearsal& rehearsal, const trade::Limits& limits, const trade::Words& words) {
  Bench bench(rehearsal, limits, words);
  const std::vector<PieceCase> cases = cases_of(rehearsal);
  judge_furnace(bench, cases);
  judge_vacuum_level(bench, cases);
  if (!rehearsal.tray_known) {
    judge_unknown_tray(bench);
  } else {
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
    }
  }
  Verdict verdict;
  verdict.findings = std::move(bench.findings);
  // Pieces of one level and aspect stay in the order of the firing.
  std::stable_sort(verdict.findings.begin(), verdict.findings.end(),
                   [](const Finding& a, const Finding& b) { return std::pair(a.level, a.aspect) < std::pair(b.level, b.aspect); });
  verdict.fault_expected = std::any_of(verdict.findings.begin(), verdict.findings.end(),
                                       [](const Finding& finding) { return finding.level == Level::fault_expected; });
  return verdict;
}

}  // namespace heatwork::verdict
