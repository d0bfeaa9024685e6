// What is known of a display's error before it is checked again: what was found last, grown unsure by drift since.
#pragma once

#include <optional>
#include <string>

#include "trade/check.h"
#include "trade/furnace.h"

namespace heatwork::furnace_care {

/// Spread of furnaces that nobody checked, as a standard uncertainty of the display's error [K].
/// Standing: assumed (no field statistics were found). source: chosen-here
inline constexpr double never_checked_K = 12.0;

/// The last check that found an error, and what stood on the panel then.
struct EarlierError {
  double error_K = 0;  ///< display - true
  double standard_uncertainty_K = 0;
  double keyed_K = 0;  ///< the correction the error was found under, or keyed right after it
  double days_ago = 0;
};

/// Before the first wire is fired.
struct ErrorBefore {
  double error_K = 0;
  double sd_K = 0;
  std::string sentence;  ///< why
};

/// Whether a check found an error with its uncertainty; that may be so though it cannot be told yet whether it is within the limit.
[[nodiscard]] bool finds_error(const trade::Check& check);

/// The error under another keyed correction, by the furnace's convention [K].
/// source: computed-here theory: (display-offset.12)
[[nodiscard]] double error_with_keyed_K(trade::CorrectionConvention convention, double error_K, double keyed_then_K, double keyed_now_K);

/// Never checked 12 K about 0, or about the error its file states; else 6 K about the last error, grown by drift, 12 K at most.
/// source: chosen-here theory: (melt-test.8)
[[nodiscard]] ErrorBefore error_before(const trade::Furnace& furnace, const std::optional<EarlierError>& earlier, double keyed_now_K);

}  // namespace heatwork::furnace_care
