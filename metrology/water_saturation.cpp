#include "metrology/water_saturation.h"

#include <cmath>
#include <stdexcept>

namespace heatwork::metrology {
namespace {

// Coefficients n1 to n10 of region 4.
constexpr double n1 = 1167.0521452767, n2 = -724213.16703206, n3 = -17.073846940092, n4 = 12020.824702470, n5 = -3232555.0322333;
constexpr double n6 = 14.915108613530, n7 = -4823.2657361591, n8 = 405113.40542057, n9 = -0.23855557567849, n10 = 650.17534844798;
constexpr double critical_C = 373.946;

}  // namespace

double water_saturation_Pa(double temperature_C) {
  const double temperature_K = temperature_C + zero_celsius_K;
  if (!(temperature_C >= 0.0 && temperature_C <= critical_C)) {
    throw std::domain_error("The temperature of the water must be from 0 to 373.946 °C.");
  }
  const double theta = temperature_K + n9 / (temperature_K - n10);
  const double a = (theta + n1) * theta + n2;
  const double b = (n3 * theta + n4) * theta + n5;
  const double c = (n6 * theta + n7) * theta + n8;
  const double root = 2.0 * c / (-b + std::sqrt(b * b - 4.0 * a * c));
  return 1e6 * root * root * root * root;
}

}  // namespace heatwork::metrology
