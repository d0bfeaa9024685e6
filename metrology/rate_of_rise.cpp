#include "metrology/rate_of_rise.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <vector>

#include "metrology/least_squares.h"
#include "metrology/water_saturation.h"

namespace heatwork::metrology {
namespace {

// Rules of the verdict. Standing: assumed. source: chosen-here
constexpr std::size_t fewest_samples = 6;
constexpr double constants_in_record = 2.0;
constexpr double like_a_line = 0.8;
constexpr double like_a_plateau = 0.1;
constexpr double near_saturation = 0.2;
constexpr double chi_square_95 = 3.841;
// A shut chamber that warms by 1 K/min at 500 K lifts its pressure by this share: a slower rise is no leak.
constexpr double strong_evidence = 6.0;  ///< of BIC, between a leak and gas that leaves in two ways
constexpr double apart = 1.3;            ///< times of two gases nearer than this are one
constexpr double warming_per_s = 1.0 / 60.0 / 500.0;

/// p0 + slope t + amplitude (1 - exp(-t / tau)); tau 0 where there is no such term.
struct RiseFit {
  double p0 = 0, slope = 0, slope_variance = 0, amplitude = 0, tau_s = 0, squares = 0;
};

/// Gas that leaves a lining in two ways and no leak: p0 + A (1 - exp(-t / tau)) + B (1 - exp(-t / slower)).
struct TwoGases {
  double p0 = 0, quick_mbar = 0, slow_mbar = 0, quick_s = 0, slow_s = 0, squares = HUGE_VAL;
};

class Record {
 public:
  Record(std::span<const double> times_s, std::span<const double> pressures_mbar) : p_(pressures_mbar) {
    for (const double time : times_s) t_.push_back(time - times_s.front());
    one_.assign(t_.size(), 1.0);
  }

  [[nodiscard]] double length_s() const { return t_.back(); }
  [[nodiscard]] double count() const { return static_cast<double>(t_.size()); }

  [[nodiscard]] RiseFit constant() const {
    const std::array<std::span<const double>, 1> columns = {one_};
    const LinearFit fit = fit_columns(columns, p_);
    return {.p0 = fit.coefficients[0], .squares = fit.squares};
  }

  [[nodiscard]] RiseFit line() const {
    const std::array<std::span<const double>, 2> columns = {one_, t_};
    const LinearFit fit = fit_columns(columns, p_);
    return {.p0 = fit.coefficients[0], .slope = fit.coefficients[1], .slope_variance = fit.variances[1], .squares = fit.squares};
  }

  /// Line and saturating term of one time constant, neither below 0.
  [[nodiscard]] RiseFit bent(double tau_s) const {
    std::vector<double> bend;
    for (const double time : t_) bend.push_back(-std::expm1(-time / tau_s));
    const std::array<std::span<const double>, 3> columns = {one_, t_, bend};
    const LinearFit fit = fit_columns(columns, p_);
    if (fit.coefficients[1] >= 0.0 && fit.coefficients[2] >= 0.0) {
      return {fit.coefficients[0], fit.coefficients[1], fit.variances[1], fit.coefficients[2], tau_s, fit.squares};
    }
    if (fit.coefficients[2] < 0.0) return line();
    const std::array<std::span<const double>, 2> flat = {one_, bend};
    const LinearFit level = fit_columns(flat, p_);
    return {level.coefficients[0], 0.0, fit.variances[1], level.coefficients[1], tau_s, level.squares};
  }

  /// No answer, squares without end, where the times are too close or one share would be below 0.
  [[nodiscard]] TwoGases two_gases(double quick_s, double slow_s) const {
    if (slow_s < apart * quick_s || slow_s > length_s() / constants_in_record) return {};
    std::vector<double> quick, slow;
    for (const double time : t_) {
      quick.push_back(-std::expm1(-time / quick_s));
      slow.push_back(-std::expm1(-time / slow_s));
    }
    const std::array<std::span<const double>, 3> columns = {one_, quick, slow};
    const LinearFit fit = fit_columns(columns, p_);
    if (fit.coefficients[1] < 0.0 || fit.coefficients[2] < 0.0) return {};
    return {fit.coefficients[0], fit.coefficients[1], fit.coefficients[2], quick_s, slow_s, fit.squares};
  }

  /// Time constants tried: from half the closest samples to five records.
  [[nodiscard]] std::vector<double> time_constants() const {
    double closest_s = t_.back();
    for (std::size_t i = 1; i < t_.size(); ++i) closest_s = std::min(closest_s, t_[i] - t_[i - 1]);
    constexpr int grid = 160;
    std::vector<double> out;
    for (int i = 0; i <= grid; ++i) out.push_back(0.5 * closest_s * std::pow(10.0 * t_.back() / closest_s, static_cast<double>(i) / grid));
    return out;
  }

