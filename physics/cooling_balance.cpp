#include <algorithm>
#include <cmath>

#include "physics/cooling_mesh.h"

namespace heatwork::physics {

namespace {
constexpr double most_more = 12.0;  // points of a wall of small radius
constexpr double told = 100.0;      // Pa: less is rounding beside the strains of a step times the bulk modulus

bool is_curved(StressForm form) {
  return form == StressForm::cylinder || form == StressForm::sphere;
}
}  // namespace

CoolingMesh cooling_mesh(StressForm form, double inner_radius_m, std::span<const StressLayer> layers, const StressAccuracy& accuracy) {
  CoolingMesh mesh;
  mesh.form = form;
  double total = 0.0;
  for (const StressLayer& layer : layers) total += layer.heat.thickness_m;
  const double power = form == StressForm::sphere ? 2.0 : form == StressForm::cylinder ? 1.0 : 0.0;
  double from = is_curved(form) ? inner_radius_m : -0.5 * total;
  const auto area = [&](double r) { return is_curved(form) ? std::pow(r / (inner_radius_m + total), power) : 1.0; };
  mesh.inner_area = area(from);
  mesh.outer_area = area(from + total);
  for (const StressLayer& layer : layers) {
    // A thick wall of small radius bends its profile more.
    const double steep = is_curved(form) ? 3.0 * layer.heat.thickness_m / from : 0.0;
    const auto more = static_cast<std::size_t>(std::min(steep, most_more));
    mesh.points.push_back(
        lobatto_points(std::min<std::size_t>(64, (layer.glass ? accuracy.glass_points : accuracy.elastic_points) + more)));
    const LobattoPoints& points = mesh.points.back();
    const double half = 0.5 * layer.heat.thickness_m;
    mesh.first.push_back(mesh.nodes);
    mesh.half_m.push_back(half);
    auto& place = mesh.place_m.emplace_back();
    auto& measure = mesh.measure.emplace_back();
    for (std::size_t q = 0; q < points.count(); ++q) {
      place.push_back(from + half * (1.0 + points.place[q]));
      measure.push_back(half * points.weight[q] * area(place.back()));
    }
    mesh.nodes += points.count() - 1;
    from += layer.heat.thickness_m;
  }
  ++mesh.nodes;
  return mesh;
}

CoolingBalance::CoolingBalance(const CoolingMesh& mesh) : mesh_(mesh) {
  std::size_t most = 0;
  for (const LobattoPoints& points : mesh.points) most = std::max(most, points.count());
  for (auto* v : {&strain_1_, &strain_2_, &strain_3_}) v->assign(most, 0.0);
  load_.assign(mesh.nodes + 1, 0.0);
  if (!is_curved(mesh.form)) return;
  system_.shape(std::vector<std::size_t>(mesh.nodes + (mesh.form == StressForm::cylinder ? 1 : 0), 0));
}

void CoolingBalance::advance(std::vector<CoolingLayer>& layers, double& curvature_per_m) {
  is_curved(mesh_.form) ? curved(layers) : flat(layers, curvature_per_m);
}

// Plates: direction 1 and 2 in the plane, 3 across, free of stress: its strain is taken out at each point.
void CoolingBalance::flat(std::vector<CoolingLayer>& layers, double& curvature_per_m) {
  const bool plane = mesh_.form == StressForm::plate_plane_strain, bends = mesh_.form == StressForm::plate_free;
  double area = 0.0, first = 0.0, second = 0.0, force = 0.0, moment = 0.0;
  const auto lame = [](const CoolingLayer& k, std::size_t q) { return k.bulk_modulus[q] - 2.0 / 3.0 * k.shear_modulus[q]; };
  const auto across = [](const CoolingLayer& k, std::size_t q) {
    return -k.held_1[q] - k.held_2[q] + k.held_mean[q] - 3.0 * k.bulk_modulus[q] * k.thermal[q];
  };
  for (std::size_t l = 0; l < layers.size(); ++l) {
    const CoolingLayer& k = layers[l];
    for (std::size_t q = 0; q < k.points(); ++q) {
      const double twice = 2.0 * k.shear_modulus[q], part = twice / (twice + lame(k, q)), z = mesh_.place_m[l][q], w = mesh_.measure[l][q];
      const double held = 2.0 * k.held_1[q] + k.held_2[q] + across(k, q) * part;
      const double stiff = twice + (plane ? 1.0 : 2.0) * lame(k, q) * part;
      area += w * stiff;
      first += w * stiff * z;
      second += w * stiff * z * z;
      force += w * held;
      moment += w * held * z;
    }
  }
  double strain = -force / area, bend = 0.0;
  if (bends) {
    const double centre = first / area;
    bend = -(moment - centre * force) / (second - centre * first);
    strain = -(force + bend * first) / area;
  }
  curvature_per_m += bend;
  for (std::size_t l = 0; l < layers.size(); ++l) {
    CoolingLayer& k = layers[l];
    for (std::size_t q = 0; q < k.points(); ++q) {
      strain_1_[q] = strain + bend * mesh_.place_m[l][q];
      strain_2_[q] = plane ? 0.0 : strain_1_[q];
      strain_3_[q] = -(lame(k, q) * (strain_1_[q] + strain_2_[q]) + across(k, q)) / (2.0 * k.shear_modulus[q] + lame(k, q));
    }
    k.finish(strain_1_.data(), strain_2_.data(), strain_3_.data());
  }
}

// Displacements are an even swelling of the whole, the first unknown, and what each point but the innermost adds to it: differences over a
// thin wall of large radius would else be lost in its displacement. Work of the stresses on each of them, and on the axial strain of a
// cylinder, which is the last unknown.
void CoolingBalance::add_layer(std::size_t l, const CoolingLayer& k) {
  const bool sphere = mesh_.form == StressForm::sphere;
  const LobattoPoints& points = mesh_.points[l];
  const std::size_t count = points.count(), base = mesh_.first[l], last = mesh_.nodes;
  const double hoops = sphere ? 2.0 : 1.0, scale = 1.0 / mesh_.half_m[l];
  for (std::size_t q = 0; q < count; ++q) {
    const double w = mesh_.measure[l][q], away = 1.0 / mesh_.place_m[l][q], lame = k.bulk_modulus[q] - 2.0 / 3.0 * k.shear_modulus[q];
    const double main = 2.0 * k.shear_modulus[q] + lame, rest = k.held_mean[q] - 3.0 * k.bulk_modulus[q] * k.thermal[q];
    const double hoop = hoops * (sphere ? main + lame : main), cross = hoops * lame;
    const double radial = k.held_1[q] + rest, around = hoops * (k.held_2[q] + rest);
    const auto add = [&](std::size_t i, double radial_i, double hoop_i, std::size_t j, double radial_j, double hoop_j) {
      system_.at(i, j) += w * (radial_i * main * radial_j + cross * (radial_i * hoop_j + hoop_i * radial_j) + hoop_i * hoop * hoop_j);
    };
    const auto load = [&](std::size_t i, double radial_i, double hoop_i) {
      load_[i] -= w * (radial_i * radial + hoop_i * around);
      if (!sphere) system_.at(last, i) += w * lame * (radial_i + hoop_i);
    };
    const std::size_t begin = base == 0 ? 1 : 0;
    const double* const slope = &points.derivative[q * count];
    add(0, 1.0, 1.0, 0, 1.0, 1.0);
    load(0, 1.0, 1.0);
    for (std::size_t i = begin; i < count; ++i) {
      const double radial_i = slope[i] * scale, hoop_i = i == q ? away : 0.0;
      load(base + i, radial_i, hoop_i);
      add(base + i, radial_i, hoop_i, 0, 1.0, 1.0);
    }
    // Radial on radial, all with all; hoops are those of the point itself alone.
    const double stiff = w * main * scale * scale, crossed = w * cross * scale * away;
    for (std::size_t i = begin; i < count; ++i) {
      double* const row = &system_.at(base + i, base);
      const double by = stiff * slope[i];
      for (std::size_t j = begin; j <= i; ++j) row[j] += by * slope[j];
    }
    for (std::size_t i = begin; q >= begin && i < count; ++i)
      system_.at(base + std::max(i, q), base + std::min(i, q)) += (i == q ? 2.0 : 1.0) * crossed * slope[i];
    if (q >= begin) system_.at(base + q, base + q) += w * hoop * away * away;
    if (!sphere) {
      system_.at(last, last) += w * main;
      load_[last] -= w * (-k.held_1[q] - k.held_2[q] + rest);
    }
  }
}

void CoolingBalance::curved(std::vector<CoolingLayer>& layers) {
  system_.clear();
  std::fill(load_.begin(), load_.end(), 0.0);
  for (std::size_t l = 0; l < layers.size(); ++l) add_layer(l, layers[l]);
  system_.factor();
  system_.solve(load_.data());
  // What the solution leaves over is solved once more: the stress of a liquid is small beside what its parts amount to.
  moved_ = load_;
  std::fill(load_.begin(), load_.end(), 0.0);
  for (std::size_t l = 0; l < layers.size(); ++l) leave_over(l, layers[l]);
  system_.solve(load_.data());
  for (std::size_t i = 0; i < moved_.size(); ++i) moved_[i] += load_[i];
  for (std::size_t l = 0; l < layers.size(); ++l) {
    strains(l);
    layers[l].finish(strain_1_.data(), strain_2_.data(), strain_3_.data());
  }
}

void CoolingBalance::strains(std::size_t l) {
  const LobattoPoints& points = mesh_.points[l];
  const std::size_t count = points.count(), base = mesh_.first[l];
  const auto more = [&](std::size_t j) { return base + j == 0 ? 0.0 : moved_[base + j]; };
  for (std::size_t q = 0; q < count; ++q) {
    double slope = 0.0;
    for (std::size_t j = 0; j < count; ++j) slope += points.derivative[q * count + j] * more(j);
    strain_1_[q] = moved_[0] + slope / mesh_.half_m[l];
    strain_2_[q] = moved_[0] + more(q) / mesh_.place_m[l][q];
    strain_3_[q] = mesh_.form == StressForm::sphere ? strain_2_[q] : moved_[mesh_.nodes];
  }
}

void CoolingBalance::leave_over(std::size_t l, const CoolingLayer& k) {
  const bool sphere = mesh_.form == StressForm::sphere;
  const LobattoPoints& points = mesh_.points[l];
  const std::size_t count = points.count(), base = mesh_.first[l];
  strains(l);
  for (std::size_t q = 0; q < count; ++q) {
    const double w = mesh_.measure[l][q], mean = (strain_1_[q] + strain_2_[q] + strain_3_[q]) / 3.0, twice = 2.0 * k.shear_modulus[q];
    const double all = k.held_mean[q] + 3.0 * k.bulk_modulus[q] * (mean - k.thermal[q]);
    const double radial = w * (all + k.held_1[q] + twice * (strain_1_[q] - mean));
    const double around = w * (sphere ? 2.0 : 1.0) * (all + k.held_2[q] + twice * (strain_2_[q] - mean));
    load_[0] -= radial + around;
    for (std::size_t i = base == 0 ? 1 : 0; i < count; ++i) load_[base + i] -= radial * points.derivative[q * count + i] / mesh_.half_m[l];
    if (base + q > 0) load_[base + q] -= around / mesh_.place_m[l][q];
    if (!sphere) load_[mesh_.nodes] -= w * (all - k.held_1[q] - k.held_2[q] + twice * (strain_3_[q] - mean));
  }
}

// Plates: force, and where it may bend moment. Curved: the work on a swelling of the whole, the force across a cut through the middle, and
// a cylinder's axial force.
double CoolingBalance::imbalance(const std::vector<CoolingLayer>& layers) const {
  double force = 0.0, moment = 0.0, cut = 0.0, volume = 0.0, highest = 0.0;
  const double arm = std::max(std::abs(mesh_.place_m.front().front()), std::abs(mesh_.place_m.back().back()));
  const bool curves = is_curved(mesh_.form);
  for (std::size_t l = 0; l < layers.size(); ++l) {
    const CoolingLayer& k = layers[l];
    for (std::size_t q = 0; q < k.points(); ++q) {
      const double w = mesh_.measure[l][q], z = mesh_.place_m[l][q];
      volume += w;
      highest = std::max({highest, std::abs(k.stress_1[q]), std::abs(k.stress_2[q])});
      force += w * (!curves ? k.stress_1[q] : k.stress_1[q] + k.stress_2[q] * (mesh_.form == StressForm::sphere ? 2.0 : 1.0));
      cut += curves ? w * k.stress_2[q] * arm / z : 0.0;
      moment += w * (mesh_.form == StressForm::plate_free ? k.stress_1[q] * z / arm
                     : mesh_.form == StressForm::cylinder ? k.stress_3[q]
                                                          : 0.0);
    }
  }
  return highest > told ? std::max({std::abs(force), std::abs(moment), std::abs(cut)}) / (volume * highest) : 0.0;
}

}  // namespace heatwork::physics
