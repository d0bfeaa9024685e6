#include "physics/integrator.h"

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_band.h>
#include <sunmatrix/sunmatrix_band.h>

#include <algorithm>
#include <cmath>
#include <exception>
#include <stdexcept>
#include <utility>

namespace heatwork::physics {

// Everything the C library needs, freed in reverse order of making.
struct Integrator::Memory {
  explicit Memory(StiffSystem& of) : system(of) {}
  Memory(const Memory&) = delete;
  Memory& operator=(const Memory&) = delete;
  ~Memory() {
    if (solver != nullptr) CVodeFree(&solver);
    if (linear != nullptr) SUNLinSolFree(linear);
    if (matrix != nullptr) SUNMatDestroy(matrix);
    if (absolute != nullptr) N_VDestroy(absolute);
    if (y != nullptr) N_VDestroy(y);
    if (context != nullptr) SUNContext_Free(&context);
  }

  StiffSystem& system;
  SUNContext context = nullptr;
  N_Vector y = nullptr, absolute = nullptr;
  SUNMatrix matrix = nullptr;
  SUNLinearSolver linear = nullptr;
  void* solver = nullptr;
  double time = 0;
  bool started = false;
  std::vector<int> found;
  std::exception_ptr thrown;  // an exception may not cross the C library: kept here, passed on after
  std::string said;

