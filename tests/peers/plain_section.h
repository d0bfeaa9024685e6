// The same equations of cooling stress solved once more, in the plainest way: even cells, heat by implicit steps in extrapolated pairs,
// displacements straight between faces of cells, the exponential update over short steps. It shares with ours the description of a
// section and nothing of its numerics.
#pragma once

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "physics/cooling_stress.h"

namespace heatwork::peers {

using namespace physics;

/// Films of a constant number on the faces [W/(m2 K)], a mass behind the inside where it has a heat capacity.
struct PlainFilms {
  double inner = 0, outer = 0, ambient_K = 298.15;
  InnerMass mass;
};

class PlainSection {
 public:
  PlainSection(StressForm form, double inner_radius_m, const std::vector<StressLayer>& layers, double start_K, std::size_t cells_a_layer,
               double step_K)
      : form_(form), layers_(layers), each_(cells_a_layer), step_K_(step_K), mass_K_(start_K), highest_(layers.size(), -1e300) {
    double r = is_curved() ? inner_radius_m : 0;
    for (std::size_t l = 0; l < layers.size(); ++l) {
      const double width = layers[l].heat.thickness_m / static_cast<double>(each_);
      for (std::size_t i = 0; i < each_; ++i, r += width) cells_.push_back(cell(layers[l], r, width, start_K));
    }
    if (!is_curved())
      for (Cell& c : cells_) c.z -= 0.5 * r;
  }

  /// All of one temperature, straight down from time to time, until it is at most `until_K`.
  void follow(const std::vector<double>& time_s, const std::vector<double>& temperature_K, double until_K) {
    for (std::size_t i = 1; i < time_s.size(); ++i) {
      const double from = temperature_K[i - 1], to = std::max(until_K, temperature_K[i]);
      if (from <= until_K) return;
      const double seconds = (time_s[i] - time_s[i - 1]) * (to == temperature_K[i] ? 1 : (to - from) / (temperature_K[i] - from));
      const auto steps = static_cast<std::size_t>(std::ceil(std::max(std::abs(to - from) / step_K_, 20.0)));
      for (std::size_t s = 1; s <= steps; ++s) {
        next_.assign(cells_.size(), from + (to - from) * static_cast<double>(s) / static_cast<double>(steps));
        stress(seconds / static_cast<double>(steps));
      }
    }
    mass_K_ = cells_[0].T;
  }

  /// Until nothing is further than a fiftieth of a kelvin from the ambient.
  void cool(const PlainFilms& films) {
    double duration = 1e-3;
    while (furthest_K(films) > 0.02) {
      double mass = mass_K_, most = 0;
      heat(films, duration, mass);
      for (std::size_t i = 0; i < cells_.size(); ++i) most = std::max(most, std::abs(next_[i] - cells_[i].T));
      if (most > 2 * step_K_) {
        duration *= 0.5;
        continue;
      }
      stress(duration);
      mass_K_ = mass;
      duration *= std::min(1.3, step_K_ / most);
    }
  }

  /// What is told of a layer; faces by the three cells beside them.
  [[nodiscard]] LayerCooling told(std::size_t l) const {
    LayerCooling of;
    const auto hoop = [this](std::size_t i) { return cells_[i].hoop; };
    of.inner_hoop_Pa = inner_face(l, hoop);
    of.outer_hoop_Pa = outer_face(l, hoop);
    of.middle_hoop_Pa = 0.5 * (hoop(l * each_ + each_ / 2 - 1) + hoop(l * each_ + each_ / 2));
    of.lowest_hoop_Pa = std::min(of.inner_hoop_Pa, of.outer_hoop_Pa);
    of.highest_hoop_Pa = highest_now(l);
    for (std::size_t i = l * each_; i < (l + 1) * each_; ++i) of.lowest_hoop_Pa = std::min(of.lowest_hoop_Pa, hoop(i));
    if (is_curved()) of.radial_at_inner_Pa = inner_face(l, [this](std::size_t i) { return cells_[i].across; });
    of.transient_highest_Pa = highest_[l];
    return of;
  }
  [[nodiscard]] double curvature_per_m() const { return curvature_; }

