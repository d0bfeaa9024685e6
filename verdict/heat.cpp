// What the piece reaches against what the display shows.
#include <algorithm>
#include <cmath>
#include <vector>

#include "verdict/bench.h"

namespace heatwork::verdict {

void judge_heat(Bench& bench, const PieceCase& piece) {
  const firing::PieceResult& here = *piece.here;
  const std::string sentence = bench.sentence("findings.heat.reaches", {{"piece", here.piece},
                                                                        {"surface", bench.degrees(here.peak_surface_C)},
                                                                        {"core", bench.degrees(here.peak_core_C)},
                                                                        {"display", bench.degrees(here.peak_display_C)},
                                                                        {"chamber", bench.degrees(here.peak_chamber_C)}});
  const std::string decides =
      here.deciding_point >= 0 ? "" : ' ' + bench.sentence("findings.heat.nothing_decides", {{"piece", here.piece}});
  if (piece.maker == nullptr) {
    Finding& finding =
        bench.add(untold(Aspect::heat, here.piece, sentence + decides + ' ' + bench.say("findings.heat.nothing_to_compare")));
    finding.number = here.peak_core_C;
    finding.unit = "°C";
    finding.change = way_to_compare(bench);
    return;
  }
  const Number difference_K =
      bench.banded(Aspect::heat, piece, [](const PieceCase& one) { return one.here->peak_core_C - one.maker->peak_core_C; });
  Finding finding = judged(bench, Aspect::heat, here.piece, difference_K, "core_peak", Side::either, sentence + decides,
                           bench.degrees(piece.maker->peak_core_C));
  if (finding.level != Level::sound)
    finding.change = bench.say(decides.empty() ? "findings.heat.see_degree" : "findings.degree.change_program");
  bench.add(std::move(finding));
}

void judge_unknown_tray(Bench& bench) {
  const std::string& tray = bench.rehearsal.request.tray.name;
  std::string hanging;
  for (const std::string_view aspect :
       {"water", "burst", "organics", "vacuum", "pores", "degree_of_firing", "gloss_and_edges", "sag", "crystals", "leucite"}) {
    if (!hanging.empty()) hanging += ", ";
    hanging += bench.say("aspects." + std::string(aspect));
  }
  const auto sinters = [](const firing::PieceResult& piece) {
    return std::any_of(piece.points.begin(), piece.points.end(), [](const firing::PointResult& point) { return point.curve.has_value(); });
  };
  const std::vector<firing::PieceResult>& pieces = bench.rehearsal.firing.pieces;
  if (std::any_of(pieces.begin(), pieces.end(), sinters)) hanging += ", " + bench.say(word_key(Aspect::zirconia));
  double low_C = 0, high_C = 0;
  bool first = true;
  for (const firing::FiringResult* result :
       {&bench.rehearsal.firing, bench.rehearsal.heaviest ? &*bench.rehearsal.heaviest : &bench.rehearsal.firing}) {
    for (const firing::PieceResult& piece : result->pieces) {
      low_C = first ? piece.peak_core_C : std::min(low_C, piece.peak_core_C);
      high_C = first ? piece.peak_core_C : std::max(high_C, piece.peak_core_C);
      first = false;
    }
  }
  Finding& finding = bench.add(
      untold(Aspect::heat, "",
             bench.sentence(
                 "findings.heat.tray_unknown",
                 {{"tray", tray}, {"hanging", hanging}, {"low", bench.number(bench.in_degrees(low_C))}, {"high", bench.degrees(high_C)}})));
  finding.low = low_C;
  finding.high = high_C;
  finding.unit = "°C";
  finding.change = bench.say("findings.heat.weigh_tray", {{"tray", tray}});
}

}  // namespace heatwork::verdict
