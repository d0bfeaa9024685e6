#include "report/readings.h"

#include <algorithm>
#include <cmath>

namespace heatwork::report {

using firing::MomentKind;
using firing::PieceResult;
using firing::Rehearsal;

std::vector<std::string> piece_names(const Rehearsal& rehearsal) {
  std::vector<std::string> names;
  for (const PieceResult& piece : rehearsal.firing.pieces) names.push_back(piece.piece);
  return names;
}

const firing::PointResult* deciding_point(const PieceResult& piece) {
  const auto index = static_cast<std::size_t>(std::max(piece.deciding_point, 0));
  return piece.deciding_point >= 0 && index < piece.points.size() ? &piece.points[index] : nullptr;
}

bool sinters(const firing::PointResult& point) {
  return point.relative_density > 0;
}

bool crystallises(const firing::PointResult& point) {
  return !point.fraction.empty();
}

const firing::SectionResult* deciding_section(const PieceResult& piece) {
  const firing::PointResult* point = deciding_point(piece);
  const auto index = static_cast<std::size_t>(point ? std::max(point->section, 0) : 0);
  return index < piece.sections.size() ? &piece.sections[index] : nullptr;
}

std::vector<double> water_left_percent(const PieceResult& piece, std::size_t points) {
  std::vector<double> sum(points, 0.0);
  double start = 0;
  for (const firing::SectionResult& section : piece.sections) {
    if (!(section.water_start_g > 0) || section.water_g.size() != points) continue;
    start += section.water_start_g;
    for (std::size_t i = 0; i < points; ++i) sum[i] += section.water_g[i];
  }
  if (!(start > 0)) return {};
  for (double& value : sum) value *= 100.0 / start;
  return sum;
}

std::vector<SealingWindow> sealing_windows(const Rehearsal& rehearsal) {
  std::vector<SealingWindow> windows;
  const auto& time_s = rehearsal.firing.time_s;
  for (std::size_t i = 0; i < rehearsal.firing.pieces.size(); ++i) {
    const firing::PointResult* point = deciding_point(rehearsal.firing.pieces[i]);
    if (!point || point->sealed_trace.size() != time_s.size()) continue;
    const auto first = std::find_if(point->sealed_trace.begin(), point->sealed_trace.end(), [](double share) { return share > 0.02; });
    if (first == point->sealed_trace.end()) continue;
    const auto last = std::find_if(first, point->sealed_trace.end(), [](double share) { return share >= 0.98; });
    const auto index = [&](auto where) { return static_cast<std::size_t>(where - point->sealed_trace.begin()); };
    // From the last point before, for sealing may begin and end between two points.
    const std::size_t before = index(first) > 0 ? index(first) - 1 : 0;
    windows.push_back({time_s[before], last == point->sealed_trace.end() ? time_s.back() : time_s[index(last)], i});
  }
  return windows;
}

double firing_ends_s(const Rehearsal& rehearsal) {
  const auto& chamber_s = rehearsal.firing.chamber.time_s;
  const auto& pieces_s = rehearsal.firing.time_s;
  return std::max(chamber_s.empty() ? 0.0 : chamber_s.back(), pieces_s.empty() ? 0.0 : pieces_s.back());
}

std::optional<std::size_t> find_moment(const Rehearsal& rehearsal, MomentKind what, const std::string& piece) {
  for (std::size_t i = 0; i < rehearsal.moments.size(); ++i) {
    if (rehearsal.moments[i].what == what && rehearsal.moments[i].piece == piece) return i;
  }
  return std::nullopt;
}

std::string mark_word(MomentKind what, const Numbers& numbers) {
  std::string key = "picture.mark." + std::string(firing::word(what));
  std::replace(key.begin(), key.end(), ' ', '_');
  return numbers.say(key);
}

}  // namespace heatwork::report
