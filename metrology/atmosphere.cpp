#include "metrology/atmosphere.h"

#include <array>
#include <cmath>
#include <cstdio>
#include <stdexcept>
#include <string>

namespace heatwork::metrology {
namespace {

// The constants as the standard states them, the older gas constant among them: its table follows from these and no others.
constexpr double sea_level_Pa = 101325.0;
constexpr double sea_level_K = 288.15;
constexpr double lapse_K_per_m = 0.0065;
constexpr double earth_radius_m = 6356766.0;
constexpr double gravity_m_per_s2 = 9.80665;
constexpr double air_kg_per_kmol = 28.9644;
constexpr double gas_constant_of_1976_J_per_kmol_K = 8314.32;
constexpr double lowest_m = -500.0;
constexpr double highest_m = 11000.0;

// Conventional millimetre and inch (25.4 mm) of mercury.
constexpr double mmHg_Pa = 133.322387415;
constexpr double inHg_Pa = 25.4 * mmHg_Pa;

constexpr double least_ambient_Pa = 10000.0;
constexpr double most_ambient_Pa = 120000.0;

}  // namespace

double standard_atmosphere_Pa(double altitude_m) {
  if (!(altitude_m >= lowest_m && altitude_m <= highest_m)) {
    throw std::domain_error("The altitude must be from -500 to 11000 m.");
  }
  const double geopotential_m = earth_radius_m * altitude_m / (earth_radius_m + altitude_m);
  constexpr double exponent = gravity_m_per_s2 * air_kg_per_kmol / (gas_constant_of_1976_J_per_kmol_K * lapse_K_per_m);
  return sea_level_Pa * std::pow(1.0 - lapse_K_per_m * geopotential_m / sea_level_K, exponent);
}

double absolute_of_dial_Pa(double dial, DialUnit unit, double ambient_Pa) {
  if (!(dial >= 0.0 && std::isfinite(dial))) throw std::domain_error("The dial counts from 0 downwards: its reading must be 0 or more.");
  if (!(ambient_Pa >= least_ambient_Pa && ambient_Pa <= most_ambient_Pa)) {
    throw std::domain_error("The ambient pressure must be from 100 to 1200 hPa.");
  }
  double below_Pa = 0.0;
  switch (unit) {
    case DialUnit::mmHg:
      below_Pa = dial * mmHg_Pa;
      break;
    case DialUnit::inHg:
      below_Pa = dial * inHg_Pa;
      break;
    case DialUnit::mbar:
      below_Pa = dial * 100.0;
      break;
    case DialUnit::kPa:
      below_Pa = dial * 1000.0;
      break;
    case DialUnit::percent_of_ambient:
      below_Pa = dial / 100.0 * ambient_Pa;
      break;
  }
  const double absolute_Pa = ambient_Pa - below_Pa;
  if (absolute_Pa <= 0.0) {
    std::array<char, 40> left_mbar{};
    std::snprintf(left_mbar.data(), left_mbar.size(), "%.1f", absolute_Pa / 100.0);
    throw std::domain_error("This dial reading leaves no pressure at all in this air (" + std::string(left_mbar.data()) +
                            " mbar): the unit or the altitude is wrong.");
  }
  return absolute_Pa;
}

}  // namespace heatwork::metrology