  template <class Call>
  int guarded(Call call) noexcept {
    try {
      call();
      return 0;
    } catch (...) {
      thrown = std::current_exception();
      return -1;
    }
  }
  void check(int flag, const char* doing) {
    if (flag >= 0) return;
    if (thrown) std::rethrow_exception(std::exchange(thrown, nullptr));
    throw std::runtime_error("time integration could not go on at " + std::to_string(time) + " s while " + doing +
                             (said.empty() ? std::string() : ": " + said) + ".");
  }
};

namespace {

std::span<const double> read(N_Vector v) {
  return {NV_DATA_S(v), static_cast<std::size_t>(NV_LENGTH_S(v))};
}
std::span<double> write(N_Vector v) {
  return {NV_DATA_S(v), static_cast<std::size_t>(NV_LENGTH_S(v))};
}

}  // namespace

// The callbacks are static members by way of a local type, so that they may see the private memory.
struct IntegratorCalls {
  template <class Memory>
  static int rate(realtype t, N_Vector y, N_Vector dydt, void* data) {
    auto* m = static_cast<Memory*>(data);
    return m->guarded([&] { m->system.rate(t, read(y), write(dydt)); });
  }
  template <class Memory>
  static int jacobian(realtype t, N_Vector y, N_Vector, SUNMatrix j, void* data, N_Vector, N_Vector, N_Vector) {
    auto* m = static_cast<Memory*>(data);
    return m->guarded([&] {
      m->system.jacobian(t, read(y),
                         BandJacobian(SM_DATA_B(j), static_cast<std::size_t>(SM_LDIM_B(j)), static_cast<std::size_t>(SM_SUBAND_B(j))));
    });
  }
  template <class Memory>
  static int events(realtype t, N_Vector y, realtype* values, void* data) {
    auto* m = static_cast<Memory*>(data);
    return m->guarded([&] { m->system.event_values(t, read(y), {values, m->found.size()}); });
  }
  template <class Memory>
  static void message(int code, const char*, const char*, char* text, void* data) {
    if (code < 0) static_cast<Memory*>(data)->said = text;
  }
};

Integrator::Integrator(StiffSystem& system, const Tolerance& tolerance) : memory_(std::make_unique<Memory>(system)) {
  Memory& m = *memory_;
  const std::size_t n = system.size();
  if (n == 0) throw std::invalid_argument("system must have at least one equation.");
  if (!(tolerance.relative >= 0) || !std::isfinite(tolerance.relative)) {
    throw std::invalid_argument("tolerance.relative must be zero or positive.");
  }
  if (tolerance.absolute.size() != 1 && tolerance.absolute.size() != n) {
    throw std::invalid_argument("tolerance.absolute must hold one value, or one for each equation.");
  }
  for (double a : tolerance.absolute) {
    if (!(a > 0) || !std::isfinite(a)) throw std::invalid_argument("tolerance.absolute must be positive.");
  }
  const auto length = static_cast<sunindextype>(n);
  const auto upper = static_cast<sunindextype>(std::min(system.upper_bandwidth(), n - 1));
  const auto lower = static_cast<sunindextype>(std::min(system.lower_bandwidth(), n - 1));
  m.check(SUNContext_Create(nullptr, &m.context), "taking memory");
  m.y = N_VNew_Serial(length, m.context);
  m.absolute = N_VNew_Serial(length, m.context);
  m.matrix = SUNBandMatrix(length, upper, lower, m.context);
  m.linear = SUNLinSol_Band(m.y, m.matrix, m.context);
  m.solver = CVodeCreate(CV_BDF, m.context);
  if (m.solver == nullptr || m.linear == nullptr) throw std::runtime_error("time integration could not take its memory.");
  std::fill_n(NV_DATA_S(m.y), n, 0.0);
  for (std::size_t i = 0; i < n; ++i) NV_DATA_S(m.absolute)[i] = tolerance.absolute[tolerance.absolute.size() == 1 ? 0 : i];
  m.check(CVodeInit(m.solver, IntegratorCalls::rate<Memory>, 0.0, m.y), "taking memory");
  CVodeSetErrHandlerFn(m.solver, IntegratorCalls::message<Memory>, &m);
  CVodeSetUserData(m.solver, &m);
  m.check(CVodeSVtolerances(m.solver, tolerance.relative, m.absolute), "setting tolerances");
  m.check(CVodeSetLinearSolver(m.solver, m.linear, m.matrix), "setting the linear solver");
  if (system.has_jacobian()) m.check(CVodeSetJacFn(m.solver, IntegratorCalls::jacobian<Memory>), "setting the Jacobian");
  CVodeSetMaxNumSteps(m.solver, tolerance.most_steps);
  CVodeSetMaxHnilWarns(m.solver, -1);
  if (system.events() > 0) {
    m.found.assign(system.events(), 0);
    m.check(CVodeRootInit(m.solver, static_cast<int>(system.events()), IntegratorCalls::events<Memory>), "setting events");
    CVodeSetNoInactiveRootWarn(m.solver);
  }
}

Integrator::~Integrator() = default;

void Integrator::start(double time_s, std::span<const double> y) {
  Memory& m = *memory_;
  if (y.size() != static_cast<std::size_t>(NV_LENGTH_S(m.y))) throw std::invalid_argument("start values must be one for each equation.");
  std::copy(y.begin(), y.end(), NV_DATA_S(m.y));
  m.time = time_s;
  m.started = true;
  m.said.clear();
  m.check(CVodeReInit(m.solver, time_s, m.y), "starting");
}

void Integrator::stop_time(double time_s) {
  memory_->check(CVodeSetStopTime(memory_->solver, time_s), "setting the stop time");
}

Integrator::Stop Integrator::advance_to(double time_s) {
  Memory& m = *memory_;
  if (!m.started) throw std::logic_error("start must be called before advance_to.");
  if (time_s == m.time) return Stop::reached;
  const int flag = CVode(m.solver, time_s, m.y, &m.time, CV_NORMAL);
  m.check(flag, "advancing");
  if (flag == CV_ROOT_RETURN) {
    CVodeGetRootInfo(m.solver, m.found.data());
    return Stop::event;
  }
  return Stop::reached;
}

Integrator::Stop Integrator::step() {
  Memory& m = *memory_;
  if (!m.started) throw std::logic_error("start must be called before step.");
  const int flag = CVode(m.solver, m.time + 1.0, m.y, &m.time, CV_ONE_STEP);
  m.check(flag, "stepping");
  if (flag == CV_ROOT_RETURN) {
    CVodeGetRootInfo(m.solver, m.found.data());
    return Stop::event;
  }
  return Stop::reached;
}

double Integrator::time_s() const {
  return memory_->time;
}
std::span<const double> Integrator::values() const {
  return read(memory_->y);
}
std::span<const int> Integrator::events_found() const {
  return memory_->found;
}

long Integrator::steps() const {
  long n = 0;
  CVodeGetNumSteps(memory_->solver, &n);
  return n;
}

long Integrator::rate_calls() const {
  long n = 0, extra = 0;
  CVodeGetNumRhsEvals(memory_->solver, &n);
  CVodeGetNumLinRhsEvals(memory_->solver, &extra);
  return n + extra;
}

}  // namespace heatwork::physics
