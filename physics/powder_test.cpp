#include "physics/powder.h"

#include <gtest/gtest.h>

#include <limits>
#include <stdexcept>
#include <string>
#include <vector>

namespace heatwork::physics {
namespace {

PowderProperties porcelain() {
  PowderProperties powder;
  powder.vft = {-3.0, 6267.0, 142.2};
  powder.crystal_factor = 1.71;
  return powder;
}

const std::vector<double> times_s{0.0, 500.0, 560.0};
const std::vector<double> temperatures_K{723.15, 1183.15, 1183.15};
const std::vector<double> air_Pa{101325.0, 101325.0, 101325.0};

template <typename Action>
std::string refusal(Action action) {
  try {
    action();
  } catch (const std::logic_error& error) {  // domain_error and invalid_argument alike
    return error.what();
  }
  return "accepted";
}

TEST(Powder, RefusesPropertiesOutsideTheirRangesBySentence) {
  PowderProperties powder = porcelain();
  powder.start_relative_density = 0.9;
  EXPECT_EQ(refusal([&] { start_powder(powder); }), "start_relative_density is 0.9; it must lie between 0.3 and 0.85");
  powder = porcelain();
  powder.coarse_share = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(refusal([&] { start_powder(powder); }), "coarse_share is nan; it must lie between 0 and 1");
  powder = porcelain();
  powder.vft.B_K = 0.0;
  EXPECT_EQ(refusal([&] { start_powder(powder); }), "B_K of the viscosity law is 0; it must be above 0");
}

TEST(Powder, RefusesHistoriesAndKeepsTheState) {
  const PowderProperties powder = porcelain();
  PowderState state = start_powder(powder);
  const PowderState before = state;
  const std::vector<double> falling_s{0.0, 500.0, 400.0}, short_Pa{101325.0}, negative_Pa{101325.0, -1.0, 101325.0};
  EXPECT_EQ(refusal([&] { advance_powder(powder, state, falling_s, temperatures_K, air_Pa); }),
            "times_s is 400 at history point 3; times must be finite and must not fall");
  EXPECT_EQ(refusal([&] { advance_powder(powder, state, times_s, temperatures_K, short_Pa); }),
            "pressures_Pa has 1 points and times_s 3; both must have the same number");
  EXPECT_EQ(refusal([&] { advance_powder(powder, state, times_s, temperatures_K, negative_Pa); }),
            "pressures_Pa is -1; it must lie between 0 and 10000000");
  EXPECT_EQ(state, before);
}

TEST(Powder, RefusesAStateOfAnotherSealing) {
  PowderProperties powder = porcelain();
  PowderState state = start_powder(powder);
  powder.sealing = Sealing::hard;
  EXPECT_EQ(refusal([&] { advance_powder(powder, state, times_s, temperatures_K, air_Pa); }),
            "the powder state has 16 slices; these properties need 1, as made by start_powder");
}

TEST(Powder, StoresAndReadsItsState) {
  const PowderProperties powder = porcelain();
  PowderState state = start_powder(powder);
  EXPECT_EQ(powder_state_from(canonical_values(state)), state);
  advance_powder(powder, state, times_s, temperatures_K, air_Pa);
  EXPECT_GT(state.sealed_slices, 0);
  EXPECT_EQ(powder_state_from(canonical_values(state)), state);
  std::vector<double> damaged = canonical_values(state);
  damaged.pop_back();
  EXPECT_NE(refusal([&] { powder_state_from(damaged); }), "accepted");
  damaged[0] = 2.0;
  EXPECT_NE(refusal([&] { powder_state_from(damaged); }), "accepted");
  EXPECT_NE(refusal([&] { powder_state_from(std::vector<double>{}); }), "accepted");
}

TEST(Powder, NotesWhenPoresWereHalfAndFullySealed) {
  const PowderProperties powder = porcelain();
  PowderState state = start_powder(powder);
  PowderTrace trace;
  advance_powder(powder, state, times_s, temperatures_K, air_Pa, &trace);
  ASSERT_TRUE(trace.half_sealed && trace.fully_sealed);
  EXPECT_LT(trace.half_sealed->time_s, trace.fully_sealed->time_s);
  EXPECT_EQ(state.highest_K, 1183.15);
  // A second firing seals nothing any more.
  advance_powder(powder, state, times_s, temperatures_K, air_Pa, &trace);
  EXPECT_FALSE(trace.half_sealed || trace.fully_sealed);
}

TEST(Powder, VacuumAfterSealingSwellsThePores) {
  const PowderProperties powder = porcelain();
  PowderState state = start_powder(powder);
  advance_powder(powder, state, times_s, temperatures_K, air_Pa);
  const double sealed = powder_porosity(powder, state);
  const std::vector<double> hold_s{0.0, 1.0, 300.0}, hold_K{1183.15, 1183.15, 1183.15}, vacuum_Pa{101325.0, 5000.0, 5000.0};
  advance_powder(powder, state, hold_s, hold_K, vacuum_Pa);
  EXPECT_GT(powder_porosity(powder, state), sealed + 0.05);
  EXPECT_GT(powder_coarse_radius_um(powder, state), 15.0);
}

}  // namespace
}  // namespace heatwork::physics
