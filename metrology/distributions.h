// The normal and Student's distribution, as far as this room needs them.
#pragma once

namespace heatwork::metrology {

/// Share of a standard normal quantity below a value [1].
/// source: abramowitz-stegun
double normal_share_below(double deviate);

/// Density of the standard normal distribution [1].
/// source: abramowitz-stegun
double normal_density(double deviate);

/// Two-sided Student factor: that share of a mean's deviations lies within so many standard uncertainties [1].
/// Range: share above 0 and below 1, degrees of freedom above 0, else std::domain_error. source: gum-2008
double student_factor(double share, double degrees_of_freedom);

}  // namespace heatwork::metrology
