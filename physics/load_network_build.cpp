#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

#include "physics/biot.h"
#include "physics/load_network.h"
#include "physics/radiation.h"

namespace heatwork::physics {

namespace {

void require(bool holds, const std::string& where, const char* rule) {
  if (!holds) throw std::invalid_argument(where + rule);
}
bool positive(double x) {
  return x > 0 && std::isfinite(x);
}
bool not_negative(double x) {
  return x >= 0 && std::isfinite(x);
}
bool share(double x) {
  return x >= 0 && x <= 1;
}

void check(const SectionBody& s, const std::string& where) {
  require(positive(s.area_m2), where, "area_m2 must be positive.");
  require(share(s.emissivity) && s.emissivity > 0, where, "emissivity must be above 0, up to 1.");
  require(share(s.chamber_share) && share(s.tray_share) && s.chamber_share + s.tray_share <= 1 + 1e-9, where,
          "chamber_share and tray_share must be from 0 to 1 and add to at most 1.");
  if (s.inside.kind == Inside::mass) {
    require(positive(s.inside.heat_capacity_J_per_m2K), where, "inside.heat_capacity_J_per_m2K must be positive.");
    require(positive(s.inside.gap_W_per_m2K), where, "inside.gap_W_per_m2K must be positive.");
  }
  if (s.inside.kind == Inside::open) require(share(s.inside.chamber_share), where, "inside.chamber_share must be from 0 to 1.");
  if (s.inside.kind != Inside::closed) {
    require(s.form == SectionForm::plate || s.inner_radius_m > 0, where, "inner_radius_m must be positive where the inside is not closed.");
  }
  if (!s.powder) return;
  const PowderLayer& p = *s.powder;
  require(p.layer < s.layers.size(), where, "powder.layer must be one of the layers.");
  require(not_negative(p.water_kg_per_m2), where, "powder.water_kg_per_m2 must be zero or positive.");
  require(positive(p.conductivity_factor) && p.conductivity_factor <= 1, where, "powder.conductivity_factor must be above 0, up to 1.");
  require(p.sealing_from_K < p.sealing_to_K, where, "powder.sealing_from_K must be below sealing_to_K.");
  require(positive(p.grain_diameter_m), where, "powder.grain_diameter_m must be positive.");
  require(p.void_fraction > 0 && p.void_fraction < 1, where, "powder.void_fraction must lie between 0 and 1.");
  require(positive(p.strength_Pa), where, "powder.strength_Pa must be positive.");
}

void check(const TrayBody& t) {
  require(positive(t.mass_kg), "tray: ", "mass_kg must be positive.");
  require(positive(t.area_m2), "tray: ", "area_m2 must be positive.");
  require(share(t.emissivity) && t.emissivity > 0, "tray: ", "emissivity must be above 0, up to 1.");
  require(positive(t.start_K), "tray: ", "start_K must be above 0 K.");
  for (const double at_C : {25.0, 600.0, 1200.0}) {
    require(positive(t.specific_heat_J_per_kgK.at_C(at_C)), "tray: ", "specific_heat_J_per_kgK must be positive between 25 and 1200 C.");
  }
}

void check(const SupportBody& s, const std::string& where) {
  require(positive(s.heat_capacity_J_per_K), where, "support.heat_capacity_J_per_K must be positive.");
  require(not_negative(s.area_m2), where, "support.area_m2 must be zero or positive.");
  require(share(s.emissivity) && share(s.chamber_share), where, "support.emissivity and support.chamber_share must be from 0 to 1.");
  require(not_negative(s.to_tray_W_per_K) && not_negative(s.to_piece_W_per_K), where,
          "support.to_tray_W_per_K and support.to_piece_W_per_K must be zero or positive.");
}

}  // namespace

void LoadNetwork::build(const Load& load, const LoadAccuracy& accuracy, std::span<const char> lumped) {
  accuracy_ = accuracy;
  tray_ = load.tray;
  sections_.clear();
  supports_.clear();
  size_ = 0;
  if (load.pieces.empty() && !load.tray) throw std::invalid_argument("load must hold a piece or a tray.");
  if (tray_) check(*tray_);
  std::size_t counted = 0;
  for (std::size_t p = 0; p < load.pieces.size(); ++p) {
    const PieceBody& piece = load.pieces[p];
    const std::string where = "piece " + std::to_string(p + 1) + ": ";
    require(!piece.sections.empty(), where, "sections must hold at least one section.");
    require(positive(piece.start_K), where, "start_K must be above 0 K.");
    if (piece.support) check(*piece.support, where);
    for (std::size_t s = 0; s < piece.sections.size(); ++s, ++counted) {
      add_section(piece.sections[s], piece, p, s, counted < lumped.size() && lumped[counted] != 0);
    }
    if (piece.support) {
      const double wet = piece.support->area_m2;
      supports_.push_back({*piece.support, piece.start_K, p, wet});
    }
  }
  border_ = size_;
  borders_ = (tray_ ? 1 : 0) + supports_.size();
  size_ += borders_;
  dense_.assign(borders_ * borders_, 0.0);
  border_rhs_.assign(borders_, 0.0);
  heat_.assign(size_, 0.0);
  heat_later_.assign(size_, 0.0);
  if (!tray_) return;
  double seen = 0, reflected = 0;
  for (const NetworkSection& s : sections_) {
    seen += s.body.area_m2 * s.body.tray_share;
    reflected += s.body.area_m2 * s.body.tray_share * s.body.emissivity;
  }
  require(seen <= tray_->area_m2, "tray: ", "area_m2 must be at least what the pieces see of it (sum of section area times tray_share).");
  tray_open_area_ = tray_->emissivity * (tray_->area_m2 - reflected);  // theory: (load.3)
}

void LoadNetwork::add_section(const SectionBody& body, const PieceBody& piece, std::size_t piece_number, std::size_t number, bool lumped) {
  const std::string where = "piece " + std::to_string(piece_number + 1) + ", section " + std::to_string(number + 1) + ": ";
  check(body, where);
  NetworkSection s;
  s.body = body;
  s.piece = piece_number;
  s.number = number;
  s.start_K = piece.start_K;
  s.lumped = lumped;
  try {
    check_layers(body.layers, body.form, body.inner_radius_m);
    s.mesh = lumped ? SectionMesh::lumped(body.layers, body.form, body.inner_radius_m)
                    : SectionMesh(body.layers, body.form, body.inner_radius_m, shared_spaces(body.layers, accuracy_.spaces_per_section));
  } catch (const std::invalid_argument& wrong) {
    throw std::invalid_argument(where + wrong.what());
  }
  for (const Layer& layer : body.layers) {
    s.resistance_m2K_per_W += layer.thickness_m / layer.conductivity_W_per_mK.at_C(600) + layer.contact_resistance_m2K_per_W;
  }
  if (body.inside.kind == Inside::open) s.resistance_m2K_per_W *= 0.5;
  s.first = size_;
  if (body.inside.kind == Inside::mass) s.mass = size_++;
  s.inner = size_;
  size_ += s.mesh.nodes();
  s.outer = size_ - 1;
  s.core = s.inner;
  if (body.inside.kind == Inside::open && s.mesh.nodes() > 1) {  // heated from both faces: the middle lags
    const auto& depth = s.mesh.depth_m();
    const double middle = 0.5 * s.mesh.thickness_m();
    std::size_t k = 0;
    while (k + 2 < depth.size() && depth[k + 1] <= middle) ++k;
    s.core = s.inner + k;
    if (depth[k + 1] > depth[k]) s.core_share = (middle - depth[k]) / (depth[k + 1] - depth[k]);
  }
  s.water_share.assign(s.mesh.nodes(), 0.0);
  s.capacity.assign(s.mesh.nodes(), 0.0);
  s.capacity_slope.assign(s.mesh.nodes(), 0.0);
  if (body.powder) lay_powder(s);
  s.count = size_ - s.first;
  s.matrix.resize(s.count);
  s.response.assign(s.count, 0.0);
  if (piece.support) {
    double area = 0;
    for (const SectionBody& each : piece.sections) area += each.area_m2;
    s.support = (tray_ ? 1 : 0) + supports_.size();
    s.support_W_per_m2K = piece.support->to_piece_W_per_K / area;
  }
  sections_.push_back(std::move(s));
}

void LoadNetwork::lay_powder(NetworkSection& s) {
  const PowderLayer& powder = *s.body.powder;
  s.sealed = false;
  s.factor.assign(s.mesh.nodes(), 1.0);
  s.factor_slope.assign(s.mesh.nodes(), 0.0);
  s.hottest_K.assign(s.mesh.nodes(), s.start_K);
  s.water_start = powder.water_kg_per_m2;
  for (std::size_t i = 0; i < s.mesh.nodes(); ++i) s.water_share[i] = s.mesh.volume_share(i, powder.layer);
  if (powder.water_kg_per_m2 > 0) s.water = size_++;
}

std::size_t LoadNetwork::support_index(std::size_t piece) const {
  for (std::size_t k = 0; k < supports_.size(); ++k) {
    if (supports_[k].piece == piece) return border_ + (tray_ ? 1 : 0) + k;
  }
  return NetworkSection::none;
}

void LoadNetwork::start(std::span<double> y) {
  for (NetworkSection& s : sections_) {
    for (std::size_t i = 0; i < s.count; ++i) y[s.first + i] = s.start_K;
    s.dry = s.water == NetworkSection::none;
    if (!s.dry) y[s.water] = s.water_start;
    if (s.body.powder) {
      s.sealed = false;
      std::fill(s.hottest_K.begin(), s.hottest_K.end(), s.start_K);
    }
  }
  if (tray_) y[border_] = tray_->start_K;
  for (std::size_t k = 0; k < supports_.size(); ++k) y[border_ + (tray_ ? 1 : 0) + k] = supports_[k].start_K;
}

void LoadNetwork::remember(std::span<double> y) {
  for (NetworkSection& s : sections_) {
    if (!s.dry && y[s.water] < 1e-6 * s.water_start) {
      s.dry = true;
      y[s.water] = 0;
    }
    if (s.sealed) continue;
    const double* T = y.data() + s.inner;
    bool all = true;
    const std::size_t layer = s.body.powder->layer;
    for (std::size_t i = s.mesh.first_face(layer); i < s.mesh.end_face(layer); ++i) {
      s.hottest_K[i] = std::max(s.hottest_K[i], 0.5 * (T[i] + T[i + 1]));
      all = all && s.hottest_K[i] >= s.body.powder->sealing_to_K;
    }
    s.sealed = all;
    if (all) std::fill(s.factor.begin(), s.factor.end(), 1.0);
    if (all) std::fill(s.factor_slope.begin(), s.factor_slope.end(), 0.0);
  }
}

// theory: (load.8)
double LoadNetwork::biot(const NetworkSection& s, const Around& around, double surface_K) const {
  const double film = radiative_film_W_per_m2K(s.body.emissivity, around.chamber_K, surface_K) + around.air.film_W_per_m2K;
  return physics::biot(film, s.resistance_m2K_per_W);
}

}  // namespace heatwork::physics
