#include "physics/section_heating.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

#include "physics/conduction.h"
#include "physics/radiation.h"
#include "physics/rosenbrock.h"

namespace heatwork::physics {

namespace {

// One section in one exposure, as Rodas sees it.
struct SectionSystem {
  SectionMesh mesh;
  Tridiagonal matrix;
  const Exposure* exposure = nullptr;
  std::size_t piece = 0;  // of the exposure's line
  double tolerance_K = 0.03;
  std::vector<double> capacity, capacity_slope;  // room to work in

  [[nodiscard]] double surroundings(double t) const {
    const auto& ts = exposure->time_s;
    const double share = (t - ts[piece]) / (ts[piece + 1] - ts[piece]);
    return exposure->surroundings_K[piece] + share * (exposure->surroundings_K[piece + 1] - exposure->surroundings_K[piece]);
  }
  [[nodiscard]] double surroundings_slope() const {
    return (exposure->surroundings_K[piece + 1] - exposure->surroundings_K[piece]) /
           (exposure->time_s[piece + 1] - exposure->time_s[piece]);
  }
  // theory: (heat.4)
  [[nodiscard]] double taken_up(double surroundings_K, double T) const {
    return radiated_W_per_m2(exposure->emissivity, surroundings_K, T) + exposure->film_W_per_m2K * (surroundings_K - T);
  }
  [[nodiscard]] double slope_by(double temperature_K) const {
    return 4.0 * exposure->emissivity * stefan_boltzmann_W_per_m2K4 * temperature_K * temperature_K * temperature_K +
           exposure->film_W_per_m2K;
  }

  // theory: (heat.1)
  void rate(double t, const double* T, double* f) {
    const std::size_t n = mesh.nodes();
    mesh.conducted(T, nullptr, f);
    const double around = surroundings(t);
    f[n - 1] += taken_up(around, T[n - 1]);
    if (exposure->both_faces) f[0] += mesh.inner_area_share() * taken_up(around, T[0]);
    mesh.capacities(T, capacity.data());
    for (std::size_t i = 0; i < n; ++i) f[i] /= capacity[i];
  }

  // theory: (heat.9)
  void factor(double t, const double* T, const double* f, double inverse, double* f_t) {
    const std::size_t n = mesh.nodes();
    std::fill_n(f_t, n, 0.0);
    for (std::size_t i = 0; i < n; ++i) matrix.diagonal[i] = 0;
    for (std::size_t i = 0; i + 1 < n; ++i) {
      const auto s = mesh.slopes(i, T, nullptr, nullptr);
      matrix.diagonal[i] += s.by_inner;
      matrix.upper[i] = s.by_outer;
      matrix.lower[i + 1] = -s.by_inner;
      matrix.diagonal[i + 1] -= s.by_outer;
    }
    const double around = surroundings(t), slope = surroundings_slope();
    matrix.diagonal[n - 1] += slope_by(T[n - 1]);
    f_t[n - 1] = slope_by(around) * slope;
    if (exposure->both_faces) {
      matrix.diagonal[0] += mesh.inner_area_share() * slope_by(T[0]);
      f_t[0] += mesh.inner_area_share() * slope_by(around) * slope;
    }
    mesh.capacities(T, capacity.data(), capacity_slope.data());
    for (std::size_t i = 0; i < n; ++i) {
      const double one_over = 1.0 / capacity[i];
      matrix.lower[i] *= one_over;
      matrix.upper[i] *= one_over;
      matrix.diagonal[i] = inverse + (matrix.diagonal[i] + f[i] * capacity_slope[i]) * one_over;
      f_t[i] *= one_over;
    }
    matrix.factor();
  }

  void solve(double* b) const { matrix.solve(b); }

  [[nodiscard]] double error_norm(const double*, const double*, const double* e) const {
    double worst = 0;
    for (std::size_t i = 0; i < mesh.nodes(); ++i) worst = std::max(worst, std::abs(e[i]));
    return worst / tolerance_K;
  }
};

void check(std::span<const Exposure> exposures, double start_K, std::span<const double> at_s) {
  if (exposures.empty()) throw std::invalid_argument("exposures must hold at least one stretch of time.");
  if (!(start_K > 0) || !std::isfinite(start_K)) throw std::invalid_argument("start_K must be above 0 K.");
  for (std::size_t e = 0; e < exposures.size(); ++e) {
    const Exposure& x = exposures[e];
    const std::string name = "exposure " + std::to_string(e + 1) + ": ";
    if (x.time_s.size() < 2 || x.time_s.size() != x.surroundings_K.size()) {
      throw std::invalid_argument(name + "time_s and surroundings_K must have the same length of at least 2.");
    }
    for (std::size_t i = 0; i < x.time_s.size(); ++i) {
      if (!std::isfinite(x.time_s[i]) || (i > 0 && !(x.time_s[i] > x.time_s[i - 1])))
        throw std::invalid_argument(name + "time_s must rise.");
      if (!(x.surroundings_K[i] > 0) || !std::isfinite(x.surroundings_K[i])) {
        throw std::invalid_argument(name + "surroundings_K must be above 0 K.");
      }
    }
    if (e > 0 && x.time_s.front() != exposures[e - 1].time_s.back())
      throw std::invalid_argument(name + "must begin where the last one ends.");
    if (!(x.emissivity >= 0 && x.emissivity <= 1)) throw std::invalid_argument(name + "emissivity must be from 0 to 1.");
    if (!(x.film_W_per_m2K >= 0) || !std::isfinite(x.film_W_per_m2K))
      throw std::invalid_argument(name + "film_W_per_m2K must be zero or positive.");
  }
  for (std::size_t i = 0; i < at_s.size(); ++i) {
    if (!(at_s[i] >= exposures.front().time_s.front() && at_s[i] <= exposures.back().time_s.back()) || (i > 0 && at_s[i] < at_s[i - 1])) {
      throw std::invalid_argument("at_s must rise within the times of the exposures.");
    }
  }
}

}  // namespace

struct SectionHeater::State {
  SectionSystem system;
  RodasStepper<SectionSystem> stepper;
  SectionTemperatures out;
  std::size_t core = 0;
  double core_share = 0;  // of the way from node `core` to the next
  double step_s = 0;

