#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

#include "physics/closed_pores.h"
#include "physics/heat_work.h"
#include "physics/layer.h"
#include "physics/levelling.h"
#include "physics/pores.h"
#include "physics/powder.h"
#include "physics/powder_sealing.h"
#include "physics/range.h"
#include "physics/sintering.h"

namespace heatwork::physics {

namespace {

constexpr double stretch_decades = 0.2;  // of viscosity in one stretch

// One firing of one powder: walks the history segment by segment.
class Walk {
 public:
  Walk(const PowderProperties& powder, const PowderState& state, const PowderAccuracy& accuracy, PowderTrace* trace)
      : powder_(powder), state_(state), trace_(trace), plan_(powder), pores_(powder, accuracy) {
    plan_.check(state);
    pores_.load(state);
    reduced_time_ = cell_reduced_time(state.cell_ratio);
    freezing_K_ = freezing_temperature_C(powder.vft, powder.crystal_factor) + zero_celsius_K;
    levelling_Pa_ = levelling_per_fluidity_Pa(grain_band_um, powder.layer_mm * 1e3, powder.surface_tension_N_per_m);
  }

  // Below the freezing temperature no wall moves; a segment that crosses it is cut there.
  void segment(double from_s, double to_s, double from_K, double to_K, double from_Pa, double to_Pa) {
    pores_.forget_step();
    state_.highest_K = std::max({state_.highest_K, from_K, to_K});
    if ((from_K - freezing_K_) * (to_K - freezing_K_) < 0.0) {
      const double share = (freezing_K_ - from_K) / (to_K - from_K);
      const double cut_s = from_s + share * (to_s - from_s);
      const double cut_Pa = from_Pa + share * (to_Pa - from_Pa);
      part(from_s, cut_s - from_s, from_K, freezing_K_, from_Pa, cut_Pa);
      part(cut_s, to_s - cut_s, freezing_K_, to_K, cut_Pa, to_Pa);
    } else {
      part(from_s, to_s - from_s, from_K, to_K, from_Pa, to_Pa);
    }
  }

  void record(std::size_t point) const {
    if (trace_ == nullptr) return;
    const double x = state_.cell_ratio;
    const double porosity = porosity_of_void(pores_.sealed_void() + open_void(x, pores_.sealed_slices()));
    PowderState now;
    now.cell_ratio = x;
    now.sealed_slices = pores_.sealed_slices();
    trace_->porosity[point] = porosity;
    trace_->relative_density[point] = 1.0 - porosity;
    trace_->sealed_fraction[point] = plan_.sealed_fraction_of(now);
    trace_->heat_work[point] = state_.heat_work;
    trace_->rounding_um[point] = state_.rounding_um;
    trace_->levelling_exponent[point] = state_.levelling_exponent;
  }

  PowderState finish() {
    pores_.store(state_);
    if (trace_ != nullptr) trace_->steps = pores_.steps();
    return state_;
  }

 private:
  void part(double from_s, double duration_s, double from_K, double to_K, double from_Pa, double to_Pa) {
    if (!(duration_s > 0.0)) return;
    if (std::max(from_K, to_K) <= freezing_K_) {
      count_work(fluidity_of_segment_per_Pa(powder_.vft, powder_.crystal_factor, duration_s, from_K, to_K));
      return;
    }
    const double from_log = log10_viscosity(powder_.vft, from_K - zero_celsius_K);
    const double to_log = log10_viscosity(powder_.vft, to_K - zero_celsius_K);
    const int pieces = 1 + static_cast<int>(std::abs(to_log - from_log) / stretch_decades);
    double first_share = 0.0;
    double first_log = from_log;
    for (int i = 1; i <= pieces; ++i) {
      const double last_share = static_cast<double>(i) / pieces;
      const double last_K = from_K + last_share * (to_K - from_K);
      Stretch stretch;
      stretch.start_s = from_s + first_share * duration_s;
      stretch.duration_s = (last_share - first_share) * duration_s;
      stretch.first_K = from_K + first_share * (to_K - from_K);
      stretch.last_K = last_K;
      stretch.first_Pa = from_Pa + first_share * (to_Pa - from_Pa);
      stretch.last_Pa = from_Pa + last_share * (to_Pa - from_Pa);
      const double last_log = i == pieces ? to_log : log10_viscosity(powder_.vft, last_K - zero_celsius_K);
      move(stretch, first_log, last_log);
      first_share = last_share;
      first_log = last_log;
    }
  }

