#include "physics/layer.h"

#include <cmath>
#include <stdexcept>
#include <string>

namespace heatwork::physics {

TemperatureProperty TemperatureProperty::constant(double value) {
  const double one[] = {value};
  return polynomial(one);
}

TemperatureProperty TemperatureProperty::linear(double low_C, double low_value, double high_C, double high_value) {
  if (!(low_C < high_C) || !std::isfinite(low_C) || !std::isfinite(high_C)) {
    throw std::invalid_argument("low_C must be below high_C, both finite.");
  }
  const double slope = (high_value - low_value) / (high_C - low_C);
  const double two[] = {low_value - slope * low_C, slope};
  return polynomial(std::span<const double>(two, slope == 0.0 ? 1 : 2), low_C, high_C);
}

TemperatureProperty TemperatureProperty::polynomial(std::span<const double> coefficients, double low_C, double high_C) {
  if (coefficients.empty() || coefficients.size() > most_coefficients) {
    throw std::invalid_argument("coefficients must be one to six numbers.");
  }
  if (!(low_C < high_C)) throw std::invalid_argument("low_C must be below high_C.");
  TemperatureProperty made;
  made.count_ = coefficients.size();
  for (std::size_t i = 0; i < made.count_; ++i) {
    if (!std::isfinite(coefficients[i])) throw std::invalid_argument("coefficients must be finite numbers.");
    made.coefficient_[i] = coefficients[i];
  }
  made.low_C_ = low_C;
  made.high_C_ = high_C;
  return made;
}

TemperatureProperty TemperatureProperty::stepped(std::span<const double> below, double inverse_square, double low_C, double step_C,
                                                 std::span<const double> above) {
  TemperatureProperty made = polynomial(below, low_C);
  const TemperatureProperty other = polynomial(above, step_C);
  if (!(low_C > -zero_celsius_K)) throw std::invalid_argument("low_C must be above absolute zero.");
  if (!std::isfinite(inverse_square)) throw std::invalid_argument("inverse_square must be a finite number.");
  made.is_stepped_ = true;
  made.inverse_square_ = inverse_square;
  made.step_C_ = step_C;
  made.above_count_ = other.count_;
  made.above_ = other.coefficient_;
  return made;
}

TemperatureProperty TemperatureProperty::raised(double constant) const {
  TemperatureProperty made = *this;
  made.coefficient_[0] += constant;
  made.above_[0] += constant;
  return made;
}

double TemperatureProperty::stepped_at_C(double t, double below) const {
  if (t < step_C_) return below + inverse_square_ / ((t + zero_celsius_K) * (t + zero_celsius_K));
  double sum = 0.0;
  for (std::size_t i = above_count_; i-- > 0;) sum = sum * t + above_[i];
  return sum;
}

double TemperatureProperty::stepped_slope_at_C(double t, double below) const {
  if (t < step_C_) return below - 2.0 * inverse_square_ / std::pow(t + zero_celsius_K, 3);
  double sum = 0.0;
  for (std::size_t i = above_count_ - 1; i > 0; --i) sum = sum * t + static_cast<double>(i) * above_[i];
  return sum;
}

// Of the parts below and above a step; they meet at it.
double TemperatureProperty::antiderivative(double temperature_C) const {
  const auto of = [](const auto& coefficient, std::size_t count, double t) {
    double sum = 0.0;
    for (std::size_t i = count; i-- > 0;) sum = sum * t + coefficient[i] / static_cast<double>(i + 1);
    return sum * t;
  };
  if (!is_stepped_) return of(coefficient_, count_, temperature_C);
  const double under_C = std::min(temperature_C, step_C_);
  const double under = of(coefficient_, count_, under_C) - inverse_square_ / (under_C + zero_celsius_K);
  return temperature_C <= step_C_ ? under : under + of(above_, above_count_, temperature_C) - of(above_, above_count_, step_C_);
}

double TemperatureProperty::integral_K(double from_K, double to_K) const {
  if (count_ == 1 && !is_stepped_) return coefficient_[0] * (to_K - from_K);
  const auto up_to = [this](double t) {  // from the low end of the range
    if (t <= low_C_) return at_C(low_C_) * (t - low_C_);
    const double inside = antiderivative(std::min(t, high_C_)) - antiderivative(low_C_);
    return t <= high_C_ ? inside : inside + at_C(high_C_) * (t - high_C_);
  };
  return up_to(to_K - zero_celsius_K) - up_to(from_K - zero_celsius_K);
}

void check_layers(std::span<const Layer> layers, SectionForm form, double inner_radius_m) {
  if (layers.empty()) throw std::invalid_argument("layers must hold at least one layer.");
  if (form != SectionForm::plate && !(inner_radius_m >= 0 && std::isfinite(inner_radius_m))) {
    throw std::invalid_argument("inner_radius_m must be zero or positive.");
  }
  for (std::size_t i = 0; i < layers.size(); ++i) {
    const Layer& layer = layers[i];
    const std::string name = "layer " + std::to_string(i + 1) + ": ";
    const auto positive = [&](double value, const char* what) {
      if (!(value > 0) || !std::isfinite(value)) throw std::invalid_argument(name + what + " must be positive.");
    };
    positive(layer.thickness_m, "thickness_m");
    positive(layer.density_kg_per_m3, "density_kg_per_m3");
    for (const double at_C : {0.0, 25.0, 300.0, 600.0, 900.0, 1200.0}) {
      positive(layer.conductivity_W_per_mK.at_C(at_C), "conductivity_W_per_mK between 0 and 1200 C");
      positive(layer.specific_heat_J_per_kgK.at_C(at_C), "specific_heat_J_per_kgK between 0 and 1200 C");
    }
    if (!(layer.contact_resistance_m2K_per_W >= 0) || !std::isfinite(layer.contact_resistance_m2K_per_W)) {
      throw std::invalid_argument(name + "contact_resistance_m2K_per_W must be zero or positive.");
    }
    if (i == 0 && layer.contact_resistance_m2K_per_W > 0) {
      throw std::invalid_argument("layer 1: contact_resistance_m2K_per_W is between two layers; the innermost has none.");
    }
  }
}

}  // namespace heatwork::physics