 private:
  struct Cell {
    const StressLayer* of = nullptr;
    double z = 0, width = 0, inner = 0, outer = 0;  // middle, width and faces [m]
    double T = 0, Tf = 0, clock = 1;                // [K, 1]
    std::vector<double> partial, along, across_terms, bulk;
    double rest = 0, hoop = 0, across = 0;                                           // [Pa]
    double G = 0, K = 0, held = 0, held_across = 0, mean = 0, own = 0, reduced = 0;  // of the step
    double strain = 0, strain_across = 0;
  };

  [[nodiscard]] bool is_curved() const { return form_ == StressForm::cylinder || form_ == StressForm::sphere; }
  [[nodiscard]] double power() const { return form_ == StressForm::sphere ? 2 : form_ == StressForm::cylinder ? 1 : 0; }
  [[nodiscard]] double area(double r) const { return std::pow(r, power()); }
  [[nodiscard]] double volume(const Cell& c) const {
    const double p = power() + 1;
    return (std::pow(c.outer, p) - std::pow(c.inner, p)) / p;
  }

  static Cell cell(const StressLayer& layer, double r, double width, double start_K) {
    Cell c;
    c.of = &layer;
    c.width = width;
    c.inner = r;
    c.outer = r + width;
    c.z = r + 0.5 * width;
    c.T = c.Tf = start_K;
    const std::size_t terms = layer.glass ? layer.glass->shear.size() : 1;
    c.along.assign(terms, 0);
    c.across_terms.assign(terms, 0);
    if (!layer.glass) return c;
    const RelaxingGlass& glass = layer.glass->relaxing;
    c.bulk.assign(layer.glass->bulk_remaining < 1 ? layer.glass->bulk.size() : 0, 0);
    c.partial.assign(glass.structure.size(), start_K);
    c.clock = clock(glass, start_K, start_K);
    return c;
  }

  static double clock(const RelaxingGlass& glass, double T, double Tf) {
    return std::exp(glass.activation_K * (1 / glass.reference_K - glass.nonlinearity / T - (1 - glass.nonlinearity) / Tf));
  }
  static double mean_of_decay(double y) { return y < 1e-6 ? 1 - y / 2 : -std::expm1(-y) / y; }
  static double total(const std::vector<RelaxationTerm>& terms) {
    double sum = 0;
    for (const RelaxationTerm& term : terms) sum += term.weight;
    return sum;
  }

  double furthest_K(const PlainFilms& films) const {
    double most = films.mass.heat_capacity_J_per_m2K > 0 ? std::abs(mass_K_ - films.ambient_K) : 0;
    for (const Cell& c : cells_) most = std::max(most, std::abs(c.T - films.ambient_K));
    return most;
  }

  /// Twice half a step less one whole: second order from implicit steps of the first.
  void heat(const PlainFilms& films, double duration, double& mass) {
    std::vector<double> start, whole, half;
    for (const Cell& c : cells_) start.push_back(c.T);
    double whole_mass = mass, half_mass = mass;
    whole = implicit(films, start, duration, whole_mass);
    half = implicit(films, start, 0.5 * duration, half_mass);
    half = implicit(films, half, 0.5 * duration, half_mass);
    next_.resize(start.size());
    for (std::size_t i = 0; i < start.size(); ++i) next_[i] = 2 * half[i] - whole[i];
    mass = 2 * half_mass - whole_mass;
  }

