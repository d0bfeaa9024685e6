// When each slice of a powder's pores seals, in the reduced time of its open stage. Inner part of the powder model.
#pragma once

#include <array>

#include "physics/powder.h"

namespace heatwork::physics {

/// The slices of a powder: where on the open stage each seals, and where the stage ends.
/// Smooth: `slices` of equal share, each sealed at the middle of its share. Hard: one, at 10 %. theory: (pores.5) (pores.6)
class SealingPlan {
 public:
  explicit SealingPlan(const PowderProperties& powder);

  /// Number of slices, and the radius of a fine pore at sealing [um].
  [[nodiscard]] int count() const { return count_; }
  [[nodiscard]] double fine_start_um() const { return fine_start_um_; }

  /// Reduced time F and porosity at which a slice seals [1].
  [[nodiscard]] double reduced_time(int slice) const { return reduced_time_[static_cast<std::size_t>(slice)]; }
  [[nodiscard]] double porosity(int slice) const { return porosity_[static_cast<std::size_t>(slice)]; }

  /// Reduced time at which half and all pores are sealed; the open stage goes no further than the second [1].
  [[nodiscard]] double half_reduced_time() const { return half_reduced_time_; }
  [[nodiscard]] double last_reduced_time() const { return last_reduced_time_; }

  /// Growth of F with the fluidity integral [Pa]. theory: (sintering.6)
  [[nodiscard]] double reduced_time_per_fluidity_Pa() const { return rate_Pa_; }

  /// Share of the pores still open [1], and the smooth fraction sealed of a state [1].
  [[nodiscard]] double open_share(int sealed) const { return static_cast<double>(count_ - sealed) / count_; }
  [[nodiscard]] double sealed_fraction_of(const PowderState& state) const;

  /// Refuses a state of another number of slices. Throws std::invalid_argument.
  void check(const PowderState& state) const;

 private:
  bool smooth_;
  int count_;
  double fine_start_um_;
  double rate_Pa_;
  double half_reduced_time_ = 0.0;
  double last_reduced_time_ = 0.0;
  std::array<double, most_slices> reduced_time_{};
  std::array<double, most_slices> porosity_{};
};

}  // namespace heatwork::physics