  void place_core(bool both) {
    const auto& depth = system.mesh.depth_m();
    const double at = both ? 0.5 * system.mesh.thickness_m() : 0.0;
    core = 0;
    while (core + 2 < depth.size() && depth[core + 1] <= at) ++core;
    core_share = depth.size() < 2 || depth[core + 1] == depth[core] ? 0.0 : (at - depth[core]) / (depth[core + 1] - depth[core]);
  }
  template <class Value>
  void keep(std::size_t row, Value value) {
    const std::size_t n = system.mesh.nodes();
    out.surface_K[row] = value(n - 1);
    out.inside_K[row] = value(0);
    out.core_K[row] = core_share == 0.0 ? value(core) : (1 - core_share) * value(core) + core_share * value(core + 1);
    const std::size_t interfaces = system.mesh.layers().size() - 1;
    for (std::size_t l = 0; l < interfaces; ++l) out.interface_K[row * interfaces + l] = value(system.mesh.outer_node(l));
  }
  void advance(double from, double to, std::span<const double> at_s, std::size_t& row);
};

SectionHeater::SectionHeater(std::span<const Layer> layers, SectionForm form, double inner_radius_m, const SectionAccuracy& accuracy)
    : state_(std::make_unique<State>()) {
  if (!(accuracy.step_tolerance_K > 0)) throw std::invalid_argument("step_tolerance_K must be positive.");
  check_layers(layers, form, inner_radius_m);
  state_->system.mesh =
      SectionMesh(layers, form, inner_radius_m, accuracy.spaces.empty() ? shared_spaces(layers, accuracy.total_spaces) : accuracy.spaces);
  state_->system.tolerance_K = accuracy.step_tolerance_K;
  state_->system.matrix.resize(state_->system.mesh.nodes());
  state_->system.capacity.assign(state_->system.mesh.nodes(), 0.0);
  state_->system.capacity_slope.assign(state_->system.mesh.nodes(), 0.0);
  state_->stepper.resize(state_->system.mesh.nodes());
}

SectionHeater::~SectionHeater() = default;
SectionHeater::SectionHeater(SectionHeater&&) noexcept = default;
SectionHeater& SectionHeater::operator=(SectionHeater&&) noexcept = default;

// From one point of the line to the next: surroundings are smooth between, steps end exactly at the points.
void SectionHeater::State::advance(double from, double to, std::span<const double> at_s, std::size_t& row) {
  double t = from;
  bool last = false;
  stepper.prepare(system, t);
  while (!last) {
    double h = std::min(step_s, to - t);
    last = t + h * 1.0000001 >= to;
    if (last)
      h = to - t;
    else if (t + 2 * h > to)
      h = 0.5 * (to - t);  // no sliver at the end
    const double error = stepper.try_step(system, h);
    if (!std::isfinite(error)) throw std::runtime_error("the temperatures of the section became infinite at " + std::to_string(t) + " s.");
    const double next = RodasStepper<SectionSystem>::next_step(h, error);
    if (error > 1) {
      step_s = next;
      last = false;
      continue;
    }
    const double end = last ? to : t + h;
    for (; row < at_s.size() && at_s[row] <= end; ++row) {
      const double theta = (at_s[row] - t) / h;
      keep(row, [&](std::size_t i) { return theta >= 1 ? stepper.new_values()[i] : stepper.inside(i, theta); });
    }
    stepper.accept();
    ++out.steps;
    if (!(last && next > step_s)) step_s = next;
    t = end;
    if (!last) stepper.prepare(system, t);
  }
}

const SectionTemperatures& SectionHeater::solve(std::span<const Exposure> exposures, double start_K, std::span<const double> at_s) {
  check(exposures, start_K, at_s);
  State& s = *state_;
  const std::size_t rows = at_s.size();
  s.out.surface_K.resize(rows);
  s.out.core_K.resize(rows);
  s.out.inside_K.resize(rows);
  s.out.interface_K.resize(rows * (s.system.mesh.layers().size() - 1));
  s.out.steps = 0;
  std::fill(s.stepper.values().begin(), s.stepper.values().end(), start_K);
  s.place_core(exposures.front().both_faces);
  std::size_t row = 0;
  for (; row < rows && at_s[row] == exposures.front().time_s.front(); ++row) s.keep(row, [&](std::size_t) { return start_K; });
  s.step_s = 1.0;
  for (const Exposure& x : exposures) {
    s.system.exposure = &x;
    for (std::size_t p = 0; p + 1 < x.time_s.size(); ++p) {
      s.system.piece = p;
      s.advance(x.time_s[p], x.time_s[p + 1], at_s, row);
    }
  }
  return s.out;
}

}  // namespace heatwork::physics
