#include "metrology/pump_down.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <vector>

#include "metrology/least_squares.h"
#include "metrology/number_text.h"
#include "metrology/rate_of_rise.h"

namespace heatwork::metrology {
namespace {

// Small pumps lose speed near their limit, and at the start lines throttle. Standing: assumed. source: chosen-here
constexpr double fitted_from_mbar = 300.0;
constexpr std::size_t enough_samples = 4;
// Limits of a change against the furnace's own history. Standing: assumed. source: chosen-here
constexpr double higher_by_mbar = 3.0;

struct Trial {
  double squares, ultimate_mbar, amplitude_mbar;
};

Trial at_time_constant(std::span<const double> times_s, std::span<const double> pressures_mbar, double time_constant_s) {
  std::vector<double> one(times_s.size(), 1.0), decay;
  for (const double time : times_s) decay.push_back(std::exp(-(time - times_s.front()) / time_constant_s));
  const std::array<std::span<const double>, 2> columns = {one, decay};
  const LinearFit both = fit_columns(columns, pressures_mbar);
  if (both.coefficients[0] >= 0.0) return {both.squares, both.coefficients[0], both.coefficients[1]};
  const LinearFit alone = fit_columns(std::span(columns).subspan(1), pressures_mbar);
  return {alone.squares, 0.0, alone.coefficients[0]};
}

/// From where a record is fitted.
std::size_t fitted_from(std::span<const double> pressures_mbar) {
  std::size_t from = 0;
  while (from < pressures_mbar.size() && pressures_mbar[from] > fitted_from_mbar) ++from;
  return pressures_mbar.size() - from < enough_samples ? 0 : from;
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const std::size_t half = values.size() / 2;
  return values.size() % 2 == 1 ? values[half] : 0.5 * (values[half - 1] + values[half]);
}

}  // namespace

double pumped_pressure_mbar(const PumpDown& pump, double start_mbar, double time_s) {
  return pump.ultimate_mbar + (start_mbar - pump.ultimate_mbar) * std::exp(-time_s / pump.time_constant_s);
}

double pumping_time_s(const PumpDown& pump, double start_mbar, double end_mbar) {
  if (!(end_mbar > pump.ultimate_mbar && end_mbar <= start_mbar)) {
    throw std::domain_error("The pump never reaches " + number_text(end_mbar) + " mbar: its limit is " + number_text(pump.ultimate_mbar) +
                            " mbar, and the pressure must not be above the start.");
  }
  return pump.time_constant_s * std::log((start_mbar - pump.ultimate_mbar) / (end_mbar - pump.ultimate_mbar));
}

double pumping_speed(double volume, double start_mbar, double end_mbar, double time) {
  if (!(volume > 0.0 && end_mbar > 0.0 && start_mbar > end_mbar && time > 0.0)) {
    throw std::domain_error("Volume, time and pressures must be above 0, and the start above the end.");
  }
  return volume / time * std::log(start_mbar / end_mbar);
}

PumpDown fit_pump_down(std::span<const double> times_s, std::span<const double> pressures_mbar) {
  if (times_s.size() != pressures_mbar.size()) throw std::domain_error("Times and pressures must have the same number of entries.");
  if (times_s.size() < 3) throw std::domain_error("A pump-down needs at least 3 samples: undecided, record longer.");
  const std::size_t from = fitted_from(pressures_mbar);
  const auto times = times_s.subspan(from), pressures = pressures_mbar.subspan(from);
  const double length_s = times.back() - times.front();
  if (!(length_s > 0.0)) throw std::domain_error("The times must rise.");
  double low = std::log(length_s / 200.0), high = std::log(20.0 * length_s);
  const auto squares = [&](double log_s) { return at_time_constant(times, pressures, std::exp(log_s)).squares; };
  constexpr int grid = 80;
  double best = low, least = HUGE_VAL;
  for (int i = 0; i <= grid; ++i) {
    const double here = low + (high - low) * i / grid, miss = squares(here);
    if (miss < least) {
      least = miss;
      best = here;
    }
  }
  const double step = (high - low) / grid;
  double left = best - step, right = best + step;
  constexpr double golden = 0.6180339887498949;
  for (int i = 0; i < 100; ++i) {
    const double a = right - golden * (right - left), b = left + golden * (right - left);
    (squares(a) < squares(b) ? right : left) = squares(a) < squares(b) ? b : a;
  }
  const double time_constant_s = std::exp(0.5 * (left + right));
  const Trial fit = at_time_constant(times, pressures, time_constant_s);
  if (!(fit.amplitude_mbar > 0.0)) throw std::domain_error("The pressure does not fall: no pump-down is recorded.");
  if (time_constant_s > length_s) {
    throw std::domain_error("The record is shorter than the time constant of the pump: undecided, record longer.");
  }
  return {time_constant_s, fit.ultimate_mbar};
}

std::optional<PumpDownDoubt> pump_down_doubt(std::span<const double> times_s, std::span<const double> pressures_mbar, const PumpDown& fit,
                                             std::optional<double> step_mbar) {
  const std::size_t from = fitted_from(pressures_mbar);
  const auto times = times_s.subspan(from), pressures = pressures_mbar.subspan(from);
  if (times.size() < enough_samples) return std::nullopt;
  const Trial trial = at_time_constant(times, pressures, fit.time_constant_s);
  std::vector<double> one(times.size(), 1.0), decay, bends;
  for (const double time : times) {
    const double since_s = time - times.front();
    decay.push_back(std::exp(-since_s / fit.time_constant_s));
    bends.push_back(trial.amplitude_mbar * decay.back() * since_s / (fit.time_constant_s * fit.time_constant_s));
  }
  const std::array<std::span<const double>, 3> columns = {one, decay, bends};
  const LinearFit linear = fit_columns(columns, pressures);
  const double resolution = step_mbar ? *step_mbar : resolution_of(pressures), n = static_cast<double>(times.size());
  const double variance = std::max(trial.squares / (n - 3.0), resolution * resolution / 12.0);
  return PumpDownDoubt{std::sqrt(variance * linear.variances[2]), std::sqrt(variance * linear.variances[0])};
}

PumpDown usual_pump(std::span<const PumpDown> earlier) {
  if (earlier.empty()) throw std::domain_error("There is no earlier record of the pump.");
  std::vector<double> constants_s, limits_mbar;
  for (const PumpDown& each : earlier) {
    constants_s.push_back(each.time_constant_s);
    limits_mbar.push_back(each.ultimate_mbar);
  }
  return {median(constants_s), median(limits_mbar)};
}

PumpChange pump_change(const PumpDown& now, std::span<const PumpDown> earlier, const std::optional<PumpDown>& after_warm_run) {
  if (earlier.size() < 2) return PumpChange::unknown;
  const PumpDown usual = usual_pump(earlier);
  const double high_mbar = usual.ultimate_mbar + higher_by_mbar;
  const bool slower = now.time_constant_s > slow_pump_share * usual.time_constant_s, higher = now.ultimate_mbar > high_mbar;
  if (higher && after_warm_run && after_warm_run->ultimate_mbar <= high_mbar) return PumpChange::wet_pump;
  if (slower) return higher ? PumpChange::weak_and_leaking : PumpChange::weak_pump;
  return higher ? PumpChange::leak_or_water : PumpChange::as_before;
}

}  // namespace heatwork::metrology
