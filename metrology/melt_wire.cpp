#include "metrology/melt_wire.h"

#include <cmath>
#include <stdexcept>

#include "metrology/number_text.h"
#include "metrology/range.h"
#include "metrology/silver.h"
#include "metrology/water_saturation.h"

namespace heatwork::metrology {
namespace {

constexpr double atmosphere_mbar = 1013.25;
constexpr double least_purity_percent = 99.5;
// Liquidus of silver against copper, the impurity of most wires. Standing: measured. source: ag-liquidus-doped
constexpr double shift_K_per_ppm = 0.00069;

// Standard uncertainties of the melting temperature by gas: no oxygen, vacuum of a furnace, air. Standing: assumed. source: chosen-here
constexpr double sure_K = 0.1;
constexpr double vacuum_K = 0.6;
constexpr double air_K = 2.0;
constexpr double low_pressure_mbar = 60.0;

// A silver wire in hot gas; standing: assumed (order of magnitude). source: chosen-here
constexpr double gas_W_per_mK = 0.08;
constexpr double silver_emissivity = 0.1;
constexpr double density_kg_per_m3 = 10490.0;
constexpr double heat_J_per_kgK = 290.0;
constexpr double fusion_J_per_kg = 104800.0;
constexpr double stefan_boltzmann = 5.670374419e-8;

MeltPoint silver_in(WireGas gas, double pressure_mbar) {
  if (gas == WireGas::inert) return {silver_freezing_C, sure_K};
  if (gas == WireGas::unknown) {  // anywhere between none and all of the oxygen of air
    const double air_C = silver_melting_C(oxygen_in_air);
    return {0.5 * (air_C + silver_freezing_C), 0.5 * (silver_freezing_C - air_C) / std::sqrt(3.0)};
  }
  require_within(pressure_mbar, 0.1, 1200.0, "The pressure around the wire (mbar)");
  const double oxygen_atm = oxygen_in_air * pressure_mbar / atmosphere_mbar;
  return {silver_melting_C(oxygen_atm), gas == WireGas::vacuum && pressure_mbar <= low_pressure_mbar ? vacuum_K : air_K};
}

}  // namespace

MeltPoint wire_melt_point(WireMetal metal, WireGas gas, double pressure_mbar, double purity_percent) {
  if (!(purity_percent >= least_purity_percent && purity_percent <= 100.0)) {
    throw std::domain_error(
        "The wire is " + number_text(purity_percent) +
        " % pure: a melt test needs 99.5 % or more, since an alloy (sterling silver is 92.5 %) begins to melt far lower.");
  }
  MeltPoint point = metal == WireMetal::gold ? MeltPoint{gold_freezing_C, sure_K} : silver_in(gas, pressure_mbar);
  if (metal == WireMetal::silver) {
    // Which metal the impurity is, is not known: half of the shift of copper is taken, and as much is uncertain.
    const double shift_K = 0.5 * shift_K_per_ppm * 1e4 * (100.0 - purity_percent);
    point.temperature_C -= shift_K;
    point.uncertainty_K = std::hypot(point.uncertainty_K, shift_K);
  }
  return point;
}

double wire_film_W_per_m2K(double diameter_mm, double temperature_C) {
  require_within(diameter_mm, 0.02, 3.0, "The diameter of the wire (mm)");
  require_within(temperature_C, 0.0, 2000.0, "The temperature (°C)");
  const double kelvin = temperature_C + zero_celsius_K;
  return 0.9 * gas_W_per_mK / (diameter_mm / 1000.0) + 4.0 * silver_emissivity * stefan_boltzmann * kelvin * kelvin * kelvin;
}

double wire_lag_K(double diameter_mm, double rate_K_per_min, double temperature_C) {
  require_within(rate_K_per_min, 0.0, 200.0, "The rate (K/min)");
  const double film = wire_film_W_per_m2K(diameter_mm, temperature_C);
  return rate_K_per_min / 60.0 * density_kg_per_m3 * heat_J_per_kgK * diameter_mm / 1000.0 / (4.0 * film);
}

double wire_superheat_K(double diameter_mm, double melted_share, double hold_s, double temperature_C) {
  require_within(melted_share, 0.0, 1.0, "The share that melts");
  require_within(hold_s, 1.0, 1e5, "The hold (s)");
  const double film = wire_film_W_per_m2K(diameter_mm, temperature_C);
  return melted_share * density_kg_per_m3 * fusion_J_per_kg * diameter_mm / 1000.0 / (4.0 * film * hold_s);
}

}  // namespace heatwork::metrology
