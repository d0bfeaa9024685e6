#include "physics/cooling_layer.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "physics/decay.h"

namespace heatwork::physics {

namespace {

constexpr double provably_still = 1e-6;  // of the fastest term, of all steps that leave its relaxation out together
constexpr double thinnest = 1e10;        // steps over a relaxation time: a liquid keeps so much shear that forces can be balanced
constexpr double steepest = 600.0;       // exponent of the clock

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
      for (const RelaxationTerm& term : *terms) {
        shortest_s_ = std::min(shortest_s_, term.time_s);
        longest_s_ = std::max(longest_s_, term.time_s);
      }
  }
  T.assign(n_, start_K);
  Tf.assign(n_, start_K);
  partial.assign(n_ * structure, start_K);
  for (auto* v : {&shear_1, &shear_2}) v->assign(n_ * shear, 0.0);
  bulk.assign(n_ * bulk_terms, 0.0);
  const auto still = [this](Terms& of, std::size_t terms) {
    for (auto* v : {&of.kept, &of.lag}) v->assign(n_ * terms, 1.0);
    of.skew.assign(n_ * terms, 0.0);
  };
  still(structure_of_, structure);
  still(shear_of_, shear);
  still(bulk_of_, bulk_terms);
  for (auto* v :
       {&bulk_rest, &shear_modulus, &bulk_modulus,    &held_1,      &held_2,    &held_mean, &thermal,      &stress_1, &stress_2, &stress_3,
        &reduced_,  &late_,         &first_exponent_, &first_rate_, &before_1_, &before_2_, &before_mean_, &first_,   &second_,  &mean_})
    v->assign(n_, 0.0);
  y_.assign(n_ * std::max({structure, shear, bulk_terms}), 0.0);
  for (auto* v : {&next_T_, &guess_, &next_Tf_, &before_guess_, &before_Tf_}) *v = T;
}

// A clock that slows down puts more of the strain to the end of the reduced time.
void CoolingLayer::operators(std::span<const RelaxationTerm> terms, Terms& of) {
  for (std::size_t j = 0; j < terms.size(); ++j) {
    const double rate = 1.0 / terms[j].time_s;
    for (std::size_t q = 0; q < n_; ++q) y_[j * n_ + q] = std::min(reduced_[q] * rate, thinnest);
  }
  decay_all(terms.size() * n_, y_.data(), of.kept.data(), of.lag.data(), of.skew.data());
  for (std::size_t j = 0; j < terms.size(); ++j)
    for (std::size_t q = 0, at = j * n_; q < n_; ++q, ++at) of.lag[at] += (late_[q] - 1.0) * of.skew[at];
}

// A tenth of what is left of the allowance: colder steps after it find room of their own. Heated until the fastest term has lost all,
// the glass owes nothing.
bool CoolingLayer::may_freeze(const double* temperature_K, double duration_s) {
  constexpr double share = 0.1;
  double most = -steepest;
  for (std::size_t q = 0; q < n_; ++q) most = std::max(most, log_shift(layer_.glass->relaxing, std::max(T[q], temperature_K[q]), Tf[q]));
  const double relaxed = plain_exp(most) * duration_s / shortest_s_;
  if (relaxed > 30.0) left_out_ = 0.0;
  if (relaxed > share * (provably_still - left_out_)) return false;
  left_out_ += relaxed;
  return true;
}

void CoolingLayer::freeze() {
  std::fill(reduced_.begin(), reduced_.end(), 0.0);
  structure_change_K_ = 0.0;
  next_Tf_ = Tf;
  for (Terms* of : {&shear_of_, &bulk_of_}) {
    for (auto* v : {&of->kept, &of->lag}) std::fill(v->begin(), v->end(), 1.0);
    std::fill(of->skew.begin(), of->skew.end(), 0.0);
  }
}

