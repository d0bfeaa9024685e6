// The sealed pores of a powder, all slices and both kinds side by side, advanced together. Inner part of the powder model.
#pragma once

#include <array>
#include <cstddef>

#include "physics/powder.h"

namespace heatwork::physics {

/// A short stretch of a history over which viscosity changes little, with the fluidity integral S as its clock.
/// u runs from 0 to 1 with S; time follows by a cubic with the exact slopes at both ends. [s, K, Pa, 1/Pa]
struct Stretch {
  double start_s = 0.0, duration_s = 0.0;
  double first_K = 0.0, last_K = 0.0;
  double first_Pa = 0.0, last_Pa = 0.0;
  double fluidity_per_Pa = 0.0;
  double first_slope = 1.0, last_slope = 1.0;  ///< d(time share) / du at the ends [1]

  /// Share of the stretch's time gone at u [1].
  [[nodiscard]] double time_share(double u) const {
    const double bend0 = first_slope - 1.0;
    const double bend1 = 1.0 - last_slope;
    return u + u * (1.0 - u) * (bend0 * (1.0 - u) + bend1 * u);
  }
  /// Slope of the share of time over u [1].
  [[nodiscard]] double time_slope(double u) const {
    const double bend0 = first_slope - 1.0;
    const double bend1 = 1.0 - last_slope;
    return 1.0 + (1.0 - 2.0 * u) * (bend0 * (1.0 - u) + bend1 * u) + u * (1.0 - u) * (bend1 - bend0);
  }
  /// Temperature [K] and chamber pressure [Pa] at u.
  [[nodiscard]] double temperature_K(double u) const { return first_K + (last_K - first_K) * time_share(u); }
  [[nodiscard]] double pressure_Pa(double u) const { return first_Pa + (last_Pa - first_Pa) * time_share(u); }
};

/// The void of the pores still open, linear in u over the part of a stretch between two sealings [1].
struct OpenVoid {
  double at_start = 0.0;
  double slope = 0.0;  ///< per u
  double from_u = 0.0;

  /// Open void per solid at u [1].
  [[nodiscard]] double at(double u) const { return at_start + slope * (u - from_u); }
};

/// Radii of the sealed pores in um and the gas they hold. Two-stage Rosenbrock method (L-stable, second order) in S with error control.
/// theory: (pores.1) (pores.2) (pores.7)
class ClosedPores {
 public:
  ClosedPores(const PowderProperties& powder, const PowderAccuracy& accuracy);

  /// Takes over the sealed slices of a state; `store` gives them back.
  void load(const PowderState& state);
  void store(PowderState& state) const;

  /// Seals one more slice: its share of the void per solid, porosity, pressure and temperature at that instant.
  void seal(double porosity, double share, double pressure_Pa, double temperature_K);

  /// Moves the walls from u to another u of a stretch; nothing else changes. Between calls all radii are at or above their floor.
  void advance(const Stretch& stretch, double from_u, double to_u, const OpenVoid& open);

  /// Forgets the step found suitable; called at every history point so that a cut there changes nothing.
  void forget_step() { next_step_ = 0.0; }

  /// Void of the sealed pores per solid [1]; how many slices are sealed, how many steps were tried.
  [[nodiscard]] double sealed_void() const { return void_; }
  [[nodiscard]] int sealed_slices() const { return static_cast<int>(count_ / 2); }
  [[nodiscard]] int steps() const { return steps_; }

 private:
  static constexpr std::size_t lanes = 8;  // a fixed run of neighbours that the compiler turns into vector code
  static constexpr std::size_t most_pores = 2 * static_cast<std::size_t>(most_slices);
  using Row = std::array<double, most_pores>;

  struct Drive {
    double pressure_Pa, kelvin, pressure_slope, kelvin_slope;  // slopes per S
  };
  struct Look {
    double void_slope, largest_rate;
  };
  struct Try {
    double error, void_after;
  };

  void add(std::size_t place, double start_um, double radius_um, double sealed_Pa, double sealed_K, double void_at_sealing);
  [[nodiscard]] double sum_of_void() const;
  [[nodiscard]] Look look(const Drive& now, double mobility);
  [[nodiscard]] Try attempt(const Drive& now, const Drive& then, double step, double mobility, double mobility_ratio);
  [[nodiscard]] Drive drive(const Stretch& stretch, double u) const;

  double two_gamma_;  // [Pa um]
  double fine_share_, coarse_share_, fine_start_um_, coarse_start_um_;
  PowderAccuracy accuracy_;
  std::size_t count_ = 0;  // pores, two a slice: fine, coarse
  double void_ = 0.0;      // of the sealed pores per solid
  double next_step_ = 0.0;
  int steps_ = 0;
  Row radius_{}, gas_{}, weight_{}, floor_{}, used_{}, rate_{}, free_{}, tried_{}, sealed_Pa_{}, sealed_K_{}, porosity_{};
};

}  // namespace heatwork::physics
