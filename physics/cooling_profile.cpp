#include "physics/cooling_profile.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace heatwork::physics {

void check_profile(const SectionProfile& profile) {
  const std::size_t rows = profile.time_s.size(), depths = profile.depth_m.size();
  if (rows < 2 || depths < 2) throw std::domain_error("A profile needs two times and two depths at least.");
  if (profile.node_K.size() != rows * depths || (!profile.mass_K.empty() && profile.mass_K.size() != rows))
    throw std::domain_error("A profile needs a temperature for each time and depth.");
  if (profile.depth_m.front() != 0.0 || !std::is_sorted(profile.depth_m.begin(), profile.depth_m.end()))
    throw std::domain_error("The depths of a profile begin at 0 m and never fall.");
  for (std::size_t i = 1; i < rows; ++i)
    if (!(profile.time_s[i] > profile.time_s[i - 1])) throw std::domain_error("The times of a profile must rise.");
  if (!std::is_sorted(profile.turn_s.begin(), profile.turn_s.end()))
    throw std::domain_error("The times at which a profile turns must rise.");
  for (const auto* of : {&profile.node_K, &profile.mass_K})
    for (const double kelvin : *of)
      if (!(kelvin > 0.0 && std::isfinite(kelvin))) throw std::domain_error("The temperatures of a profile must be above 0 K.");
}

SectionProfile thinned(const SectionProfile& profile) {
  const std::size_t rows = profile.time_s.size(), depths = profile.depth_m.size();
  SectionProfile out;
  out.depth_m = profile.depth_m;
  out.turn_s = profile.turn_s;
  for (std::size_t i = 0; i < rows; ++i) {
    const bool turns = std::binary_search(profile.turn_s.begin(), profile.turn_s.end(), profile.time_s[i]);
    if (i % 2 != 0 && i + 1 < rows && !turns) continue;
    const auto row = profile.node_K.begin() + static_cast<std::ptrdiff_t>(i * depths);
    out.time_s.push_back(profile.time_s[i]);
    out.node_K.insert(out.node_K.end(), row, row + static_cast<std::ptrdiff_t>(depths));
    if (!profile.mass_K.empty()) out.mass_K.push_back(profile.mass_K[i]);
  }
  return out;
}

ProfileOnMesh::ProfileOnMesh(const SectionProfile& profile, const CoolingMesh& mesh)
    : profile_(profile), below_(mesh.nodes), share_(mesh.nodes) {
  constexpr double alike = 1e-9;  // of the thickness: how far rounding may have moved the outer face
  const std::vector<double>& depth_m = profile.depth_m;
  const double from = mesh.place_m.front().front(), thickness = mesh.place_m.back().back() - from;
  if (depth_m.back() < thickness * (1.0 - alike)) throw std::domain_error("The depths of a profile must reach the outside face.");
  for (std::size_t l = 0; l < mesh.points.size(); ++l) {
    for (std::size_t q = 0; q < mesh.points[l].count(); ++q) {
      const double depth = mesh.place_m[l][q] - from;
      const auto after = std::upper_bound(depth_m.begin() + 1, depth_m.end() - 1, depth);
      const double before = *(after - 1), length = *after - before;
      below_[mesh.first[l] + q] = static_cast<std::size_t>(after - depth_m.begin()) - 1;
      share_[mesh.first[l] + q] = length > 0.0 ? std::clamp((depth - before) / length, 0.0, 1.0) : 1.0;
    }
  }
  const std::size_t depths = depth_m.size();
  way_K_.assign(profile.time_s.size(), 0.0);
  for (std::size_t i = 1; i < way_K_.size(); ++i) {
    double most = profile.mass_K.empty() ? 0.0 : std::abs(profile.mass_K[i] - profile.mass_K[i - 1]);
    for (std::size_t d = 0; d < depths; ++d)
      most = std::max(most, std::abs(profile.node_K[i * depths + d] - profile.node_K[(i - 1) * depths + d]));
    way_K_[i] = way_K_[i - 1] + most;
  }
}

void ProfileOnMesh::find(double time_s) {
  const std::vector<double>& t = profile_.time_s;
  while (row_ + 2 < t.size() && time_s >= t[row_ + 1]) ++row_;
  while (row_ > 0 && time_s < t[row_]) --row_;
  part_ = std::clamp((time_s - t[row_]) / (t[row_ + 1] - t[row_]), 0.0, 1.0);
}

void ProfileOnMesh::read(double time_s, std::vector<double>& T, double& mass_K) {
  find(time_s);
  const std::size_t depths = profile_.depth_m.size();
  const double* here = &profile_.node_K[row_ * depths];
  const double* next = here + depths;
  for (std::size_t i = 0; i < below_.size(); ++i) {
    const std::size_t d = below_[i];
    const double now = here[d] + share_[i] * (here[d + 1] - here[d]), then = next[d] + share_[i] * (next[d + 1] - next[d]);
    T[i] = now + part_ * (then - now);
  }
  if (!profile_.mass_K.empty()) mass_K = profile_.mass_K[row_] + part_ * (profile_.mass_K[row_ + 1] - profile_.mass_K[row_]);
}

double ProfileOnMesh::moved_K(double from_s, double to_s) {
  const auto way = [&](double time_s) {
    find(time_s);
    return way_K_[row_] + part_ * (way_K_[row_ + 1] - way_K_[row_]);
  };
  const double from = way(from_s);
  return way(to_s) - from;
}

}  // namespace heatwork::physics
