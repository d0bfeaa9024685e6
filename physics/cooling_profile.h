// A prescribed profile of temperatures read off at the points through a section.
#pragma once

#include <cstddef>
#include <vector>

#include "physics/cooling_mesh.h"
#include "physics/cooling_stress.h"

namespace heatwork::physics {

/// Refuses a profile that cannot be. source: chosen-here. Throws std::domain_error with one sentence.
void check_profile(const SectionProfile& profile);

/// A profile with every second row left out, those where it turns kept: how far its rows may be off. source: chosen-here
/// theory: (cooling-stress.18)
SectionProfile thinned(const SectionProfile& profile);

/// A profile at the points of a mesh. Reads forwards and backwards; keeps the profile by reference.
class ProfileOnMesh {
 public:
  /// Throws std::domain_error where the profile ends inside the section. theory: (cooling-stress.17)
  ProfileOnMesh(const SectionProfile& profile, const CoolingMesh& mesh);
  /// Temperatures of the points, and of the support where the profile has it. [K]
  void read(double time_s, std::vector<double>& T, double& mass_K);
  /// By how much the fastest depth moves between two times, there and back added up. [K]
  double moved_K(double from_s, double to_s);
  /// The end. [s]
  [[nodiscard]] double end_s() const { return profile_.time_s.back(); }

 private:
  void find(double time_s);

  const SectionProfile& profile_;
  std::vector<std::size_t> below_;  // of each point: the depth before it
  std::vector<double> share_;       // of the way to the next depth
  std::vector<double> way_K_;       // of each row: moved since the first
  std::size_t row_ = 0;             // the row before the time
  double part_ = 0.0;               // of the way to the next row
};

}  // namespace heatwork::physics
