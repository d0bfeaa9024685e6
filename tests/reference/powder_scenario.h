// Generic porcelain classes and the firings their published checks are stated for.
#pragma once

#include <algorithm>
#include <vector>

#include "physics/layer.h"
#include "physics/powder.h"

namespace heatwork::reference {

/// The generic metal-ceramic veneer, pores sealing all at once at 10 %, as the scenarios state it.
inline physics::PowderProperties metal_ceramic(physics::Sealing sealing = physics::Sealing::hard) {
  physics::PowderProperties powder;
  powder.vft = {-3.0, 6267.0, 142.2};
  powder.crystal_factor = 1.71;
  powder.sealing = sealing;
  return powder;
}

/// From 450 C at a rate to a peak, a hold, no cooling; vacuum from 500 C within 1 s, air again within 1 s of reaching the peak or never.
struct Scenario {
  double peak_C = 930.0;
  double rate_K_per_min = 55.0;
  double hold_s = 60.0;
  bool vacuum = true;
  double vacuum_kPa = 5.0;
  bool release_at_peak = true;
};

struct Firing {
  std::vector<double> times_s, temperatures_K, pressures_Pa;
};

inline Firing fire(const Scenario& scenario) {
  constexpr double air_Pa = 101325.0;
  const double rate_K_per_s = scenario.rate_K_per_min / 60.0;
  const double pumped_s = 50.0 / rate_K_per_s;
  const double peak_s = (scenario.peak_C - 450.0) / rate_K_per_s;
  const double low_Pa = scenario.vacuum ? scenario.vacuum_kPa * 1e3 : air_Pa;
  const double end_Pa = scenario.release_at_peak ? air_Pa : low_Pa;
  Firing firing;
  firing.times_s = {0.0, pumped_s, pumped_s + 1.0, peak_s, peak_s + 1.0, peak_s + scenario.hold_s};
  firing.pressures_Pa = {air_Pa, air_Pa, low_Pa, low_Pa, end_Pa, end_Pa};
  for (const double time_s : firing.times_s) {
    firing.temperatures_K.push_back(std::min(450.0 + rate_K_per_s * time_s, scenario.peak_C) + physics::zero_celsius_K);
  }
  return firing;
}

inline physics::PowderState fired(const physics::PowderProperties& powder, const Scenario& scenario) {
  const Firing firing = fire(scenario);
  physics::PowderState state = physics::start_powder(powder);
  physics::advance_powder(powder, state, firing.times_s, firing.temperatures_K, firing.pressures_Pa);
  return state;
}

inline double porosity_percent(const physics::PowderProperties& powder, const Scenario& scenario) {
  return 100.0 * physics::powder_porosity(powder, fired(powder, scenario));
}

inline constexpr Scenario s1{};
inline constexpr Scenario s2{.vacuum_kPa = 10.0};
inline constexpr Scenario s3{.vacuum = false};
inline constexpr Scenario s4{.release_at_peak = false};
inline constexpr Scenario s9{.peak_C = 830.0};

}  // namespace heatwork::reference
