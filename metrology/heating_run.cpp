#include "metrology/heating_run.h"

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

// What of a run is used. Standing: assumed. source: chosen-here
constexpr double left_out_s = 60.0;
constexpr double from_C = 200.0;
constexpr std::size_t fewest_samples = 8;
constexpr double least_span_K = 100.0;

// Limits of the verdict. Standing: assumed. source: chosen-here
constexpr double warn_power_health = 0.92;
constexpr double replace_power_health = 0.85;
constexpr double slow_heat_up = 1.3;
constexpr double warn_loss_health = 1.12;
constexpr double sure_deviations = 1.0;  ///< a limit nearer than this many standard deviations is not told
constexpr double held_share = 0.12;      ///< of the record that a capped rate must fill
constexpr double strong_evidence = 8.0;  ///< of BIC, for a bend sought at many places
constexpr double held_below = 0.85;      ///< of full power; heat capacity, hot wire and radiation bend the curve of a sound muffle by less
constexpr double largest_health_sd = 0.08;  ///< beyond it the run says nothing

constexpr double dip_from_C = 60.0, dip_to_C = 150.0;
constexpr double latent_J_per_g = 2450.0;

/// start, gain and loss of one exponential; squares of its misses.
struct Curve {
  double start_C = 0, gain = 0, loss = 0, squares = HUGE_VAL;
  double gain_variance = 0;
};

class Run {
 public:
  Run(std::span<const double> times_s, std::span<const double> temperatures_C, double room_C) : room_C_(room_C) {
    for (std::size_t i = 0; i < times_s.size(); ++i) {
      if (times_s[i] - times_s.front() < left_out_s || temperatures_C[i] < from_C) continue;
      t_.push_back(times_s[i]);
      y_.push_back(temperatures_C[i]);
    }
    if (t_.size() < fewest_samples || t_.back() - t_.front() < left_out_s || y_.back() - y_.front() < least_span_K) {
      throw std::domain_error("After the first 60 s and above 200 °C the run must hold at least 8 samples over 60 s and 100 K; it holds " +
                              number_text(static_cast<double>(t_.size())) + ".");
    }
    for (double& time : t_) time -= times_s.front();
  }

  [[nodiscard]] double length_s() const { return t_.back() - t_.front(); }
  [[nodiscard]] double room_C() const { return room_C_; }
  [[nodiscard]] double count() const { return static_cast<double>(t_.size()); }
  [[nodiscard]] std::span<const double> temperatures() const { return y_; }
  [[nodiscard]] const std::vector<double>& times() const { return t_; }

  /// T - room = (start - room) exp(-loss t) + gain (1 - exp(-loss t)) / loss after a straight piece that ends at `held_s`.
  [[nodiscard]] Curve curve(double loss, double held_s) const {
    std::vector<double> start, gain, above;
    const double t0 = t_.front(), bend = std::max(held_s, t0);
    for (std::size_t i = 0; i < t_.size(); ++i) {
      above.push_back(y_[i] - room_C_);
      start.push_back(start_share(t_[i], t0, bend, loss));
      gain.push_back(gain_share(t_[i], t0, bend, loss));
    }
    const std::array<std::span<const double>, 2> columns = {start, gain};
    const LinearFit fit = fit_columns(columns, above);
    return {room_C_ + fit.coefficients[0], fit.coefficients[1], loss, fit.squares, fit.variances[1]};
  }

  /// The best loss for a straight piece of given end.
  [[nodiscard]] Curve best(double held_s) const {
    const double most = 3.0 / length_s();
    constexpr double golden = 0.6180339887498949;
    double left = 0.0, right = most, a = (1.0 - golden) * most, b = golden * most;
    double at_a = curve(a, held_s).squares, at_b = curve(b, held_s).squares;
    for (int i = 0; i < 45; ++i) {
      if (at_a < at_b) {
        right = b;
        b = a;
        at_b = at_a;
        a = right - golden * (right - left);
        at_a = curve(a, held_s).squares;
      } else {
        left = a;
        a = b;
        at_a = at_b;
        b = left + golden * (right - left);
        at_b = curve(b, held_s).squares;
      }
    }
    return curve(0.5 * (left + right), held_s);
  }

