#include "physics/layered_elastic.h"

#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

#include "physics/conduction.h"

namespace heatwork::physics {

namespace {

bool is_curved(ElasticForm form) {
  return form == ElasticForm::ring || form == ElasticForm::cylinder || form == ElasticForm::sphere;
}

void refuse(std::size_t layer, const char* what, double value, const char* allowed) {
  throw std::domain_error("Layer " + std::to_string(layer + 1) + " has " + what + " of " + std::to_string(value) + ", but it must be " +
                          allowed + ".");
}

void check(ElasticForm form, double inner_radius_m, std::span<const ElasticLayer> layers, double temperature_change_K) {
  if (layers.empty()) throw std::domain_error("There is no layer, but there must be one at least.");
  for (std::size_t i = 0; i < layers.size(); ++i) {
    const ElasticLayer& l = layers[i];
    if (!(l.thickness_m > 0.0 && std::isfinite(l.thickness_m))) refuse(i, "a thickness in metres", l.thickness_m, "above 0");
    if (!(l.youngs_Pa > 0.0 && std::isfinite(l.youngs_Pa))) refuse(i, "a Young's modulus in pascals", l.youngs_Pa, "above 0");
    if (!(l.poisson >= 0.0 && l.poisson < 0.5)) refuse(i, "a Poisson's ratio", l.poisson, "from 0 and below 0.5");
    if (!std::isfinite(l.expansion_per_K)) refuse(i, "an expansion", l.expansion_per_K, "finite");
  }
  if (!std::isfinite(temperature_change_K)) throw std::domain_error("The change of temperature is not a finite number.");
  if (is_curved(form) && !(inner_radius_m > 0.0 && std::isfinite(inner_radius_m)))
    throw std::domain_error("The inner radius is " + std::to_string(inner_radius_m) + " m, but must be above 0 m.");
}

LayeredStress flat_stress(ElasticForm form, std::span<const ElasticLayer> layers, double dT) {
  const auto stiffness = [&](const ElasticLayer& l) {
    return form == ElasticForm::strip_free ? l.youngs_Pa : l.youngs_Pa / (1.0 - l.poisson);
  };
  double area = 0.0, first = 0.0, free_strain = 0.0, z = 0.0;
  for (const ElasticLayer& l : layers) {
    const double bh = stiffness(l) * l.thickness_m;
    area += bh;
    first += bh * (z + 0.5 * l.thickness_m);
    free_strain += bh * l.expansion_per_K * dT;
    z += l.thickness_m;
  }
  const double centre = first / area, mean = free_strain / area;
  double thermal_moment = 0.0, second = 0.0;
  z = -centre;
  for (const ElasticLayer& l : layers) {
    const double low = z, high = z + l.thickness_m;
    thermal_moment += stiffness(l) * l.expansion_per_K * dT * 0.5 * (high * high - low * low);
    second += stiffness(l) * (high * high * high - low * low * low) / 3.0;
    z = high;
  }
  LayeredStress out;
  out.curvature_per_m = form == ElasticForm::plate_flat ? 0.0 : thermal_moment / second;
  z = -centre;
  for (const ElasticLayer& l : layers) {
    const auto at = [&](double where) { return stiffness(l) * (mean + out.curvature_per_m * where - l.expansion_per_K * dT); };
    out.layers.push_back({at(z), at(z + l.thickness_m), 0.0, 0.0});
    z += l.thickness_m;
  }
  return out;
}

// A curved layer: u = A r + B / r^m, m = 2 for the sphere, 1 otherwise; radial stress c A + l e - t - d B / r^(m+1), hoop with + s d B.
struct Shell {
  double a, b, m, c, l, t, d, s, axial_by_A, axial_by_e;

