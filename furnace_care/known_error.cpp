#include "furnace_care/known_error.h"

#include <fmt/format.h>

#include <algorithm>

#include "metrology/control_chart.h"

namespace heatwork::furnace_care {
namespace {

// Spread of furnaces just checked. Standing: assumed (no field statistics were found). source: chosen-here
constexpr double just_checked_K = 6.0;

}  // namespace

bool finds_error(const trade::Check& check) {
  return check.error && check.standard_uncertainty && check.standard_uncertainty->value.si() > 0;
}

double error_with_keyed_K(trade::CorrectionConvention convention, double error_K, double keyed_then_K, double keyed_now_K) {
  const double more_K = keyed_now_K - keyed_then_K;
  return convention == trade::CorrectionConvention::added_to_display ? error_K + more_K : error_K - more_K;
}

ErrorBefore error_before(const trade::Furnace& furnace, const std::optional<EarlierError>& earlier, double keyed_now_K) {
  const auto convention = furnace.correction_convention.value;
  if (earlier) {
    const double error_K = error_with_keyed_K(convention, earlier->error_K, earlier->keyed_K, keyed_now_K);
    const double found_K = std::max(just_checked_K, earlier->standard_uncertainty_K);
    const double sd_K = std::min(never_checked_K, metrology::uncertainty_after_K(found_K, std::max(0.0, earlier->days_ago)));
    return {
        error_K, sd_K,
        fmt::format("The last check, {:.0f} days ago, lets expect an error of {:+.1f} K under what is keyed now, give or take {:.1f} K.",
                    earlier->days_ago, error_K, sd_K)};
  }
  if (furnace.display_error) {
    const double error_K =
        error_with_keyed_K(convention, furnace.display_error->error.value.si(), furnace.correction_keyed.value.si(), keyed_now_K);
    return {error_K, never_checked_K,
            fmt::format("The furnace's file states an error of {:+.1f} K, but no check of it is kept: give or take {:.0f} K.", error_K,
                        never_checked_K)};
  }
  return {0, never_checked_K,
          fmt::format("No check of this furnace is kept: its error is taken as 0 K, give or take {:.0f} K.", never_checked_K)};
}

}  // namespace heatwork::furnace_care