  [[nodiscard]] Curve straight() const {
    std::vector<double> one(t_.size(), 1.0), rise;
    for (const double time : t_) rise.push_back(time - t_.front());
    const std::array<std::span<const double>, 2> columns = {one, rise};
    const LinearFit fit = fit_columns(columns, y_);
    return {fit.coefficients[0], fit.coefficients[1], 0, fit.squares, fit.variances[1]};
  }

 private:
  // While held the rate is that of full power at the bend; both shares follow from a rate continuous there.
  static double start_share(double t, double t0, double bend, double loss) {
    const double at_bend = 1.0 / (1.0 + loss * (bend - t0));
    return t <= bend ? 1.0 - loss * (t - t0) * at_bend : at_bend * std::exp(-loss * (t - bend));
  }
  static double gain_share(double t, double t0, double bend, double loss) {
    const double at_bend = (bend - t0) / (1.0 + loss * (bend - t0));
    if (t <= bend) return (t - t0) * (1.0 - loss * at_bend);
    const double decay = std::exp(-loss * (t - bend));
    return at_bend * decay + (loss > 1e-12 ? -std::expm1(-loss * (t - bend)) / loss : t - bend);
  }

  double room_C_;
  std::vector<double> t_, y_;
};

struct Fitted {
  Curve curve;
  double variance, loss_sd, gain_sd;
  bool held;
  double held_s;
};

/// Where the straight piece of a held run ends [C].
double end_of_held_C(const Curve& curve, double room_C, double held_s) {
  return room_C + (curve.start_C - room_C + curve.gain * held_s) / (1.0 + curve.loss * held_s);
}

/// The rate while held over what full power would have given at the start.
double share_while_held(const Curve& curve, double room_C, double held_s) {
  const double held = curve.gain - curve.loss * (end_of_held_C(curve, room_C, held_s) - room_C);
  return held / (curve.gain - curve.loss * (curve.start_C - room_C));
}

/// Standard deviations from the curvature of the squares over the loss, the gain going with it.
void set_deviations(const Run& run, Fitted& fit) {
  const double step = std::max(1e-3 * fit.curve.loss, 1e-7);
  const Curve up = run.curve(fit.curve.loss + step, fit.held_s), down = run.curve(std::max(fit.curve.loss - step, 0.0), fit.held_s);
  const double apart = 0.5 * (up.loss - down.loss);
  const double bend = (up.squares + down.squares - 2.0 * fit.curve.squares) / (apart * apart);
  fit.loss_sd = bend > 0.0 ? std::sqrt(2.0 * fit.variance / bend) : HUGE_VAL;
  const double follows = (up.gain - down.gain) / (up.loss - down.loss);
  fit.gain_sd = std::sqrt(fit.variance * fit.curve.gain_variance + follows * follows * fit.loss_sd * fit.loss_sd);
}

Fitted fit_run(const Run& run) {
  const double n = run.count(), resolution = resolution_of(run.temperatures()), floor = resolution * resolution / 12.0;
  const auto bic = [&](const Curve& curve, double unknowns) {
    return n * std::log(std::max(curve.squares / n, floor)) + unknowns * std::log(n);
  };
  Curve plain = run.best(0.0), bent;
  double bent_at_s = 0.0;
  const double t0 = run.times().front();
  constexpr int grid = 24;
  for (int i = 2; i < grid; ++i) {
    const double held_s = t0 + run.length_s() * i / grid;
    const Curve tried = run.best(held_s);
    if (tried.squares < bent.squares) {
      bent = tried;
      bent_at_s = held_s;
    }
  }
  const Curve line = run.straight();
  Fitted out{plain, 0, 0, 0, false, 0.0};
  double least = bic(plain, 3);
  const bool clearly_held =
      bent_at_s - t0 >= held_share * run.length_s() && share_while_held(bent, run.room_C(), bent_at_s - t0) < held_below;
  if (bic(bent, 4) < least - strong_evidence && clearly_held) {
    least = bic(bent, 4);
    out = {bent, 0, 0, 0, true, bent_at_s};
  }
  if (bic(line, 2) <= least) out = {line, 0, 0, 0, true, run.times().back()};
  out.variance = std::max(out.curve.squares / (n - 4.0), floor);
  set_deviations(run, out);
  return out;
}

