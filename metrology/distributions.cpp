#include "metrology/distributions.h"

#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace heatwork::metrology {

double normal_share_below(double deviate) {
  return 0.5 * std::erfc(-deviate / std::numbers::sqrt2);
}

double normal_density(double deviate) {
  return std::exp(-0.5 * deviate * deviate) / std::sqrt(2.0 * std::numbers::pi);
}

double student_factor(double share, double degrees_of_freedom) {
  if (!(share > 0.0 && share < 1.0)) throw std::domain_error("The share must be above 0 and below 1.");
  if (!(degrees_of_freedom > 0.0 && std::isfinite(degrees_of_freedom))) throw std::domain_error("The degrees of freedom must be above 0.");
  return boost::math::quantile(boost::math::students_t(degrees_of_freedom), 0.5 + 0.5 * share);
}

}  // namespace heatwork::metrology
