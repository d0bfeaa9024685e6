// One more firing of layers that are fired already: how many there were, what is carried in, and what nobody has computed.
#include <algorithm>

#include "verdict/bench.h"

namespace heatwork::verdict {
namespace {

/// True where the stress that earlier firings left was followed on through this one, or was let go in it.
bool stress_is_carried(const firing::PieceResult& piece) {
  return std::any_of(piece.stress.begin(), piece.stress.end(), [](const firing::SectionStress& section) { return !section.forms.empty(); });
}

}  // namespace

void judge_refiring(Bench& bench, const PieceCase& piece) {
  const std::vector<trade::ResolvedFiring>& earlier = bench.rehearsal.request.earlier;
  const auto before = std::count_if(earlier.begin(), earlier.end(), [&](const trade::ResolvedFiring& firing) {
    return std::any_of(firing.pieces.begin(), firing.pieces.end(), [&](const trade::Piece& one) { return one.name == piece.piece->name; });
  });
  if (before == 0) return;
  double minutes = 0, here = 0;
  for (const firing::PointResult& point : piece.here->points) {
    if (point.leucite_minutes_before + point.leucite_minutes <= minutes) continue;
    minutes = point.leucite_minutes_before + point.leucite_minutes;
    here = point.leucite_minutes;
  }
  std::string sentence = bench.sentence("findings.refiring.count", {{"piece", piece.here->piece},
                                                                    {"count", bench.number(static_cast<double>(before + 1))},
                                                                    {"before", bench.number(static_cast<double>(before))}});
  if (minutes > 0)
    sentence += ' ' + bench.say("findings.refiring.minutes", {{"minutes", bench.number(minutes, 1)}, {"here", bench.number(here, 1)}});
  sentence += ' ' + bench.say("findings.refiring.pores_stay") + ' ' +
              bench.say(stress_is_carried(*piece.here) ? "findings.refiring.not_computed" : "findings.refiring.nor_stress");
  Finding finding =
      judged(bench, Aspect::refiring, piece.here->piece, {static_cast<double>(before + 1)}, "firings", Side::above, std::move(sentence));
  if (finding.level != Level::sound) finding.change = bench.say("findings.refiring.fewer");
  bench.add(std::move(finding));
}

}  // namespace heatwork::verdict