/// Falls behind the fit between 60 and 150 °C; only where the record has both ends.
std::optional<double> dip_of(std::span<const double> times_s, std::span<const double> temperatures_C, double room_C,
                             const GainAndLoss& muffle) {
  std::optional<std::size_t> first, last;
  for (std::size_t i = 0; i < times_s.size(); ++i) {
    if (temperatures_C[i] >= dip_from_C && !first) first = i;
    if (temperatures_C[i] <= dip_to_C) last = i;
  }
  if (!first || !last || *last <= *first || temperatures_C[*first] > dip_to_C) return std::nullopt;
  const double hindered_s = times_s[*last] - times_s[*first];
  const double free_s = heating_time_s(muffle, room_C, temperatures_C[*first], temperatures_C[*last]);
  const double middle_C = 0.5 * (temperatures_C[*first] + temperatures_C[*last]);
  return (hindered_s - free_s) * (muffle.gain_K_per_s - muffle.loss_per_s * (middle_C - room_C));
}

void judge(const Fitted& fit, const GainAndLoss& when_new, double voltage_factor, double room_C, HeatingRun& run) {
  const double power = *run.power_health, loss = *run.loss_health;
  const double power_sd = fit.gain_sd * voltage_factor / when_new.gain_K_per_s, loss_sd = fit.loss_sd / when_new.loss_per_s;
  if (power_sd > largest_health_sd) return;
  const auto clear = [](double value, double limit, double sd) { return std::abs(value - limit) >= sure_deviations * sd; };
  const GainAndLoss at_nominal{run.gain_at_nominal_K_per_s, run.measured.loss_per_s};
  const bool reaches = heating_limit_C(at_nominal, room_C) > 910.0 && heating_limit_C(when_new, room_C) > 910.0;
  const bool slow = !reaches || heating_time_s(at_nominal, room_C, 500, 900) > slow_heat_up * heating_time_s(when_new, room_C, 500, 900);
  if (power < warn_power_health) {
    if (!clear(power, warn_power_health, power_sd)) return;
    run.verdict = power < replace_power_health || slow ? MuffleVerdict::replace_element : MuffleVerdict::element_ageing;
  } else if (clear(power, warn_power_health, power_sd) && clear(loss, warn_loss_health, loss_sd)) {
    run.verdict = loss > warn_loss_health ? MuffleVerdict::insulation : MuffleVerdict::healthy;
  }
}

void check_asked(std::span<const double> times_s, std::span<const double> temperatures_C, double room_C, double mains_V, double nominal_V) {
  if (times_s.size() != temperatures_C.size() || times_s.empty())
    throw std::domain_error("Times and temperatures must have the same number of entries.");
  for (std::size_t i = 1; i < times_s.size(); ++i) {
    if (!(times_s[i] > times_s[i - 1])) throw std::domain_error("The times must rise from sample to sample.");
  }
  if (!(room_C >= -20.0 && room_C <= 60.0)) throw std::domain_error("The room must be from -20 to 60 °C.");
  if (!(nominal_V > 0.0 && mains_V >= 0.8 * nominal_V && mains_V <= 1.3 * nominal_V)) {
    throw std::domain_error("The mains must be from 80 to 130 % of nominal: " + number_text(mains_V) + " V of " + number_text(nominal_V) +
                            " V.");
  }
}

}  // namespace

double heating_limit_C(const GainAndLoss& muffle, double room_C) {
  return muffle.loss_per_s > 0.0 ? room_C + muffle.gain_K_per_s / muffle.loss_per_s : HUGE_VAL;
}