  Shell(ElasticForm form, const ElasticLayer& layer, double inner_m, double dT) : a(inner_m), b(inner_m + layer.thickness_m) {
    const double E = layer.youngs_Pa, nu = layer.poisson, G = 0.5 * E / (1.0 + nu), K = E / (3.0 * (1.0 - 2.0 * nu));
    const double lame = K - 2.0 * G / 3.0, strain = layer.expansion_per_K * dT;
    m = form == ElasticForm::sphere ? 2.0 : 1.0;
    d = form == ElasticForm::sphere ? 4.0 * G : 2.0 * G;
    s = form == ElasticForm::sphere ? 0.5 : 1.0;
    c = form == ElasticForm::sphere ? 3.0 * K : form == ElasticForm::ring ? E / (1.0 - nu) : 2.0 * (lame + G);
    l = form == ElasticForm::cylinder ? lame : 0.0;
    t = (form == ElasticForm::ring ? c : 3.0 * K) * strain;
    axial_by_A = 2.0 * lame;
    axial_by_e = lame + 2.0 * G;
  }
  // A and B of the displacements at both faces.
  [[nodiscard]] double factor_A(double u_inner, double u_outer) const {
    return (u_outer * std::pow(b, m) - u_inner * std::pow(a, m)) / (std::pow(b, m + 1) - std::pow(a, m + 1));
  }
  [[nodiscard]] double factor_B(double u_inner, double u_outer) const {
    return (u_inner - factor_A(u_inner, u_outer) * a) * std::pow(a, m);
  }
  [[nodiscard]] double radial(double r, double u_inner, double u_outer, double e) const {
    return c * factor_A(u_inner, u_outer) + l * e - t - d * factor_B(u_inner, u_outer) / std::pow(r, m + 1);
  }
  [[nodiscard]] double hoop(double r, double u_inner, double u_outer, double e) const {
    return c * factor_A(u_inner, u_outer) + l * e - t + s * d * factor_B(u_inner, u_outer) / std::pow(r, m + 1);
  }
  [[nodiscard]] double axial_force(double u_inner, double u_outer, double e) const {
    return (axial_by_A * factor_A(u_inner, u_outer) + axial_by_e * e - t) * (b * b - a * a);
  }
};

// Displacements of all faces for a given axial strain: radial stress is continuous inside, nothing outside.
std::vector<double> face_displacements(std::span<const Shell> shells, double e) {
  const std::size_t n = shells.size() + 1;
  Tridiagonal system;
  system.resize(n);
  std::vector<double> load(n, 0.0);
  for (std::size_t i = 0; i < shells.size(); ++i) {
    const Shell& k = shells[i];
    const double scale = std::pow(k.a, k.m), scale_out = std::pow(k.b, k.m);  // makes the system symmetric
    const double rest_in = k.radial(k.a, 0, 0, e), rest_out = k.radial(k.b, 0, 0, e);
    system.diagonal[i] -= scale * (k.radial(k.a, 1, 0, e) - rest_in);
    system.upper[i] -= scale * (k.radial(k.a, 0, 1, e) - rest_in);
    load[i] += scale * rest_in;
    system.lower[i + 1] += scale_out * (k.radial(k.b, 1, 0, e) - rest_out);
    system.diagonal[i + 1] += scale_out * (k.radial(k.b, 0, 1, e) - rest_out);
    load[i + 1] -= scale_out * rest_out;
  }
  system.factor();
  system.solve(load.data());
  return load;
}

LayeredStress curved_stress(ElasticForm form, double inner_radius_m, std::span<const ElasticLayer> layers, double dT) {
  std::vector<Shell> shells;
  double r = inner_radius_m;
  for (const ElasticLayer& layer : layers) {
    shells.emplace_back(form, layer, r, dT);
    r += layer.thickness_m;
  }
  double e = 0.0;
  if (form == ElasticForm::cylinder) {
    const auto force = [&](double strain) {
      const std::vector<double> u = face_displacements(shells, strain);
      double sum = 0.0;
      for (std::size_t i = 0; i < shells.size(); ++i) sum += shells[i].axial_force(u[i], u[i + 1], strain);
      return sum;
    };
    const double unit = 1e-3, at_rest = force(0.0);  // linear: two strains give the one without force
    e = -at_rest * unit / (force(unit) - at_rest);
  }
  const std::vector<double> u = face_displacements(shells, e);
  LayeredStress out;
  for (std::size_t i = 0; i < shells.size(); ++i) {
    const Shell& k = shells[i];
    out.layers.push_back({k.hoop(k.a, u[i], u[i + 1], e), k.hoop(k.b, u[i], u[i + 1], e), k.radial(k.a, u[i], u[i + 1], e),
                          k.radial(k.b, u[i], u[i + 1], e)});
  }
  return out;
}

}  // namespace

LayeredStress layered_stress(ElasticForm form, double inner_radius_m, std::span<const ElasticLayer> layers, double temperature_change_K) {
  check(form, inner_radius_m, layers, temperature_change_K);
  return is_curved(form) ? curved_stress(form, inner_radius_m, layers, temperature_change_K)
                         : flat_stress(form, layers, temperature_change_K);
}

double indentation_stress_Pa(double toughness_Pa_sqrt_m, double free_crack_m, double found_crack_m) {
  if (!(toughness_Pa_sqrt_m > 0.0 && free_crack_m > 0.0 && found_crack_m > 0.0))
    throw std::domain_error("Toughness and both lengths of the crack must be above 0.");
  return toughness_Pa_sqrt_m * (1.0 - std::pow(free_crack_m / found_crack_m, 1.5)) / (2.0 * std::sqrt(found_crack_m / std::numbers::pi));
}

}  // namespace heatwork::physics
