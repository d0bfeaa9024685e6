#include "physics/integrator.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

#include "physics/rosenbrock.h"

namespace heatwork::physics {
namespace {

// y' = -1000 (y - cos t) - sin t: exact solution cos t, stiff.
class Stiff : public StiffSystem {
 public:
  std::size_t size() const override { return 1; }
  std::size_t lower_bandwidth() const override { return 0; }
  std::size_t upper_bandwidth() const override { return 0; }
  void rate(double t, std::span<const double> y, std::span<double> f) override {
    if (fail_after > 0 && t > fail_after) throw std::domain_error("beyond the range.");
    f[0] = -1000 * (y[0] - std::cos(t)) - std::sin(t);
  }
  bool has_jacobian() const override { return with_jacobian; }
  void jacobian(double, std::span<const double>, BandJacobian j) override { j.at(0, 0) = -1000; }
  std::size_t events() const override { return 1; }
  void event_values(double, std::span<const double> y, std::span<double> g) override { g[0] = y[0]; }
  bool with_jacobian = true;
  double fail_after = 0;
};

TEST(Integrator, FollowsAStiffSystemAndFindsItsEvent) {
  for (const bool jacobian : {true, false}) {
    Stiff system;
    system.with_jacobian = jacobian;
    Integrator solver(system, {1e-9, {1e-12}});
    const double start[] = {1.0};
    solver.start(0, start);
    EXPECT_EQ(solver.advance_to(1.0), Integrator::Stop::reached);
    EXPECT_NEAR(solver.values()[0], std::cos(1.0), 1e-8);
    EXPECT_EQ(solver.advance_to(2.0), Integrator::Stop::event);
    EXPECT_NEAR(solver.time_s(), std::acos(0.0), 1e-7);
    EXPECT_EQ(solver.events_found()[0], -1);
    EXPECT_EQ(solver.advance_to(2.0), Integrator::Stop::reached);
  }
}

TEST(Integrator, StepsEndAtTheStopTime) {
  Stiff system;
  Integrator solver(system, {1e-6, {1e-9}});
  const double start[] = {1.0};
  solver.start(0, start);
  solver.stop_time(0.5);
  while (solver.time_s() < 0.5) solver.step();
  EXPECT_DOUBLE_EQ(solver.time_s(), 0.5);
  const double again[] = {std::cos(0.5)};
  solver.start(0.5, again);  // as at a corner
  solver.advance_to(1.0);
  EXPECT_NEAR(solver.values()[0], std::cos(1.0), 1e-5);
}

TEST(Integrator, PassesOnWhatTheSystemThrows) {
  Stiff system;
  system.fail_after = 0.3;
  Integrator solver(system, {1e-6, {1e-9}});
  const double start[] = {1.0};
  solver.start(0, start);
  EXPECT_THROW(solver.advance_to(1.0), std::domain_error);
}

TEST(Integrator, FailsInOneSentenceAndSilently) {
  Stiff system;
  Tolerance few{1e-12, {1e-14}, 5};
  Integrator solver(system, few);
  const double start[] = {2.0};
  solver.start(0, start);
  ::testing::internal::CaptureStderr();
  try {
    solver.advance_to(10.0);
    FAIL();
  } catch (const std::runtime_error& wrong) {
    EXPECT_NE(std::string(wrong.what()).find("could not go on at"), std::string::npos);
  }
  EXPECT_EQ(::testing::internal::GetCapturedStderr(), "");
  EXPECT_THROW(Integrator(system, {1e-6, {0.0}}), std::invalid_argument);
}

// Two coupled non-linear, non-autonomous equations for the observed order of the one-step method.
struct Coupled {
  double m[2][2] = {};
  void rate(double t, const double* y, double* f) const {
    f[0] = -y[0] * y[0] + y[1] + std::sin(t);
    f[1] = y[0] - 2 * y[1] * y[1] * y[1];
  }
  void factor(double t, const double* y, const double*, double inverse, double* f_t) {
    m[0][0] = inverse + 2 * y[0];
    m[0][1] = -1;
    m[1][0] = -1;
    m[1][1] = inverse + 6 * y[1] * y[1];
    f_t[0] = std::cos(t);
    f_t[1] = 0;
  }
  void solve(double* b) const {
    const double d = m[0][0] * m[1][1] - m[0][1] * m[1][0];
    const double x = (b[0] * m[1][1] - m[0][1] * b[1]) / d, y = (m[0][0] * b[1] - m[1][0] * b[0]) / d;
    b[0] = x;
    b[1] = y;
  }
  double error_norm(const double*, const double*, const double* e) const { return std::abs(e[0]) + std::abs(e[1]); }
};

struct Ends {
  double end, middle;
};
Ends integrated(int steps) {
  Coupled system;
  RodasStepper<Coupled> stepper;
  stepper.resize(2);
  stepper.values()[0] = 1;
  stepper.values()[1] = 0.5;
  const double h = 1.0 / steps;
  Ends e{};
  for (int i = 0; i < steps; ++i) {
    stepper.prepare(system, i * h);
    stepper.try_step(system, h);
    if (i == 0) e.middle = stepper.inside(0, 0.5);
    stepper.accept();
  }
  e.end = stepper.values()[0];
  return e;
}

TEST(Rosenbrock, ObservedOrderIsFour) {
  const double exact = integrated(2000).end;
  const double order = std::log2(std::abs(integrated(32).end - exact) / std::abs(integrated(64).end - exact));
  RecordProperty("value", std::to_string(order));
  RecordProperty("expected", "4");
  RecordProperty("tolerance", "0.35");
  RecordProperty("unit", "1");
  RecordProperty("source", "hairer-wanner-1996, section VI.4: order 4");
  RecordProperty("kind", "verification");
  EXPECT_NEAR(order, 4.0, 0.35);
}

TEST(Rosenbrock, DenseOutputIsOfOrderThree) {
  // First step of two lengths, its middle against a far finer solution at the same time.
  const auto error = [](int steps) {
    Coupled system;
    RodasStepper<Coupled> fine;
    fine.resize(2);
    fine.values()[0] = 1;
    fine.values()[1] = 0.5;
    const double end = 0.5 / steps, h = end / 64;
    for (int i = 0; i < 64; ++i) {
      fine.prepare(system, i * h);
      fine.try_step(system, h);
      fine.accept();
    }
    return std::abs(integrated(steps).middle - fine.values()[0]);
  };
  EXPECT_GT(std::log2(error(4) / error(8)), 3.5);  // local error of a third-order interpolant: fourth power
}

}  // namespace
}  // namespace heatwork::physics
