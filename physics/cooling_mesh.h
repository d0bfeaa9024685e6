// Points through all layers of a cooling piece; heat through them, and the balance of forces.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "physics/cooling_layer.h"
#include "physics/cooling_stress.h"
#include "physics/lobatto.h"

namespace heatwork::physics {

/// Where the points lie: neighbours share the point of their interface [m, 1].
struct CoolingMesh {
  StressForm form = StressForm::plate_free;
  std::size_t nodes = 0;
  std::vector<LobattoPoints> points;         ///< one set a layer
  std::vector<std::size_t> first;            ///< first point of each layer
  std::vector<double> half_m;                ///< half thickness of each layer
  std::vector<std::vector<double>> place_m;  ///< from the middle of a plate, from the axis or centre of curved forms
  std::vector<std::vector<double>> measure;  ///< volume of each point: weight, half thickness, area
  double inner_area = 1.0, outer_area = 1.0;
};

/// Places the points. source: chosen-here theory: (cooling-stress.6)
CoolingMesh cooling_mesh(StressForm form, double inner_radius_m, std::span<const StressLayer> layers, const StressAccuracy& accuracy);

/// Heat through the points, and through a support behind the inside face. theory: (cooling-stress.11)
class CoolingHeat {
 public:
  /// Keeps both by reference.
  CoolingHeat(const CoolingMesh& mesh, std::span<const StressLayer> layers);
  /// Sets what the faces give to; the support may be null.
  void cool_by(const FaceCooling& inner, const FaceCooling& outer, const InnerMass* mass);
  /// One step of second order that damps what is fast, surroundings straight through it; T and the support's temperature are of its start
  /// and then its end. [K, s]
  void step(std::vector<double>& T, double& mass_K, double duration_s, double around_before_K, double around_after_K);
  /// Fastest change to expect at the start. [K/s]
  double fastest(const std::vector<double>& T, double mass_K, double around_K);

 private:
  void take(const std::vector<double>& T, double mass_K);
  void properties();
  void rates(double around_K);
  void assemble(double weight_s);

  const CoolingMesh& mesh_;
  std::span<const StressLayer> layers_;
  FaceCooling inner_, outer_;
  const InnerMass* mass_ = nullptr;
  bool constant_ = true;                                                     // conductivity and specific heat of all layers
  std::size_t n_ = 0;                                                        // points and the support, which comes first
  std::vector<std::vector<double>> product_;                                 // of each layer and point: products of slopes, lower half
  std::vector<std::vector<double>> conductivity_;                            // of each layer: at its points, times volume
  std::vector<double> T_, start_, capacity_, flow_, push_, first_, second_;  // flow [W], push: of surroundings that warm by 1 K/s [W/s]
  double film_inner_ = 0.0, film_outer_ = 0.0;                               // at the latest temperatures, times area [W/K]
  SymmetricSystem system_;
};

/// Strains of a step by which forces balance. theory: (cooling-stress.12) (cooling-stress.13)
class CoolingBalance {
 public:
  /// Keeps the mesh by reference.
  explicit CoolingBalance(const CoolingMesh& mesh);
  /// Advances all layers, prepared, by the strains of the step. [1, 1/m]
  void advance(std::vector<CoolingLayer>& layers, double& curvature_per_m);
  /// Force and moment left over, relative to the highest stress. [1]
  [[nodiscard]] double imbalance(const std::vector<CoolingLayer>& layers) const;

 private:
  void flat(std::vector<CoolingLayer>& layers, double& curvature_per_m);
  void curved(std::vector<CoolingLayer>& layers);
  void add_layer(std::size_t index, const CoolingLayer& layer);
  void leave_over(std::size_t index, const CoolingLayer& layer);
  void strains(std::size_t index);

  const CoolingMesh& mesh_;
  SymmetricSystem system_;
  std::vector<double> load_, moved_, strain_1_, strain_2_, strain_3_;
};

}  // namespace heatwork::physics
