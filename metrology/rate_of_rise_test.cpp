#include "metrology/rate_of_rise.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <random>
#include <stdexcept>
#include <vector>

#include "metrology/least_squares.h"
#include "metrology/pump_down.h"

namespace heatwork::metrology {
namespace {

std::vector<double> every(double step_s, double to_s) {
  std::vector<double> out;
  for (double t = 0; t <= to_s + 1e-9; t += step_s) out.push_back(t);
  return out;
}

std::vector<double> rise(const std::vector<double>& times, double slope, double amplitude, double tau_s) {
  std::vector<double> out;
  for (const double t : times) out.push_back(10 + slope * t - amplitude * std::expm1(-t / tau_s));
  return out;
}

TEST(RateOfRise, ARecordTooShortOrTooThinIsUndecided) {
  const std::vector<double> few = every(60, 240), brief = every(10, 100);
  EXPECT_EQ(judge_rise(few, rise(few, 0.1, 0, 50), 20).verdict, RiseVerdict::undecided);
  EXPECT_FALSE(judge_rise(few, rise(few, 0.1, 0, 50), 20).leak_mbar_per_s);
  EXPECT_EQ(judge_rise(brief, rise(brief, 0, 20, 90), 20).verdict, RiseVerdict::undecided);
}

TEST(RateOfRise, ATightChamberDoesNotRise) {
  const std::vector<double> t = every(30, 600), p(t.size(), 12);
  const Rise found = judge_rise(t, p, 20);
  EXPECT_FALSE(found.rises);
  EXPECT_EQ(found.verdict, RiseVerdict::undecided);
  EXPECT_EQ(found.leak_mbar_per_s, 0.0);
}

TEST(RateOfRise, PureOutgassingIsNoLeakThoughALineWouldSaySo) {
  const std::vector<double> t = every(15, 600);
  const Rise found = judge_rise(t, rise(t, 0, 30, 60), 22);
  EXPECT_EQ(found.verdict, RiseVerdict::outgassing);
  EXPECT_NEAR(*found.leak_mbar_per_s, 0, 1e-4);
}

TEST(RateOfRise, Refuses) {
  const std::array<double, 2> back = {0, 0}, pressures = {10, 11}, below = {10, -1}, good = {0, 1};
  EXPECT_THROW(judge_rise(back, pressures, 20), std::domain_error);
  EXPECT_THROW(judge_rise(good, below, 20), std::domain_error);
  EXPECT_THROW(judge_rise(good, pressures, -5), std::domain_error);
}

TEST(RateOfRise, TheStepOfARecordIsFound) {
  const std::array<double, 3> whole = {20, 23, 31}, halves = {20.5, 21, 30}, fine = {20.001, 21.5, 30};
  EXPECT_EQ(resolution_of(whole), 1);
  EXPECT_EQ(resolution_of(halves), 0.5);
  EXPECT_NEAR(resolution_of(fine), 0.001, 1e-12);
}

TEST(PumpDown, FitsWhatItMade) {
  const std::vector<double> t = every(5, 200);
  for (const PumpDown pump : {PumpDown{30, 15}, PumpDown{18, 0.5}, PumpDown{60, 40}}) {
    std::vector<double> p;
    for (const double time : t) p.push_back(pumped_pressure_mbar(pump, 1000, time));
    const PumpDown found = fit_pump_down(t, p);
    EXPECT_NEAR(found.time_constant_s, pump.time_constant_s, 0.01);
    EXPECT_NEAR(found.ultimate_mbar, pump.ultimate_mbar, 0.05);
  }
}

TEST(PumpDown, TheDoubtOfAFitIsThatOfManyRecords) {
  const std::vector<double> t = every(5, 120);
  const PumpDown pump{20, 30};
  std::vector<double> constants_s, limits_mbar;
  double said_s = 0, said_mbar = 0;
  std::mt19937_64 random(7);
  constexpr int records = 200;
  for (int i = 0; i < records; ++i) {
    std::vector<double> p;
    for (const double time : t) {
      double noise = -6;
      for (int k = 0; k < 12; ++k) noise += static_cast<double>(random() >> 11) * 0x1p-53;
      p.push_back(0.1 * std::round(10 * (pumped_pressure_mbar(pump, 1000, time) + noise)));
    }
    const PumpDown found = fit_pump_down(t, p);
    const auto doubt = pump_down_doubt(t, p, found);
    ASSERT_TRUE(doubt);
    constants_s.push_back(found.time_constant_s - pump.time_constant_s);
    limits_mbar.push_back(found.ultimate_mbar - pump.ultimate_mbar);
    said_s += doubt->time_constant_sd_s / records;
    said_mbar += doubt->ultimate_sd_mbar / records;
  }
  const auto scatter = [](const std::vector<double>& misses) {
    double squares = 0;
    for (const double miss : misses) squares += miss * miss;
    return std::sqrt(squares / static_cast<double>(misses.size()));
  };
  EXPECT_NEAR(scatter(constants_s) / said_s, 1, 0.15);
  EXPECT_NEAR(scatter(limits_mbar) / said_mbar, 1, 0.15);
  EXPECT_FALSE(pump_down_doubt(std::span(t).first(3), std::vector<double>{500, 400, 330}, pump));
}

TEST(PumpDown, RefusesWhatIsNone) {
  const std::array<double, 4> t = {0, 10, 20, 30}, rising = {10, 20, 30, 50}, slow = {1000, 900, 810, 729};
  EXPECT_THROW(fit_pump_down(t, rising), std::domain_error);
  EXPECT_THROW(fit_pump_down(t, slow), std::domain_error);
  EXPECT_THROW(fit_pump_down(std::span(t).first(2), std::span(slow).first(2)), std::domain_error);
  EXPECT_THROW(pumping_time_s({30, 60}, 1000, 50), std::domain_error);
}

TEST(PumpDown, IsHeldAgainstItsOwnHistory) {
  const std::array<PumpDown, 3> usual = {{{30, 15}, {31, 14}, {29, 16}}};
  EXPECT_EQ(pump_change({30, 15}, usual, std::nullopt), PumpChange::as_before);
  EXPECT_EQ(pump_change({45, 15}, usual, std::nullopt), PumpChange::weak_pump);
  EXPECT_EQ(pump_change({30, 27}, usual, std::nullopt), PumpChange::leak_or_water);
  EXPECT_EQ(pump_change({30, 27}, usual, PumpDown{30, 16}), PumpChange::wet_pump);
  EXPECT_EQ(pump_change({30, 27}, usual, PumpDown{30, 26}), PumpChange::leak_or_water);
  EXPECT_EQ(pump_change({45, 27}, usual, std::nullopt), PumpChange::weak_and_leaking);
  EXPECT_EQ(pump_change({45, 27}, std::span(usual).first(1), std::nullopt), PumpChange::unknown);
}

TEST(LeastSquares, IsExactWhereTheColumnsMakeTheValues) {
  const std::array<double, 4> one = {1, 1, 1, 1}, x = {0, 1, 2, 3}, y = {5, 7, 9, 11};
  const std::array<std::span<const double>, 2> columns = {one, x};
  const LinearFit fit = fit_columns(columns, y);
  EXPECT_NEAR(fit.coefficients[0], 5, 1e-12);
  EXPECT_NEAR(fit.coefficients[1], 2, 1e-12);
  EXPECT_NEAR(fit.variances[1], 0.2, 1e-12);
  const std::array<std::span<const double>, 2> twice = {x, x};
  EXPECT_THROW(fit_columns(twice, y), std::domain_error);
}

}  // namespace
}  // namespace heatwork::metrology
