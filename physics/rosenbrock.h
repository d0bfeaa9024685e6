// One-step integration of stiff systems without iteration: a linearly implicit method of order four with an embedded third.
// Heating of loads takes it because a firing has many corners: a one-step method loses nothing at a corner, a multistep one starts anew.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <vector>

namespace heatwork::physics {

/// Coefficients of RODAS (Hairer and Wanner 1996, section VI.4): 6 stages, order 4, L-stable, stiffly accurate, dense output of order 3.
/// source: hairer-wanner-1996 · theory: (heat.8)
struct Rodas {
  static constexpr std::size_t stages = 6;
  static constexpr double gamma = 0.25;
  static constexpr std::array<double, 6> node = {0.0, 0.386, 0.21, 0.63, 1.0, 1.0};
  static constexpr std::array<double, 6> time_weight = {0.25, -0.1043, 0.1035, -0.03620000000000023, 0.0, 0.0};
  static constexpr double a[6][5] = {{},
                                     {1.544},
                                     {0.9466785280815826, 0.2557011698983284},
                                     {3.314825187068521, 2.896124015972201, 0.9986419139977817},
                                     {1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950},
                                     {1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950, 1.0}};
  static constexpr double c[6][5] = {{},
                                     {-5.6688},
                                     {-2.430093356833875, -0.2063599157091915},
                                     {-0.1073529058151375, -9.594562251023355, -20.47028614809616},
                                     {7.496443313967647, -10.24680431464352, -33.99990352819905, 11.70890893206160},
                                     {8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136, -6.058818238834054}};
  static constexpr double dense[2][5] = {
      {10.12623508344586, -7.487995877610167, -34.80091861555747, -7.992771707568823, 1.025137723295662},
      {-0.6762803392801253, 6.087714651680015, 16.43084320892478, 24.76722511418386, -6.594389125716872}};
};

/// Steps dy/dt = f(t, y) with Rodas. `System` gives:
///   rate(t, y, f)                      writes f
///   factor(t, y, f, inverse, f_t)      linearises at (t, y) and factorises (inverse I - J), writes the partial time derivative
///   solve(b)                           b becomes (inverse I - J)^-1 b
///   error_norm(y, y_new, e)            1 = just tolerable
/// Contract: `start`, then `try_step` until it returns true; `accept` makes the new values the old ones. Nothing is allocated after
/// `resize`.
template <class System>
class RodasStepper {
 public:
  /// Takes room for n values; all zero.
  void resize(std::size_t n) {
    n_ = n;
    for (auto* v : {&y_, &y_new_, &f_, &f_t_, &argument_, &rhs_}) v->assign(n, 0.0);
    for (auto& u : u_) u.assign(n, 0.0);
  }
  /// Values at the start of the step, and those at its end once tried. [unit of y]
  [[nodiscard]] std::span<double> values() { return y_; }
  [[nodiscard]] std::span<const double> values() const { return y_; }
  [[nodiscard]] std::span<const double> new_values() const { return y_new_; }
  [[nodiscard]] std::span<double> new_values() { return y_new_; }

  /// Prepares a step from (t, values()); must be called after every change of values, time or system. [s]
  void prepare(System& system, double t) {
    t_ = t;
    system.rate(t, y_.data(), f_.data());
  }
  /// Rate at the start of the step. [unit of y per s]
  [[nodiscard]] std::span<const double> rate() const { return f_; }

  /// Tries one step of length h; returns the error norm (up to 1 is tolerable), new_values() hold the result. [s]
  double try_step(System& system, double h) {
    h_ = h;
    system.factor(t_, y_.data(), f_.data(), 1.0 / (h * Rodas::gamma), f_t_.data());
    stage<0>(system);
    stage<1>(system);
    stage<2>(system);
    stage<3>(system);
    stage<4>(system);
    stage<5>(system);
    for (std::size_t i = 0; i < n_; ++i) y_new_[i] = argument_[i] + u_[5][i];
    return system.error_norm(y_.data(), y_new_.data(), u_[5].data());
  }

  /// Value i inside the step just tried, share theta of it done. [unit of y]
  [[nodiscard]] double inside(std::size_t i, double theta) const {
    double first = 0, second = 0;
    for (std::size_t j = 0; j < 5; ++j) {
      first += Rodas::dense[0][j] * u_[j][i];
      second += Rodas::dense[1][j] * u_[j][i];
    }
    return (1 - theta) * y_[i] + theta * (y_new_[i] + (1 - theta) * (first + theta * second));
  }

  /// The new values become the old ones.
  void accept() { y_.swap(y_new_); }

  /// The next step from the error of the last: grows at most fivefold, shrinks at most fivefold. [s]
  [[nodiscard]] static double next_step(double h, double error) {
    const double factor = error > 0 ? 0.9 / std::sqrt(std::sqrt(error)) : 5.0;
    return h * std::clamp(factor, 0.2, 5.0);
  }

 private:
  template <std::size_t s>
  void stage(System& system) {
    if constexpr (s == 0) {
      for (std::size_t i = 0; i < n_; ++i) rhs_[i] = f_[i];
    } else {
      for (std::size_t i = 0; i < n_; ++i) {
        double sum = y_[i];
        for (std::size_t j = 0; j < s; ++j) sum += Rodas::a[s][j] * u_[j][i];
        argument_[i] = sum;
      }
      system.rate(t_ + Rodas::node[s] * h_, argument_.data(), rhs_.data());
    }
    const double inverse = 1.0 / h_;
    const double time = Rodas::time_weight[s] * h_;
    double* u = u_[s].data();
    for (std::size_t i = 0; i < n_; ++i) {
      double sum = 0;
      for (std::size_t j = 0; j < s; ++j) sum += Rodas::c[s][j] * u_[j][i];
      u[i] = rhs_[i] + inverse * sum + time * f_t_[i];
    }
    system.solve(u);
  }

  std::size_t n_ = 0;
  double t_ = 0, h_ = 0;
  std::vector<double> y_, y_new_, f_, f_t_, argument_, rhs_;
  std::array<std::vector<double>, 6> u_;
};

}  // namespace heatwork::physics