 private:
  std::span<const double> p_;
  std::vector<double> t_, one_;
};

TwoGases better(const TwoGases& one, const TwoGases& other) {
  return other.squares < one.squares ? other : one;
}

/// The best of one quick time near its place while the other stands, and the other way round, by turns.
TwoGases refined(const Record& record, TwoGases best, double step) {
  for (int turn = 0; turn < 40; ++turn) {
    const double share = std::pow(step, std::pow(0.85, turn));
    TwoGases next = best;
    for (const double factor : {1.0 / share, share}) {
      next = better(next, record.two_gases(best.quick_s * factor, best.slow_s));
      next = better(next, record.two_gases(best.quick_s, best.slow_s * factor));
    }
    best = next;
  }
  return best;
}

/// The slower time is one the record is long enough to tell from a leak.
TwoGases best_two_gases(const Record& record) {
  const double most_s = record.length_s() / constants_in_record;
  std::vector<double> tried;
  for (const double tau_s : record.time_constants()) {
    if (tau_s <= most_s && (tried.empty() || tau_s >= apart * tried.back())) tried.push_back(tau_s);
  }
  TwoGases best;
  for (std::size_t quick = 0; quick < tried.size(); ++quick) {
    for (std::size_t slow = quick + 1; slow < tried.size(); ++slow) best = better(best, record.two_gases(tried[quick], tried[slow]));
  }
  return best.quick_s > 0.0 ? refined(record, best, std::sqrt(apart)) : best;
}

RiseFit best_bent(const Record& record) {
  const std::vector<double> tried = record.time_constants();
  std::size_t best = 0;
  double least = HUGE_VAL;
  for (std::size_t i = 0; i < tried.size(); ++i) {
    const double squares = record.bent(tried[i]).squares;
    if (squares < least) {
      least = squares;
      best = i;
    }
  }
  double left = std::log(tried[best == 0 ? 0 : best - 1]), right = std::log(tried[std::min(best + 1, tried.size() - 1)]);
  constexpr double golden = 0.6180339887498949;
  for (int i = 0; i < 60; ++i) {
    const double a = right - golden * (right - left), b = left + golden * (right - left);
    const bool lower = record.bent(std::exp(a)).squares < record.bent(std::exp(b)).squares;
    (lower ? right : left) = lower ? b : a;
  }
  return record.bent(std::exp(0.5 * (left + right)));
}

/// Ends of the 95 % range of the slope, over all time constants the record allows.
void bound_leak(const Record& record, const RiseFit& best, double variance, Rise& out) {
  double low = best.slope, high = best.slope;
  std::vector<double> tried = record.time_constants();
  tried.push_back(best.tau_s);
  for (const double tau_s : tried) {
    const RiseFit fit = record.bent(tau_s);
    const double excess = std::max(0.0, (fit.squares - best.squares) / variance);
    if (excess > chi_square_95) continue;
    const double reach = std::sqrt(fit.slope_variance * variance * (chi_square_95 - excess));
    low = std::min(low, fit.slope - reach);
    high = std::max(high, fit.slope + reach);
  }
  out.leak_low_mbar_per_s = std::max(low, 0.0);
  out.leak_high_mbar_per_s = high;
}

RiseVerdict water_or_gas(double plateau_mbar, double saturation_mbar) {
  const bool wet = std::abs(plateau_mbar - saturation_mbar) <= near_saturation * saturation_mbar;
  return wet ? RiseVerdict::water : RiseVerdict::outgassing;
}

/// A leak beside gas, unless gas that leaves in two ways and no leak describes the record as well, or better.
void judge_mixed(const Record& record, const RiseFit& fit, double saturation_mbar, double floor, Rise& out) {
  const TwoGases gases = best_two_gases(record);
  const double n = record.count();
  const double more =
      n * (std::log(std::max(gases.squares / n, floor)) - std::log(std::max(fit.squares / n, floor))) + std::log(n);  // one unknown more
  out.verdict = more > strong_evidence ? RiseVerdict::mixed : RiseVerdict::undecided;
  if (more > strong_evidence) return;
  out.leak_low_mbar_per_s = 0.0;
  if (more > -strong_evidence) return;
  out.leak_mbar_per_s = 0.0;
  out.outgassing_mbar = gases.quick_mbar + gases.slow_mbar;
  out.outgassing_time_s = (gases.quick_mbar * gases.quick_s + gases.slow_mbar * gases.slow_s) / *out.outgassing_mbar;
  out.plateau_mbar = gases.p0 + *out.outgassing_mbar;
  out.verdict = water_or_gas(*out.plateau_mbar, saturation_mbar);
}

void judge_bent(const Record& record, const RiseFit& fit, double saturation_mbar, double resolution_mbar, Rise& out) {
  const double length_s = record.length_s();
  const auto pressure = [&](double time_s) { return fit.slope * time_s - fit.amplitude * std::expm1(-time_s / fit.tau_s); };
  const double ratio = (pressure(length_s) - pressure(0.8 * length_s)) / pressure(0.2 * length_s);
  out.outgassing_mbar = fit.amplitude;
  out.outgassing_time_s = fit.tau_s;
  out.plateau_mbar = fit.p0 + fit.amplitude;
  out.late_over_early = ratio;
  if (length_s < constants_in_record * fit.tau_s) return;
  // A leak that lifts the display by less than its own step is no finding.
  const double warming_mbar_per_s = warming_per_s * (fit.p0 + fit.amplitude);
  const bool surely_leaks = *out.leak_low_mbar_per_s > 0.0 && fit.slope * length_s >= resolution_mbar && fit.slope > warming_mbar_per_s;
  if (ratio > like_a_line) {
    out.verdict = RiseVerdict::leak;
  } else if (surely_leaks) {
    judge_mixed(record, fit, saturation_mbar, resolution_mbar * resolution_mbar / 12.0, out);
  } else if (ratio < like_a_plateau) {
    out.verdict = water_or_gas(*out.plateau_mbar, saturation_mbar);
  }  // between, and the leak may be none: the record does not tell a slow leak from slow gas
}

void check_record(std::span<const double> times_s, std::span<const double> pressures_mbar, double room_C) {
  if (times_s.size() != pressures_mbar.size() || times_s.size() < 2)
    throw std::domain_error("A record of the rise needs at least 2 samples.");
  for (std::size_t i = 0; i < times_s.size(); ++i) {
    if (i > 0 && !(times_s[i] > times_s[i - 1])) throw std::domain_error("The times must rise from sample to sample.");
    if (!(pressures_mbar[i] >= 0.0 && pressures_mbar[i] < 1e5)) throw std::domain_error("A pressure must be absolute, from 0 mbar.");
  }
  if (!(room_C >= 0.0 && room_C <= 60.0)) throw std::domain_error("The room must be from 0 to 60 °C.");
}

}  // namespace

double resolution_of(std::span<const double> values) {
  for (const double decade : {10.0, 1.0, 0.1, 0.01, 0.001, 0.0001}) {
    for (const double part : {1.0, 0.5, 0.2}) {
      const double step = decade * part;
      if (std::all_of(values.begin(), values.end(), [&](double value) {
            return std::abs(value / step - std::round(value / step)) < 1e-6 * std::max(1.0, std::abs(value / step) * 1e-3);
          })) {
        return step;
      }
    }
  }
  return 0.00001;
}

Rise judge_rise(std::span<const double> times_s, std::span<const double> pressures_mbar, double room_C, std::optional<double> step_mbar) {
  check_record(times_s, pressures_mbar, room_C);
  Rise out;
  if (times_s.size() < fewest_samples) return out;
  const Record record(times_s, pressures_mbar);
  const double n = record.count(), resolution = step_mbar ? *step_mbar : resolution_of(pressures_mbar);
  const double floor = resolution * resolution / 12.0;
  const auto bic = [&](const RiseFit& fit, double unknowns) {
    return n * std::log(std::max(fit.squares / n, floor)) + unknowns * std::log(n);
  };
  const RiseFit constant = record.constant(), line = record.line(), bent = best_bent(record);
  out.rises = line.slope > 0.0 && std::min(bic(line, 2), bic(bent, 4)) < bic(constant, 1);
  if (!out.rises) {
    out.leak_mbar_per_s = 0.0;
    return out;
  }
  const bool straight = bent.tau_s == 0.0 || bic(line, 2) <= bic(bent, 4);
  const RiseFit& fit = straight ? line : bent;
  out.leak_mbar_per_s = fit.slope;
  const double variance = std::max(fit.squares / (n - (straight ? 2.0 : 4.0)), floor);
  if (straight) {
    const double reach = std::sqrt(chi_square_95 * variance * line.slope_variance);
    out.leak_low_mbar_per_s = line.slope - reach;
    out.leak_high_mbar_per_s = line.slope + reach;
    out.late_over_early = 1.0;
    if (line.slope > warming_per_s * line.p0) out.verdict = RiseVerdict::leak;
  } else {
    bound_leak(record, bent, variance, out);
    judge_bent(record, bent, water_saturation_Pa(room_C) / 100.0, resolution, out);
  }
  return out;
}

}  // namespace heatwork::metrology
