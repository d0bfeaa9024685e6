// A dental porcelain powder through a firing: open stage, sealing, gas in the pores, gloss and edges; carried on into the next firing.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <vector>

#include "physics/viscosity.h"

namespace heatwork::physics {

/// How pores seal: by degrees from 14 to 5 % porosity, or all at once at 10 %.
enum class Sealing { smooth, hard };

/// Most slices of pores that a state can hold, and the number used where none is asked for.
inline constexpr int most_slices = 32;
inline constexpr int usual_slices = 16;

/// What a powder is. Defaults are no material; ranges are checked by `check_powder`.
/// theory: (sintering.6) (pores.6)
struct PowderProperties {
  Vft vft;                                ///< the glass, T in C
  double crystal_factor = 1.0;            ///< of the viscosity [1]
  double surface_tension_N_per_m = 0.30;  ///< [N/m]
  double particle_radius_um = 6.0;        ///< Sauter radius [um]
  double shape_factor = 1.3;              ///< of the open rate, angular grains [1]
  double coarse_share = 0.5;              ///< share of coarse pores in the void at sealing [1]
  double coarse_start_radius_um = 15.0;   ///< radius of a coarse pore at sealing [um]
  double fine_radius_ratio = 0.4;         ///< radius of a fine pore at sealing over the particle radius [1]
  double start_relative_density = 0.58;   ///< of the dry build-up [1]
  double layer_mm = 1.0;                  ///< thickness for the levelling of the grain [mm]
  Sealing sealing = Sealing::smooth;
  int slices = usual_slices;  ///< slices of smooth sealing, 1 to 32
};

/// What a powder has become; carried through a firing and on into the next. Plain values, copied freely.
/// The first `sealed_slices` places of the arrays are in use; radii are in um, pressures in Pa, temperatures in K. theory: (pores.6)
struct PowderState {
  double cell_ratio = 0.0;          ///< x of the open stage [1]
  double fluidity_per_Pa = 0.0;     ///< integral of dt / eta [1/Pa]
  double heat_work = 0.0;           ///< Theta [1]
  double rounding_um = 0.0;         ///< rounding length [um]
  double levelling_exponent = 0.0;  ///< N of the grain band [1]
  double highest_K = 0.0;           ///< highest temperature lived through [K]
  int sealed_slices = 0;            ///< of `slices`
  int slices = 0;                   ///< all slices, 1 when sealing is hard
  std::array<double, most_slices> sealed_Pa{};
  std::array<double, most_slices> sealed_K{};
  std::array<double, most_slices> sealed_porosity{};
  std::array<double, most_slices> fine_um{};
  std::array<double, most_slices> coarse_um{};
  bool operator==(const PowderState&) const = default;
};

/// A moment of a history: when [s] and at what temperature [K].
struct PowderMoment {
  double time_s = 0.0;
  double temperature_K = 0.0;
};

/// What `advance_powder` tells on the way: one value a history point, and the moments the pores were half and fully sealed.
struct PowderTrace {
  std::vector<double> porosity;            ///< [1]
  std::vector<double> relative_density;    ///< [1]
  std::vector<double> sealed_fraction;     ///< [1]
  std::vector<double> heat_work;           ///< [1]
  std::vector<double> rounding_um;         ///< [um]
  std::vector<double> levelling_exponent;  ///< [1]
  std::optional<PowderMoment> half_sealed;
  std::optional<PowderMoment> fully_sealed;
  int steps = 0;  ///< steps of the closed stage, taken and tried again
};

/// Refuses properties outside their ranges; the sentence names the one and its range. Throws std::domain_error. source: chosen-here
void check_powder(const PowderProperties& powder);

/// The powder as built up and dried, before any firing. source: scherer-1977
PowderState start_powder(const PowderProperties& powder);

/// Carries a powder through a history of temperature [K] and chamber pressure [Pa], both linear between points that rise in time.
/// Changes `state` only when the whole history is done; `trace` may be null. Nothing is kept between calls but `state`, so a history
/// cut at one of its points and done in two calls gives the same. Throws std::domain_error or std::invalid_argument with one sentence.
/// Error: porosity to 0.1 % of itself or 0.005 points. source: scherer-1977, mackenzie-shuttleworth-1949
/// theory: (sintering.6) (pores.1) (pores.2) (pores.6) (pores.7)
void advance_powder(const PowderProperties& powder, PowderState& state, std::span<const double> times_s,
                    std::span<const double> temperatures_K, std::span<const double> pressures_Pa, PowderTrace* trace = nullptr);

/// Closed-stage accuracy asked for: error of the void a step, over the void. Only tests of convergence use another than the usual.
struct PowderAccuracy {
  double void_tolerance = 1e-3;
  double largest_change = 0.20;  ///< of a radius in one step [1]
};
/// The same with another accuracy of the closed stage. source: scherer-1977, mackenzie-shuttleworth-1949 theory: (pores.7)
void advance_powder(const PowderProperties& powder, PowderState& state, std::span<const double> times_s,
                    std::span<const double> temperatures_K, std::span<const double> pressures_Pa, PowderTrace* trace,
                    const PowderAccuracy& accuracy);

/// Porosity of a state [1]: void per unit of solid v, open and sealed, as v / (1 + v).
/// source: computed-here theory: (pores.6)
double powder_porosity(const PowderProperties& powder, const PowderState& state);

/// Share of the pores sealed [1]. source: chosen-here theory: (pores.5)
double powder_sealed_fraction(const PowderProperties& powder, const PowderState& state);

/// Mean radius of the sealed coarse pores weighted by their void [um]; the start radius while none is sealed.
/// source: computed-here theory: (pores.6)
double powder_coarse_radius_um(const PowderProperties& powder, const PowderState& state);

/// The state as a list of doubles in a fixed order for storing, and back [units of the state]. It begins with a layout number;
/// another layout or a wrong length is refused by std::invalid_argument. source: chosen-here
std::vector<double> canonical_values(const PowderState& state);
PowderState powder_state_from(std::span<const double> values);

/// What needs no pores: fluidity integral, heat-work, rounding, levelling of the grain [1/Pa, 1, um, 1].
struct PowderWork {
  double fluidity_per_Pa = 0.0;
  double heat_work = 0.0;
  double rounding_um = 0.0;
  double levelling_exponent = 0.0;
};

/// Heat-work and its like after a history that starts new; about ten times quicker than the whole.
/// source: scherer-1977 theory: (heat-work.1) (heat-work.2)
PowderWork powder_work(const PowderProperties& powder, std::span<const double> times_s, std::span<const double> temperatures_K);

}  // namespace heatwork::physics