  std::vector<double> implicit(const PlainFilms& films, const std::vector<double>& start, double dt, double& mass) const {
    const std::size_t n = start.size();
    std::vector<double> T = start;
    double behind = mass;
    for (int sweep = 0; sweep < 4; ++sweep) {
      const auto half = [&](std::size_t i) { return 2 * cells_[i].of->heat.conductivity_W_per_mK.at_K(T[i]) / cells_[i].width; };
      std::vector<double> under(n), on(n), over(n), right(n);
      for (std::size_t i = 0; i < n; ++i) {
        const Layer& layer = cells_[i].of->heat;
        on[i] = layer.density_kg_per_m3 * layer.specific_heat_J_per_kgK.at_K(0.5 * (T[i] + start[i])) * volume(cells_[i]) / dt;
        right[i] = on[i] * start[i];
      }
      for (std::size_t i = 0; i + 1 < n; ++i) {
        const double through = area(cells_[i].outer) / (1 / half(i) + 1 / half(i + 1));
        on[i] += through;
        on[i + 1] += through;
        over[i] = under[i + 1] = -through;
      }
      const double gap = films.mass.heat_capacity_J_per_m2K > 0 ? films.mass.gap_W_per_m2K : 0, away = films.inner + gap;
      const double inside = area(cells_[0].inner) * half(0) / (half(0) + away),
                   outer = half(n - 1) * films.outer / (half(n - 1) + films.outer);
      on[0] += inside * away;
      right[0] += inside * (films.inner * films.ambient_K + gap * behind);
      on[n - 1] += area(cells_[n - 1].outer) * outer;
      right[n - 1] += area(cells_[n - 1].outer) * outer * films.ambient_K;
      const double first = half(0);
      T = solved(under, on, over, right);
      if (gap > 0) {
        const double face = (first * T[0] + films.inner * films.ambient_K + gap * behind) / (first + away);
        behind = (films.mass.heat_capacity_J_per_m2K / dt * mass + gap * face) / (films.mass.heat_capacity_J_per_m2K / dt + gap);
      }
    }
    mass = behind;
    return T;
  }

  static std::vector<double> solved(const std::vector<double>& under, std::vector<double> on, const std::vector<double>& over,
                                    std::vector<double> right) {
    const std::size_t n = on.size();
    for (std::size_t i = 1; i < n; ++i) {
      const double share = under[i] / on[i - 1];
      on[i] -= share * over[i - 1];
      right[i] -= share * right[i - 1];
    }
    right[n - 1] /= on[n - 1];
    for (std::size_t i = n - 1; i-- > 0;) right[i] = (right[i] - over[i] * right[i + 1]) / on[i];
    return right;
  }

  /// Structure, what is held of the stress and the moduli of the step.
  void operators(Cell& c, double T, double dt) {
    const StressLayer& layer = *c.of;
    const double G = layer.youngs_Pa / (2 * (1 + layer.poisson)), K = layer.youngs_Pa / (3 * (1 - 2 * layer.poisson));
    c.own = layer.expansion_per_K.at_K(0.5 * (c.T + T)) * (T - c.T);
    if (!layer.glass) {
      c.G = G;
      c.K = K;
      c.held = c.along[0];
      c.held_across = c.across_terms[0];
      c.mean = c.rest;
      return;
    }
    const StressGlass& glass = *layer.glass;
    const double before = c.Tf;
    relax(c, glass.relaxing, T, dt);
    c.own += (glass.liquid_expansion_per_K - layer.expansion_per_K.at_K(0.5 * (before + c.Tf))) * (c.Tf - before);
    c.G = c.held = c.held_across = 0;
    for (std::size_t j = 0; j < glass.shear.size(); ++j) {
      const double y = c.reduced / glass.shear[j].time_s;
      c.held += c.along[j] *= std::exp(-y);
      c.held_across += c.across_terms[j] *= std::exp(-y);
      c.G += G * glass.shear[j].weight / total(glass.shear) * mean_of_decay(y);
    }
    c.mean = c.rest;
    c.K = c.bulk.empty() ? K : glass.bulk_remaining * K;
    for (std::size_t j = 0; j < c.bulk.size(); ++j) {
      const double y = c.reduced / glass.bulk[j].time_s;
      c.mean += c.bulk[j] *= std::exp(-y);
      c.K += K * (1 - glass.bulk_remaining) * glass.bulk[j].weight / total(glass.bulk) * mean_of_decay(y);
    }
  }

