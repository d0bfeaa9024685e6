// Conduction through one section: control volumes about nodes that lie on the faces and interfaces, so that surface values are exact.
// All heats are per square metre of the outer face.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "physics/layer.h"

namespace heatwork::physics {

/// Nodes of a section, inside out, with their capacities and the conductances between them. [m, J/(m2 K), W/(m2 K)]
/// Nodes lie on both faces and on every interface; an interface with a contact resistance has two.
/// theory: (heat.2), (heat.3)
class SectionMesh {
 public:
  SectionMesh() = default;
  /// `spaces[i]` even spaces in layer i (grading towards the face was tried on the coated plate and was worse at equal count).
  /// error: std::invalid_argument for layers that cannot be or spaces that do not fit them
  SectionMesh(std::span<const Layer> layers, SectionForm form, double inner_radius_m, std::span<const std::size_t> spaces);

  /// The whole section as one node. Use only where the Biot number allows it. [K]
  static SectionMesh lumped(std::span<const Layer> layers, SectionForm form, double inner_radius_m);

  [[nodiscard]] std::size_t nodes() const { return depth_.size(); }
  [[nodiscard]] const std::vector<double>& depth_m() const { return depth_; }
  [[nodiscard]] const std::vector<std::size_t>& layer_of_node() const { return layer_outside_; }
  [[nodiscard]] const std::vector<Layer>& layers() const { return layers_; }
  /// Node on the outer side of layer i's outer face. [index]
  [[nodiscard]] std::size_t outer_node(std::size_t layer) const { return outer_node_[layer]; }
  /// Area of the inside face over that of the outer face. [pure number]
  [[nodiscard]] double inner_area_share() const { return inner_share_; }
  [[nodiscard]] double thickness_m() const { return depth_total_; }

  /// Heat capacity of a node at a temperature, and its slope. [J/(m2 K)]
  [[nodiscard]] double capacity(std::size_t node, double temperature_K) const {
    double sum = 0;
    for (std::size_t p = part_begin_[node]; p < part_begin_[node + 1]; ++p) sum += part_mass_[p] * heat_of(p).at_K(temperature_K);
    return sum;
  }
  [[nodiscard]] double capacity_slope(std::size_t node, double temperature_K) const {
    double sum = 0;
    for (std::size_t p = part_begin_[node]; p < part_begin_[node + 1]; ++p) sum += part_mass_[p] * heat_of(p).slope_at_K(temperature_K);
    return sum;
  }
  /// Heat taken up between two temperatures, exact. [J/m2]
  [[nodiscard]] double heat_between(std::size_t node, double from_K, double to_K) const;
  /// Share of layer i's volume that belongs to a node; sums to 1 over the nodes. [pure number]
  [[nodiscard]] double volume_share(std::size_t node, std::size_t layer) const;

  /// Heat conducted into each node; `T` and `heat` have one entry a node. `factor` multiplies conductivity, one a face, or none. [W/m2]
  /// theory: (heat.3)
  void conducted(const double* T, const double* factor, double* heat) const {
    heat[0] = 0;
    for (std::size_t i = 0; i + 1 < nodes(); ++i) {
      const double q = conductance(i, 0.5 * (T[i] + T[i + 1]), factor) * (T[i] - T[i + 1]);
      heat[i] -= q;
      heat[i + 1] = q;
    }
  }

  /// Derivative of the heat from node i to i + 1 by T[i] and by T[i + 1]. [W/(m2 K)]
  /// `factor_slope` is how `factor` rises with the temperature of the face, one a face, or none.
  struct Slopes {
    double by_inner, by_outer;
  };
  [[nodiscard]] Slopes slopes(std::size_t i, const double* T, const double* factor, const double* factor_slope) const {
    const double middle = 0.5 * (T[i] + T[i + 1]);
    const double fall = T[i] - T[i + 1];
    const double g = conductance(i, middle, factor);
    double rise = 0;
    if (!contact_[i]) {
      rise = shape_[i] * conductivity_of(i).slope_at_K(middle) * (factor == nullptr ? 1.0 : factor[i]);
      if (factor_slope != nullptr) rise += shape_[i] * conductivity_of(i).at_K(middle) * factor_slope[i];
    }
    return {g + 0.5 * rise * fall, -g + 0.5 * rise * fall};
  }
  [[nodiscard]] bool face_in_layer(std::size_t face, std::size_t layer) const { return !contact_[face] && face_layer_[face] == layer; }

 private:
  [[nodiscard]] double conductance(std::size_t i, double middle_K, const double* factor) const {
    if (contact_[i]) return shape_[i];
    const double g = shape_[i] * conductivity_of(i).at_K(middle_K);
    return factor == nullptr ? g : g * factor[i];
  }
  [[nodiscard]] const TemperatureProperty& conductivity_of(std::size_t face) const {
    return layers_[face_layer_[face]].conductivity_W_per_mK;
  }
  [[nodiscard]] const TemperatureProperty& heat_of(std::size_t part) const { return layers_[part_layer_[part]].specific_heat_J_per_kgK; }
  void add_part(std::size_t node, std::size_t layer, double volume);

  std::vector<Layer> layers_;
  std::vector<double> depth_;
  std::vector<std::size_t> layer_outside_, outer_node_;
  std::vector<double> shape_;  // per face: area over distance, or the conductance of a contact
  std::vector<char> contact_;
  std::vector<std::size_t> face_layer_;
  std::vector<std::size_t> part_begin_, part_layer_;
  std::vector<double> part_mass_, part_volume_, layer_volume_;
  double inner_share_ = 1, depth_total_ = 0;
};

/// Shares `total` spaces among layers by the time heat needs through each, at least 2 a layer. [count]
/// L / sqrt(k / (rho cp)), properties at 600 C
std::vector<std::size_t> shared_spaces(std::span<const Layer> layers, std::size_t total);

/// Factors and solves a tridiagonal system in place; rows with a dominant diagonal, no pivoting.
/// theory: (heat.9)
class Tridiagonal {
 public:
  void resize(std::size_t n) {
    for (auto* v : {&lower, &diagonal, &upper, &inverse_}) v->assign(n, 0.0);
  }
  std::vector<double> lower, diagonal, upper;  ///< row i: lower[i] x[i-1] + diagonal[i] x[i] + upper[i] x[i+1]

  void factor() {
    const std::size_t n = diagonal.size();
    inverse_[0] = 1.0 / diagonal[0];
    for (std::size_t i = 1; i < n; ++i) {
      lower[i] *= inverse_[i - 1];
      inverse_[i] = 1.0 / (diagonal[i] - lower[i] * upper[i - 1]);
    }
  }
  void solve(double* b) const {
    const std::size_t n = diagonal.size();
    for (std::size_t i = 1; i < n; ++i) b[i] -= lower[i] * b[i - 1];
    b[n - 1] *= inverse_[n - 1];
    for (std::size_t i = n - 1; i-- > 0;) b[i] = (b[i] - upper[i] * b[i + 1]) * inverse_[i];
  }

 private:
  std::vector<double> inverse_;
};

}  // namespace heatwork::physics
