// Gloss and edges, and the sag of what nothing supports.
#include <algorithm>
#include <cmath>
#include <optional>

#include "verdict/bench.h"

namespace heatwork::verdict {
namespace {

bool is_surface(const firing::PointResult& point) {
  return point.decides && point.viscous && point.outer_face;
}

std::optional<std::size_t> extreme_rounding(const PieceCase& piece, bool most) {
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < piece.here->points.size(); ++i) {
    const firing::PointResult& point = piece.here->points[i];
    if (!is_surface(point)) continue;
    const double best = found ? piece.here->points[*found].rounding_um : 0;
    if (!found || (most ? point.rounding_um > best : point.rounding_um < best)) found = i;
  }
  return found;
}

Finding rounding(const Bench& bench, const PieceCase& piece, std::size_t index, bool most) {
  const firing::PointResult& point = piece.here->points[index];
  const firing::PointResult* maker = piece.maker_point(index);
  const Number number = bench.banded(
      Aspect::gloss_and_edges, piece, [&](const PieceCase& one) { return one.here->points[index].rounding_um; },
      [&](const PieceCase& one) { return one.maker_point(index)->rounding_um; }, 0);
  // Of a ripple as wide as a grain, exp(-N) is left.
  const std::string grain_left = bench.rounded(100 * std::exp(-point.levelling_exponent));
  // Beyond the thickness of a veneer a length of rounding means nothing any more.
  constexpr double shapeless_um = 1000;
  const std::string sentence =
      point.rounding_um > shapeless_um
          ? bench.sentence("findings.gloss.shapeless", {{"piece", piece.here->piece}, {"section", piece.section_name(point)}})
          : bench.sentence("findings.gloss.rounding", {{"piece", piece.here->piece},
                                                       {"section", piece.section_name(point)},
                                                       {"rounding", bench.number(point.rounding_um)},
                                                       {"grain", grain_left}});
  Finding finding = judged(bench, Aspect::gloss_and_edges, piece.here->piece, number, most ? "rounding_most" : "rounding_least",
                           most ? Side::above : Side::below, sentence, maker != nullptr ? bench.number(maker->rounding_um) + " µm" : "");
  if (finding.level != Level::sound) finding.change = bench.say(most ? "findings.gloss.fire_less" : "findings.gloss.fire_more");
  finding.where = piece.section_name(point);
  return finding;
}

}  // namespace

void judge_gloss(Bench& bench, const PieceCase& piece) {
  const auto least = extreme_rounding(piece, false);
  const auto most = extreme_rounding(piece, true);
  if (!least || !most) return;
  Finding too_little = rounding(bench, piece, *least, false);
  Finding too_much = rounding(bench, piece, *most, true);
  if (too_little.level != too_much.level) {
    bench.add(too_little.level < too_much.level ? std::move(too_little) : std::move(too_much));
    return;
  }
  // Alike: the one nearer to its limit, as a ratio, is shown.
  const double below = bench.limits.at("rounding_least").first / std::max(1e-9, *too_little.number);
  const double above = *too_much.number / bench.limits.at("rounding_most").first;
  bench.add(below > above ? std::move(too_little) : std::move(too_much));
}

void judge_sag(Bench& bench, const PieceCase& piece) {
  std::optional<std::size_t> worst;
  for (std::size_t i = 0; i < piece.here->sections.size(); ++i) {
    if (!(piece.here->sections[i].sag_um > 0)) continue;
    if (!worst || piece.here->sections[i].sag_um > piece.here->sections[*worst].sag_um) worst = i;
  }
  if (!worst) return;
  const firing::SectionResult& section = piece.here->sections[*worst];
  const firing::SectionResult* maker = piece.maker_section(*worst);
  const Number number = bench.banded(
      Aspect::sag, piece, [&](const PieceCase& one) { return one.here->sections[*worst].sag_um; },
      [&](const PieceCase& one) { return one.maker_section(*worst)->sag_um; }, 0);
  Finding finding = judged(
      bench, Aspect::sag, piece.here->piece, number, "sag", Side::above,
      bench.sentence("findings.sag.tip", {{"piece", piece.here->piece}, {"section", section.name}, {"sag", bench.number(section.sag_um)}}),
      maker != nullptr ? bench.number(maker->sag_um) + " µm" : "");
  if (finding.level != Level::sound) finding.change = bench.say("findings.sag.support");
  finding.where = section.name;
  bench.add(std::move(finding));
}

}  // namespace heatwork::verdict