// Fictive temperatures at the end of the step from those guessed: reduced times, what is kept, and the new ones.
void CoolingLayer::sweep_structure(const double* temperature_K, double duration_s) {
  const RelaxingGlass& glass = layer_.glass->relaxing;
  for (std::size_t q = 0; q < n_; ++q) {
    const double last = log_shift(glass, temperature_K[q], guess_[q]), rise = last - first_exponent_[q], rate = plain_exp(last);
    const double mean = std::abs(rise) > 1e-3 ? (rate - first_rate_[q]) / rise : rate * (1.0 - rise * (0.5 - rise / 6.0));
    reduced_[q] = duration_s * mean;
    late_[q] = std::min(mean / rate, 2.0);
    next_Tf_[q] = 0.0;
  }
  operators(glass.structure, structure_of_);
  for (std::size_t j = 0; j < glass.structure.size(); ++j) {
    const double weight = glass.structure[j].weight / structure_sum_;
    for (std::size_t q = 0, at = j * n_; q < n_; ++q, ++at)
      next_Tf_[q] += weight * ((T[q] - partial[at]) * structure_of_.kept[at] + (temperature_K[q] - T[q]) * structure_of_.lag[at]);
  }
  for (std::size_t q = 0; q < n_; ++q) next_Tf_[q] = temperature_K[q] - next_Tf_[q];
}

// The guess is mended by the secant through the last two of each point.
void CoolingLayer::relax_structure(const double* temperature_K, double duration_s) {
  constexpr int most_sweeps = 40;
  constexpr double settled_K = 1e-6;
  for (std::size_t q = 0; q < n_; ++q) {
    first_exponent_[q] = log_shift(layer_.glass->relaxing, T[q], Tf[q]);
    first_rate_[q] = plain_exp(first_exponent_[q]);
    guess_[q] = Tf[q];
  }
  double change = 2.0 * settled_K;
  for (int sweep = 0; sweep < most_sweeps && change > settled_K; ++sweep) {
    sweep_structure(temperature_K, duration_s);
    change = 0.0;
    for (std::size_t q = 0; q < n_; ++q) {
      const double off = next_Tf_[q] - guess_[q], guess = guess_[q];
      change = std::max(change, std::abs(off));
      const double run = guess - before_guess_[q], rise = off - (before_Tf_[q] - before_guess_[q]);
      const bool secant = sweep > 0 && rise * run < 0.0;
      guess_[q] = secant ? guess - off * run / rise : next_Tf_[q];
      before_guess_[q] = guess;
      before_Tf_[q] = next_Tf_[q];
    }
  }
  structure_change_K_ = 0.0;
  for (std::size_t q = 0; q < n_; ++q) structure_change_K_ = std::max(structure_change_K_, std::abs(next_Tf_[q] - Tf[q]));
}

GlassCourse CoolingLayer::course(double nominal_steps) const {
  constexpr double lost = 10.0, hardly = 0.02;
  if (!layer_.glass || frozen_) return GlassCourse::cold;
  const auto [least, most] = std::minmax_element(reduced_.begin(), reduced_.end());
  if (*least / longest_s_ > lost) return GlassCourse::liquid;
  double relaxed = 0.0;
  for (const RelaxationTerm& term : layer_.glass->relaxing.structure)
    relaxed += term.weight * (1.0 - plain_exp(-std::min(*most / term.time_s, steepest)));
  return relaxed < hardly * nominal_steps ? GlassCourse::cold : GlassCourse::freezing;
}

void CoolingLayer::prepare(const double* temperature_K, double duration_s) {
  std::copy(temperature_K, temperature_K + n_, next_T_.begin());
  for (std::size_t q = 0; q < n_; ++q) thermal[q] = layer_.expansion_per_K.integral_K(T[q], next_T_[q]);
  const auto& shear = layer_.glass ? layer_.glass->shear : rigid_;
  if (layer_.glass) {
    const bool before = frozen_;
    frozen_ = may_freeze(temperature_K, duration_s);
    if (frozen_) {
      if (!before) freeze();
    } else {
      relax_structure(temperature_K, duration_s);
      operators(shear, shear_of_);
      operators(layer_.glass->bulk, bulk_of_);
      for (std::size_t q = 0; q < n_; ++q)
        thermal[q] += layer_.glass->liquid_expansion_per_K * (next_Tf_[q] - Tf[q]) - layer_.expansion_per_K.integral_K(Tf[q], next_Tf_[q]);
    }
  }
  constexpr double longest_ratio = 3.0;  // a much shorter step tells nothing of this one's rate
  ratio_ = before_s_ > 0.0 && duration_s <= longest_ratio * before_s_ ? duration_s / before_s_ : 0.0;
  quicken_ = ratio_ / (1.0 + ratio_);
  before_s_ = duration_s;
  for (std::size_t q = 0; q < n_; ++q) {
    held_1[q] = held_2[q] = shear_modulus[q] = 0.0;
    held_mean[q] = bulk_rest[q];
    bulk_modulus[q] = K_rest_;
  }
  for (std::size_t j = 0; j < shear.size(); ++j) {
    const double share = G_ * shear[j].weight / shear_sum_;
    for (std::size_t q = 0, at = j * n_; q < n_; ++q, ++at) {
      const double slope = share * quicken_ * shear_of_.skew[at];
      shear_modulus[q] += share * shear_of_.lag[at] + slope;
      held_1[q] += shear_1[at] * shear_of_.kept[at] - 2.0 * slope * ratio_ * before_1_[q];
      held_2[q] += shear_2[at] * shear_of_.kept[at] - 2.0 * slope * ratio_ * before_2_[q];
    }
  }
  const std::size_t bulk_terms = layer_.glass ? layer_.glass->bulk.size() : 0;
  for (std::size_t j = 0; j < bulk_terms; ++j) {
    const double share = (K_ - K_rest_) * layer_.glass->bulk[j].weight / bulk_sum_;
    for (std::size_t q = 0, at = j * n_; q < n_; ++q, ++at) {
      const double slope = share * quicken_ * bulk_of_.skew[at];
      bulk_modulus[q] += share * bulk_of_.lag[at] + slope;
      held_mean[q] += bulk[at] * bulk_of_.kept[at] - 3.0 * slope * ratio_ * before_mean_[q];
    }
  }
}