double heating_time_s(const GainAndLoss& muffle, double room_C, double from_C, double to_C) {
  if (muffle.loss_per_s <= 1e-12) return (to_C - from_C) / muffle.gain_K_per_s;
  const double limit_C = heating_limit_C(muffle, room_C);
  if (!(limit_C > std::max(from_C, to_C))) {
    throw std::domain_error("The muffle never reaches " + number_text(to_C) + " °C: its limit is " + number_text(limit_C, 4) + " °C.");
  }
  return std::log((limit_C - from_C) / (limit_C - to_C)) / muffle.loss_per_s;
}

HeatingRun judge_heating_run(std::span<const double> times_s, std::span<const double> temperatures_C, double room_C, double mains_V,
                             double nominal_V, const std::optional<GainAndLoss>& when_new) {
  check_asked(times_s, temperatures_C, room_C, mains_V, nominal_V);
  const Run record(times_s, temperatures_C, room_C);
  const Fitted fit = fit_run(record);
  const double voltage_factor = nominal_V / mains_V * (nominal_V / mains_V);
  HeatingRun out{};
  out.measured = {fit.curve.gain, fit.curve.loss};
  if (!(fit.curve.gain > 0.0)) throw std::domain_error("The temperature does not rise: no run at full power is recorded.");
  out.gain_sd = fit.gain_sd;
  out.loss_sd = fit.loss_sd;
  out.gain_at_nominal_K_per_s = fit.curve.gain * voltage_factor;
  out.limit_C = heating_limit_C(out.measured, room_C);
  out.verdict = MuffleVerdict::cannot_tell;
  if (fit.held) {
    out.held_until_C = end_of_held_C(fit.curve, room_C, fit.held_s - record.times().front());
  }
  if (!fit.held) out.moisture_dip_K = dip_of(times_s, temperatures_C, room_C, out.measured);
  if (!when_new) return out;
  if (!(when_new->gain_K_per_s > 0.0 && when_new->loss_per_s > 0.0)) throw std::domain_error("Gain and loss when new must be above 0.");
  out.power_health = out.gain_at_nominal_K_per_s / when_new->gain_K_per_s;
  out.loss_health = out.measured.loss_per_s / when_new->loss_per_s;
  if (fit.held) {
    out.verdict = MuffleVerdict::held_back;
  } else {
    judge(fit, *when_new, voltage_factor, room_C, out);
  }
  return out;
}

double water_of_dip_g(double dip_K, double heat_capacity_J_per_K) {
  if (!(dip_K >= 0.0 && heat_capacity_J_per_K >= 0.0)) throw std::domain_error("The dip and the heat capacity must be 0 or more.");
  return dip_K * heat_capacity_J_per_K / latent_J_per_g;
}

double element_resistance_factor(double temperature_C) {
  if (!(temperature_C >= 20.0 && temperature_C <= 1400.0)) throw std::domain_error("The element must be from 20 to 1400 °C.");
  // By 100 K from 0 °C. Standing: measured. source: fecral-datasheet
  constexpr std::array<double, 15> table = {1.00, 1.00, 1.00, 1.00, 1.00, 1.01, 1.02, 1.02, 1.03, 1.03, 1.04, 1.04, 1.04, 1.04, 1.05};
  const auto below = std::min(static_cast<std::size_t>(temperature_C / 100.0), table.size() - 2);
  const double share = temperature_C / 100.0 - static_cast<double>(below);
  return table[below] + share * (table[below + 1] - table[below]);
}

double element_power_W(double mains_V, double resistance_at_20_ohm, double factor) {
  if (!(mains_V > 0.0 && resistance_at_20_ohm > 0.0 && factor > 0.0))
    throw std::domain_error("Mains, resistance and its factor must be above 0.");
  return mains_V * mains_V / (resistance_at_20_ohm * factor);
}

StepResponse step_by_two_late_times(double time_353_s, double time_853_s) {
  return {0.67 * (time_853_s - time_353_s), 1.3 * time_353_s - 0.29 * time_853_s};
}

StepResponse step_by_two_early_times(double time_283_s, double time_632_s) {
  const double time_constant_s = 1.5 * (time_632_s - time_283_s);
  return {time_constant_s, time_632_s - time_constant_s};
}

}  // namespace heatwork::metrology
