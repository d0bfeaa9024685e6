// Thermocouples S, R, B, K and N: voltage and temperature on ITS-90, the cold junction, and what a class of new wire may deviate.
#pragma once

namespace heatwork::metrology {

enum class ThermocoupleType { S, R, B, K, N };

/// Where a type's function is defined; for reading a temperature from a voltage type B begins at 50 °C, since below it has two answers.
struct ThermocoupleRange {
  double lowest_C;
  double highest_C;
  double lowest_read_C;
};

/// Range of the reference function of a type.
/// source: nist-srd-60
ThermocoupleRange thermocouple_range(ThermocoupleType type);

/// Voltage of a thermocouple whose cold junction is at 0 °C [mV].
/// Sum of c_i t^i by pieces; type K from 0 °C up adds a0 exp(a1 (t - a2)^2). Range: that of the type, else std::domain_error.
/// source: nist-srd-60 theory: (thermocouples.1)
double thermocouple_emf_mV(ThermocoupleType type, double temperature_C);

/// Slope of that function [mV/K].
/// Range: as there. source: nist-srd-60 theory: (thermocouples.2)
double thermocouple_slope_mV_per_K(ThermocoupleType type, double temperature_C);

/// Temperature of the hot junction [C].
/// Newton on the reference function of emf + E(cold junction). Range: a cold junction from -20 to 100 °C and a sum the type can give,
/// else std::domain_error, which says so where the wires look reversed. source: nist-srd-60 theory: (thermocouples.3)
double thermocouple_temperature_C(ThermocoupleType type, double emf_mV, double cold_junction_C);

/// Temperature by the approximate inverse polynomial, cold junction at 0 °C [C].
/// Up to 0.06 °C off; the start of the Newton steps. Range: that of the polynomials, else std::domain_error. source: nist-srd-60
double thermocouple_approximate_C(ThermocoupleType type, double emf_mV);

/// What new wire of a tolerance class may deviate [K].
/// `tolerance_class` 1, 2 or 3. Range: that of the class, else std::domain_error. source: iec-60584-1 theory: (thermocouples.4)
double thermocouple_tolerance_K(ThermocoupleType type, int tolerance_class, double temperature_C);

}  // namespace heatwork::metrology
