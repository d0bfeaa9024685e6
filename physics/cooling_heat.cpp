#include <algorithm>
#include <cmath>
#include <numbers>

#include "physics/cooling_mesh.h"
#include "physics/radiation.h"

namespace heatwork::physics {

namespace {
constexpr double diagonal_share = 1.0 - 0.5 * std::numbers::sqrt2;  // of the two-stage method that damps what is infinitely fast
constexpr std::size_t support = 0;                                  // its place among the unknowns; the points follow
}  // namespace

CoolingHeat::CoolingHeat(const CoolingMesh& mesh, std::span<const StressLayer> layers) : mesh_(mesh), layers_(layers), n_(mesh.nodes + 1) {
  for (auto* v : {&T_, &start_, &capacity_, &flow_, &push_, &first_, &second_}) v->assign(n_, 0.0);
  std::vector<std::size_t> first(n_, 0);
  for (std::size_t l = 0; l < layers.size(); ++l) {
    const LobattoPoints& points = mesh.points[l];
    const std::size_t count = points.count();
    auto& product = product_.emplace_back();
    for (std::size_t q = 0; q < count; ++q)
      for (std::size_t i = 0; i < count; ++i)
        for (std::size_t j = 0; j <= i; ++j)
          product.push_back(points.derivative[q * count + i] * points.derivative[q * count + j] / (mesh.half_m[l] * mesh.half_m[l]));
    conductivity_.emplace_back(count, 0.0);
    for (std::size_t i = 1; i < count; ++i) first[1 + mesh.first[l] + i] = 1 + mesh.first[l];
    for (const TemperatureProperty* property : {&layers[l].heat.conductivity_W_per_mK, &layers[l].heat.specific_heat_J_per_kgK})
      constant_ = constant_ && property->coefficient(1) == 0.0 && property->is_straight();
  }
  system_.shape(first);
}

void CoolingHeat::cool_by(const FaceCooling& inner, const FaceCooling& outer, const InnerMass* mass) {
  inner_ = inner;
  outer_ = outer;
  mass_ = mass;
  capacity_.assign(n_, 0.0);  // to be taken anew
}

void CoolingHeat::take(const std::vector<double>& T, double mass_K) {
  start_[support] = mass_K;
  std::copy(T.begin(), T.end(), start_.begin() + 1);
  T_ = start_;
}

// Capacities and conductivities at the latest temperatures.
void CoolingHeat::properties() {
  if (constant_ && capacity_[support] > 0.0) return;
  std::fill(capacity_.begin(), capacity_.end(), 0.0);
  for (std::size_t l = 0; l < layers_.size(); ++l) {
    const Layer& heat = layers_[l].heat;
    for (std::size_t q = 0; q < mesh_.points[l].count(); ++q) {
      const std::size_t at = 1 + mesh_.first[l] + q;
      conductivity_[l][q] = mesh_.measure[l][q] * heat.conductivity_W_per_mK.at_K(T_[at]);
      capacity_[at] += mesh_.measure[l][q] * heat.density_kg_per_m3 * heat.specific_heat_J_per_kgK.at_K(T_[at]);
    }
  }
  capacity_[support] = mass_ != nullptr ? mesh_.inner_area * mass_->heat_capacity_J_per_m2K : 1.0;
}

// Heat that flows into each point.
void CoolingHeat::rates(double around_K) {
  properties();
  std::fill(flow_.begin(), flow_.end(), 0.0);
  for (std::size_t l = 0; l < layers_.size(); ++l) {
    const LobattoPoints& points = mesh_.points[l];
    const std::size_t count = points.count(), base = 1 + mesh_.first[l];
    const double scale = 1.0 / (mesh_.half_m[l] * mesh_.half_m[l]);
    for (std::size_t q = 0; q < count; ++q) {
      const double* slope = &points.derivative[q * count];
      double gradient = 0.0;
      for (std::size_t i = 0; i < count; ++i) gradient += slope[i] * T_[base + i];
      gradient *= conductivity_[l][q] * scale;
      for (std::size_t i = 0; i < count; ++i) flow_[base + i] -= slope[i] * gradient;
    }
  }
  const std::size_t last = n_ - 1;
  film_inner_ = mesh_.inner_area * (inner_.film_W_per_m2K + radiative_film_W_per_m2K(inner_.emissivity, around_K, T_[1]));
  film_outer_ = mesh_.outer_area * (outer_.film_W_per_m2K + radiative_film_W_per_m2K(outer_.emissivity, around_K, T_[last]));
  flow_[1] += film_inner_ * (around_K - T_[1]);
  flow_[last] += film_outer_ * (around_K - T_[last]);
  if (mass_ == nullptr) return;
  const double gap = mesh_.inner_area * mass_->gap_W_per_m2K, loss = mesh_.inner_area * mass_->loss_W_per_m2K;
  flow_[1] += gap * (T_[support] - T_[1]);
  flow_[support] += gap * (T_[1] - T_[support]) + loss * (around_K - T_[support]);
}

// Capacities and the conductances of the start over the share of the step; what surroundings that warm push.
void CoolingHeat::assemble(double weight_s) {
  system_.clear();
  for (std::size_t l = 0; l < layers_.size(); ++l) {
    const std::size_t count = mesh_.points[l].count(), base = 1 + mesh_.first[l];
    const double* product = product_[l].data();
    for (std::size_t q = 0; q < count; ++q) {
      const double k = weight_s * conductivity_[l][q];
      for (std::size_t i = 0; i < count; ++i) {
        double* row = &system_.at(base + i, base);
        for (std::size_t j = 0; j <= i; ++j) row[j] += k * product[j];
        product += i + 1;
      }
    }
  }
  const std::size_t last = n_ - 1;
  system_.at(1, 1) += weight_s * film_inner_;
  system_.at(last, last) += weight_s * film_outer_;
  std::fill(push_.begin(), push_.end(), 0.0);
  push_[1] = film_inner_;
  push_[last] += film_outer_;
  if (mass_ != nullptr) {
    const double gap = mesh_.inner_area * mass_->gap_W_per_m2K, loss = mesh_.inner_area * mass_->loss_W_per_m2K;
    system_.at(1, 1) += weight_s * gap;
    system_.at(1, support) = -weight_s * gap;
    system_.at(support, support) = weight_s * (gap + loss);
    push_[support] = loss;
  }
  for (std::size_t i = 0; i < n_; ++i) system_.at(i, i) += capacity_[i];
  system_.factor();
}

// Linearly implicit: the conductances of the start damp, the heat that flows is taken as it is at both stages.
void CoolingHeat::step(std::vector<double>& T, double& mass_K, double duration_s, double around_before_K, double around_after_K) {
  take(T, mass_K);
  rates(around_before_K);
  const double weight_s = diagonal_share * duration_s, warmed_K = diagonal_share * (around_after_K - around_before_K);
  assemble(weight_s);
  for (std::size_t i = 0; i < n_; ++i) first_[i] = flow_[i] + warmed_K * push_[i];
  system_.solve(first_.data());
  second_ = capacity_;
  for (std::size_t i = 0; i < n_; ++i) T_[i] = start_[i] + duration_s * first_[i];
  rates(around_after_K);
  // Both stages are solved with the capacities of the start; where those of the end differ, so does what the heat does.
  for (std::size_t i = 0; i < n_; ++i) {
    const double before = second_[i];
    second_[i] = before / capacity_[i] * flow_[i] - 2.0 * before * first_[i] - warmed_K * push_[i];
  }
  system_.solve(second_.data());
  for (std::size_t i = 0; i < n_; ++i) T_[i] = start_[i] + duration_s * (1.5 * first_[i] + 0.5 * second_[i]);
  std::copy(T_.begin() + 1, T_.end(), T.begin());
  mass_K = T_[support];
}

double CoolingHeat::fastest(const std::vector<double>& T, double mass_K, double around_K) {
  take(T, mass_K);
  rates(around_K);
  double most = 0.0;
  for (std::size_t i = 0; i < n_; ++i) most = std::max(most, std::abs(flow_[i]) / capacity_[i]);
  return most;
}

}  // namespace heatwork::physics