  static void relax(Cell& c, const RelaxingGlass& glass, double T, double dt) {
    const std::vector<double> partial = c.partial;
    double Tf = c.Tf, next = c.clock;
    for (int sweep = 0; sweep < 20; ++sweep) {
      next = clock(glass, T, Tf);
      const double turned = std::log(next / c.clock);
      c.reduced = dt * (std::abs(turned) < 1e-9 ? next : (next - c.clock) / turned);
      double sum = 0;
      for (std::size_t j = 0; j < partial.size(); ++j) {
        const double y = c.reduced / glass.structure[j].time_s;
        c.partial[j] = T - (c.T - partial[j]) * std::exp(-y) - (T - c.T) * mean_of_decay(y);
        sum += glass.structure[j].weight / total(glass.structure) * c.partial[j];
      }
      const bool stands = std::abs(sum - Tf) < 1e-10;
      Tf = sum;
      if (stands) break;
    }
    c.Tf = Tf;
    c.clock = next;
  }

  void stress(double dt) {
    for (std::size_t i = 0; i < cells_.size(); ++i) operators(cells_[i], next_[i], dt);
    is_curved() ? curved() : plate();
    for (std::size_t i = 0; i < cells_.size(); ++i) {
      update(cells_[i]);
      cells_[i].T = next_[i];
    }
    for (std::size_t l = 0; l < layers_.size(); ++l) highest_[l] = std::max(highest_[l], highest_now(l));
  }

  /// Strains of a plate: none but even ones and those of bending, no stress across.
  void plate() {
    const bool plane = form_ == StressForm::plate_plane_strain;
    double force = 0, moment = 0, stiff = 0, skew = 0, bend = 0;
    const auto across = [plane](const Cell& c, double along) {  // so that nothing pulls across
      const double beside = plane ? 0 : along, held = plane ? c.held_across : -2 * c.held;
      return -(held + c.mean - 3 * c.K * c.own + (c.K - 2 * c.G / 3) * (along + beside)) / (c.K + 4 * c.G / 3);
    };
    const auto pull = [plane, across](const Cell& c, double along) {
      const double e = across(c, along), beside = plane ? 0 : along;
      return c.held + c.mean - 3 * c.K * c.own + 2 * c.G * along + (c.K - 2 * c.G / 3) * (along + beside + e);
    };
    for (const Cell& c : cells_) {
      const double none = pull(c, 0), slope = (pull(c, 1e-3) - none) / 1e-3;
      force += none * c.width;
      moment += none * c.z * c.width;
      stiff += slope * c.width;
      skew += slope * c.z * c.width;
      bend += slope * c.width * (c.z * c.z + c.width * c.width / 12);
    }
    const bool bends = form_ == StressForm::plate_free;
    const double more = bends ? (skew * force - stiff * moment) / (stiff * bend - skew * skew) : 0;
    const double even = -(force + skew * more) / stiff;
    curvature_ += more;
    for (Cell& c : cells_) {
      c.strain = even + more * c.z;
      c.strain_across = across(c, c.strain);
    }
  }

