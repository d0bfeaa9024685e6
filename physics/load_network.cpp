#include "physics/load_network.h"

#include <algorithm>
#include <cmath>

#include "physics/radiation.h"

namespace heatwork::physics {

namespace {

constexpr double sigma = stefan_boltzmann_W_per_m2K4;
constexpr double time_step_for_slope_s = 1e-3;  // surroundings are straight lines: any short time gives their slope
constexpr std::size_t none = NetworkSection::none;

double fourth(double T) {
  return T * T * T * T;
}

}  // namespace

double LoadNetwork::tray_capacity(double T) const {
  return tray_->mass_kg * tray_->specific_heat_J_per_kgK.at_K(T);
}

void LoadNetwork::node_capacities(NetworkSection& s, const double* y, double* slope) const {
  s.mesh.capacities(y + s.inner, s.capacity.data(), slope);
  if (s.dry) return;
  const double water = std::max(0.0, y[s.water]) * water_specific_heat_J_per_kgK;
  for (std::size_t i = 0; i < s.capacity.size(); ++i) s.capacity[i] += water * s.water_share[i];
}

// theory: (load.2), (load.4)
FaceExchange LoadNetwork::exchange(const NetworkSection& s, const Around& a, const double* y) const {
  FaceExchange x;
  const double T = y[s.outer], T4 = fourth(T);
  const double es = s.body.emissivity * sigma;
  const double tray_emissivity = tray_ ? tray_->emissivity : 0.0;
  const double seen = s.body.chamber_share + s.body.tray_share * (1 - tray_emissivity);  // what the tray reflects is the chamber's
  const double around4 = a.chamber_view * a.chamber4 + a.room_view * a.room4;
  x.radiated = es * seen * (around4 - T4);
  x.convected = a.air.film_W_per_m2K * (a.gas_K - T);
  if (tray_) x.from_tray = es * tray_emissivity * s.body.tray_share * (fourth(y[border_]) - T4);
  if (s.support != none) x.from_support = s.support_W_per_m2K * (y[border_ + s.support] - T);
  if (!s.dry) {
    x.water = evaporation(a.air, T, y[s.water], s.water_start);
    x.latent = latent_heat_J_per_kg(T) * x.water.flux;
  }
  if (s.body.inside.kind == Inside::open) {
    const double Ti = y[s.inner];
    const double share = s.body.inside.chamber_share * s.mesh.inner_area_share();
    x.inside_radiated = es * share * (around4 - fourth(Ti));
    x.inside_convected = share * a.air.film_W_per_m2K * (a.gas_K - Ti);
  }
  return x;
}

// Heat from outside into each state, W/m2 for sections and W for tray and supports; water: its flux. theory: (load.3)
void LoadNetwork::boundary(const Around& a, const double* y, double* heat) const {
  const double around4 = a.chamber_view * a.chamber4 + a.room_view * a.room4;
  if (tray_) {
    const double T = y[border_];
    heat[border_] = tray_open_area_ * sigma * (around4 - fourth(T)) + a.air.film_W_per_m2K * tray_->area_m2 * (a.gas_K - T);
  }
  for (std::size_t k = 0; k < supports_.size(); ++k) {
    const std::size_t at = border_ + (tray_ ? 1 : 0) + k;
    const SupportBody& b = supports_[k].body;
    const double T = y[at];
    heat[at] = b.area_m2 * (b.emissivity * sigma * b.chamber_share * (around4 - fourth(T)) + a.air.film_W_per_m2K * (a.gas_K - T));
    if (!tray_) continue;
    const double q = b.to_tray_W_per_K * (y[border_] - T);
    heat[at] += q;
    heat[border_] -= q;
  }
  for (const NetworkSection& s : sections_) {
    const FaceExchange x = exchange(s, a, y);
    if (s.mass != none) {
      const double q = s.body.inside.gap_W_per_m2K * (y[s.mass] - y[s.inner]);  // per area of the inside face
      heat[s.mass] = -q;
      heat[s.inner] += s.mesh.inner_area_share() * q;
    }
    heat[s.inner] += x.inside_radiated + x.inside_convected;
    heat[s.outer] += x.radiated + x.convected + x.from_tray + x.from_support - x.latent;
    if (s.water != none) heat[s.water] = -x.water.flux;
    if (tray_) heat[border_] -= s.body.area_m2 * x.from_tray;
    if (s.support != none) heat[border_ + s.support] -= s.body.area_m2 * x.from_support;
  }
}

// theory: (load.7)
void LoadNetwork::powder_factors(NetworkSection& s, const double* T) const {
  const PowderLayer& p = *s.body.powder;
  const double span = p.sealing_to_K - p.sealing_from_K;
  for (std::size_t i = s.mesh.first_face(p.layer); i < s.mesh.end_face(p.layer); ++i) {
    const double now = 0.5 * (T[i] + T[i + 1]);
    const double done = std::clamp((std::max(now, s.hottest_K[i]) - p.sealing_from_K) / span, 0.0, 1.0);
    s.factor[i] = p.conductivity_factor + (1 - p.conductivity_factor) * done * done * (3 - 2 * done);  // smooth: a bend costs steps
    s.factor_slope[i] = now >= s.hottest_K[i] ? (1 - p.conductivity_factor) * 6 * done * (1 - done) / span : 0.0;
  }
}

// theory: (load.1)
void LoadNetwork::rate(double t, const double* y, double* f) {
  for (NetworkSection& s : sections_) {
    if (!s.sealed) powder_factors(s, y + s.inner);
    s.mesh.conducted(y + s.inner, s.sealed ? nullptr : s.factor.data(), f + s.inner);
  }
  boundary(around_->at(t), y, f);
  for (NetworkSection& s : sections_) {
    node_capacities(s, y, nullptr);
    for (std::size_t i = 0; i < s.capacity.size(); ++i) f[s.inner + i] /= s.capacity[i];
    if (s.mass != none) f[s.mass] /= s.body.inside.heat_capacity_J_per_m2K;
  }
  if (tray_) f[border_] /= tray_capacity(y[border_]);
  for (std::size_t k = 0; k < supports_.size(); ++k) f[border_ + (tray_ ? 1 : 0) + k] /= supports_[k].body.heat_capacity_J_per_K;
}

// Slopes of conduction within the section, W/(m2 K), not yet over capacity.
void LoadNetwork::factor_conduction(NetworkSection& s, const double* T) const {
  Tridiagonal& m = s.matrix;
  const std::size_t inner = s.inner - s.first;
  std::fill(m.diagonal.begin(), m.diagonal.end(), 0.0);
  if (!s.sealed) powder_factors(s, T);
  const double* factor = s.sealed ? nullptr : s.factor.data();
  const double* factor_slope = s.sealed ? nullptr : s.factor_slope.data();
  for (std::size_t i = 0; i + 1 < s.mesh.nodes(); ++i) {
    const auto slope = s.mesh.slopes(i, T, factor, factor_slope);
    m.diagonal[inner + i] += slope.by_inner;
    m.upper[inner + i] = slope.by_outer;
    m.lower[inner + i + 1] = -slope.by_inner;
    m.diagonal[inner + i + 1] -= slope.by_outer;
  }
}

// Slopes of what crosses the two faces, of the water and of the mass behind.
void LoadNetwork::factor_faces(NetworkSection& s, const Around& a, const double* y, double inverse) const {
  Tridiagonal& m = s.matrix;
  const std::size_t inner = s.inner - s.first, outer = s.outer - s.first;
  const double T = y[s.outer], Ti = y[s.inner], es = s.body.emissivity * sigma;
  // What the tray reflects and what it sends itself add to its whole share.
  m.diagonal[outer] += 4 * es * (s.body.chamber_share + s.body.tray_share) * T * T * T + a.air.film_W_per_m2K + s.support_W_per_m2K;
  if (s.body.inside.kind == Inside::open) {
    const double share = s.body.inside.chamber_share * s.mesh.inner_area_share();
    m.diagonal[inner] += share * (4 * es * Ti * Ti * Ti + a.air.film_W_per_m2K);
  }
  if (s.water != none) {
    m.diagonal[outer + 1] = inverse;
    m.lower[outer + 1] = m.upper[outer] = 0;
  }
  if (!s.dry) {
    const Evaporation water = evaporation(a.air, T, y[s.water], s.water_start);
    const double latent = latent_heat_J_per_kg(T);
    m.diagonal[outer] += latent * water.by_temperature;
    m.upper[outer] = latent * water.by_water;
    m.lower[outer + 1] = water.by_temperature;
    m.diagonal[outer + 1] += water.by_water;
  }
  if (s.mass != none) {
    const double gap = s.body.inside.gap_W_per_m2K;
    m.diagonal[inner] += s.mesh.inner_area_share() * gap;
    m.lower[inner] = -s.mesh.inner_area_share() * gap;
    m.diagonal[0] = inverse + gap / s.body.inside.heat_capacity_J_per_m2K;
    m.upper[0] = -gap / s.body.inside.heat_capacity_J_per_m2K;
  }
}

// Rows of one section of (inverse I - J), and its couplings to tray and support. theory: (load.8)
void LoadNetwork::factor_section(NetworkSection& s, const Around& a, const double* y, const double* f, double inverse) {
  const std::size_t inner = s.inner - s.first, outer = s.outer - s.first;
  Tridiagonal& m = s.matrix;
  factor_conduction(s, y + s.inner);
  factor_faces(s, a, y, inverse);
  node_capacities(s, y, s.capacity_slope.data());
  for (std::size_t i = 0; i < s.capacity.size(); ++i) {
    const double one_over = 1.0 / s.capacity[i];
    m.lower[inner + i] *= one_over;
    m.upper[inner + i] *= one_over;
    m.diagonal[inner + i] = inverse + (m.diagonal[inner + i] + f[s.inner + i] * s.capacity_slope[i]) * one_over;
  }
  const double T = y[s.outer], outer_share = 1.0 / s.capacity.back();
  if (tray_) {
    const double tray_K = y[border_];
    const double exchanged = 4 * s.body.emissivity * sigma * tray_->emissivity * s.body.tray_share;
    s.by_tray = exchanged * tray_K * tray_K * tray_K * outer_share;
    s.tray_by = s.body.area_m2 * exchanged * T * T * T / tray_capacity(tray_K);
  }
  if (s.support != none) {
    s.by_support = s.support_W_per_m2K * outer_share;
    s.support_by = s.body.area_m2 * s.support_W_per_m2K / supports_[s.support - (tray_ ? 1 : 0)].body.heat_capacity_J_per_K;
  }
  m.factor();
  std::fill(s.response.begin(), s.response.end(), 0.0);
  s.response[outer] = 1.0;
  m.solve(s.response.data());
}

// The small dense matrix of tray and supports once the sections are eliminated, factored in place. theory: (load.8)
void LoadNetwork::factor_border(const Around& a, const double* y, const double* f, double inverse) {
  if (borders_ == 0) return;
  std::fill(dense_.begin(), dense_.end(), 0.0);
  const std::size_t first_support = tray_ ? 1 : 0;
  const auto at = [&](std::size_t i, std::size_t j) -> double& { return dense_[i * borders_ + j]; };
  double tray_c = 1;
  if (tray_) {
    const double T = y[border_];
    tray_c = tray_capacity(T);
    double slope = 4 * tray_open_area_ * sigma * T * T * T + a.air.film_W_per_m2K * tray_->area_m2;
    for (const NetworkSection& s : sections_) {
      slope += 4 * s.body.area_m2 * s.body.emissivity * tray_->emissivity * s.body.tray_share * sigma * T * T * T;
    }
    slope += f[border_] * tray_->mass_kg * tray_->specific_heat_J_per_kgK.slope_at_K(T);
    at(0, 0) = inverse + slope / tray_c;
  }
  for (std::size_t k = 0; k < supports_.size(); ++k) {
    const SupportBody& b = supports_[k].body;
    const double T = y[border_ + first_support + k];
    double slope = b.area_m2 * (4 * b.emissivity * sigma * b.chamber_share * T * T * T + a.air.film_W_per_m2K) + b.to_piece_W_per_K;
    if (tray_) {
      slope += b.to_tray_W_per_K;
      at(first_support + k, 0) -= b.to_tray_W_per_K / b.heat_capacity_J_per_K;
      at(0, first_support + k) -= b.to_tray_W_per_K / tray_c;
      at(0, 0) += b.to_tray_W_per_K / tray_c;
    }
    at(first_support + k, first_support + k) = inverse + slope / b.heat_capacity_J_per_K;
  }
  for (const NetworkSection& s : sections_) {
    const double r = s.response[s.outer - s.first];
    if (tray_) at(0, 0) -= s.tray_by * r * s.by_tray;
    if (s.support == none) continue;
    at(s.support, s.support) -= s.support_by * r * s.by_support;
    if (!tray_) continue;
    at(0, s.support) -= s.tray_by * r * s.by_support;
    at(s.support, 0) -= s.support_by * r * s.by_tray;
  }
  for (std::size_t k = 0; k < borders_; ++k) {
    for (std::size_t i = k + 1; i < borders_; ++i) {
      at(i, k) /= at(k, k);
      for (std::size_t j = k + 1; j < borders_; ++j) at(i, j) -= at(i, k) * at(k, j);
    }
  }
}

void LoadNetwork::factor(double t, const double* y, const double* f, double inverse, double* f_t) {
  const Around a = around_->at(t);
  for (NetworkSection& s : sections_) factor_section(s, a, y, f, inverse);
  factor_border(a, y, f, inverse);
  std::fill(heat_.begin(), heat_.end(), 0.0);
  std::fill(heat_later_.begin(), heat_later_.end(), 0.0);
  boundary(a, y, heat_.data());
  boundary(around_->at(t + time_step_for_slope_s), y, heat_later_.data());
  for (std::size_t i = 0; i < size_; ++i) f_t[i] = (heat_later_[i] - heat_[i]) / time_step_for_slope_s;
  for (const NetworkSection& s : sections_) {
    for (std::size_t i = 0; i < s.capacity.size(); ++i) f_t[s.inner + i] /= s.capacity[i];
    if (s.mass != none) f_t[s.mass] /= s.body.inside.heat_capacity_J_per_m2K;
  }
  if (tray_) f_t[border_] /= tray_capacity(y[border_]);
  for (std::size_t k = 0; k < supports_.size(); ++k) f_t[border_ + (tray_ ? 1 : 0) + k] /= supports_[k].body.heat_capacity_J_per_K;
}

void LoadNetwork::solve(double* b) {
  for (NetworkSection& s : sections_) s.matrix.solve(b + s.first);
  if (borders_ == 0) return;
  double* x = b + border_;
  for (const NetworkSection& s : sections_) {
    const double outer = b[s.outer];
    if (tray_) x[0] += s.tray_by * outer;
    if (s.support != none) x[s.support] += s.support_by * outer;
  }
  for (std::size_t i = 0; i < borders_; ++i) {
    for (std::size_t j = 0; j < i; ++j) x[i] -= dense_[i * borders_ + j] * x[j];
  }
  for (std::size_t i = borders_; i-- > 0;) {
    for (std::size_t j = i + 1; j < borders_; ++j) x[i] -= dense_[i * borders_ + j] * x[j];
    x[i] /= dense_[i * borders_ + i];
  }
  for (const NetworkSection& s : sections_) {
    double pull = tray_ ? s.by_tray * x[0] : 0.0;
    if (s.support != none) pull += s.by_support * x[s.support];
    if (pull == 0.0) continue;
    for (std::size_t i = 0; i < s.count; ++i) b[s.first + i] += pull * s.response[i];
  }
}

double LoadNetwork::error_norm(const double*, const double*, const double* e) const {
  double worst = 0;
  const double one_over_K = 1.0 / accuracy_.step_tolerance_K;
  for (const NetworkSection& s : sections_) {
    const std::size_t temperatures = s.water == none ? s.count : s.count - 1;
    for (std::size_t i = 0; i < temperatures; ++i) worst = std::max(worst, std::abs(e[s.first + i]) * one_over_K);
    if (s.water != none) worst = std::max(worst, std::abs(e[s.water]) / (accuracy_.water_tolerance_share * s.water_start));
  }
  for (std::size_t i = border_; i < size_; ++i) worst = std::max(worst, std::abs(e[i]) * one_over_K);
  return std::isnan(e[0]) ? std::nan("") : worst;
}

LoadNetwork::Flows LoadNetwork::flows(double t, const double* y) const {
  Flows w;
  const Around a = around_->at(t);
  const double around4 = a.chamber_view * a.chamber4 + a.room_view * a.room4;
  if (tray_) {
    w.radiated += tray_open_area_ * sigma * (around4 - fourth(y[border_]));
    w.convected += a.air.film_W_per_m2K * tray_->area_m2 * (a.gas_K - y[border_]);
  }
  for (std::size_t k = 0; k < supports_.size(); ++k) {
    const SupportBody& b = supports_[k].body;
    const double T = y[border_ + (tray_ ? 1 : 0) + k];
    w.radiated += b.area_m2 * b.emissivity * sigma * b.chamber_share * (around4 - fourth(T));
    w.convected += b.area_m2 * a.air.film_W_per_m2K * (a.gas_K - T);
  }
  for (const NetworkSection& s : sections_) {
    const FaceExchange x = exchange(s, a, y);
    w.radiated += s.body.area_m2 * (x.radiated + x.inside_radiated);
    w.convected += s.body.area_m2 * (x.convected + x.inside_convected);
    if (s.dry) continue;
    double mean = 0;
    for (std::size_t i = 0; i < s.mesh.nodes(); ++i) mean += s.water_share[i] * y[s.inner + i];
    w.evaporated += s.body.area_m2 * (x.latent + x.water.flux * water_specific_heat_J_per_kgK * (mean - s.start_K));
  }
  return w;
}

double LoadNetwork::stored_J(const double* y) const {
  double sum = 0;
  for (const NetworkSection& s : sections_) {
    double here = 0, mean = 0;
    for (std::size_t i = 0; i < s.mesh.nodes(); ++i) {
      here += s.mesh.heat_between(i, s.start_K, y[s.inner + i]);
      mean += s.water_share[i] * y[s.inner + i];
    }
    if (s.water != none) here += y[s.water] * water_specific_heat_J_per_kgK * (mean - s.start_K);
    if (s.mass != none) here += s.mesh.inner_area_share() * s.body.inside.heat_capacity_J_per_m2K * (y[s.mass] - s.start_K);
    sum += s.body.area_m2 * here;
  }
  if (tray_) sum += tray_->mass_kg * tray_->specific_heat_J_per_kgK.integral_K(tray_->start_K, y[border_]);
  for (std::size_t k = 0; k < supports_.size(); ++k) {
    sum += supports_[k].body.heat_capacity_J_per_K * (y[border_ + (tray_ ? 1 : 0) + k] - supports_[k].start_K);
  }
  return sum;
}

}  // namespace heatwork::physics
