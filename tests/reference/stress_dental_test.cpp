// Dental layers: the handbook's tables of cores and veneers, and what is published of how they behave.
#include <gtest/gtest.h>

#include <cmath>

#include "evidence_row.h"
#include "stress_glasses.h"

namespace heatwork {
namespace {

using namespace reference;
constexpr double MPa = 1e6;
constexpr const char* tables = "handbook, plates of 0.7 mm zirconia and 1.5 mm porcelain (60 + 120 cells)";

/// 1 MPa or 3 %, whichever is more.
void close(Evidence& evidence, double value, double expected) {
  evidence.near(value, expected, std::max(1.0, 0.03 * std::abs(expected)));
}

TEST(stress, V15) {
  struct Row {
    StressForm form;
    double inner, outer, core_inner, core_outer, veneer_inner, veneer_outer, difference_K;
  };
  Evidence evidence(tables, "MPa");
  const auto all = [&](const CoolingReport& found, const Row& row) {
    close(evidence, found.layers[0].inner_hoop_Pa / MPa, row.core_inner);
    close(evidence, found.layers[0].outer_hoop_Pa / MPa, row.core_outer);
    close(evidence, found.layers[1].inner_hoop_Pa / MPa, row.veneer_inner);
    close(evidence, found.layers[1].outer_hoop_Pa / MPa, row.veneer_outer);
    evidence.in("K");
    close(evidence, found.largest_difference_K, row.difference_K);
    evidence.in("MPa");
  };
  constexpr auto free = StressForm::plate_free, flat = StressForm::plate_flat;
  for (const Row& row : {Row{free, 17, 17, 31.1, -34.1, -4.9, 2.7, 5.7}, Row{flat, 17, 17, 6.4, 6.4, -1.9, -6.2, 5.7},
                         Row{free, 60, 60, 19.5, -25.9, -2.5, -7.3, 19.0}, Row{flat, 60, 60, 7.6, 7.6, 0.3, -15.3, 19.0},
                         Row{flat, 0, 60, 21.6, 21.6, 1.4, -25.7, 34.6}})
    all(cooled(row.form, {zirconia(), porcelain()}, 750, 25, row.inner, row.outer).back(), row);
  // Faces that follow a program: the rate stands where the films do.
  for (const Row& row : {Row{free, 32, 32, 32.2, -32.9, -6.4, 6.2, 0.5}, Row{free, 2, 2, 30.3, -30.4, -6.5, 6.5, 0.0}})
    all(programmed(row.form, {zirconia(), porcelain()}, 750, 25, row.inner).back(), row);
}

TEST(stress, V15_uniform) {
  Evidence evidence("handbook, the same cooled with one temperature through it, 32 and 2 K/min", "MPa");
  for (const auto& [rate, core_inner, core_outer, veneer_inner, veneer_outer] :
       {std::array{32.0, 32.8, -33.4, -6.5, 6.8}, {2.0, 30.3, -30.4, -6.5, 6.6}}) {
    CoolingCourse course;
    course.time_s = {0, 725 / rate * 60};
    course.temperature_K = {1023.15, 298.15};
    const auto found =
        CoolingStress(StressForm::plate_free, 0, std::vector{zirconia(), porcelain()}, 1023.15, {0.5, 9, 5}).run(course).back();
    close(evidence, found.layers[0].inner_hoop_Pa / MPa, core_inner);
    close(evidence, found.layers[0].outer_hoop_Pa / MPa, core_outer);
    close(evidence, found.layers[1].inner_hoop_Pa / MPa, veneer_inner);
    close(evidence, found.layers[1].outer_hoop_Pa / MPa, veneer_outer);
  }
}

TEST(stress, V15_monolithic) {
  Evidence evidence("handbook, porcelain of 2 mm alone: surface, highest inside", "MPa");
  for (const auto& [film, surface, middle] :
       {std::array{17.0, -3.7, 1.8}, {60.0, -13.4, 6.5}, {200.0, -45.0, 20.7}, {500.0, -93.4, 44.0}}) {
    const auto found = cooled(StressForm::plate_free, {porcelain(2)}, 750, 25, film, film).back();
    close(evidence, found.layers[0].outer_hoop_Pa / MPa, surface);
    close(evidence, found.layers[0].highest_hoop_Pa / MPa, middle);
  }
}

TEST(stress, V15_mismatch) {
  Evidence evidence(
      "handbook, expansion of core less veneer from -1 to +2 ppm/K: flat (interface, surface, core), free (interface, surface)", "MPa");
  for (const auto& [less, flat_inner, flat_outer, core, free_inner, free_outer] : {std::array{-1.0, 65.4, 60.7, -137.5, 65.3, -33.4},
                                                                                   {0.0, 31.7, 27.2, -65.6, 30.2, -15.4},
                                                                                   {0.5, 14.9, 10.5, -29.6, 12.7, -6.3},
                                                                                   {1.0, -1.9, -6.2, 6.4, -4.9, 2.7},
                                                                                   {2.0, -35.5, -39.7, 78.4, -39.9, 20.8}}) {
    const std::vector<StressLayer> layers{zirconia(), porcelain(1.5, 10.5 - less)};
    const auto flat = cooled(StressForm::plate_flat, layers, 750, 25, 17, 17).back();
    close(evidence, flat.layers[1].inner_hoop_Pa / MPa, flat_inner);
    close(evidence, flat.layers[1].outer_hoop_Pa / MPa, flat_outer);
    close(evidence, flat.layers[0].middle_hoop_Pa / MPa, core);
    const auto free = cooled(StressForm::plate_free, layers, 750, 25, 17, 17).back();
    close(evidence, free.layers[1].inner_hoop_Pa / MPa, free_inner);
    close(evidence, free.layers[1].outer_hoop_Pa / MPa, free_outer);
  }
}

TEST(stress, V15_sensitivity) {
  Evidence evidence("handbook, flat, films of 60, from 800 C: transition, activation, liquid and solid expansion changed one by one",
                    "MPa");
  struct Case {
    double reference_K, activation_K, liquid_ppm, solid_ppm, inner, outer;
  };
  const Case base{933.15, 7.0e4, 28.5, 9.5, 0.4, -15.3};
  std::vector<Case> cases(9, base);
  cases[1] = {883.15, 7.0e4, 28.5, 9.5, -0.3, -14.7};
  cases[2] = {983.15, 7.0e4, 28.5, 9.5, 1.1, -15.7};
  cases[3] = {933.15, 5.5e4, 28.5, 9.5, 7.5, -7.9};
  cases[4] = {933.15, 8.5e4, 28.5, 9.5, -4.5, -20.4};
  cases[5] = {933.15, 7.0e4, 2.5 * 9.5, 9.5, -7.0, -22.2};
  cases[6] = {933.15, 7.0e4, 3.5 * 9.5, 9.5, 7.7, -8.4};
  cases[7] = {933.15, 7.0e4, 28.5, 10.0, 15.3, -0.5};
  cases[8] = {933.15, 7.0e4, 28.5, 9.0, -14.6, -30.2};
  for (const Case& one : cases) {
    StressLayer veneer = porcelain();
    veneer.expansion_per_K = TemperatureProperty::constant(one.solid_ppm * 1e-6);
    veneer.glass->liquid_expansion_per_K = one.liquid_ppm * 1e-6;
    veneer.glass->relaxing.reference_K = one.reference_K;
    veneer.glass->relaxing.activation_K = one.activation_K;
    const auto found = cooled(StressForm::plate_flat, {zirconia(), veneer}, 800, 25, 60, 60).back();
    close(evidence, found.layers[1].inner_hoop_Pa / MPa, one.inner);
    close(evidence, found.layers[1].outer_hoop_Pa / MPa, one.outer);
  }
}

CoolingReport dental(StressForm form, double film, const std::vector<StressLayer>& layers = {zirconia(), porcelain()}) {
  return cooled(form, layers, 750, 25, film, film, 4).back();
}

TEST(stress, V16) {
  Evidence evidence("published: fast cooling raises tension of closed shells; highest in core, veneer: flat, then sphere of 4 mm", "MPa",
                    "validation");
  for (const StressForm form : {StressForm::plate_flat, StressForm::sphere}) {
    const auto slow = dental(form, 17), fast = dental(form, 60);
    for (std::size_t l = 0; l < 2; ++l) evidence.above(fast.layers[l].highest_hoop_Pa / MPa, slow.layers[l].highest_hoop_Pa / MPa);
  }
}

// The handbook's own figures meet the published trend in the core of the flat shell alone; the veneer and the sphere stay as misses.
TEST(stress, V16_transient) {
  Evidence evidence("published: cooling rate moves the transient more than what stays, here by 0.1 MPa at least; core of the flat shell",
                    "MPa", "validation");
  const auto moved = [](StressForm form, std::size_t layer, double LayerCooling::*figure) {
    return (dental(form, 60).layers[layer].*figure - dental(form, 17).layers[layer].*figure) / MPa;
  };
  const auto transient = &LayerCooling::transient_highest_Pa, stays = &LayerCooling::highest_hoop_Pa;
  constexpr double least = 0.1;
  evidence.above(moved(StressForm::plate_flat, 0, transient), moved(StressForm::plate_flat, 0, stays) + least);
  evidence.from("the same; veneer of the flat shell, then core and veneer of the sphere");
  evidence.missed_above(moved(StressForm::plate_flat, 1, transient), moved(StressForm::plate_flat, 1, stays) + least);
  evidence.missed_above(moved(StressForm::sphere, 0, transient), moved(StressForm::sphere, 0, stays) + least);
  evidence.missed_above(moved(StressForm::sphere, 1, transient), moved(StressForm::sphere, 1, stays) + least);
}

TEST(stress, V16_rate) {
  Evidence evidence("published: on a free plate the veneer's surface is in tension slow, in compression fast", "MPa", "validation");
  evidence.above(dental(StressForm::plate_free, 17).layers[1].outer_hoop_Pa / MPa, 0);
  evidence.above(0, dental(StressForm::plate_free, 60).layers[1].outer_hoop_Pa / MPa);
  evidence.from("published: 2 K/min is not better than 32 K/min; here by at most 0.5 MPa");
  const auto surface = [](double rate) {
    return programmed(StressForm::plate_free, {zirconia(), porcelain()}, 750, 25, rate).back().layers[1].outer_hoop_Pa / MPa;
  };
  evidence.above(surface(2), surface(32) - 0.5);
}

TEST(stress, V16_core) {
  Evidence evidence("published: a core of lithium disilicate is in lower tension than one of zirconia; films of 17 and 60, flat and sphere",
                    "MPa", "validation");
  for (const double film : {17.0, 60.0}) {
    for (const StressForm form : {StressForm::plate_flat, StressForm::sphere})
      evidence.above(dental(form, film).layers[0].highest_hoop_Pa / MPa,
                     dental(form, film, {disilicate(), porcelain_for_disilicate()}).layers[0].highest_hoop_Pa / MPa);
  }
}

}  // namespace
}  // namespace heatwork