  /// Displacements of the faces of the cells of a cylinder or sphere, balanced by virtual work; a cylinder pulls nowhere along its axis.
  void curved() {
    const std::size_t n = cells_.size();
    const double around = power();
    std::vector<double> under(n + 1), on(n + 1), over(n + 1), right(n + 1), axial(n + 1);
    double stiff = 0, force = 0;
    for (std::size_t i = 0; i < n; ++i) {
      const Cell& c = cells_[i];
      const double slope[2] = {-1 / c.width, 1 / c.width}, hoop = 0.5 / c.z, V = volume(c), coupling = c.K - 2 * c.G / 3;
      const double own = c.mean - 3 * c.K * c.own;
      for (std::size_t p = 0; p < 2; ++p) {
        for (std::size_t q = 0; q < 2; ++q) {
          const double swell = coupling * (slope[q] + around * hoop);
          const double work = V * (slope[p] * (2 * c.G * slope[q] + swell) + around * hoop * (2 * c.G * hoop + swell));
          (p == q ? on[i + p] : p == 0 ? over[i] : under[i + 1]) += work;
        }
        right[i + p] -= V * (slope[p] * (c.held_across + own) + around * hoop * (c.held + own));
        axial[i + p] += V * coupling * (slope[p] + hoop);
      }
      stiff += V * (2 * c.G + coupling);
      force += V * (own - c.held - c.held_across);
    }
    std::vector<double> moved = solved(under, on, over, right);
    if (form_ == StressForm::cylinder) {
      const std::vector<double> each = solved(under, on, over, axial);
      for (std::size_t i = 0; i <= n; ++i) {
        force += axial[i] * moved[i];
        stiff -= axial[i] * each[i];
      }
      axial_ = -force / stiff;
      for (std::size_t i = 0; i <= n; ++i) moved[i] -= axial_ * each[i];
    }
    for (std::size_t i = 0; i < n; ++i) {
      cells_[i].strain = 0.5 * (moved[i] + moved[i + 1]) / cells_[i].z;
      cells_[i].strain_across = (moved[i + 1] - moved[i]) / cells_[i].width;
    }
  }

  void update(Cell& c) const {
    const StressLayer& layer = *c.of;
    const double G = layer.youngs_Pa / (2 * (1 + layer.poisson)), K = layer.youngs_Pa / (3 * (1 - 2 * layer.poisson));
    const double beside = form_ == StressForm::cylinder ? axial_ : form_ == StressForm::plate_plane_strain ? 0 : c.strain;
    const double mean = (c.strain + beside + c.strain_across) / 3;
    const StressGlass* glass = layer.glass ? &*layer.glass : nullptr;
    double along = 0, across = 0;
    for (std::size_t j = 0; j < c.along.size(); ++j) {
      const double taken =
          2 * G * (glass ? glass->shear[j].weight / total(glass->shear) * mean_of_decay(c.reduced / glass->shear[j].time_s) : 1);
      along += c.along[j] += taken * (c.strain - mean);
      across += c.across_terms[j] += taken * (c.strain_across - mean);
    }
    c.rest += 3 * (c.bulk.empty() ? 1 : glass->bulk_remaining) * K * (mean - c.own);
    double bulk = c.rest;
    for (std::size_t j = 0; j < c.bulk.size(); ++j)
      bulk += c.bulk[j] += 3 * K * (1 - glass->bulk_remaining) * glass->bulk[j].weight / total(glass->bulk) *
                           mean_of_decay(c.reduced / glass->bulk[j].time_s) * (mean - c.own);
    c.hoop = along + bulk;
    c.across = across + bulk;
  }

  template <class Of>
  [[nodiscard]] double inner_face(std::size_t l, Of of) const {
    const std::size_t i = l * each_;
    return 1.875 * of(i) - 1.25 * of(i + 1) + 0.375 * of(i + 2);
  }
  template <class Of>
  [[nodiscard]] double outer_face(std::size_t l, Of of) const {
    const std::size_t i = (l + 1) * each_ - 1;
    return 1.875 * of(i) - 1.25 * of(i - 1) + 0.375 * of(i - 2);
  }
  [[nodiscard]] double highest_now(std::size_t l) const {
    const auto hoop = [this](std::size_t i) { return cells_[i].hoop; };
    double highest = std::max(inner_face(l, hoop), outer_face(l, hoop));
    for (std::size_t i = l * each_; i < (l + 1) * each_; ++i) highest = std::max(highest, cells_[i].hoop);
    return highest;
  }

  StressForm form_;
  const std::vector<StressLayer>& layers_;
  std::size_t each_;
  double step_K_, mass_K_;
  std::vector<double> highest_, next_;
  std::vector<Cell> cells_;
  double curvature_ = 0, axial_ = 0;
};

}  // namespace heatwork::peers
