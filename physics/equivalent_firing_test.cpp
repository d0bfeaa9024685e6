#include "physics/equivalent_firing.h"

#include <gtest/gtest.h>

#include <stdexcept>

#include "physics/layer.h"

namespace heatwork::physics {
namespace {

const PowderClock porcelain{{-3.0, 6267.0, 142.2}, 1.71, 0.3, 6.0};

CrystallisationProperties block() {
  CrystallisationProperties properties;
  properties.steps = {{1.5, 260.0, 3e11, false}, {2.0, 300.0, 1.2777e12, false}};
  return properties;
}

/// Up to a top at 47 K/min, held, and down again.
PieceHistory firing(double top_C, double hold_s) {
  const double up_s = (top_C - 403.0) / (47.0 / 60.0);
  const double k = zero_celsius_K;
  return {{0.0, up_s, up_s + hold_s, up_s + hold_s + 300.0}, {403.0 + k, top_C + k, top_C + k, 388.0 + k}};
}

void expect_identities(const DecidingModel& model, double top_C) {
  const PieceHistory reference = firing(top_C, 97.0);
  const double from_s = reference.times_s[1], to_s = reference.times_s[2];
  const EquivalentFiring same = equivalent_firing(model, reference, reference, from_s, to_s);
  EXPECT_NEAR(same.shift_K.value(), 0.0, 0.1);
  EXPECT_NEAR(same.hold_s.value(), 0.0, 1.0);
  EXPECT_DOUBLE_EQ(same.quantity, deciding_quantity(model, reference));
  const EquivalentFiring colder = equivalent_firing(model, shifted(reference, -12.0), reference, from_s, to_s);
  EXPECT_NEAR(colder.shift_K.value(), -12.0, 0.1);
  EXPECT_LT(colder.hold_s.value(), 0.0);
  const EquivalentFiring shorter = equivalent_firing(model, firing(top_C, 57.0), reference, from_s, to_s);
  EXPECT_NEAR(shorter.hold_s.value(), -40.0, 1.0);
  EXPECT_LT(shorter.shift_K.value(), 0.0);
  const EquivalentFiring longer = equivalent_firing(model, firing(top_C, 297.0), reference, from_s, to_s);
  EXPECT_NEAR(longer.hold_s.value(), 200.0, 1.0);
  EXPECT_GT(longer.shift_K.value(), 0.0);
}

TEST(EquivalentFiring, KeepsItsIdentitiesForAPowder) {
  expect_identities(porcelain, 921.0);
}

TEST(EquivalentFiring, KeepsItsIdentitiesForABlock) {
  expect_identities(block(), 823.0);
}

TEST(EquivalentFiring, HasNoNumberBeyondTheBounds) {
  const PieceHistory reference = firing(921.0, 97.0);
  const double from_s = reference.times_s[1], to_s = reference.times_s[2];
  const EquivalentFiring cold = equivalent_firing(porcelain, firing(760.0, 97.0), reference, from_s, to_s);
  EXPECT_FALSE(cold.shift_K.has_value());
  EXPECT_FALSE(cold.hold_s.has_value());
  const EquivalentFiring hot = equivalent_firing(porcelain, firing(1080.0, 97.0), reference, from_s, to_s);
  EXPECT_FALSE(hot.shift_K.has_value());
  const EquivalentFiring within = equivalent_firing(porcelain, shifted(reference, 149.0), reference, from_s, to_s);
  EXPECT_NEAR(within.shift_K.value(), 149.0, 0.1);
  const EquivalentFiring without_hold = equivalent_firing(porcelain, firing(921.0, 0.0), reference, from_s, to_s);
  EXPECT_NEAR(without_hold.hold_s.value(), -97.0, 1.0);
  const EquivalentFiring hour_more = equivalent_firing(porcelain, firing(921.0, 97.0 + 3650.0), reference, from_s, to_s);
  EXPECT_FALSE(hour_more.hold_s.has_value());
}

TEST(EquivalentFiring, PutsTimeInAtTheEndOfTheHoldAndCutsItThere) {
  const PieceHistory history{{0.0, 10.0, 30.0, 50.0}, {700.0, 900.0, 904.0, 600.0}};
  const PieceHistory longer = with_hold_changed(history, 10.0, 30.0, 7.0);
  EXPECT_EQ(longer.times_s, (std::vector<double>{0.0, 10.0, 30.0, 37.0, 57.0}));
  EXPECT_EQ(longer.temperatures_K, (std::vector<double>{700.0, 900.0, 904.0, 904.0, 600.0}));
  const PieceHistory shorter = with_hold_changed(history, 10.0, 30.0, -5.0);
  EXPECT_EQ(shorter.times_s, (std::vector<double>{0.0, 10.0, 25.0, 25.0, 45.0}));
  EXPECT_EQ(shorter.temperatures_K, (std::vector<double>{700.0, 900.0, 903.0, 904.0, 600.0}));
}

TEST(EquivalentFiring, RefusesWhatItCannotAnswer) {
  const PieceHistory reference = firing(921.0, 97.0);
  EXPECT_THROW(equivalent_firing(porcelain, reference, reference, 10.0, 1e5), std::domain_error);
  EXPECT_THROW(equivalent_firing(porcelain, reference, reference, 700.0, 600.0), std::domain_error);
  EXPECT_THROW(equivalent_firing(porcelain, reference, shifted(reference, -600.0), 661.3, 700.0), std::domain_error);
  EXPECT_THROW(with_hold_changed(reference, reference.times_s[1], reference.times_s[2], -98.0), std::domain_error);
}

}  // namespace
}  // namespace heatwork::physics
