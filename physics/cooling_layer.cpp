#include "physics/cooling_layer.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "physics/decay.h"

namespace heatwork::physics {

namespace {

constexpr double provably_still = 1e-10;  // share of the fastest term that relaxes in a step
constexpr double steepest = 600.0;

double sum_of(std::span<const RelaxationTerm> terms) {
  double sum = 0.0;
  for (const RelaxationTerm& term : terms) sum += term.weight;
  return sum;
}

void check_glass(const StressGlass& glass) {
  check_relaxing_glass(glass.relaxing);
  check_spectrum(glass.shear, "The spectrum of shear");
  if (!(glass.bulk_remaining >= 0.0 && glass.bulk_remaining <= 1.0))
    throw std::domain_error("The remaining share of the bulk modulus is " + std::to_string(glass.bulk_remaining) +
                            ", but must be from 0 to 1.");
  if (glass.bulk_remaining < 1.0) check_spectrum(glass.bulk, "The spectrum of the bulk");
  if (!std::isfinite(glass.liquid_expansion_per_K)) throw std::domain_error("The expansion of the liquid is not a finite number.");
}

}  // namespace

CoolingLayer::CoolingLayer(const StressLayer& layer, std::size_t points, double start_K) : layer_(layer), n_(points) {
  if (!(layer.youngs_Pa > 0.0 && std::isfinite(layer.youngs_Pa))) throw std::domain_error("Young's modulus must be above 0 Pa.");
  if (!(layer.poisson >= 0.0 && layer.poisson < 0.5)) throw std::domain_error("Poisson's ratio must be from 0 and below 0.5.");
  G_ = 0.5 * layer.youngs_Pa / (1.0 + layer.poisson);
  K_ = layer.youngs_Pa / (3.0 * (1.0 - 2.0 * layer.poisson));
  K_rest_ = K_;
  std::size_t structure = 0, shear = 1, bulk_terms = 0;
  if (layer_.glass) {
    StressGlass& glass = *layer_.glass;
    check_glass(glass);
    if (glass.bulk_remaining >= 1.0) glass.bulk.clear();
    K_rest_ = K_ * glass.bulk_remaining;
    structure = glass.relaxing.structure.size();
    shear = glass.shear.size();
    bulk_terms = glass.bulk.size();
    shear_sum_ = sum_of(glass.shear);
    bulk_sum_ = sum_of(glass.bulk);
    structure_sum_ = sum_of(glass.relaxing.structure);
    shortest_s_ = 1e300;
    for (const auto* terms : {&glass.relaxing.structure, &glass.shear, &glass.bulk})
      for (const RelaxationTerm& term : *terms) shortest_s_ = std::min(shortest_s_, term.time_s);
  }
  T.assign(n_, start_K);
  Tf.assign(n_, start_K);
  partial.assign(n_ * structure, start_K);
  for (auto* v : {&shear_1, &shear_2}) v->assign(n_ * shear, 0.0);
  bulk.assign(n_ * bulk_terms, 0.0);
  for (auto* v : {&shear_kept_, &shear_lag_}) v->assign(n_ * shear, 1.0);
  for (auto* v : {&bulk_kept_, &bulk_lag_}) v->assign(n_ * bulk_terms, 1.0);
  for (auto* v : {&kept_, &lag_}) v->assign(n_ * structure, 1.0);
  for (auto* v : {&bulk_rest, &shear_modulus, &bulk_modulus, &held_1, &held_2, &held_mean, &thermal, &stress_1, &stress_2, &stress_3,
                  &reduced_, &exponent_, &next_Tf_})
    v->assign(n_, 0.0);
  next_T_ = T;
  next_Tf_ = Tf;
}

void CoolingLayer::operators(std::span<const RelaxationTerm> terms, std::vector<double>& kept, std::vector<double>& lag) {
  for (std::size_t j = 0; j < terms.size(); ++j) {
    const double rate = 1.0 / terms[j].time_s;
    double *k = &kept[j * n_], *g = &lag[j * n_];
    for (std::size_t q = 0; q < n_; ++q) k[q] = decay(reduced_[q] * rate, g[q]);
  }
}

void CoolingLayer::relax_structure(const double* temperature_K, double duration_s) {
  constexpr int most_sweeps = 40;
  constexpr double settled_K = 1e-7;
  const RelaxingGlass& glass = layer_.glass->relaxing;
  double most = -steepest;
  for (std::size_t q = 0; q < n_; ++q) {
    exponent_[q] = log_shift(glass, T[q], Tf[q]);
    next_Tf_[q] = Tf[q];
    most = std::max({most, exponent_[q], log_shift(glass, temperature_K[q], Tf[q])});
  }
  frozen_ = std::exp(std::min(most, steepest)) * duration_s < provably_still * shortest_s_;
  if (frozen_) {
    std::fill(reduced_.begin(), reduced_.end(), 0.0);
    structure_change_K_ = 0.0;
    return;
  }
  for (int sweep = 0; sweep < most_sweeps; ++sweep) {
    for (std::size_t q = 0; q < n_; ++q)
      reduced_[q] = duration_s * mean_of_exponential(exponent_[q], log_shift(glass, temperature_K[q], next_Tf_[q]));
    operators(glass.structure, kept_, lag_);
    double change = 0.0;
    for (std::size_t q = 0; q < n_; ++q) {
      double next = 0.0;
      for (std::size_t j = 0; j < glass.structure.size(); ++j)
        next +=
            glass.structure[j].weight * ((T[q] - partial[j * n_ + q]) * kept_[j * n_ + q] + (temperature_K[q] - T[q]) * lag_[j * n_ + q]);
      next = temperature_K[q] - next / structure_sum_;
      change = std::max(change, std::abs(next - next_Tf_[q]));
      next_Tf_[q] = next;
    }
    if (change < settled_K) break;
  }
}

void CoolingLayer::prepare(const double* temperature_K, double duration_s) {
  std::copy(temperature_K, temperature_K + n_, next_T_.begin());
  for (std::size_t q = 0; q < n_; ++q) thermal[q] = layer_.expansion_per_K.integral_K(T[q], next_T_[q]);
  const auto& shear = layer_.glass ? layer_.glass->shear : rigid_;
  if (layer_.glass) {
    const bool before = frozen_;
    relax_structure(temperature_K, duration_s);
    if (!frozen_ || !before) {
      operators(shear, shear_kept_, shear_lag_);
      operators(layer_.glass->bulk, bulk_kept_, bulk_lag_);
    }
    if (!frozen_)
      for (std::size_t q = 0; q < n_; ++q)
        thermal[q] += layer_.glass->liquid_expansion_per_K * (next_Tf_[q] - Tf[q]) - layer_.expansion_per_K.integral_K(Tf[q], next_Tf_[q]);
  }
  for (std::size_t q = 0; q < n_; ++q) {
    held_1[q] = held_2[q] = shear_modulus[q] = 0.0;
    held_mean[q] = bulk_rest[q];
    bulk_modulus[q] = K_rest_;
  }
  for (std::size_t j = 0; j < shear.size(); ++j) {
    const double share = G_ * shear[j].weight / shear_sum_;
    for (std::size_t q = 0, at = j * n_; q < n_; ++q, ++at) {
      held_1[q] += shear_1[at] * shear_kept_[at];
      held_2[q] += shear_2[at] * shear_kept_[at];
      shear_modulus[q] += share * shear_lag_[at];
    }
  }
  const std::size_t bulk_terms = layer_.glass ? layer_.glass->bulk.size() : 0;
  for (std::size_t j = 0; j < bulk_terms; ++j) {
    const double share = (K_ - K_rest_) * layer_.glass->bulk[j].weight / bulk_sum_;
    for (std::size_t q = 0, at = j * n_; q < n_; ++q, ++at) {
      held_mean[q] += bulk[at] * bulk_kept_[at];
      bulk_modulus[q] += share * bulk_lag_[at];
    }
  }
}

void CoolingLayer::finish(const double* strain_1, const double* strain_2, const double* strain_3) {
  const auto& shear = layer_.glass ? layer_.glass->shear : rigid_;
  const std::size_t bulk_terms = layer_.glass ? layer_.glass->bulk.size() : 0;
  for (std::size_t j = 0; j < shear.size(); ++j) {
    const double twice = 2.0 * G_ * shear[j].weight / shear_sum_;
    for (std::size_t q = 0, at = j * n_; q < n_; ++q, ++at) {
      const double mean = (strain_1[q] + strain_2[q] + strain_3[q]) / 3.0;
      shear_1[at] = shear_1[at] * shear_kept_[at] + twice * shear_lag_[at] * (strain_1[q] - mean);
      shear_2[at] = shear_2[at] * shear_kept_[at] + twice * shear_lag_[at] * (strain_2[q] - mean);
    }
  }
  for (std::size_t q = 0; q < n_; ++q) {
    const double mean = (strain_1[q] + strain_2[q] + strain_3[q]) / 3.0 - thermal[q];
    bulk_rest[q] += 3.0 * K_rest_ * mean;
    for (std::size_t j = 0; j < bulk_terms; ++j) {
      const std::size_t at = j * n_ + q;
      const double thrice = 3.0 * (K_ - K_rest_) * layer_.glass->bulk[j].weight / bulk_sum_;
      bulk[at] = bulk[at] * bulk_kept_[at] + thrice * bulk_lag_[at] * mean;
    }
  }
  if (layer_.glass && !frozen_) {
    for (std::size_t j = 0; j < layer_.glass->relaxing.structure.size(); ++j)
      for (std::size_t q = 0, at = j * n_; q < n_; ++q, ++at)
        partial[at] = next_T_[q] - (T[q] - partial[at]) * kept_[at] - (next_T_[q] - T[q]) * lag_[at];
    structure_change_K_ = 0.0;
    for (std::size_t q = 0; q < n_; ++q) structure_change_K_ = std::max(structure_change_K_, std::abs(next_Tf_[q] - Tf[q]));
    Tf = next_Tf_;
  }
  T = next_T_;
  sum_stresses();
}

void CoolingLayer::sum_stresses() {
  const std::size_t shear = shear_1.size() / n_, bulk_terms = bulk.size() / n_;
  for (std::size_t q = 0; q < n_; ++q) {
    double first = 0.0, second = 0.0, mean = bulk_rest[q];
    for (std::size_t j = 0; j < shear; ++j) {
      first += shear_1[j * n_ + q];
      second += shear_2[j * n_ + q];
    }
    for (std::size_t j = 0; j < bulk_terms; ++j) mean += bulk[j * n_ + q];
    stress_1[q] = first + mean;
    stress_2[q] = second + mean;
    stress_3[q] = mean - first - second;
  }
}

void CoolingLayer::save(std::vector<double>& into) const {
  for (const auto* v : {&T, &Tf, &partial, &shear_1, &shear_2, &bulk, &bulk_rest}) into.insert(into.end(), v->begin(), v->end());
}

void CoolingLayer::load(std::span<const double>& from) {
  for (auto* v : {&T, &Tf, &partial, &shear_1, &shear_2, &bulk, &bulk_rest}) {
    if (from.size() < v->size()) throw std::domain_error("The stored state is too short for these layers.");
    std::copy(from.begin(), from.begin() + static_cast<std::ptrdiff_t>(v->size()), v->begin());
    from = from.subspan(v->size());
  }
  sum_stresses();
}

}  // namespace heatwork::physics
