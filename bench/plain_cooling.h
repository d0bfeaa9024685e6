// Cooling stress of a plate as anyone would write it from the literature: even cells, implicit heat, exponential update, one cell after
// the other. Stands beside ours in the same run; nothing else uses it.
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include "physics/cooling_stress.h"

namespace heatwork::bench {

using namespace physics;

struct PlainPlate {
  std::vector<StressLayer> layers;
  std::vector<std::size_t> cells;  // of each layer
  bool bends = true;
  double inner_film = 17, outer_film = 17, start_K = 1023.15, ambient_K = 298.15, step_K = 2;
};

/// Stresses at the faces of the layers, by the outer three cells, and in the middle of the first [Pa].
struct PlainResult {
  std::vector<double> inner, outer, middle;
  std::size_t steps = 0;
};

class PlainCooling {
 public:
  explicit PlainCooling(const PlainPlate& plate) : plate_(plate) {
    double total = 0, from = 0;
    for (const StressLayer& layer : plate.layers) total += layer.heat.thickness_m;
    for (std::size_t l = 0; l < plate.layers.size(); ++l) {
      const double width = plate.layers[l].heat.thickness_m / static_cast<double>(plate.cells[l]);
      for (std::size_t i = 0; i < plate.cells[l]; ++i) {
        Cell cell;
        cell.of = l;
        cell.width = width;
        cell.z = from + (static_cast<double>(i) + 0.5) * width - 0.5 * total;
        cell.T = cell.Tf = plate.start_K;
        if (const auto& glass = plate.layers[l].glass) {
          cell.partial.assign(glass->relaxing.structure.size(), plate.start_K);
          cell.shear.assign(glass->shear.size(), 0);
          cell.bulk.assign(glass->bulk_remaining < 1 ? glass->bulk.size() : 0, 0);
        } else {
          cell.shear.assign(1, 0);
        }
        cells_.push_back(cell);
      }
      from += plate.layers[l].heat.thickness_m;
    }
  }

  PlainResult run() {
    double duration = 0.01;
    std::size_t steps = 0;
    for (;; ++steps) {
      double off = 0;
      for (const Cell& cell : cells_) off = std::max(off, std::abs(cell.T - plate_.ambient_K));
      if (off < 0.01) break;
      heat(duration);
      double most = 0;
      for (std::size_t i = 0; i < cells_.size(); ++i) most = std::max(most, std::abs(next_[i] - cells_[i].T));
      if (most > 2 * plate_.step_K) {
        duration *= 0.5;
        continue;
      }
      stress(duration);
      duration *= std::min(1.3, plate_.step_K / most);
    }
    return result(steps);
  }

 private:
  struct Cell {
    std::size_t of = 0;
    double width = 0, z = 0, T = 0, Tf = 0, rest = 0, sigma = 0;
    std::vector<double> partial, shear, bulk;
    double c0 = 0, c1 = 0, A = 0, B = 0, thermal = 0, reduced = 0;
  };

  void heat(double dt) {
    const std::size_t n = cells_.size();
    next_.resize(n);
    for (std::size_t i = 0; i < n; ++i) next_[i] = cells_[i].T;
    std::vector<double> a(n), b(n), c(n), d(n);
    for (int sweep = 0; sweep < 2; ++sweep) {
      const auto k = [&](std::size_t i) { return plate_.layers[cells_[i].of].heat.conductivity_W_per_mK.at_K(next_[i]); };
      for (std::size_t i = 0; i < n; ++i) {
        const Layer& layer = plate_.layers[cells_[i].of].heat;
        const double store = layer.density_kg_per_m3 * layer.specific_heat_J_per_kgK.at_K(next_[i]) * cells_[i].width / dt;
        b[i] = store;
        d[i] = store * cells_[i].T;
        a[i] = c[i] = 0;
        const auto film = [&](double h) {
          const double through = 1 / (1 / h + 0.5 * cells_[i].width / k(i));
          b[i] += through;
          d[i] += through * plate_.ambient_K;
        };
        if (i == 0 && plate_.inner_film > 0) film(plate_.inner_film);
        if (i + 1 == n && plate_.outer_film > 0) film(plate_.outer_film);
        if (i > 0) {
          a[i] = -1 / (0.5 * cells_[i].width / k(i) + 0.5 * cells_[i - 1].width / k(i - 1));
          b[i] -= a[i];
        }
        if (i + 1 < n) {
          c[i] = -1 / (0.5 * cells_[i].width / k(i) + 0.5 * cells_[i + 1].width / k(i + 1));
          b[i] -= c[i];
        }
      }
      for (std::size_t i = 1; i < n; ++i) {
        const double m = a[i] / b[i - 1];
        b[i] -= m * c[i - 1];
        d[i] -= m * d[i - 1];
      }
      next_[n - 1] = d[n - 1] / b[n - 1];
      for (std::size_t i = n - 1; i-- > 0;) next_[i] = (d[i] - c[i] * next_[i + 1]) / b[i];
    }
  }

