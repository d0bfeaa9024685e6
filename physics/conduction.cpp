#include "physics/conduction.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

namespace heatwork::physics {

namespace {

// Area at radius r over that of the outer face, and the volume and resistance between two radii per outer area: exact for each form.
struct Shape {
  SectionForm form;
  double outer_radius;

  [[nodiscard]] double area(double r) const {
    if (form == SectionForm::plate) return 1.0;
    const double x = r / outer_radius;
    return form == SectionForm::tube ? x : x * x;
  }
  [[nodiscard]] double volume(double a, double b) const {
    if (form == SectionForm::plate) return b - a;
    if (form == SectionForm::tube) return 0.5 * (b - a) * (b + a) / outer_radius;
    return (b - a) * (a * a + a * b + b * b) / (3.0 * outer_radius * outer_radius);
  }
  // Steady conductance per unit conductivity; about an axis or a point (radius 0) the mean area serves.
  [[nodiscard]] double conductance(double a, double b) const {
    const double d = b - a;
    if (form == SectionForm::plate) return 1.0 / d;
    if (a <= 0.0) return area(0.5 * b) / d;
    if (form == SectionForm::tube) return 1.0 / (outer_radius * std::log(b / a));
    return a * b / (outer_radius * outer_radius * d);
  }
};

}  // namespace

SectionMesh::Line SectionMesh::line(const TemperatureProperty& property, double factor) {
  const double slope = factor * property.coefficient(1);
  return {factor * property.coefficient(0) - slope * zero_celsius_K, slope, property.low_C() + zero_celsius_K,
          property.high_C() + zero_celsius_K};
}

void SectionMesh::add_part(std::size_t node, std::size_t layer, double volume) {
  const TemperatureProperty& heat = layers_[layer].specific_heat_J_per_kgK;
  part_node_.push_back(node);
  part_layer_.push_back(layer);
  part_volume_.push_back(volume);
  part_mass_.push_back(volume * layers_[layer].density_kg_per_m3);
  part_line_.push_back(line(heat, part_mass_.back()));
  straight_ = straight_ && heat.is_straight();
}

void SectionMesh::add_face(std::size_t layer, double shape, bool contact) {
  const TemperatureProperty& conductivity = layers_[layer].conductivity_W_per_mK;
  shape_.push_back(shape);
  contact_.push_back(contact ? 1 : 0);
  face_layer_.push_back(layer);
  face_line_.push_back(contact ? Line{shape, 0.0, 0.0, 0.0} : line(conductivity, shape));
  straight_ = straight_ && conductivity.is_straight();
}

// theory: (heat.2)
SectionMesh::SectionMesh(std::span<const Layer> layers, SectionForm form, double inner_radius_m, std::span<const std::size_t> spaces)
    : layers_(layers.begin(), layers.end()) {
  check_layers(layers, form, inner_radius_m);
  if (spaces.size() != layers.size()) throw std::invalid_argument("spaces must hold one number for each layer.");
  for (const Layer& layer : layers_) depth_total_ += layer.thickness_m;
  const double inner = form == SectionForm::plate ? 0.0 : inner_radius_m;
  const Shape shape{form, inner + depth_total_};
  inner_share_ = shape.area(inner);
  const auto add_node = [&](double r, std::size_t layer) {
    depth_.push_back(r - inner);
    layer_outside_.push_back(layer);
  };
  double at = inner;
  add_node(at, 0);
  for (std::size_t l = 0; l < layers_.size(); ++l) {
    const Layer& layer = layers_[l];
    if (spaces[l] == 0) throw std::invalid_argument("spaces must be at least 1 in each layer.");
    if (layer.contact_resistance_m2K_per_W > 0) {
      add_face(l, shape.area(at) / layer.contact_resistance_m2K_per_W, true);
      add_node(at, l);
    }
    layer_outside_.back() = l;
    const double start = at;
    first_face_.push_back(shape_.size());
    for (std::size_t k = 1; k <= spaces[l]; ++k) {
      const double next = start + layer.thickness_m * static_cast<double>(k) / static_cast<double>(spaces[l]);
      const double middle = 0.5 * (at + next);
      add_part(nodes() - 1, l, shape.volume(at, middle));
      add_face(l, shape.conductance(at, next), false);
      add_node(next, l);
      add_part(nodes() - 1, l, shape.volume(middle, next));
      at = next;
    }
    end_face_.push_back(shape_.size());
    outer_node_.push_back(nodes() - 1);
    layer_volume_.push_back(shape.volume(start, at));
  }
}

SectionMesh SectionMesh::lumped(std::span<const Layer> layers, SectionForm form, double inner_radius_m) {
  check_layers(layers, form, inner_radius_m);
  SectionMesh mesh;
  mesh.layers_.assign(layers.begin(), layers.end());
  for (const Layer& layer : layers) mesh.depth_total_ += layer.thickness_m;
  const double inner = form == SectionForm::plate ? 0.0 : inner_radius_m;
  const Shape shape{form, inner + mesh.depth_total_};
  mesh.inner_share_ = shape.area(inner);
  mesh.depth_.push_back(mesh.depth_total_);
  mesh.layer_outside_.push_back(layers.size() - 1);
  double at = inner;
  for (std::size_t l = 0; l < layers.size(); ++l) {
    const double next = at + layers[l].thickness_m;
    mesh.add_part(0, l, shape.volume(at, next));
    mesh.layer_volume_.push_back(shape.volume(at, next));
    mesh.outer_node_.push_back(0);
    mesh.first_face_.push_back(0);
    mesh.end_face_.push_back(0);
    at = next;
  }
  return mesh;
}

double SectionMesh::curved_conductance(std::size_t i, double middle_K) const {
  return contact_[i] ? shape_[i] : shape_[i] * layers_[face_layer_[i]].conductivity_W_per_mK.at_K(middle_K);
}

void SectionMesh::capacities(const double* T, double* capacity, double* slope) const {
  std::fill_n(capacity, nodes(), 0.0);
  if (slope != nullptr) std::fill_n(slope, nodes(), 0.0);
  for (std::size_t p = 0; p < part_node_.size(); ++p) {
    const std::size_t i = part_node_[p];
    if (straight_) {
      capacity[i] += part_line_[p].at(T[i]);
      if (slope != nullptr) slope[i] += part_line_[p].slope_at(T[i]);
    } else {
      const TemperatureProperty& heat = layers_[part_layer_[p]].specific_heat_J_per_kgK;
      capacity[i] += part_mass_[p] * heat.at_K(T[i]);
      if (slope != nullptr) slope[i] += part_mass_[p] * heat.slope_at_K(T[i]);
    }
  }
}

// theory: (heat.3)
void SectionMesh::conducted(const double* T, const double* factor, double* heat) const {
  heat[0] = 0;
  for (std::size_t i = 0; i + 1 < nodes(); ++i) {
    double q = conductance(i, 0.5 * (T[i] + T[i + 1])) * (T[i] - T[i + 1]);
    if (factor != nullptr) q *= factor[i];
    heat[i] -= q;
    heat[i + 1] = q;
  }
}

SectionMesh::Slopes SectionMesh::slopes(std::size_t i, const double* T, const double* factor, const double* factor_slope) const {
  const double middle = 0.5 * (T[i] + T[i + 1]), fall = T[i] - T[i + 1];
  const double part = factor == nullptr ? 1.0 : factor[i];
  const double g = conductance(i, middle);
  double rise = 0;
  if (!contact_[i]) {
    rise = straight_ ? face_line_[i].slope_at(middle) : shape_[i] * layers_[face_layer_[i]].conductivity_W_per_mK.slope_at_K(middle);
    rise *= part;
    if (factor_slope != nullptr) rise += g * factor_slope[i];
  }
  return {part * g + 0.5 * rise * fall, -part * g + 0.5 * rise * fall};
}

double SectionMesh::heat_between(std::size_t node, double from_K, double to_K) const {
  double sum = 0;
  for (std::size_t p = 0; p < part_node_.size(); ++p) {
    if (part_node_[p] == node) sum += part_mass_[p] * layers_[part_layer_[p]].specific_heat_J_per_kgK.integral_K(from_K, to_K);
  }
  return sum;
}

double SectionMesh::volume_share(std::size_t node, std::size_t layer) const {
  double sum = 0;
  for (std::size_t p = 0; p < part_node_.size(); ++p) sum += part_node_[p] == node && part_layer_[p] == layer ? part_volume_[p] : 0.0;
  return sum / layer_volume_[layer];
}

std::vector<std::size_t> shared_spaces(std::span<const Layer> layers, std::size_t total) {
  std::vector<double> slowness;
  double sum = 0;
  for (const Layer& layer : layers) {
    const double volume_heat = layer.density_kg_per_m3 * layer.specific_heat_J_per_kgK.at_C(600);
    slowness.push_back(layer.thickness_m * std::sqrt(volume_heat / layer.conductivity_W_per_mK.at_C(600)));
    sum += slowness.back();
  }
  std::vector<std::size_t> spaces;
  for (double s : slowness) {
    spaces.push_back(std::max<std::size_t>(2, static_cast<std::size_t>(std::lround(static_cast<double>(total) * s / sum))));
  }
  return spaces;
}

}  // namespace heatwork::physics
