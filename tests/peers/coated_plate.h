// The coated plate under a firing program, and the slabs beside it: cases shared with a finite-element peer. Numbers of our own choosing.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <string>
#include <vector>

#include "physics/section_heating.h"

namespace heatwork::peers {

using namespace physics;

struct Table {
  std::vector<double> time_s;
  std::vector<std::array<double, 3>> value_C;  ///< inside face, interface, outside face; or middle, face
};

/// A reference table beside the source tree; empty where it is not there.
inline Table table(const std::string& name) {
  Table t;
  std::ifstream file(std::string(HEATWORK_SOURCE_DIR) + "/../shared/peers/reference/" + name + ".csv");
  std::string line;
  std::getline(file, line);
  while (std::getline(file, line)) {
    double s = 0;
    std::array<double, 3> v{};
    if (std::sscanf(line.c_str(), "%lf,%lf,%lf,%lf", &s, &v[0], &v[1], &v[2]) < 3) continue;
    t.time_s.push_back(s);
    t.value_C.push_back(v);
  }
  return t;
}

inline std::array<Layer, 2> coated_layers() {
  return {{{0.7e-3, 6050, TemperatureProperty::linear(25, 2.9, 600, 2.2), TemperatureProperty::linear(25, 455, 600, 610), 0},
           {1.5e-3, 2400, TemperatureProperty::linear(25, 1.1, 600, 1.4), TemperatureProperty::linear(25, 750, 600, 1080), 0}}};
}

inline constexpr double ramp_s = 480.0 / 55.0 * 60.0, start_K = 723.15;

/// 450 to 930 C at 55 K/min, 60 s hold by radiation; then 600 s of a film to 25 C.
inline std::array<Exposure, 2> firing() {
  std::array<Exposure, 2> x;
  x[0].time_s = {0, ramp_s, ramp_s + 60};
  x[0].surroundings_K = {723.15, 1203.15, 1203.15};
  x[0].emissivity = 0.9;
  x[1].time_s = {ramp_s + 60, ramp_s + 660};
  x[1].surroundings_K = {298.15, 298.15};
  x[1].film_W_per_m2K = 60;
  return x;
}

/// The 337 times of the reference: 96 steps of the ramp, every 2.5 s of the hold, every 1 s for 120 s, then every 5 s.
inline std::vector<double> firing_times() {
  std::vector<double> t;
  for (int i = 0; i <= 96; ++i) t.push_back(ramp_s * i / 96);
  for (int i = 1; i <= 24; ++i) t.push_back(ramp_s + 2.5 * i);
  for (int i = 1; i <= 120; ++i) t.push_back(ramp_s + 60 + i);
  for (int i = 1; i <= 96; ++i) t.push_back(ramp_s + 180 + 5 * i);
  t.back() = ramp_s + 660;
  return t;
}

inline double largest_error_K(const SectionTemperatures& ours, const Table& reference) {
  double worst = 0;
  for (std::size_t i = 0; i < reference.time_s.size(); ++i) {
    worst = std::max({worst, std::abs(ours.inside_K[i] - 273.15 - reference.value_C[i][0]),
                      std::abs(ours.interface_K[i] - 273.15 - reference.value_C[i][1]),
                      std::abs(ours.surface_K[i] - 273.15 - reference.value_C[i][2])});
  }
  return worst;
}

}  // namespace heatwork::peers
