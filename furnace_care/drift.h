// Charts of the kept checks of one furnace: has it drifted since it was last adjusted, how sure is that, and when will it leave its limit?
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "metrology/drift_verdict.h"

namespace heatwork::furnace_care {

/// One kept check of the display, as the charts take it.
struct ChartedCheck {
  std::string name;
  double day = 0;  ///< UTC, since any one day
  double error_K = 0, uncertainty_K = 0;
  bool as_left = false;      ///< after an adjustment
  std::string after_repair;  ///< what was repaired before it; may be empty
  std::optional<double> correction_keyed_K, keyed_after_K;
};

enum class HowOften { monthly, weekly, each_firing };
enum class RunBegins { first_check, adjusted, correction_changed, repaired };

/// What was charted in one go: from an adjustment or repair to the next.
struct ChartRun {
  std::size_t first = 0, count = 0;
  RunBegins begins = RunBegins::first_check;
  double target_K = 0, target_u_K = 0;  ///< mean of its first checks
  std::size_t target_of = 0;            ///< how many those are, at most 3
  bool head_start = false;              ///< both sums begin at half the limit
};

/// What the charts say of one check; sums in standard deviations.
struct ChartRow {
  std::size_t run = 0;
  double standardised = 0, high = 0, low = 0;
  double trend_K = 0, half_width_K = 0;  ///< EWMA and its limit about the target
  bool beyond = false;                   ///< a sum stands above the limit
  bool beyond_three = false;             ///< alone beyond 3 standard deviations
};

/// An alarm of the last run: which check, and by which chart.
struct ChartAlarms {
  std::optional<std::size_t> sums, trend, single;
  std::optional<int> rule;  ///< of single values: 1 to 4, the lowest that alarmed there
};

enum class ChartOutcome { good, not_good, cannot_tell };
enum class ChartReason { beyond_limit, alarm, drift, step, no_change, too_few, undecided };

struct DriftChart {
  HowOften how_often = HowOften::monthly;
  std::optional<double> every_days;                  ///< median of the last run, else of all; absent with one check
  double slack = 0.5, limit = 3;                     ///< k and h of the sums
  double average_run = 0;                            ///< checks to an alarm without a real change, on average, the target being known
  double average_run_as_targeted = 0;                ///< the same where the target is only the mean that it is
  double average_run_to_two = 0;                     ///< checks to an alarm after a step of two standard deviations
  std::vector<ChartRun> runs;                        ///< oldest first, at least one
  std::vector<ChartRow> rows;                        ///< one a check
  ChartAlarms alarms;                                ///< indices of checks
  metrology::DriftVerdict verdict;                   ///< of the last run; indices of checks
  std::optional<metrology::DriftForecast> forecast;  ///< with two checks or more in the last run
  ChartOutcome outcome = ChartOutcome::cannot_tell;
  ChartReason reason = ChartReason::too_few;
};

/// Charts checks, oldest first. `limit_K`: what the lab lets the display be off. Errors: std::domain_error with one sentence: no check, an
/// uncertainty that is none, days that fall. Checks of one moment stand in the order given.
DriftChart chart_checks(const std::vector<ChartedCheck>& checks, double limit_K);

/// From this many days of an offset's range on no day is told.
inline constexpr double furthest_forecast_days = 3652.5;

}  // namespace heatwork::furnace_care
