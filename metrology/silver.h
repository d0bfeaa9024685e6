// Melting of silver, the fixed point a bench can afford: 961.78 °C without oxygen, lower where oxygen dissolves in the melt.
#pragma once

#include <span>

namespace heatwork::metrology {

/// Freezing temperature of silver without oxygen, ITS-90. [C]
/// source: its-90
inline constexpr double silver_freezing_C = 961.78;

/// Oxygen dissolved in molten silver at 1 atm of oxygen: 0.30 % by mass as a share of atoms [1].
/// Standing: memory. source: field-memory
inline constexpr double usual_oxygen_solubility = 0.019884;

/// Melting temperature of silver under oxygen [C].
/// ln(1 - x1 root(p)) = -(H / R) (1 / T - 1 / Tm), H 11.3 kJ/mol. Range: oxygen 0 to 1 atm, solubility 0 to 0.1, else std::domain_error.
/// source: computed-here
double silver_melting_C(double oxygen_atm, double oxygen_solubility = usual_oxygen_solubility);

/// True where any temperature of a history reaches the melting temperature [C].
/// Points are connected by straight lines, so a crossing between points has an end at or above it. source: its-90
bool reaches_melting(std::span<const double> temperatures_C, double melting_C);

}  // namespace heatwork::metrology
