// Physical quantities as types. A temperature (a point on the scale), a difference of temperatures and a heating rate are
// different types: a point plus a point does not compile, and a rate never gets the 32 of the Fahrenheit scale.
#pragma once

#include <compare>

namespace heatwork::quantity {

/// Zero of the Celsius scale on the kelvin scale, exact by definition (SI brochure, 9th edition). [K]
inline constexpr double zero_celsius_K = 273.15;

/// Numbers of one kind: same-kind sums and comparisons, scaling by a pure number, ratio of two. `Tag` tells kinds apart.
template <class Tag>
class Amount {
 public:
  constexpr Amount() = default;
  /// A value in the SI unit of the kind (K, K/s, Pa, s, m, kg, m2, m3, V, W).
  static constexpr Amount si(double value) { return Amount(value); }
  [[nodiscard]] constexpr double si() const { return si_; }
  constexpr auto operator<=>(const Amount&) const = default;
  constexpr Amount operator-() const { return Amount(-si_); }
  constexpr Amount& operator+=(Amount other) {
    si_ += other.si_;
    return *this;
  }
  constexpr Amount& operator-=(Amount other) {
    si_ -= other.si_;
    return *this;
  }
  friend constexpr Amount operator+(Amount a, Amount b) { return Amount(a.si_ + b.si_); }
  friend constexpr Amount operator-(Amount a, Amount b) { return Amount(a.si_ - b.si_); }
  friend constexpr Amount operator*(double factor, Amount a) { return Amount(factor * a.si_); }
  friend constexpr Amount operator*(Amount a, double factor) { return Amount(a.si_ * factor); }
  friend constexpr Amount operator/(Amount a, double divisor) { return Amount(a.si_ / divisor); }
  friend constexpr double operator/(Amount a, Amount b) { return a.si_ / b.si_; }

 private:
  explicit constexpr Amount(double value) : si_(value) {}
  double si_ = 0;
};

using TemperatureDifference = Amount<struct TemperatureDifferenceTag>;  ///< [K]
using HeatingRate = Amount<struct HeatingRateTag>;                      ///< [K/s]; cooling negative only where said
using Duration = Amount<struct DurationTag>;                            ///< [s]
using Pressure = Amount<struct PressureTag>;                            ///< absolute [Pa]
using PressureRate = Amount<struct PressureRateTag>;                    ///< leak, [Pa/s]
using Length = Amount<struct LengthTag>;                                ///< [m]
using Area = Amount<struct AreaTag>;                                    ///< [m2]
using Volume = Amount<struct VolumeTag>;                                ///< [m3]
using Mass = Amount<struct MassTag>;                                    ///< [kg]
using Voltage = Amount<struct VoltageTag>;                              ///< [V]
using Fraction = Amount<struct FractionTag>;                            ///< pure number, 0.7 for "70 %"
using Frequency = Amount<struct FrequencyTag>;                          ///< rate constant such as a heat loss, [1/s]

/// A point on the temperature scale. Point minus point is a difference; point plus point does not compile.
class Temperature {
 public:
  constexpr Temperature() = default;
  static constexpr Temperature kelvin(double value) { return Temperature(value); }
  static constexpr Temperature celsius(double value) { return Temperature(value + zero_celsius_K); }
  [[nodiscard]] constexpr double kelvin() const { return kelvin_; }
  [[nodiscard]] constexpr double celsius() const { return kelvin_ - zero_celsius_K; }
  constexpr auto operator<=>(const Temperature&) const = default;
  friend constexpr TemperatureDifference operator-(Temperature a, Temperature b) {
    return TemperatureDifference::si(a.kelvin_ - b.kelvin_);
  }
  friend constexpr Temperature operator+(Temperature a, TemperatureDifference d) { return Temperature(a.kelvin_ + d.si()); }
  friend constexpr Temperature operator+(TemperatureDifference d, Temperature a) { return a + d; }
  friend constexpr Temperature operator-(Temperature a, TemperatureDifference d) { return Temperature(a.kelvin_ - d.si()); }

 private:
  explicit constexpr Temperature(double value) : kelvin_(value) {}
  double kelvin_ = zero_celsius_K;
};

constexpr HeatingRate operator/(TemperatureDifference d, Duration t) {
  return HeatingRate::si(d.si() / t.si());
}
constexpr Duration operator/(TemperatureDifference d, HeatingRate r) {
  return Duration::si(d.si() / r.si());
}
constexpr TemperatureDifference operator*(HeatingRate r, Duration t) {
  return TemperatureDifference::si(r.si() * t.si());
}

constexpr TemperatureDifference kelvins(double value) {
  return TemperatureDifference::si(value);
}
constexpr HeatingRate kelvins_per_minute(double value) {
  return HeatingRate::si(value / 60.0);
}
constexpr Duration seconds(double value) {
  return Duration::si(value);
}
constexpr Duration minutes(double value) {
  return Duration::si(60.0 * value);
}
constexpr Pressure millibars(double value) {
  return Pressure::si(100.0 * value);
}
constexpr Pressure kilopascals(double value) {
  return Pressure::si(1000.0 * value);
}
constexpr Length millimetres(double value) {
  return Length::si(value / 1000.0);
}
constexpr Mass grams(double value) {
  return Mass::si(value / 1000.0);
}

}  // namespace heatwork::quantity
