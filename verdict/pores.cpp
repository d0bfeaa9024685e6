// Pores left at the end, against the maker's own firing or alone.
#include <algorithm>
#include <cmath>
#include <optional>

#include "verdict/bench.h"

namespace heatwork::verdict {
namespace {

/// The deciding point with the most porosity over the maker's, or the most porosity where there is none.
std::optional<std::size_t> worst_point(const PieceCase& piece) {
  std::optional<std::size_t> worst;
  const auto badness = [&](std::size_t i) {
    const firing::PointResult* maker = piece.maker_point(i);
    return piece.here->points[i].porosity_percent - (maker != nullptr ? maker->porosity_percent : 0);
  };
  for (std::size_t i = 0; i < piece.here->points.size(); ++i) {
    const firing::PointResult& point = piece.here->points[i];
    if (!point.decides || !point.viscous) continue;
    if (!worst || badness(i) > badness(*worst)) worst = i;
  }
  return worst;
}

/// What to change, by what the pores lived through.
std::string_view cure(const Bench& bench, const firing::PointResult& point, const firing::PointResult* maker) {
  const firing::ChamberMoment* released = bench.rehearsal.firing.chamber.find(firing::ChamberEvent::released);
  if (point.sealed_s < 0) return "findings.pores.fire_more";
  if (bench.rehearsal.firing.chamber.find(firing::ChamberEvent::vacuum_started) == nullptr) return "findings.vacuum.start_it";
  if (100 * point.sealed_share_at_vacuum_start > bench.limits.at("sealed_before_vacuum").first) return "findings.vacuum.start_earlier";
  if (released != nullptr && point.sealed_s > released->time_s) return "findings.vacuum.release_later";
  if (maker != nullptr && point.pressure_at_sealing_Pa > 1.2 * maker->pressure_at_sealing_Pa) return "findings.vacuum.mend_pump";
  return "findings.pores.look_at_vacuum";
}

}  // namespace

void judge_pores(Bench& bench, const PieceCase& piece) {
  const auto worst = worst_point(piece);
  if (!worst) return;
  const firing::PointResult& point = piece.here->points[*worst];
  const firing::PointResult* maker = piece.maker_point(*worst);
  const std::string& section = piece.section_name(point);
  const bool at_least = piece.here->sections[static_cast<std::size_t>(point.section)].on_rigid_frame;
  std::string sentence =
      bench.sentence(at_least ? "findings.pores.at_least" : "findings.pores.left",
                     {{"piece", piece.here->piece}, {"section", section}, {"porosity", bench.rounded(point.porosity_percent)}});
  // A difference to the maker's firing is no limit of physics alone: nothing is excused by the maker's own number.
  const auto alone = [&](const PieceCase& one) { return one.here->points[*worst].porosity_percent; };
  const auto over_maker = [&](const PieceCase& one) { return alone(one) - one.maker_point(*worst)->porosity_percent; };
  Finding finding = maker != nullptr
                        ? judged(bench, Aspect::pores, piece.here->piece, bench.banded(Aspect::pores, piece, over_maker),
                                 "porosity_over_maker", Side::above, std::move(sentence), bench.rounded(maker->porosity_percent) + " %")
                        : judged(bench, Aspect::pores, piece.here->piece, bench.banded(Aspect::pores, piece, alone, {}, 0), "porosity",
                                 Side::above, std::move(sentence));
  if (finding.level != Level::sound) finding.change = bench.say(cure(bench, point, maker));
  finding.where = section;
  bench.add(std::move(finding));
}

}  // namespace heatwork::verdict
