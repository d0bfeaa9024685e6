#include "firing/moments.h"

#include <algorithm>
#include <array>

namespace heatwork::firing {
namespace {

struct Pair {
  ChamberEvent event;
  MomentKind kind;
};

constexpr std::array<Pair, 7> of_the_chamber{{{ChamberEvent::closed, MomentKind::closed},
                                              {ChamberEvent::vacuum_started, MomentKind::vacuum_started},
                                              {ChamberEvent::vacuum_reached, MomentKind::vacuum_reached},
                                              {ChamberEvent::released, MomentKind::released},
                                              {ChamberEvent::top, MomentKind::top},
                                              {ChamberEvent::hold_ends, MomentKind::hold_ends},
                                              {ChamberEvent::open, MomentKind::open}}};

}  // namespace

std::vector<Moment> moments_of(const FiringResult& firing) {
  std::vector<Moment> moments;
  const auto add = [&](MomentKind what, const std::string& piece, double at_s) {
    moments.push_back({what, piece, at_s, firing.chamber.display_at(at_s)});
  };
  for (const Pair& pair : of_the_chamber)
    if (const ChamberMoment* moment = firing.chamber.find(pair.event)) add(pair.kind, "", moment->time_s);
  for (const PieceResult& piece : firing.pieces) {
    bool wet = false, never_dry = false;
    double dry_s = 0;
    for (const SectionResult& section : piece.sections) {
      if (section.water_start_g <= 0) continue;
      wet = true;
      never_dry = never_dry || section.dry_s < 0;
      dry_s = std::max(dry_s, section.dry_s);
    }
    if (wet && !never_dry) add(MomentKind::dry, piece.piece, dry_s);
    if (piece.deciding_point < 0) continue;
    const PointResult& point = piece.points[static_cast<std::size_t>(piece.deciding_point)];
    if (point.half_sealed_s >= 0) add(MomentKind::half_sealed, piece.piece, point.half_sealed_s);
    if (point.sealed_s >= 0) add(MomentKind::sealed, piece.piece, point.sealed_s);
  }
  std::stable_sort(moments.begin(), moments.end(), [](const Moment& a, const Moment& b) { return a.at_s < b.at_s; });
  return moments;
}

}  // namespace heatwork::firing
