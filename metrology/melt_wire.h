// The wire of a melt test: at what true temperature it melts in its gas, and how far heating and holding let it lag.
#pragma once

#include <optional>

namespace heatwork::metrology {

enum class WireMetal { silver, gold };
enum class WireGas { air, vacuum, inert, unknown };

/// Freezing temperature of gold, ITS-90. [C]
/// source: its-90
inline constexpr double gold_freezing_C = 1064.18;

/// Volume share of oxygen in dry air. [1]
/// source: us-standard-atmosphere-1976
inline constexpr double oxygen_in_air = 0.2095;

struct MeltPoint {
  double temperature_C;
  double uncertainty_K;  ///< standard
};

/// Where a wire melts and how sure that is [C, K].
/// Gold feels no oxygen. Silver without oxygen 961.78 °C; under air by its pressure (cryoscopy); gas unknown: anywhere from air to none.
/// `purity_percent` by mass, each part per million of copper -0.00069 K. Range: pressure 0.1 to 1200 mbar where air or vacuum is the gas,
/// purity from 99.5 (sterling silver, 92.5, begins to melt near 779 °C and is refused), else std::domain_error.
/// source: computed-here, field-memory theory: (melt-wire.1) (melt-wire.2)
MeltPoint wire_melt_point(WireMetal metal, WireGas gas, double pressure_mbar, double purity_percent);

/// Film that heats a wire: conduction through gas and radiation [W/(m2 K)].
/// 0.9 k / d + 4 epsilon sigma T^3. Range: diameter 0.02 to 3 mm, else std::domain_error. source: chosen-here theory: (melt-wire.3)
double wire_film_W_per_m2K(double diameter_mm, double temperature_C);

/// How far a silver wire lags behind a steady rise [K].
/// rate rho c d / (4 h). Range: as the film; rate 0 to 200 K/min. source: chosen-here theory: (melt-wire.4)
double wire_lag_K(double diameter_mm, double rate_K_per_min, double temperature_C);

/// Excess above the melting point at which a share of a silver wire melts within a hold [K].
/// share rho L d / (4 h hold). Range: as the film; share 0 to 1, hold above 0 s. source: chosen-here theory: (melt-wire.5)
double wire_superheat_K(double diameter_mm, double melted_share, double hold_s, double temperature_C);

}  // namespace heatwork::metrology
