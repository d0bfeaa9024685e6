// Histories made from another: shifted in temperature, or with a longer or shorter hold.
#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "firing/chamber.h"
#include "firing/column.h"

namespace heatwork::firing {
namespace {

/// The empty history with all that is not a column.
ChamberHistory without_points(const ChamberHistory& history) {
  ChamberHistory bare;
  bare.room_C = history.room_C;
  bare.room_humidity = history.room_humidity;
  bare.ambient_Pa = history.ambient_Pa;
  bare.level_never_reached = history.level_never_reached;
  bare.lowest_pressure_Pa = history.lowest_pressure_Pa;
  bare.held_back = history.held_back;
  bare.largest_lag_behind_asked_K = history.largest_lag_behind_asked_K;
  return bare;
}

void copy_point(const ChamberHistory& from, std::size_t i, double time_s, ChamberHistory& to) {
  to.time_s.push_back(time_s);
  to.asked_C.push_back(from.asked_C[i]);
  to.display_C.push_back(from.display_C[i]);
  to.chamber_C.push_back(from.chamber_C[i]);
  to.pressure_Pa.push_back(from.pressure_Pa[i]);
  to.opening.push_back(from.opening[i]);
  to.phase.push_back(from.phase[i]);
}

/// A point read between points; its pressure may be read at another time than the rest.
void read_point(const ChamberHistory& from, double at_s, double pressure_at_s, double time_s, ChamberHistory& to) {
  to.time_s.push_back(time_s);
  to.asked_C.push_back(value_at(from.time_s, from.asked_C, at_s));
  to.display_C.push_back(value_at(from.time_s, from.display_C, at_s));
  to.chamber_C.push_back(value_at(from.time_s, from.chamber_C, at_s));
  to.pressure_Pa.push_back(value_at(from.time_s, from.pressure_Pa, pressure_at_s));
  to.opening.push_back(value_at(from.time_s, from.opening, at_s));
  const auto next = std::lower_bound(from.time_s.begin(), from.time_s.end(), at_s);
  const auto i = std::min(static_cast<std::size_t>(next - from.time_s.begin()), from.time_s.size() - 1);
  to.phase.push_back(from.phase[i]);
}

ChamberHistory lengthened(const ChamberHistory& history, double end_s, double added_s) {
  ChamberHistory longer = without_points(history);
  bool repeated = false;
  for (std::size_t i = 0; i < history.time_s.size(); ++i) {
    if (!repeated && history.time_s[i] > end_s) {
      if (longer.time_s.empty() || longer.time_s.back() < end_s) read_point(history, end_s, end_s, end_s, longer);
      read_point(history, end_s, end_s, end_s + added_s, longer);
      repeated = true;
    }
    copy_point(history, i, history.time_s[i] + (repeated ? added_s : 0), longer);
  }
  for (ChamberMoment moment : history.moments) {
    // What happens at the hold's end or after moves along; a release that begins with the hold's end stays at its end.
    const bool later =
        moment.time_s > end_s || (moment.time_s == end_s && moment.event != ChamberEvent::top && moment.event != ChamberEvent::hold_begins);
    if (later) moment.time_s += added_s;
    longer.moments.push_back(moment);
  }
  return longer;
}

ChamberHistory shortened(const ChamberHistory& history, double end_s, double cut_s) {
  ChamberHistory shorter = without_points(history);
  const double seam_s = end_s - cut_s;
  // Air that was let in during the time cut out comes in from the seam on, as it did.
  const ChamberMoment* released = history.find(ChamberEvent::released);
  const bool release_cut = released != nullptr && released->time_s > seam_s && released->time_s < end_s;
  const double pressure_from_s = release_cut ? released->time_s : end_s;
  std::vector<double> after;
  for (const double time_s : history.time_s) {
    if (time_s < seam_s) continue;
    if (time_s > end_s) after.push_back(time_s - cut_s);
    if (release_cut && time_s > pressure_from_s) after.push_back(time_s - pressure_from_s + seam_s);
  }
  std::sort(after.begin(), after.end());
  for (std::size_t i = 0; i < history.time_s.size() && history.time_s[i] < seam_s; ++i) copy_point(history, i, history.time_s[i], shorter);
  read_point(history, seam_s, seam_s, seam_s, shorter);
  const double last_s = history.time_s.back() - cut_s;
  for (const double time_s : after) {
    if (time_s - shorter.time_s.back() < 1e-6 || time_s > last_s) continue;
    read_point(history, time_s + cut_s, time_s - seam_s + pressure_from_s, time_s, shorter);
  }
  for (ChamberMoment moment : history.moments) {
    if (moment.time_s > seam_s) moment.time_s = std::max(seam_s, moment.time_s - cut_s);
    shorter.moments.push_back(moment);
  }
  return shorter;
}

}  // namespace

ChamberHistory shifted(const ChamberHistory& history, double shift_K) {
  ChamberHistory other = history;
  for (double& temperature : other.chamber_C) temperature += shift_K;
  return other;
}

ChamberHistory with_hold_changed(const ChamberHistory& history, double added_s) {
  const ChamberMoment* begins = history.find(ChamberEvent::hold_begins);
  const ChamberMoment* ends = history.find(ChamberEvent::hold_ends);
  if (begins == nullptr || ends == nullptr) throw std::domain_error("The history has no hold at its highest temperature to be changed.");
  const double hold_s = ends->time_s - begins->time_s;
  if (!(added_s >= -hold_s)) {
    throw std::domain_error(fmt::format("A hold of {:.1f} s cannot be cut by {:.1f} s; at most the whole hold.", hold_s, -added_s));
  }
  if (added_s == 0) return history;
  return added_s > 0 ? lengthened(history, ends->time_s, added_s) : shortened(history, ends->time_s, -added_s);
}

}  // namespace heatwork::firing
