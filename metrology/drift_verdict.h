// What a furnace's checks say as a whole: nothing changed, it drifts, it stepped, or they cannot tell.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "metrology/control_chart.h"

namespace heatwork::metrology {

enum class DriftChange { none, drift, step, cannot_tell };

struct DriftVerdict {
  DriftChange change = DriftChange::cannot_tell;
  double chance_none = 0, chance_drift = 0, chance_step = 0;  ///< together 1; all 0 where there are too few checks
  std::optional<std::size_t> begins;    ///< check from which a drift goes on, or the first after a step; the likeliest, from 0
  double change_K = 0, change_u_K = 0;  ///< of the likelier of drift and step, up to the last check
  std::vector<std::size_t> set_aside;   ///< checks that both neighbours contradict, from 0; they take no part
};

/// Weighs no change, a drift from one check on and a step between two checks against each other [1].
/// Chances by the marginal likelihood of each, over all places of the change, its size and a common factor of the uncertainties;
/// firm from 0.8 for no change and 0.85 for a change, with 6 checks or more. Range: days that rise, finite offsets, uncertainties above 0,
/// else std::domain_error. source: kass-raftery-1995, chosen-here theory: (control-chart.7)
DriftVerdict judge_drift(std::span<const DriftPoint> points);

}  // namespace heatwork::metrology
