// Time integration of stiff systems behind one interface: kernels give a right-hand side, nothing of the solver shows.
// The one file that knows the solver library is integrator.cpp.
#pragma once

#include <cstddef>
#include <memory>
#include <span>
#include <string>
#include <vector>

namespace heatwork::physics {

/// Window on a banded Jacobian: `at(i, j)` is d(rate i)/d(value j); only |entries| within the bandwidths may be touched.
class BandJacobian {
 public:
  BandJacobian(double* data, std::size_t column_stride, std::size_t diagonal) : data_(data), stride_(column_stride), diagonal_(diagonal) {}
  /// Entry of row i, column j. [unit of rate i over unit of value j]
  double& at(std::size_t i, std::size_t j) { return data_[j * stride_ + diagonal_ + i - j]; }

 private:
  double* data_;
  std::size_t stride_, diagonal_;
};

/// A system dy/dt = rate(t, y), stiff or not, with a band structure and, if wanted, events where a function passes zero.
class StiffSystem {
 public:
  StiffSystem() = default;
  StiffSystem(const StiffSystem&) = delete;
  StiffSystem& operator=(const StiffSystem&) = delete;
  virtual ~StiffSystem() = default;

  /// Number of equations; constant while an integrator lives.
  [[nodiscard]] virtual std::size_t size() const = 0;
  /// Entries of the Jacobian below and above the diagonal.
  [[nodiscard]] virtual std::size_t lower_bandwidth() const { return size() > 0 ? size() - 1 : 0; }
  [[nodiscard]] virtual std::size_t upper_bandwidth() const { return size() > 0 ? size() - 1 : 0; }
  /// Must write every element of `dydt` and keep no memory of calls.
  virtual void rate(double time_s, std::span<const double> y, std::span<double> dydt) = 0;
  /// True if `jacobian` is given; otherwise difference quotients are used.
  [[nodiscard]] virtual bool has_jacobian() const { return false; }
  /// `entries` arrives filled with zeros.
  virtual void jacobian(double /*time_s*/, std::span<const double> /*y*/, BandJacobian /*entries*/) {}
  [[nodiscard]] virtual std::size_t events() const { return 0; }
  virtual void event_values(double /*time_s*/, std::span<const double> /*y*/, std::span<double> /*values*/) {}
};

/// How closely to follow the solution; the error of one step is kept below relative |y| + absolute. [pure number, unit of y]
struct Tolerance {
  double relative = 1e-6;
  std::vector<double> absolute = {1e-9};  ///< one for all, or one for each component
  long most_steps = 100000;               ///< between two calls
};

/// Backward differentiation formulas of variable order and step (Hindmarsh et al. 2005), with a banded Newton matrix.
/// Contract: `start` before anything else; between calls `time_s()` and `values()` stay as left. Memory is taken once, in the constructor.
/// source: sundials-2005 · theory: (heat.10)
class Integrator {
 public:
  enum class Stop { reached, event };

  /// The system must outlive the integrator and keep its size.
  /// error: std::invalid_argument for an empty system or a tolerance that is not positive
  Integrator(StiffSystem& system, const Tolerance& tolerance);
  ~Integrator();
  Integrator(const Integrator&) = delete;
  Integrator& operator=(const Integrator&) = delete;

  /// Sets time and values and forgets the past; at every corner of the surroundings. [s, unit of y]
  void start(double time_s, std::span<const double> y);

  /// Never evaluate the right-hand side beyond this time until the next `start` or `stop_time`. [s]
  void stop_time(double time_s);

  /// Integrates to exactly `time_s` or to an event before it; values are those at `time_s()` then. [s]
  /// error: std::runtime_error in one sentence; what the system threw is passed on
  Stop advance_to(double time_s);

  /// One step of the solver's own choosing, not past the stop time. [s]
  /// error: as advance_to
  Stop step();

  /// Where the integration stands. [s], [unit of y]
  [[nodiscard]] double time_s() const;
  [[nodiscard]] std::span<const double> values() const;
  /// After Stop::event: which functions passed zero (-1 falling, +1 rising, 0 not).
  [[nodiscard]] std::span<const int> events_found() const;
  [[nodiscard]] long steps() const;  ///< since the last `start`
  [[nodiscard]] long rate_calls() const;

 private:
  struct Memory;
  std::unique_ptr<Memory> memory_;
};

}  // namespace heatwork::physics
