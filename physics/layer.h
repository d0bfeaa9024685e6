// One layer of a section: how thick, how heavy, how it conducts and stores heat. Used by heating, the load and cooling stress.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <limits>
#include <span>

namespace heatwork::physics {

/// Zero of the Celsius scale, exact by definition. [K]
/// source: si-brochure
inline constexpr double zero_celsius_K = 273.15;

/// A property that depends on temperature: a polynomial in degrees Celsius between two temperatures, held constant outside them.
/// `constant`, `linear` (the usual pair of table values), `polynomial` and `stepped` make one. [unit of the property]
class TemperatureProperty {
 public:
  static constexpr std::size_t most_coefficients = 6;

  TemperatureProperty() = default;

  /// The same value at every temperature. [unit of the property]
  static TemperatureProperty constant(double value);

  /// Linear from `low_value` at `low_C` to `high_value` at `high_C`, held constant outside. [unit of the property]
  /// error: std::invalid_argument unless low_C < high_C and all finite
  static TemperatureProperty linear(double low_C, double low_value, double high_C, double high_value);

  /// c0 + c1 t + c2 t2 + ... with t in C, within [low_C, high_C] and held constant outside. [unit of the property]
  /// error: std::invalid_argument without or with over six coefficients
  static TemperatureProperty polynomial(std::span<const double> coefficients, double low_C = -zero_celsius_K,
                                        double high_C = std::numeric_limits<double>::infinity());

  /// A polynomial and a term over the square of the absolute temperature up to a step, another polynomial from it on; held constant below
  /// low_C. Heats of glasses are measured so. [unit of the property]
  /// error: std::invalid_argument as `polynomial`, and unless low_C is above absolute zero
  static TemperatureProperty stepped(std::span<const double> below, double inverse_square, double low_C, double step_C,
                                     std::span<const double> above);

  /// The same with a constant added at every temperature. [unit of the property]
  [[nodiscard]] TemperatureProperty raised(double constant) const;

  /// The property at a temperature. [unit of the property]
  [[nodiscard]] double at_C(double temperature_C) const {
    const double t = std::min(std::max(temperature_C, low_C_), high_C_);
    double sum = coefficient_[count_ - 1];
    for (std::size_t i = count_ - 1; i-- > 0;) sum = sum * t + coefficient_[i];
    return is_stepped_ ? stepped_at_C(t, sum) : sum;
  }
  /// The same at an absolute temperature. [unit of the property]
  [[nodiscard]] double at_K(double temperature_K) const { return at_C(temperature_K - zero_celsius_K); }

  /// Slope against temperature, zero outside the range. [unit of the property per K]
  [[nodiscard]] double slope_at_K(double temperature_K) const {
    const double t = temperature_K - zero_celsius_K;
    if ((count_ == 1 && !is_stepped_) || t < low_C_ || t > high_C_) return 0.0;
    double sum = 0.0;
    for (std::size_t i = count_ - 1; i > 0; --i) sum = sum * t + static_cast<double>(i) * coefficient_[i];
    return is_stepped_ ? stepped_slope_at_C(t, sum) : sum;
  }

  /// Integral over temperature, exact, outside the range too. [unit of the property times K]
  [[nodiscard]] double integral_K(double from_K, double to_K) const;

  /// Ends of the range, and whether the property is constant or straight between them. [C]
  [[nodiscard]] double low_C() const { return low_C_; }
  [[nodiscard]] double high_C() const { return high_C_; }
  [[nodiscard]] bool is_straight() const { return count_ <= 2 && !is_stepped_; }  ///< constant, or linear between its two temperatures
  /// Coefficient of t to the power i, below a step. [unit of the property per K^i]
  [[nodiscard]] double coefficient(std::size_t i) const { return i < count_ ? coefficient_[i] : 0.0; }

 private:
  [[nodiscard]] double antiderivative(double temperature_C) const;
  [[nodiscard]] double stepped_at_C(double t, double below) const;
  [[nodiscard]] double stepped_slope_at_C(double t, double below) const;

  std::array<double, most_coefficients> coefficient_{};
  std::size_t count_ = 1;
  double low_C_ = -zero_celsius_K;
  double high_C_ = std::numeric_limits<double>::infinity();
  bool is_stepped_ = false;
  std::size_t above_count_ = 1;
  std::array<double, most_coefficients> above_{};
  double inverse_square_ = 0.0;
  double step_C_ = std::numeric_limits<double>::infinity();
};

/// One layer of a section, of dense solid. [SI units as named]
/// Perfect contact to the next inner layer unless a resistance is given.
struct Layer {
  double thickness_m = 0;
  double density_kg_per_m3 = 0;
  TemperatureProperty conductivity_W_per_mK;
  TemperatureProperty specific_heat_J_per_kgK;
  double contact_resistance_m2K_per_W = 0;  ///< at the layer's inner face; not allowed on the innermost layer
};

/// How area grows through the thickness: plate constant, tube as r, shell (sphere) as r squared.
enum class SectionForm { plate, tube, shell };

/// Refuses layers that cannot be: none, not positive, not finite. source: chosen-here
/// error: std::invalid_argument naming the layer (counted from 1, inside out) and what is allowed
void check_layers(std::span<const Layer> layers, SectionForm form, double inner_radius_m);

}  // namespace heatwork::physics
