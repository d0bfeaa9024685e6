// What a check says of the display: its error at other temperatures, its whole uncertainty, and what to key on the panel.
#pragma once

#include <span>

namespace heatwork::metrology {

/// One checked temperature; offset = display - true.
struct OffsetPoint {
  double temperature_C;
  double offset_K;
  double uncertainty_K;  ///< standard
};

/// Offset at a temperature with its standard uncertainty, and the band within which it lies whatever the error's shape is.
struct OffsetAt {
  double offset_K, uncertainty_K, low_K, high_K;
};

/// The offset carried to another temperature [K].
/// One point: between proportional to the temperature and constant. Two: through both. More: weighted straight line.
/// low and high are the band of the shape for one point, else the offset itself. Range: uncertainties above 0, temperatures apart, else
/// std::domain_error. source: gum-2008 theory: (display-offset.3) (display-offset.4) (display-offset.5)
OffsetAt offset_at(std::span<const OffsetPoint> points, double temperature_C);

/// Root of the sum of squares of standard uncertainties [K].
/// source: gum-2008 theory: (display-offset.6)
double combined_uncertainty_K(std::span<const double> parts_K);

/// Standard uncertainty of a quantity that lies anywhere within half a width on either side [K].
/// a / root(3). source: gum-2008 theory: (display-offset.7)
double rectangular_uncertainty_K(double half_width_K);

/// Degrees of freedom of a combined uncertainty, Welch and Satterthwaite [1].
/// Range: parts and degrees of the same number, else std::domain_error. source: gum-2008 theory: (display-offset.8)
double effective_degrees_of_freedom(std::span<const double> parts_K, std::span<const double> degrees);

/// What the keyed correction does on a panel.
enum class KeyedCorrection {
  added_to_display,  ///< display = sensor + keyed: keying more makes the chamber colder at the same display
  added_to_setting   ///< the chamber goes to setting + keyed: keying more makes it hotter
};

/// What to key so that the display becomes true [K].
/// added to display: keyed now - offset; added to setting: keyed now + offset. source: computed-here theory: (display-offset.9)
double correction_to_key_K(KeyedCorrection what, double keyed_now_K, double offset_K);

/// True temperature of the chamber when a panel is set to a display value [C].
/// set - offset with what is keyed now, moved by what is keyed instead. source: computed-here theory: (display-offset.9)
double true_temperature_C(KeyedCorrection what, double set_C, double offset_with_keyed_now_K, double keyed_now_K, double keyed_K);

}  // namespace heatwork::metrology