  void move(Stretch& stretch, double first_log, double last_log) {
    stretch.fluidity_per_Pa =
        fluidity_of_segment_per_Pa(powder_.vft, powder_.crystal_factor, stretch.duration_s, stretch.first_K, stretch.last_K);
    const double mean_viscosity = stretch.duration_s / stretch.fluidity_per_Pa;
    stretch.first_slope = powder_.crystal_factor * std::exp(std::numbers::ln10 * first_log) / mean_viscosity;
    stretch.last_slope = powder_.crystal_factor * std::exp(std::numbers::ln10 * last_log) / mean_viscosity;
    if (first_log == last_log) stretch.first_slope = stretch.last_slope = 1.0;
    const double start = reduced_time_;
    const double gain = plan_.reduced_time_per_fluidity_Pa() * stretch.fluidity_per_Pa;
    double u = 0.0;
    while (pores_.sealed_slices() < plan_.count()) {
      const int slice = pores_.sealed_slices();
      const double seal_u = std::max(u, (plan_.reduced_time(slice) - start) / gain);
      if (seal_u > 1.0) break;
      advance_closed(stretch, u, seal_u, start, gain);
      pores_.seal(plan_.porosity(slice), 1.0 / plan_.count(), stretch.pressure_Pa(seal_u), stretch.temperature_K(seal_u));
      u = seal_u;
    }
    advance_closed(stretch, u, 1.0, start, gain);
    if (start < plan_.last_reduced_time()) {
      reduced_time_ = std::min(start + gain, plan_.last_reduced_time());
      state_.cell_ratio = cell_ratio_at(reduced_time_);
      if (trace_ != nullptr) note_moments(stretch, start, gain);
    }
    count_work(stretch.fluidity_per_Pa);
  }

  void advance_closed(const Stretch& stretch, double from_u, double to_u, double start, double gain) {
    OpenVoid open;
    if (pores_.sealed_slices() == 0 || !(to_u > from_u)) return;
    if (pores_.sealed_slices() < plan_.count()) {
      open.from_u = from_u;
      open.at_start = open_void(cell_ratio_at(start + gain * from_u), pores_.sealed_slices());
      const double at_end = open_void(cell_ratio_at(start + gain * to_u), pores_.sealed_slices());
      open.slope = (at_end - open.at_start) / (to_u - from_u);
    }
    pores_.advance(stretch, from_u, to_u, open);
  }

  [[nodiscard]] double open_void(double x, int sealed) const {
    const double share = plan_.open_share(sealed);
    return share > 0.0 ? share * void_per_solid(1.0 - cell_density(x)) : 0.0;
  }

  void note_moments(const Stretch& stretch, double start, double gain) const {
    const auto note = [&](double wanted, std::optional<PowderMoment>& moment) {
      const double u = (wanted - start) / gain;
      if (moment || !(u <= 1.0) || u < 0.0) return;
      moment = PowderMoment{stretch.start_s + stretch.time_share(u) * stretch.duration_s, stretch.temperature_K(u)};
    };
    note(plan_.half_reduced_time(), trace_->half_sealed);
    note(plan_.last_reduced_time(), trace_->fully_sealed);
  }

  void count_work(double fluidity_per_Pa) {
    const double gamma_N_per_m = powder_.surface_tension_N_per_m;
    state_.fluidity_per_Pa += fluidity_per_Pa;
    state_.heat_work += fluidity_per_Pa * gamma_N_per_m / (powder_.particle_radius_um * 1e-6);
    state_.rounding_um += fluidity_per_Pa * gamma_N_per_m * 1e6;
    state_.levelling_exponent += fluidity_per_Pa * levelling_Pa_;
  }

  const PowderProperties& powder_;
  PowderState state_;
  PowderTrace* trace_;
  SealingPlan plan_;
  ClosedPores pores_;
  double reduced_time_ = 0.0;
  double freezing_K_ = 0.0;
  double levelling_Pa_ = 0.0;
};

void check_pressures(std::span<const double> times_s, std::span<const double> pressures_Pa) {
  if (pressures_Pa.size() != times_s.size()) {
    throw std::invalid_argument("pressures_Pa has " + std::to_string(pressures_Pa.size()) + " points and times_s " +
                                std::to_string(times_s.size()) + "; both must have the same number");
  }
  for (const double pressure_Pa : pressures_Pa) require_within("pressures_Pa", pressure_Pa, 0.0, 1e7);
}

void prepare(PowderTrace& trace, std::size_t points) {
  for (auto* column : {&trace.porosity, &trace.relative_density, &trace.sealed_fraction, &trace.heat_work, &trace.rounding_um,
                       &trace.levelling_exponent}) {
    column->assign(points, 0.0);
  }
  trace.half_sealed.reset();
  trace.fully_sealed.reset();
  trace.steps = 0;
}

}  // namespace

void advance_powder(const PowderProperties& powder, PowderState& state, std::span<const double> times_s,
                    std::span<const double> temperatures_K, std::span<const double> pressures_Pa, PowderTrace* trace,
                    const PowderAccuracy& accuracy) {
  check_powder(powder);
  require_history(times_s, temperatures_K);
  check_pressures(times_s, pressures_Pa);
  require_within("void_tolerance", accuracy.void_tolerance, 1e-12, 0.1);
  require_within("largest_change", accuracy.largest_change, 1e-6, 0.5);
  if (trace != nullptr) prepare(*trace, times_s.size());
  Walk walk(powder, state, accuracy, trace);
  walk.record(0);
  for (std::size_t i = 1; i < times_s.size(); ++i) {
    walk.segment(times_s[i - 1], times_s[i], temperatures_K[i - 1], temperatures_K[i], pressures_Pa[i - 1], pressures_Pa[i]);
    walk.record(i);
  }
  state = walk.finish();
}

void advance_powder(const PowderProperties& powder, PowderState& state, std::span<const double> times_s,
                    std::span<const double> temperatures_K, std::span<const double> pressures_Pa, PowderTrace* trace) {
  advance_powder(powder, state, times_s, temperatures_K, pressures_Pa, trace, PowderAccuracy{});
}

}  // namespace heatwork::physics
