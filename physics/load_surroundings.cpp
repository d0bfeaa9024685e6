#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

#include "physics/load_network.h"

namespace heatwork::physics {

namespace {

constexpr double standard_pressure_Pa = 101325.0;  // exact by definition

// A bend this strong ends a step: the error control alone would find it by failing.
constexpr double bend_K_per_s = 0.05, bend_opening_per_s = 1e-3, bend_pressure_share_per_s = 0.02;

void check(const Surroundings& s, double shift_K) {
  const std::size_t n = s.time_s.size();
  if (n < 2 || s.chamber_K.size() != n || s.pressure_Pa.size() != n || s.opening.size() != n) {
    throw std::invalid_argument("time_s, chamber_K, pressure_Pa and opening must have the same length of at least 2.");
  }
  for (std::size_t i = 0; i < n; ++i) {
    const std::string at = " (point " + std::to_string(i + 1) + ")";
    if (!std::isfinite(s.time_s[i]) || (i > 0 && s.time_s[i] < s.time_s[i - 1]))
      throw std::invalid_argument("time_s must not fall" + at + ".");
    if (!(s.chamber_K[i] + shift_K > 0) || !std::isfinite(s.chamber_K[i])) {
      throw std::invalid_argument("chamber_K must stay above 0 K" + at + ".");
    }
    if (!(s.pressure_Pa[i] > 0) || !std::isfinite(s.pressure_Pa[i])) throw std::invalid_argument("pressure_Pa must be above 0" + at + ".");
    if (!(s.opening[i] >= 0 && s.opening[i] <= 1)) throw std::invalid_argument("opening must be from 0 to 1" + at + ".");
  }
  if (!(s.room_K > 0) || !std::isfinite(s.room_K)) throw std::invalid_argument("room_K must be above 0 K.");
  if (!(s.room_pressure_Pa > 0)) throw std::invalid_argument("room_pressure_Pa must be above 0.");
  if (!(s.room_vapour_Pa >= 0 && s.room_vapour_Pa < s.room_pressure_Pa)) {
    throw std::invalid_argument("room_vapour_Pa must be from 0 to below room_pressure_Pa.");
  }
  if (!(s.open_view >= 0 && s.open_view <= 1)) throw std::invalid_argument("open_view must be from 0 to 1.");
  if (!(s.film_W_per_m2K >= 0) || !std::isfinite(s.film_W_per_m2K)) throw std::invalid_argument("film_W_per_m2K must be 0 or more.");
  if (!(s.time_s.back() > s.time_s.front())) throw std::invalid_argument("time_s must cover some time.");
}

}  // namespace

void AroundHistory::take(const Surroundings& from, double chamber_shift_K) {
  check(from, chamber_shift_K);
  from_ = &from;
  shift_K_ = chamber_shift_K;
  find_corners();
}

void AroundHistory::find_corners() {
  const Surroundings& s = *from_;
  corner_.clear();
  corner_point_.clear();
  corner_end_point_.clear();
  const auto bends = [&](std::size_t i) {  // slopes before and after point i differ
    const double before = s.time_s[i] - s.time_s[i - 1], after = s.time_s[i + 1] - s.time_s[i];
    const auto bend = [&](const std::vector<double>& v) { return std::abs((v[i + 1] - v[i]) / after - (v[i] - v[i - 1]) / before); };
    return bend(s.chamber_K) > bend_K_per_s || bend(s.opening) > bend_opening_per_s ||
           bend(s.pressure_Pa) > bend_pressure_share_per_s * s.pressure_Pa[i];
  };
  std::size_t begin = 0;
  const std::size_t n = s.time_s.size();
  for (std::size_t i = 1; i < n; ++i) {
    const bool jump_after = i + 1 < n && s.time_s[i + 1] == s.time_s[i];
    const bool here = i + 1 == n || jump_after || bends(i);
    if (!here || s.time_s[i] == s.time_s[begin]) {
      if (s.time_s[i] == s.time_s[begin]) begin = i;
      continue;
    }
    corner_.push_back(s.time_s[begin]);
    corner_point_.push_back(begin);
    corner_end_point_.push_back(i);
    begin = i;
  }
  if (corner_.empty()) throw std::invalid_argument("time_s must cover some time.");
  corner_.push_back(s.time_s[corner_end_point_.back()]);
}

void AroundHistory::enter(std::size_t i) {
  first_ = corner_point_[i];
  last_ = corner_end_point_[i];
  hint_ = first_;
}

// theory: (load.4), (load.5), (load.6)
Around AroundHistory::at(double time_s) const {
  const Surroundings& s = *from_;
  while (hint_ + 1 < last_ && time_s >= s.time_s[hint_ + 1]) ++hint_;
  while (hint_ > first_ && time_s < s.time_s[hint_]) --hint_;
  const double share = (time_s - s.time_s[hint_]) / (s.time_s[hint_ + 1] - s.time_s[hint_]);
  const auto value = [&](const std::vector<double>& v) { return v[hint_] + share * (v[hint_ + 1] - v[hint_]); };
  Around a;
  const double opening = value(s.opening);
  a.chamber_K = value(s.chamber_K) + shift_K_;
  const double chamber2 = a.chamber_K * a.chamber_K, room2 = s.room_K * s.room_K;
  a.chamber4 = chamber2 * chamber2;
  a.room4 = room2 * room2;
  a.gas_K = a.chamber_K + opening * (s.room_K - a.chamber_K);
  a.room_view = (1.0 - from_->open_view) * opening;
  a.chamber_view = 1.0 - a.room_view;
  a.air.pressure_Pa = value(s.pressure_Pa);
  a.air.film_W_per_m2K = from_->film_W_per_m2K * std::sqrt(a.air.pressure_Pa / standard_pressure_Pa);
  a.air.vapour_fraction = s.room_vapour_Pa / s.room_pressure_Pa;
  return a;
}

}  // namespace heatwork::physics
