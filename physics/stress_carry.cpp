#include "physics/stress_carry.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "physics/cooling_mesh.h"

namespace heatwork::physics {

namespace {

constexpr double one_temperature_K = 1e-6;

// The layers of a state, and its temperature and curvature.
struct Unpacked {
  std::vector<CoolingLayer> layers;
  double T = 0.0, mass_K = 0.0, curvature = 0.0;
};

Unpacked unpacked(const StressedPiece& piece, const CoolingMesh& mesh) {
  std::span<const double> state = piece.state;
  if (state.size() < mesh.nodes + 2) throw std::domain_error("The stored state is too short for these layers.");
  const auto [low, high] = std::minmax_element(state.begin(), state.begin() + static_cast<std::ptrdiff_t>(mesh.nodes));
  if (*high - *low > one_temperature_K) throw std::domain_error("A piece that goes to the bench must be of one temperature.");
  Unpacked out{{}, state[0], state[mesh.nodes], state[mesh.nodes + 1]};
  state = state.subspan(mesh.nodes + 2);
  for (std::size_t l = 0; l < piece.layers.size(); ++l) {
    out.layers.emplace_back(piece.layers[l], mesh.points[l].count(), out.T);
    out.layers.back().load(state);
  }
  return out;
}

// Structure and stresses of a layer at the points of what is left of it. A layer laid on thicker is left as it is: its pressure, which a
// liquid keeps, would jump between two points.
void take_over(const CoolingLayer& was, const LobattoPoints& old_points, const LayerOrigin& origin, const LobattoPoints& new_points,
               CoolingLayer& is) {
  constexpr double same_place = 1e-9;  // beyond the old face by no more than rounding
  const double old_m = was.layer().heat.thickness_m, new_m = is.layer().heat.thickness_m;
  if (!(origin.ground_inside_m >= 0.0 && origin.ground_inside_m < old_m))
    throw std::domain_error("Of a layer less than its thickness can be ground away.");
  for (const auto of : {&CoolingLayer::Tf, &CoolingLayer::partial, &CoolingLayer::shear_1, &CoolingLayer::bulk}) {
    if (was.is_glass() != is.is_glass() || (was.*of).size() / was.points() != (is.*of).size() / is.points())
      throw std::domain_error("A layer that was fired before must relax by the same spectra.");
  }
  if (origin.ground_inside_m + new_m > old_m * (1.0 + same_place)) return;
  for (const auto of : {&CoolingLayer::Tf, &CoolingLayer::partial, &CoolingLayer::shear_1, &CoolingLayer::shear_2, &CoolingLayer::bulk,
                        &CoolingLayer::bulk_rest}) {
    for (std::size_t at = 0; at < (is.*of).size(); ++at) {
      const double depth_m = origin.ground_inside_m + 0.5 * (1.0 + new_points.place[at % is.points()]) * new_m;
      (is.*of)[at] = old_points.value(&(was.*of)[at / is.points() * was.points()], std::min(1.0, 2.0 * depth_m / old_m - 1.0));
    }
  }
}

}  // namespace

std::vector<double> carried_stress(const StressedPiece& was, double inner_radius_m, std::span<const StressLayer> layers,
                                   std::span<const LayerOrigin> origins, const StressAccuracy& accuracy) {
  if (origins.size() != layers.size()) throw std::domain_error("Every layer needs to be told where it comes from.");
  const CoolingMesh before = cooling_mesh(was.form, was.inner_radius_m, was.layers, was.accuracy);
  const CoolingMesh mesh = cooling_mesh(was.form, inner_radius_m, layers, accuracy);
  const Unpacked old = unpacked(was, before);
  std::vector<CoolingLayer> now;
  for (std::size_t l = 0; l < layers.size(); ++l) {
    CoolingLayer& layer = now.emplace_back(layers[l], mesh.points[l].count(), old.T);
    if (layers[l].glass) {
      layer.Tf.assign(layer.points(), layers[l].glass->relaxing.reference_K);
      std::fill(layer.partial.begin(), layer.partial.end(), layer.Tf.front());
    }
    if (!origins[l].was) continue;
    if (*origins[l].was >= old.layers.size()) throw std::domain_error("A layer comes from one that never was.");
    take_over(old.layers[*origins[l].was], before.points[*origins[l].was], origins[l], mesh.points[l], layer);
    layer.sum_stresses();
  }
  double curvature = old.curvature;
  const std::vector<double> T(mesh.nodes, old.T);
  for (std::size_t l = 0; l < now.size(); ++l) now[l].prepare(&T[mesh.first[l]], 0.0);
  CoolingBalance(mesh).advance(now, curvature);
  std::vector<double> state = T;
  state.push_back(old.mass_K);
  state.push_back(curvature);
  for (const CoolingLayer& layer : now) layer.save(state);
  return state;
}

}  // namespace heatwork::physics
