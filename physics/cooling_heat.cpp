#include <algorithm>
#include <cmath>
#include <numbers>

#include "physics/cooling_mesh.h"
#include "physics/radiation.h"

namespace heatwork::physics {

namespace {
constexpr double diagonal_share = 1.0 - 0.5 * std::numbers::sqrt2;  // of the two-stage method that is stiffly stable
}

CoolingHeat::CoolingHeat(const CoolingMesh& mesh, std::span<const StressLayer> layers) : mesh_(mesh), layers_(layers), n_(mesh.nodes + 1) {
  for (auto* v : {&capacity_, &load_, &stage_, &rate_, &full_}) v->assign(n_, 0.0);
  conduct_.assign(n_ * n_, 0.0);
  for (const StressLayer& layer : layers) {
    for (const TemperatureProperty* property : {&layer.heat.conductivity_W_per_mK, &layer.heat.specific_heat_J_per_kgK})
      straight_ = straight_ && property->coefficient(1) == 0.0 && property->is_straight();
  }
}

void CoolingHeat::cool_by(const FaceCooling& inner, const FaceCooling& outer, const InnerMass* mass) {
  inner_ = inner;
  outer_ = outer;
  mass_ = mass;
}

// Capacities, conductances and films at these temperatures; the last unknown is the support (of no effect where there is none).
void CoolingHeat::assemble(const std::vector<double>& T) {
  std::fill(capacity_.begin(), capacity_.end(), 0.0);
  std::fill(conduct_.begin(), conduct_.end(), 0.0);
  std::fill(load_.begin(), load_.end(), 0.0);
  for (std::size_t l = 0; l < layers_.size(); ++l) {
    const LobattoPoints& points = mesh_.points[l];
    const std::size_t count = points.count(), first = mesh_.first[l];
    for (std::size_t q = 0; q < count; ++q) {
      const double volume = mesh_.measure[l][q], at_K = T[first + q];
      const double k = layers_[l].heat.conductivity_W_per_mK.at_K(at_K) * volume / (mesh_.half_m[l] * mesh_.half_m[l]);
      capacity_[first + q] += volume * layers_[l].heat.density_kg_per_m3 * layers_[l].heat.specific_heat_J_per_kgK.at_K(at_K);
      const double* slope = &points.derivative[q * count];
      for (std::size_t i = 0; i < count; ++i)
        for (std::size_t j = 0; j <= i; ++j) conduct_[(first + i) * n_ + first + j] += k * slope[i] * slope[j];
    }
  }
  const auto film = [&](std::size_t node, double area, const FaceCooling& face) {
    const double h = area * (face.film_W_per_m2K + radiative_film_W_per_m2K(face.emissivity, around_K_, T[node]));
    conduct_[node * n_ + node] += h;
    load_[node] += h * around_K_;
  };
  film(0, mesh_.inner_area, inner_);
  film(mesh_.nodes - 1, mesh_.outer_area, outer_);
  const std::size_t support = n_ - 1;
  capacity_[support] = 1.0;
  if (mass_ == nullptr) return;
  const double gap = mesh_.inner_area * mass_->gap_W_per_m2K, loss = mesh_.inner_area * mass_->loss_W_per_m2K;
  capacity_[support] = mesh_.inner_area * mass_->heat_capacity_J_per_m2K;
  conduct_[0] += gap;
  conduct_[support * n_ + support] += gap + loss;
  conduct_[support * n_] -= gap;
  load_[support] += loss * around_K_;
}

// (M + w A) T = M base + w b, properties at the latest T.
void CoolingHeat::stage(const std::vector<double>& base, std::vector<double>& T, double weight_s) {
  const bool one = straight_ && inner_.emissivity == 0.0 && outer_.emissivity == 0.0;
  for (int sweep = 0; sweep < (one ? 1 : 4); ++sweep) {
    assemble(T);
    system_.clear(n_);
    for (std::size_t i = 0; i < n_; ++i) {
      for (std::size_t j = 0; j <= i; ++j) system_.at(i, j) = weight_s * conduct_[i * n_ + j];
      system_.at(i, i) += capacity_[i];
      T[i] = capacity_[i] * base[i] + weight_s * load_[i];
    }
    system_.factor();
    system_.solve(T.data());
  }
}

void CoolingHeat::step(std::vector<double>& T, double& mass_K, double duration_s, double around_before_K, double around_after_K) {
  std::copy(T.begin(), T.end(), full_.begin());
  full_[n_ - 1] = mass_K;
  stage_ = full_;
  around_K_ = around_before_K + diagonal_share * (around_after_K - around_before_K);
  stage(full_, stage_, diagonal_share * duration_s);
  for (std::size_t i = 0; i < n_; ++i) {
    rate_[i] = (stage_[i] - full_[i]) / (diagonal_share * duration_s);
    full_[i] += (1.0 - diagonal_share) * duration_s * rate_[i];
  }
  around_K_ = around_after_K;
  stage(full_, stage_, diagonal_share * duration_s);
  std::copy(stage_.begin(), stage_.end() - 1, T.begin());
  mass_K = stage_[n_ - 1];
}

double CoolingHeat::fastest(const std::vector<double>& T, double mass_K, double around_K) {
  around_K_ = around_K;
  std::copy(T.begin(), T.end(), full_.begin());
  full_[n_ - 1] = mass_K;
  assemble(full_);
  double most = 0.0;
  for (std::size_t i = 0; i < n_; ++i) {
    double rate = load_[i];
    for (std::size_t j = 0; j < n_; ++j) rate -= (i >= j ? conduct_[i * n_ + j] : conduct_[j * n_ + i]) * full_[j];
    most = std::max(most, std::abs(rate) / capacity_[i]);
  }
  return most;
}

}  // namespace heatwork::physics
