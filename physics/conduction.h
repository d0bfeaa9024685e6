// Conduction through one section: control volumes about nodes that lie on the faces and interfaces, so that surface values are exact.
// All heats are per square metre of the outer face.
#pragma once

#include <algorithm>
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

  /// Number of nodes; their depth from the inside face; the layer outside of each; the layers themselves. [m]
  [[nodiscard]] std::size_t nodes() const { return depth_.size(); }
  [[nodiscard]] const std::vector<double>& depth_m() const { return depth_; }
  [[nodiscard]] const std::vector<std::size_t>& layer_of_node() const { return layer_outside_; }
  [[nodiscard]] const std::vector<Layer>& layers() const { return layers_; }
  /// Node on the outer side of layer i's outer face. [index]
  [[nodiscard]] std::size_t outer_node(std::size_t layer) const { return outer_node_[layer]; }
  /// Area of the inside face over that of the outer face. [pure number]
  [[nodiscard]] double inner_area_share() const { return inner_share_; }
  [[nodiscard]] double thickness_m() const { return depth_total_; }

  /// Heat capacity of every node at its temperature, and the slope by temperature where wanted. [J/(m2 K)], [J/(m2 K2)]
  void capacities(const double* T, double* capacity, double* slope = nullptr) const;
  /// Heat taken up between two temperatures, exact. [J/m2]
  [[nodiscard]] double heat_between(std::size_t node, double from_K, double to_K) const;
  /// Share of layer i's volume that belongs to a node; sums to 1 over the nodes. [pure number]
  [[nodiscard]] double volume_share(std::size_t node, std::size_t layer) const;

  /// Heat conducted into each node; `T` and `heat` have one entry a node. `factor` multiplies conductivity, one a face, or none. [W/m2]
  /// theory: (heat.3)
  void conducted(const double* T, const double* factor, double* heat) const;

  /// Derivative of the heat from node i to i + 1 by T[i] and by T[i + 1]. [W/(m2 K)]
  struct Slopes {
    double by_inner, by_outer;
  };
  /// `factor_slope` is how `factor` rises with the temperature of the face, one a face, or none.
  [[nodiscard]] Slopes slopes(std::size_t i, const double* T, const double* factor, const double* factor_slope) const;
  /// Faces within one layer are neighbours: the first, and one past the last. [index]
  [[nodiscard]] std::size_t first_face(std::size_t layer) const { return first_face_[layer]; }
  [[nodiscard]] std::size_t end_face(std::size_t layer) const { return end_face_[layer]; }

 private:
  // A property as most are given, straight between two temperatures: quick to evaluate.
  struct Line {
    double at_zero, slope, low_K, high_K;
    [[nodiscard]] double at(double T) const { return at_zero + slope * std::min(std::max(T, low_K), high_K); }
    [[nodiscard]] double slope_at(double T) const { return T < low_K || T > high_K ? 0.0 : slope; }
  };
  static Line line(const TemperatureProperty& property, double factor);
  [[nodiscard]] double conductance(std::size_t i, double middle_K) const {
    return straight_ ? face_line_[i].at(middle_K) : curved_conductance(i, middle_K);
  }
  [[nodiscard]] double curved_conductance(std::size_t i, double middle_K) const;
  void add_part(std::size_t node, std::size_t layer, double volume);
  void add_face(std::size_t layer, double shape, bool contact);

  std::vector<Layer> layers_;
  std::vector<double> depth_;
  std::vector<std::size_t> layer_outside_, outer_node_;
  bool straight_ = true;
  std::vector<double> shape_;  // per face: area over distance, or the conductance of a contact
  std::vector<char> contact_;
  std::vector<std::size_t> face_layer_, first_face_, end_face_;
  std::vector<Line> face_line_;  // conductance, shape included
  std::vector<std::size_t> part_node_, part_layer_;
  std::vector<double> part_mass_, part_volume_, layer_volume_;
  std::vector<Line> part_line_;  // heat capacity, mass included
  double inner_share_ = 1, depth_total_ = 0;
};

/// Shares `total` spaces among layers by the time heat needs through each, at least 2 a layer. [count]
/// L / sqrt(k / (rho cp)), properties at 600 C. source: chosen-here
std::vector<std::size_t> shared_spaces(std::span<const Layer> layers, std::size_t total);

/// Factors and solves a tridiagonal system in place; rows with a dominant diagonal, no pivoting.
/// theory: (heat.9)
class Tridiagonal {
 public:
  /// Takes room for n rows; all zero.
  void resize(std::size_t n) {
    for (auto* v : {&lower, &diagonal, &upper, &inverse_}) v->assign(n, 0.0);
  }
  std::vector<double> lower, diagonal, upper;  ///< row i: lower[i] x[i-1] + diagonal[i] x[i] + upper[i] x[i+1]

  /// Factors in place; `lower` is overwritten, so every row must be set anew before the next time.
  void factor() {
    const std::size_t n = diagonal.size();
    inverse_[0] = 1.0 / diagonal[0];
    for (std::size_t i = 1; i < n; ++i) {
      lower[i] *= inverse_[i - 1];
      inverse_[i] = 1.0 / (diagonal[i] - lower[i] * upper[i - 1]);
    }
  }
  /// b becomes the solution; the factors stay.
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