  static double lag(double y) { return y < 1e-8 ? 1 - 0.5 * y : (1 - std::exp(-y)) / y; }

  void prepare(Cell& cell, double T, double dt) {
    const StressLayer& layer = plate_.layers[cell.of];
    const double G0 = layer.youngs_Pa / (2 * (1 + layer.poisson)), K0 = layer.youngs_Pa / (3 * (1 - 2 * layer.poisson));
    double Sh = cell.shear[0], Gh = G0, Mh = cell.rest, Kh = K0;
    cell.thermal = layer.expansion_per_K.at_K(0.5 * (T + cell.T)) * (T - cell.T);
    if (layer.glass) {
      const StressGlass& glass = *layer.glass;
      const auto shift = [&](double t, double tf) {
        return std::exp(glass.relaxing.activation_K *
                        (1 / glass.relaxing.reference_K - glass.relaxing.nonlinearity / t - (1 - glass.relaxing.nonlinearity) / tf));
      };
      const double first = shift(cell.T, cell.Tf);
      double Tf = cell.Tf, sum = 0;
      for (const RelaxationTerm& term : glass.relaxing.structure) sum += term.weight;
      for (int sweep = 0; sweep < 3; ++sweep) {
        cell.reduced = 0.5 * (first + shift(T, Tf)) * dt;
        Tf = 0;
        for (std::size_t j = 0; j < cell.partial.size(); ++j) {
          const double y = cell.reduced / glass.relaxing.structure[j].time_s;
          Tf += glass.relaxing.structure[j].weight / sum * (T - (cell.T - cell.partial[j]) * std::exp(-y) - (T - cell.T) * lag(y));
        }
      }
      for (std::size_t j = 0; j < cell.partial.size(); ++j) {
        const double y = cell.reduced / glass.relaxing.structure[j].time_s;
        cell.partial[j] = T - (cell.T - cell.partial[j]) * std::exp(-y) - (T - cell.T) * lag(y);
      }
      cell.thermal += (glass.liquid_expansion_per_K - layer.expansion_per_K.at_K(0.5 * (Tf + cell.Tf))) * (Tf - cell.Tf);
      cell.Tf = Tf;
      Sh = Gh = 0;
      double shear_sum = 0, bulk_sum = 0;
      for (const RelaxationTerm& term : glass.shear) shear_sum += term.weight;
      for (const RelaxationTerm& term : glass.bulk) bulk_sum += term.weight;
      for (std::size_t j = 0; j < cell.shear.size(); ++j) {
        const double y = cell.reduced / glass.shear[j].time_s;
        Sh += cell.shear[j] * std::exp(-y);
        Gh += G0 * glass.shear[j].weight / shear_sum * lag(y);
      }
      if (!cell.bulk.empty()) Kh = K0 * glass.bulk_remaining;
      for (std::size_t j = 0; j < cell.bulk.size(); ++j) {
        const double y = cell.reduced / glass.bulk[j].time_s;
        Mh += cell.bulk[j] * std::exp(-y);
        Kh += K0 * (1 - glass.bulk_remaining) * glass.bulk[j].weight / bulk_sum * lag(y);
      }
    }
    const double den = Kh + 4 * Gh / 3;
    cell.c0 = (2 * Sh - Mh + 3 * Kh * cell.thermal) / den;
    cell.c1 = (4 * Gh / 3 - 2 * Kh) / den;
    cell.A = 3 * Sh - 2 * Gh * cell.c0;
    cell.B = 2 * Gh * (1 - cell.c1);
  }

