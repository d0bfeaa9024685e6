#include "physics/load.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

#include "physics/biot.h"
#include "physics/load_network.h"
#include "physics/radiation.h"
#include "physics/rosenbrock.h"

namespace heatwork::physics {

struct LoadSolver::State {
  Load load;
  LoadAccuracy accuracy;
  bool ready = false;
  std::vector<char> lumped;
  LoadNetwork network;
  AroundHistory around;
  RodasStepper<LoadNetwork> stepper;
  LoadHistory history;
  std::vector<double> row;     // one row of values, between two steps
  std::vector<double> middle;  // for the ledger
  double step_s = 1;

  void lay();
  void choose_lumped(const Surroundings& surroundings, double shift_K);
  void clear_history();
  void keep_row(double t, std::span<const double> y);
  void keep_inside(double t, double h);
  void advance(double from, double to);
  void add_to_ledger(double t, double h);
};

LoadSolver::LoadSolver() : state_(std::make_unique<State>()) {}
LoadSolver::~LoadSolver() = default;
LoadSolver::LoadSolver(LoadSolver&&) noexcept = default;
LoadSolver& LoadSolver::operator=(LoadSolver&&) noexcept = default;

void LoadSolver::set_load(const Load& load, const LoadAccuracy& accuracy) {
  const auto positive = [](double x, const char* name) {
    if (!(x > 0)) throw std::invalid_argument(std::string(name) + " must be positive.");
  };
  positive(accuracy.step_tolerance_K, "step_tolerance_K");
  positive(accuracy.water_tolerance_share, "water_tolerance_share");
  positive(accuracy.longest_output_gap_s, "longest_output_gap_s");
  positive(accuracy.row_error_K, "row_error_K");
  State& s = *state_;
  s.ready = false;
  s.load = load;
  s.accuracy = accuracy;
  s.lumped.clear();
  s.lay();
  s.ready = true;
}

// Lays nodes and the shape of the history; the only place that takes memory.
void LoadSolver::State::lay() {
  network.build(load, accuracy, lumped);
  stepper.resize(network.size());
  row.assign(network.size(), 0.0);
  middle.assign(network.size(), 0.0);
  history = {};
  history.without_tray = !load.tray;
  history.support_K.resize(load.pieces.size());
  for (const NetworkSection& s : network.sections()) {
    SectionHistory h;
    h.piece = s.piece;
    h.section = s.number;
    h.lumped = s.lumped;
    h.nodes = s.mesh.nodes();
    h.depth_m = s.mesh.depth_m();
    h.layer_of_node = s.mesh.layer_of_node();
    h.water_start_kg_per_m2 = s.water_start;
    history.sections.push_back(std::move(h));
  }
}

// A section may be one temperature if even the hottest chamber leaves its Biot number small.
void LoadSolver::State::choose_lumped(const Surroundings& surroundings, double shift_K) {
  if (!accuracy.allow_lumped) return;
  const double hottest = *std::max_element(surroundings.chamber_K.begin(), surroundings.chamber_K.end()) + shift_K;
  Around worst;
  worst.chamber_K = hottest;
  worst.air.film_W_per_m2K = around.at(surroundings.time_s.front()).air.film_W_per_m2K;
  std::vector<char> wanted;
  for (const NetworkSection& s : network.sections()) {
    const bool wet = s.water != NetworkSection::none;
    wanted.push_back(!wet && network.biot(s, worst, hottest) < largest_lumped_biot ? 1 : 0);
  }
  if (wanted == lumped) return;
  lumped = wanted;
  lay();
}

void LoadSolver::State::clear_history() {
  history.time_s.clear();
  history.tray_K.clear();
  for (auto& list : history.support_K) list.clear();
  for (SectionHistory& h : history.sections) {
    for (auto* list :
         {&h.node_K, &h.surface_K, &h.core_K, &h.inside_mass_K, &h.water_kg_per_m2, &h.evaporation_kg_per_m2s, &h.burst_index}) {
      list->clear();
    }
    h.largest_biot = 0;
  }
  history.energy = {};
  history.steps = 0;
}

namespace {

// Vapour through the skin that is dry by now, over the powder's strength. theory: (load.9)
double burst_now(const NetworkSection& s, const Around& around, const FaceExchange& x, double surface_K, double water) {
  const PowderLayer& p = *s.body.powder;
  const double as_powder = s.body.layers[p.layer].thickness_m / (1 - p.void_fraction);  // the layer itself counts as the dense solid
  const double skin = as_powder * std::clamp(1 - water / s.water_start, 0.0, 1.0);
  const double density = vapour_density_kg_per_m3(around.air.pressure_Pa, surface_K);
  const double straight =
      skin_pressure_Pa(std::max(0.0, x.water.flux), skin, density, kozeny_carman_m2(p.grain_diameter_m, p.void_fraction));
  return burst_index(expanding_skin_pressure_Pa(around.air.pressure_Pa, straight), p.strength_Pa);
}

void keep_section(SectionHistory& h, const NetworkSection& s, const LoadNetwork& network, const Around& around, std::span<const double> y) {
  const double surface = y[s.outer];
  h.node_K.insert(h.node_K.end(), y.begin() + static_cast<std::ptrdiff_t>(s.inner), y.begin() + static_cast<std::ptrdiff_t>(s.outer + 1));
  h.surface_K.push_back(surface);
  h.core_K.push_back((1 - s.core_share) * y[s.core] + s.core_share * y[std::min(s.core + 1, s.outer)]);
  if (s.mass != NetworkSection::none) h.inside_mass_K.push_back(y[s.mass]);
  h.largest_biot = std::max(h.largest_biot, network.biot(s, around, surface));
  if (s.water == NetworkSection::none) {
    if (!s.body.powder) return;
    h.water_kg_per_m2.push_back(0);
    h.evaporation_kg_per_m2s.push_back(0);
    h.burst_index.push_back(0);
    return;
  }
  const FaceExchange x = network.exchange(s, around, y.data());
  const double last = h.burst_index.empty() ? 0.0 : h.burst_index.back();
  // Water never comes back (drying.3), yet the last thousandth ripples within the tolerance. The least so far errs no more than that.
  const double least = h.water_kg_per_m2.empty() ? s.water_start : h.water_kg_per_m2.back();
  h.water_kg_per_m2.push_back(std::clamp(y[s.water], 0.0, least));
  h.evaporation_kg_per_m2s.push_back(std::max(0.0, x.water.flux));
  h.burst_index.push_back(std::max(last, burst_now(s, around, x, surface, y[s.water])));
}

}  // namespace

void LoadSolver::State::keep_row(double t, std::span<const double> y) {
  const Around here = around.at(t);
  history.time_s.push_back(t);
  for (std::size_t i = 0; i < history.sections.size(); ++i) {
    keep_section(history.sections[i], network.sections()[i], network, here, y);
  }
  if (network.has_tray()) history.tray_K.push_back(y[network.tray_index()]);
  for (std::size_t p = 0; p < history.support_K.size(); ++p) {
    const std::size_t at = network.support_index(p);
    if (at != NetworkSection::none) history.support_K[p].push_back(y[at]);
  }
}

// Rows inside the step just done: as many as straight lines between them need. theory: (load.10)
void LoadSolver::State::keep_inside(double t, double h) {
  double sag = 0;
  for (const NetworkSection& s : network.sections()) {
    for (const std::size_t i : {s.inner, s.outer}) {
      const double chord = 0.5 * (stepper.values()[i] + stepper.new_values()[i]);
      sag = std::max(sag, std::abs(stepper.inside(i, 0.5) - chord));
    }
    if (s.water != NetworkSection::none) {
      const double chord = 0.5 * (stepper.values()[s.water] + stepper.new_values()[s.water]);
      sag = std::max(sag, accuracy.row_error_K * std::abs(stepper.inside(s.water, 0.5) - chord) / (2e-3 * s.water_start));
    }
  }
  for (std::size_t i = network.tray_index(); i < row.size(); ++i) {  // tray and supports
    sag = std::max(sag, std::abs(stepper.inside(i, 0.5) - 0.5 * (stepper.values()[i] + stepper.new_values()[i])));
  }
  const double by_sag = std::sqrt(sag / accuracy.row_error_K), by_gap = h / accuracy.longest_output_gap_s;
  const auto parts = static_cast<std::size_t>(std::ceil(std::clamp(std::max(by_sag, by_gap), 1.0, 200.0)));
  for (std::size_t k = 1; k < parts; ++k) {
    const double theta = static_cast<double>(k) / static_cast<double>(parts);
    for (std::size_t i = 0; i < row.size(); ++i) row[i] = stepper.inside(i, theta);
    keep_row(t + theta * h, row);
  }
}

// Simpson over the step, with the dense output in its middle. theory: (load.11)
void LoadSolver::State::add_to_ledger(double t, double h) {
  for (std::size_t i = 0; i < middle.size(); ++i) middle[i] = stepper.inside(i, 0.5);
  const auto first = network.flows(t, stepper.values().data());
  const auto half = network.flows(t + 0.5 * h, middle.data());
  const auto last = network.flows(t + h, stepper.new_values().data());
  const auto simpson = [&](double a, double b, double c) { return h / 6.0 * (a + 4 * b + c); };
  history.energy.radiated_J += simpson(first.radiated, half.radiated, last.radiated);
  history.energy.convected_J += simpson(first.convected, half.convected, last.convected);
  history.energy.evaporated_J += simpson(first.evaporated, half.evaporated, last.evaporated);
}

void LoadSolver::State::advance(double from, double to) {
  double t = from;
  bool last = false;
  stepper.prepare(network, t);
  while (!last) {
    double h = std::min(step_s, to - t);
    last = h >= (to - t) * (1 - 1e-9);
    if (last)
      h = to - t;
    else if (2 * h > to - t)
      h = 0.5 * (to - t);  // no sliver at the end
    const double error = stepper.try_step(network, h);
    if (!std::isfinite(error) && h < 1e-6) {
      throw std::runtime_error("the temperatures of the load could not be followed beyond " + std::to_string(t) + " s.");
    }
    const double next = std::isfinite(error) ? RodasStepper<LoadNetwork>::next_step(h, error) : 0.1 * h;
    if (!(error <= 1)) {
      step_s = next;
      last = false;
      continue;
    }
    if (!last || next < step_s) step_s = next;
    keep_inside(t, h);
    add_to_ledger(t, h);
    stepper.accept();
    network.remember(stepper.values());
    ++history.steps;
    t = last ? to : t + h;
    keep_row(t, stepper.values());
    if (!last) stepper.prepare(network, t);
  }
}

const LoadHistory& LoadSolver::solve(const Surroundings& surroundings, double chamber_shift_K) {
  State& s = *state_;
  if (!s.ready) throw std::logic_error("set_load must be called before solve.");
  s.around.take(surroundings, chamber_shift_K);
  s.network.set_surroundings(&s.around);
  s.around.enter(0);
  s.choose_lumped(surroundings, chamber_shift_K);
  s.clear_history();
  s.network.start(s.stepper.values());
  const auto corners = s.around.corners();
  s.keep_row(corners.front(), s.stepper.values());
  s.step_s = 1.0;
  for (std::size_t c = 0; c + 1 < corners.size(); ++c) {
    s.around.enter(c);
    s.advance(corners[c], corners[c + 1]);
  }
  s.history.energy.stored_J = s.network.stored_J(s.stepper.values().data());
  return s.history;
}

LoadHistory solve_load(const Load& load, const Surroundings& surroundings, const LoadAccuracy& accuracy) {
  LoadSolver solver;
  solver.set_load(load, accuracy);
  return solver.solve(surroundings);
}

}  // namespace heatwork::physics