void CoolingLayer::finish(const double* strain_1, const double* strain_2, const double* strain_3) {
  const auto& shear = layer_.glass ? layer_.glass->shear : rigid_;
  const std::size_t bulk_terms = layer_.glass ? layer_.glass->bulk.size() : 0;
  for (std::size_t q = 0; q < n_; ++q) {  // what the step before strained gives way to how much more this one does than it went on to
    const double mean = (strain_1[q] + strain_2[q] + strain_3[q]) / 3.0;
    first_[q] = strain_1[q] - mean;
    second_[q] = strain_2[q] - mean;
    mean_[q] = mean - thermal[q];
    before_1_[q] = quicken_ * (first_[q] - ratio_ * before_1_[q]);
    before_2_[q] = quicken_ * (second_[q] - ratio_ * before_2_[q]);
    before_mean_[q] = quicken_ * (mean_[q] - ratio_ * before_mean_[q]);
    bulk_rest[q] += 3.0 * K_rest_ * mean_[q];
  }
  for (std::size_t j = 0; j < shear.size(); ++j) {
    const double twice = 2.0 * G_ * shear[j].weight / shear_sum_;
    for (std::size_t q = 0, at = j * n_; q < n_; ++q, ++at) {
      const double lag = twice * shear_of_.lag[at], skew = twice * shear_of_.skew[at];
      shear_1[at] = shear_1[at] * shear_of_.kept[at] + lag * first_[q] + skew * before_1_[q];
      shear_2[at] = shear_2[at] * shear_of_.kept[at] + lag * second_[q] + skew * before_2_[q];
    }
  }
  for (std::size_t j = 0; j < bulk_terms; ++j) {
    const double thrice = 3.0 * (K_ - K_rest_) * layer_.glass->bulk[j].weight / bulk_sum_;
    for (std::size_t q = 0, at = j * n_; q < n_; ++q, ++at)
      bulk[at] = bulk[at] * bulk_of_.kept[at] + thrice * (bulk_of_.lag[at] * mean_[q] + bulk_of_.skew[at] * before_mean_[q]);
  }
  before_1_.swap(first_);
  before_2_.swap(second_);
  before_mean_.swap(mean_);
  if (layer_.glass && !frozen_) {
    for (std::size_t j = 0; j < layer_.glass->relaxing.structure.size(); ++j)
      for (std::size_t q = 0, at = j * n_; q < n_; ++q, ++at)
        partial[at] = next_T_[q] - (T[q] - partial[at]) * structure_of_.kept[at] - (next_T_[q] - T[q]) * structure_of_.lag[at];
    Tf = next_Tf_;
  }
  T = next_T_;
  sum_stresses();
}

void CoolingLayer::melt(const double* temperature_K) {
  if (!layer_.glass) return;
  std::copy(temperature_K, temperature_K + n_, T.begin());
  Tf = T;
  for (std::size_t at = 0; at < partial.size(); ++at) partial[at] = T[at % n_];
  for (auto* v : {&shear_1, &shear_2, &bulk, &bulk_rest}) std::fill(v->begin(), v->end(), 0.0);
  begin_course();
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
