// Charts of repeated checks: when a furnace has drifted, and how often a chart cries without cause.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace heatwork::metrology {

/// Two sums that grow with a shift; in standard deviations.
struct Cusum {
  std::vector<double> high, low;
  std::optional<std::size_t> first_alarm;  ///< from 1
};

/// CUSUM of standardised values u = (value - target) / sigma [1].
/// S+ = max(0, S+ + u - k), S- = max(0, S- - u - k), alarm above h; `head_start` where both begin. Range: sigma and h above 0, k 0 or more,
/// head start from 0 to h, else std::domain_error. source: lucas-crosier-1982 theory: (control-chart.1)
Cusum cusum_chart(std::span<const double> values, double target, double sigma, double slack, double limit, double head_start = 0.0);

/// Running mean that forgets; in the units of the values.
struct Ewma {
  std::vector<double> value, half_width;
  std::optional<std::size_t> first_alarm;  ///< from 1
};

/// EWMA of values, begun at the target, with limits that widen as it settles [units of the values].
/// z = w x + (1 - w) z, half width L sigma root(w / (2 - w) (1 - (1 - w)^(2 i))). Range: weight above 0 and at most 1, limit and sigma
/// above 0, else std::domain_error. source: lucas-saccucci-1990 theory: (control-chart.2)
Ewma ewma_chart(std::span<const double> values, double target, double sigma, double weight, double limit);

struct Shewhart {
  std::optional<std::size_t> first_alarm;  ///< from 1, by any rule
  std::optional<int> rule;                 ///< 1 to 4, the lowest that alarmed there
  std::optional<std::size_t> beyond_three_sigma;
};

/// The four Western Electric rules, one side at a time, beyond meaning more than [1].
/// 1: a point beyond 3 sigma; 2: two of three beyond 2; 3: four of five beyond 1; 4: eight in a row on one side.
/// source: western-electric-1956
Shewhart shewhart_chart(std::span<const double> values, double target, double sigma);

enum class ChartKind { cusum, ewma, shewhart };

/// How a chart is set; `slack` and `limit` of a CUSUM are its k and h, `weight` and `limit` of an EWMA its lambda and L.
struct ChartSetting {
  ChartKind kind;
  double limit;
  double slack = 0.5;
  double weight = 0.2;
  double head_start = 0.0;
  bool two_sided = true;
};

/// Average number of checks to an alarm under a constant shift [1].
/// Integral equations by Gauss-Legendre nodes; the EWMA with its settled limit, one-sided held at 0 from below. Range: limit above 0 and at
/// most 20, shift -10 to 10, slack 0 to 5, weight 0.01 to 1; else std::domain_error.
/// source: lucas-crosier-1982, crowder-1987 theory: (control-chart.3) (control-chart.4) (control-chart.5)
double average_run_length(const ChartSetting& chart, double shift);

/// One check in time for the forecast.
struct DriftPoint {
  double day;
  double offset_K;
  double uncertainty_K;  ///< standard
};

struct DriftForecast {
  double offset_K, slope_K_per_day;  ///< at the last check
  double offset_u_K, slope_u_K_per_day;
  std::optional<double> days_to_limit;  ///< from the last check, by the trend
  std::optional<double> earliest_days;  ///< by the faster end of its 95 % range
};

/// Level and slope by a Kalman filter, and when the offset leaves a limit [K, K/day, days].
/// Random walks of level 0.5 K^2 and of slope 0.0025 (K/month)^2 a month. Range: 2 points or more, days that rise, uncertainties above 0,
/// limit above 0; else std::domain_error. source: chosen-here theory: (control-chart.6)
DriftForecast forecast_drift(std::span<const DriftPoint> points, double limit_K);

/// Standard uncertainty of an offset so many days after the check that found it [K].
/// u^2 + 0.5 m + 0.0025 m^3 / 3 over m months: the same random walks, from a slope of 0. Range: both 0 or more, else std::domain_error.
/// source: chosen-here theory: (display-offset.11)
double uncertainty_after_K(double uncertainty_K, double days);

}  // namespace heatwork::metrology
