// The bands: what a variant says is what the firing itself says when the input is changed in its file; no number of threads changes it.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "demo_firing.h"
#include "firing/band.h"
#include "firing/rehearsal.h"
#include "trade/deciding_inputs.h"
#include "trade/shipped.h"

namespace heatwork::firing {
namespace {

using tests::demo_firing;

const trade::DecidingInputs& inputs() {
  static const trade::DecidingInputs read = trade::read_deciding_inputs("inputs.toml", trade::shipped_text("limits/inputs.toml"));
  return read;
}

Rehearsal with_bands(const trade::ResolvedFiring& request, unsigned workers = 0) {
  RehearseOptions options;
  options.inputs = &inputs();
  options.workers = workers;
  return rehearse(request, options);
}

const Varied& varied(const Rehearsal& made, const std::string& input) {
  const auto found = std::find_if(made.varied.begin(), made.varied.end(), [&](const Varied& one) { return one.input.name == input; });
  if (found == made.varied.end()) throw std::logic_error("no input is named " + input);
  return *found;
}

/// The largest changes that the ends make to a number, down and up.
struct Reaching {
  double down = 0, up = 0;
};
Reaching reaching(const Rehearsal& made, const std::string& input, const std::function<double(const Outcome&)>& number, double nominal) {
  const Varied& one = varied(made, input);
  const double base = one.coarse ? number(made.coarse) : nominal;
  Reaching result;
  for (const Outcome& end : one.ends) {
    result.down = std::min(result.down, number(end) - base);
    result.up = std::max(result.up, number(end) - base);
  }
  return result;
}

double shift(const Outcome& outcome) {
  return outcome.compared.at(0).shift_K.value();
}
double hold(const Outcome& outcome) {
  return outcome.compared.at(0).hold_s.value();
}

/// The demo firing changed in its own nouns, rehearsed and compared in full.
template <class Change>
Comparison changed(const char* file, const Change& change) {
  trade::ResolvedFiring request = demo_firing(file);
  change(request);
  return rehearse(request).compared.at(0);
}

trade::Estimate& of_veneer(trade::ResolvedFiring& request, const char* property) {
  return request.materials.at("zirconia-veneer").properties.at(property);
}

/// Shift and hold of the variants against those of a full rehearsal with the changed nouns.
template <class Low, class High>
void expect_same(const char* file, const std::string& input, const Low& low, const High& high, double within_K = 0.1,
                 double within_s = 0.5) {
  const Rehearsal made = with_bands(demo_firing(file));
  const double shift_K = *made.compared[0].shift_K, hold_s = *made.compared[0].hold_s;
  const Comparison at_low = changed(file, low), at_high = changed(file, high);
  const Reaching shifts = reaching(made, input, shift, shift_K), holds = reaching(made, input, hold, hold_s);
  const auto [least_K, most_K] = std::minmax({*at_low.shift_K - shift_K, *at_high.shift_K - shift_K});
  const auto [least_s, most_s] = std::minmax({*at_low.hold_s - hold_s, *at_high.hold_s - hold_s});
  EXPECT_NEAR(shifts.down, std::min(0.0, least_K), within_K + 0.03 * std::abs(least_K)) << input;
  EXPECT_NEAR(shifts.up, std::max(0.0, most_K), within_K + 0.03 * std::abs(most_K)) << input;
  EXPECT_NEAR(holds.down, std::min(0.0, least_s), within_s + 0.03 * std::abs(least_s)) << input;
  EXPECT_NEAR(holds.up, std::max(0.0, most_s), within_s + 0.03 * std::abs(most_s)) << input;
}

TEST(Bands, OfTheDisplayAreThoseOfAFurnaceThatReadsSo) {
  const auto error = [](double by_K) {
    return [by_K](trade::ResolvedFiring& request) {
      auto& display = request.furnace.display_error->error.value;
      display = quantity::kelvins(display.si() + by_K);
    };
  };
  expect_same("firing", "display_error", error(-6), error(6));
}

TEST(Bands, OfATrayAreThoseOfAnotherTray) {
  const auto mass = [](double factor) {
    return
        [factor](trade::ResolvedFiring& request) { request.tray.mass->value = quantity::Mass::si(factor * request.tray.mass->value.si()); };
  };
  expect_same("heavier-tray", "tray_mass", mass(0.97), mass(1.03));
}

TEST(Bands, OfAMaterialAreThoseOfAnotherMaterialInBothFirings) {
  for (const char* property : {"emissivity", "powder_conductivity_factor", "particle_radius"}) {
    const auto end = [property](double trade::Estimate::*which) {
      return
          [property, which](trade::ResolvedFiring& request) { of_veneer(request, property).value = of_veneer(request, property).*which; };
    };
    // Where the material's heat changes in both firings, the maker's table moves as a whole: to half a kelvin, said in the theory.
    expect_same("firing", property, end(&trade::Estimate::low), end(&trade::Estimate::high), 0.5, 1.5);
  }
}

TEST(Bands, OfCrystallisationMoveEnergyAndRateTogether) {
  const Rehearsal made = with_bands(demo_firing("crystallise-firing"));
  const double shift_K = *made.compared[0].shift_K;
  const Reaching energy = reaching(made, "crystallisation_2_energy", shift, shift_K);
  // Shift and energy are nearly independent where the rate keeps its anchor: kelvins are compared with kelvins.
  EXPECT_LT(energy.up - energy.down, 0.6 * std::abs(shift_K) + 1.0);
  const auto z = [](const Outcome& outcome) { return outcome.firing.pieces[0].deciding_least; };
  const Reaching of_z = reaching(made, "crystallisation_2_energy", z, made.firing.pieces[0].deciding_least);
  EXPECT_GT(of_z.up - of_z.down, 0.05) << "the energy changes what the block gets";
}

TEST(Bands, LeaveTheComparisonAloneWhereTheGlassIsTheSameInBoth) {
  const Rehearsal made = with_bands(demo_firing("firing"));
  const Reaching viscosity = reaching(made, "viscosity_A", shift, *made.compared[0].shift_K);
  EXPECT_NEAR(viscosity.down, 0, 0.02);
  EXPECT_NEAR(viscosity.up, 0, 0.02);
  const auto rounding = [](const Outcome& outcome) { return outcome.firing.pieces[0].points[0].rounding_um; };
  const double nominal = made.firing.pieces[0].points[0].rounding_um;
  const Reaching of_rounding = reaching(made, "viscosity_A", rounding, nominal);
  EXPECT_NEAR(of_rounding.up, nominal * (std::pow(10, 0.4) - 1), 0.02 * nominal) << "0.4 decades of viscosity";
}

TEST(Bands, ReachWiderWhereTheDisplayWasNeverChecked) {
  trade::ResolvedFiring request = demo_firing("firing");
  const Rehearsal checked = with_bands(request);
  request.furnace.display_error.reset();
  const Rehearsal unchecked = with_bands(request);
  const Reaching wide = reaching(unchecked, "display_error", shift, *unchecked.compared[0].shift_K);
  EXPECT_NEAR(wide.down, -24, 0.7);
  EXPECT_NEAR(wide.up, 24, 0.7);
  const Reaching narrow = reaching(checked, "display_error", shift, *checked.compared[0].shift_K);
  EXPECT_NEAR(narrow.up, 6, 0.2);
}

TEST(Bands, AreTheSameOnAnyNumberOfThreads) {
  const trade::ResolvedFiring request = demo_firing("firing");
  const Rehearsal one = with_bands(request, 1), many = with_bands(request, 5);
  ASSERT_EQ(one.varied.size(), many.varied.size());
  for (std::size_t i = 0; i < one.varied.size(); ++i) {
    ASSERT_EQ(one.varied[i].ends.size(), many.varied[i].ends.size()) << one.varied[i].input.name;
    for (std::size_t k = 0; k < one.varied[i].ends.size(); ++k) {
      const Outcome &a = one.varied[i].ends[k], &b = many.varied[i].ends[k];
      for (std::size_t p = 0; p < a.compared.size(); ++p) {
        EXPECT_EQ(a.compared[p].shift_K, b.compared[p].shift_K);
        EXPECT_EQ(a.firing.pieces[p].deciding_least, b.firing.pieces[p].deciding_least);
      }
    }
  }
}

TEST(Bands, TheCoarserStepsOfTheVariantsChangeNoNumberByMuch) {
  for (const char* file : {"firing", "metal-ceramic-firing", "crystallise-firing", "glaze-firing"}) {
    const Rehearsal made = with_bands(demo_firing(file));
    for (std::size_t p = 0; p < made.compared.size(); ++p) {
      EXPECT_NEAR(*made.coarse.compared[p].shift_K, *made.compared[p].shift_K, 0.3) << file;
      EXPECT_NEAR(made.coarse.firing.pieces[p].peak_core_C, made.firing.pieces[p].peak_core_C, 0.3) << file;
    }
  }
}

}  // namespace
}  // namespace heatwork::firing
