// Published checks of viscosity and heat-work: sections A and E and the tables of reference glasses and classes.
#include "physics/viscosity.h"

#include <array>

#include "evidence_row.h"
#include "physics/heat_work.h"

namespace heatwork::reference {
namespace {

using namespace physics;

const std::array<ViscosityPoint, 3> soda_lime_710a{{{545.0, 12.0}, {731.0, 6.6}, {1319.0, 1.5}}};
const std::array<ViscosityPoint, 3> soda_lime_710{{{556.0, 12.0}, {725.0, 6.6}, {1293.0, 1.5}}};
const Vft metal_ceramic_glass{-3.0, 6267.0, 142.2};

TEST(sintering, A1) {
  const Vft vft = vft_through_three_points(soda_lime_710a);
  Evidence row("fluegel-2007, table 12, isokoms of SRM 710a", "log10 Pa s");
  row.near(log10_viscosity(vft, 800.0), 5.47, 0.03);
  row.near(log10_viscosity(vft, 900.0), 4.24, 0.03);
}

TEST(sintering, A4) {
  const Vft vft{-2.604, 4206.5, 268.0};
  Evidence row("fluegel-2007, table 12, isokoms of SRM 710", "C");
  row.near(temperature_of_log10_viscosity_C(vft, 6.6), 725.0, 0.2);
  row.near(temperature_of_log10_viscosity_C(vft, 12.0), 556.0, 0.2);
}

TEST(sintering, A6) {
  const Vft vft = vft_through_three_points(soda_lime_710);
  const Vft as_if_poise = vft_from_dPa_s(vft);
  Evidence row("closed form: 1 dPa s is 0.1 Pa s", "log10 Pa s");
  row.near(log10_viscosity(vft, 850.0) - log10_viscosity(as_if_poise, 850.0), 1.0, 1e-9);
}

TEST(sintering, ReferenceGlasses) {
  Evidence row("exact fit through the isokoms of fluegel-2007, table 12", "log10 Pa s");
  const Vft a = vft_through_three_points(soda_lime_710a);
  const Vft b = vft_through_three_points(soda_lime_710);
  row.near(a.A, -2.973, 0.0006);
  row.near(b.A, -2.604, 0.0006);
  const std::array<double, 5> at_C{650.0, 700.0, 800.0, 900.0, 1000.0};
  const std::array<double, 5> of_a{8.38, 7.21, 5.47, 4.24, 3.32};
  const std::array<double, 5> of_b{8.41, 7.13, 5.30, 4.05, 3.14};
  for (std::size_t i = 0; i < at_C.size(); ++i) {
    row.near(log10_viscosity(a, at_C[i]), of_a[i], 0.006);
    row.near(log10_viscosity(b, at_C[i]), of_b[i], 0.006);
  }
  row.in("K");
  row.near(a.B_K, 4937.4, 0.1);
  row.near(b.B_K, 4206.5, 0.1);
  row.in("C");
  row.near(a.T0_C, 215.3, 0.06);
  row.near(b.T0_C, 268.0, 0.06);
}

struct ClassRow {
  const char* name;
  Vft vft;
  double factor, nominal_C, transition_C, softening_C, log_at_nominal;
  std::array<double, 3> log_at_700_800_900;
  double doubling_K;
};

const std::array<ClassRow, 5> classes{{
    {"metal-ceramic-veneer", {-3.0, 6267.0, 142.2}, 1.71, 930.0, 560.0, 795.0, 5.19, {8.47, 6.76, 5.50}, 30.0},
    {"zirconia-veneer", {-3.0, 4933.0, 201.1}, 1.14, 815.0, 530.0, 715.0, 5.09, {6.95, 5.29, 4.12}, 23.0},
    {"zirconia-veneer-higher", {-3.0, 6000.0, 150.0}, 1.14, 890.0, 550.0, 775.0, 5.16, {7.97, 6.29, 5.06}, 28.0},
    {"zirconia-veneer-lower", {-3.0, 4400.0, 216.7}, 1.14, 765.0, 510.0, 675.0, 5.08, {6.16, 4.60, 3.50}, 21.0},
    {"glaze", {-3.0, 4400.0, 196.7}, 1.0, 760.0, 490.0, 655.0, 4.81, {5.74, 4.29, 3.26}, 22.0},
}};

TEST(sintering, ClassViscosities) {
  Evidence row("calibrated-here, table of generic classes, computed apart", "log10 Pa s");
  for (const ClassRow& of : classes) {
    SCOPED_TRACE(of.name);
    const double shift = std::log10(of.factor);
    row.in("log10 Pa s");
    row.near(log10_viscosity(of.vft, of.nominal_C) + shift, of.log_at_nominal, 0.006);
    for (std::size_t i = 0; i < 3; ++i) {
      row.near(log10_viscosity(of.vft, 700.0 + 100.0 * static_cast<double>(i)) + shift, of.log_at_700_800_900[i], 0.006);
    }
    row.in("C");
    row.near(temperature_of_log10_viscosity_C(of.vft, 12.0), of.transition_C, 0.1);
    row.near(temperature_of_log10_viscosity_C(of.vft, 6.6), of.softening_C, 0.1);
    row.in("K");
    row.near(doubling_K(of.vft, of.nominal_C), of.doubling_K, 0.6);
  }
}

TEST(sintering, CrystalFactor) {
  Evidence row("krieger-dougherty");
  row.near(crystal_factor(0.18), 1.71, 0.006);
  row.near(crystal_factor(0.05), 1.14, 0.006);
}

TEST(sintering, CalibrationRule) {
  const Vft vft = vft_of_porcelain(560.0, 930.0, 1.71);
  Evidence row("closed form: 10^12 Pa s at the transition, 10^5.1 with crystals at the firing", "log10 Pa s");
  row.near(log10_viscosity(vft, 560.0), 12.0, 1e-9);
  row.near(log10_viscosity(vft, 930.0) + std::log10(1.71), 5.1, 1e-9);
}

TEST(sintering, E1) {
  Evidence row("closed form: the temperature where viscosity is doubled", "C");
  row.near(equal_heat_work_C(metal_ceramic_glass, 930.0, 60.0, 120.0), 901.3, 0.1);
  row.near(930.0 - doubling_K(metal_ceramic_glass, 930.0), 900.2, 0.1);
}

TEST(sintering, EqualHeatWork) {
  Evidence row("computed-here, equal heat-work of the metal-ceramic class", "K");
  row.near(equal_heat_work_C(metal_ceramic_glass, 930.0, 60.0, 6.0) - 930.0, 113.0, 0.6);
  row.near(equal_heat_work_C(metal_ceramic_glass, 930.0, 60.0, 600.0) - 930.0, -88.0, 0.6);
  row.near(equal_heat_work_C(metal_ceramic_glass, 930.0, 60.0, 120.0) - 930.0, -28.7, 0.06);
  const Vft soda_lime = vft_through_three_points(soda_lime_710a);
  row.near(doubling_K(soda_lime, 750.0), 17.0, 0.6);
  row.near(doubling_K(soda_lime, 750.0) / std::log10(2.0), 58.0, 0.6);
  row.near(doubling_K(metal_ceramic_glass, 930.0) / std::log10(2.0), 99.0, 0.6);
  row.in("s");
  row.near(ramp_as_hold_s(metal_ceramic_glass, 930.0, 55.0 / 60.0), 47.0, 0.6);
}

}  // namespace
}  // namespace heatwork::reference
