#include "physics/range.h"

#include <cmath>
#include <sstream>
#include <stdexcept>
#include <string>

namespace heatwork::physics {

namespace {

std::string number(double value) {
  std::ostringstream text;
  text.precision(10);
  text << value;
  return text.str();
}

}  // namespace

void require_positive(const char* name, double value) {
  if (std::isfinite(value) && value > 0.0) return;
  throw std::domain_error(std::string(name) + " is " + number(value) + "; it must be above 0");
}

void require_within(const char* name, double value, double low, double high) {
  if (value >= low && value <= high) return;
  throw std::domain_error(std::string(name) + " is " + number(value) + "; it must lie between " + number(low) + " and " + number(high));
}

void require_history(std::span<const double> times_s, std::span<const double> temperatures_K) {
  if (times_s.size() != temperatures_K.size()) {
    throw std::invalid_argument("times_s has " + std::to_string(times_s.size()) + " points and temperatures_K " +
                                std::to_string(temperatures_K.size()) + "; both must have the same number");
  }
  if (times_s.size() < 2) {
    throw std::invalid_argument("a history has " + std::to_string(times_s.size()) + " points; it must have at least 2");
  }
  for (std::size_t i = 0; i < times_s.size(); ++i) {
    const bool rises = std::isfinite(times_s[i]) && (i == 0 || times_s[i] >= times_s[i - 1]);
    const bool warm = std::isfinite(temperatures_K[i]) && temperatures_K[i] > 0.0;
    if (rises && warm) continue;
    const std::string where = " at history point " + std::to_string(i + 1);
    if (!rises) throw std::invalid_argument("times_s is " + number(times_s[i]) + where + "; times must be finite and must not fall");
    throw std::domain_error("temperatures_K is " + number(temperatures_K[i]) + where + "; it must be above 0");
  }
}

}  // namespace heatwork::physics