  void update(Cell& cell, double strain) {
    const StressLayer& layer = plate_.layers[cell.of];
    const double G0 = layer.youngs_Pa / (2 * (1 + layer.poisson)), K0 = layer.youngs_Pa / (3 * (1 - 2 * layer.poisson));
    const double across = cell.c0 + cell.c1 * strain, de = (strain - across) / 3, dm = (2 * strain + across) / 3 - cell.thermal;
    cell.sigma = cell.A + cell.B * strain;
    if (!layer.glass) {
      cell.shear[0] += 2 * G0 * de;
      cell.rest += 3 * K0 * dm;
      return;
    }
    const StressGlass& glass = *layer.glass;
    double shear_sum = 0, bulk_sum = 0;
    for (const RelaxationTerm& term : glass.shear) shear_sum += term.weight;
    for (const RelaxationTerm& term : glass.bulk) bulk_sum += term.weight;
    for (std::size_t j = 0; j < cell.shear.size(); ++j) {
      const double y = cell.reduced / glass.shear[j].time_s;
      cell.shear[j] = cell.shear[j] * std::exp(-y) + 2 * G0 * glass.shear[j].weight / shear_sum * lag(y) * de;
    }
    cell.rest += 3 * K0 * (cell.bulk.empty() ? 1 : glass.bulk_remaining) * dm;
    for (std::size_t j = 0; j < cell.bulk.size(); ++j) {
      const double y = cell.reduced / glass.bulk[j].time_s;
      cell.bulk[j] = cell.bulk[j] * std::exp(-y) + 3 * K0 * (1 - glass.bulk_remaining) * glass.bulk[j].weight / bulk_sum * lag(y) * dm;
    }
  }

  void stress(double dt) {
    double area = 0, first = 0, second = 0, force = 0, moment = 0;
    for (std::size_t i = 0; i < cells_.size(); ++i) {
      Cell& cell = cells_[i];
      prepare(cell, next_[i], dt);
      area += cell.B * cell.width;
      first += cell.B * cell.width * cell.z;
      second += cell.B * (cell.width * cell.z * cell.z + std::pow(cell.width, 3) / 12);
      force += cell.A * cell.width;
      moment += cell.A * cell.width * cell.z;
    }
    double strain = -force / area, bend = 0;
    if (plate_.bends) {
      bend = (force * first - moment * area) / (area * second - first * first);
      strain = -(force + bend * first) / area;
    }
    for (std::size_t i = 0; i < cells_.size(); ++i) {
      update(cells_[i], strain + bend * cells_[i].z);
      cells_[i].T = next_[i];
    }
  }

  PlainResult result(std::size_t steps) const {
    PlainResult out;
    out.steps = steps;
    std::size_t from = 0;
    for (const std::size_t count : plate_.cells) {
      const auto face = [&](std::size_t one, std::size_t two, std::size_t three) {
        return (15 * cells_[one].sigma - 10 * cells_[two].sigma + 3 * cells_[three].sigma) / 8;
      };
      out.inner.push_back(face(from, from + 1, from + 2));
      out.outer.push_back(face(from + count - 1, from + count - 2, from + count - 3));
      out.middle.push_back(0.5 * (cells_[from + (count - 1) / 2].sigma + cells_[from + count / 2].sigma));
      from += count;
    }
    return out;
  }

  PlainPlate plate_;
  std::vector<Cell> cells_;
  std::vector<double> next_;
};

}  // namespace heatwork::bench
