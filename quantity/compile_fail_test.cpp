// What must not compile. Each line asks the compiler whether an expression exists; the build itself fails if one does.
#include <gtest/gtest.h>

#include <concepts>
#include <type_traits>

#include "quantity/quantity.h"
#include "quantity/read.h"
#include "quantity/write.h"

namespace heatwork::quantity {
namespace {

template <class A, class B>
concept adds = requires(A a, B b) {
  a + b;
};
template <class A, class B>
concept subtracts = requires(A a, B b) {
  a - b;
};
template <class A, class B>
concept multiplies = requires(A a, B b) {
  a* b;
};
template <class A, class B>
concept divides = requires(A a, B b) {
  a / b;
};
template <class A, class B>
concept compares = requires(A a, B b) {
  a < b;
};
template <class A, class B>
concept grows_by = requires(A a, B b) {
  a += b;
};

template <class A>
concept negates = requires(A a) {
  -a;
};
template <class A>
concept writes = requires(A a) {
  write(a);
};

// Points on the scale.
static_assert(!adds<Temperature, Temperature>);
static_assert(!multiplies<Temperature, double> && !multiplies<double, Temperature>);
static_assert(!divides<Temperature, double> && !divides<Temperature, Temperature>);
static_assert(!subtracts<TemperatureDifference, Temperature>);
static_assert(!negates<Temperature> && negates<TemperatureDifference>);
static_assert(!std::convertible_to<double, Temperature> && !std::constructible_from<Temperature, double>);
static_assert(!std::convertible_to<TemperatureDifference, Temperature> && !std::constructible_from<Temperature, TemperatureDifference>);
static_assert(!std::convertible_to<Temperature, TemperatureDifference> && !std::constructible_from<TemperatureDifference, Temperature>);
static_assert(!std::convertible_to<Temperature, double> && !std::convertible_to<TemperatureDifference, double>);
static_assert(!compares<Temperature, TemperatureDifference> && !compares<Temperature, double>);
static_assert(!std::is_assignable_v<Temperature&, TemperatureDifference> && !std::is_assignable_v<Temperature&, double>);
// Rates.
static_assert(!adds<HeatingRate, TemperatureDifference> && !adds<Temperature, HeatingRate> && !subtracts<Temperature, HeatingRate>);
static_assert(!std::convertible_to<TemperatureDifference, HeatingRate> && !std::convertible_to<double, HeatingRate>);
static_assert(!multiplies<HeatingRate, HeatingRate> && !multiplies<HeatingRate, Temperature> && !divides<Temperature, Duration>);
static_assert(!compares<HeatingRate, TemperatureDifference>);
// Kinds do not mix.
static_assert(!adds<Pressure, Length> && !adds<Duration, double> && !adds<Duration, TemperatureDifference>);
static_assert(!adds<Pressure, PressureRate> && !grows_by<Length, Area> && !compares<Mass, Volume>);
static_assert(!divides<double, Duration> && !multiplies<Length, Length>);
static_assert(!std::convertible_to<double, Duration> && !std::convertible_to<Fraction, double>);
static_assert(!std::is_same_v<Fraction, Frequency>);
// A reader for a kind that is not there.
static_assert(!std::is_same_v<decltype(read<Pressure>("")), decltype(read<PressureRate>(""))>);
static_assert(!writes<double> && writes<Duration>);

// What must compile, so that the lines above cannot pass because a type is broken.
static_assert(adds<Temperature, TemperatureDifference> && adds<TemperatureDifference, Temperature>);
static_assert(std::same_as<decltype(Temperature() - Temperature()), TemperatureDifference>);
static_assert(std::same_as<decltype(TemperatureDifference() / Duration()), HeatingRate>);
static_assert(std::same_as<decltype(HeatingRate() * Duration()), TemperatureDifference>);
static_assert(std::same_as<decltype(TemperatureDifference() / HeatingRate()), Duration>);
static_assert(std::same_as<decltype(Pressure() / Pressure()), double> && compares<Temperature, Temperature>);

TEST(Types, PointDifferenceAndRateGoTogetherAsOnTheScale) {
  EXPECT_DOUBLE_EQ((Temperature::celsius(450) + kelvins_per_minute(55) * minutes(2)).celsius(), 560);
  EXPECT_DOUBLE_EQ((Temperature::celsius(911) - Temperature::celsius(450)).si(), 461);
  EXPECT_DOUBLE_EQ((kelvins(55) / kelvins_per_minute(55)).si(), 60);
}

}  // namespace
}  // namespace heatwork::quantity
