// Charts and their run lengths against published tables and examples, and against a chain of many states and simulation.
#include "metrology/control_chart.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <vector>

#include "../identity/simulated_bench.h"
#include "evidence_row.h"

namespace heatwork {
namespace {

using namespace metrology;
using reference::Evidence;

ChartSetting cusum(double k, double h, double head_start = 0, bool two_sided = true) {
  return {ChartKind::cusum, h, k, 0.2, head_start, two_sided};
}
ChartSetting ewma(double weight, double limit) {
  return {ChartKind::ewma, limit, 0.5, weight, 0, true};
}
const ChartSetting three_sigma{ChartKind::shewhart, 3};

constexpr std::array<double, 8> shifts = {0, 0.25, 0.5, 0.75, 1, 1.5, 2, 3};

TEST(ControlChart, metrology_P13) {
  struct Column {
    ChartSetting chart;
    std::array<double, 8> lengths;
  };
  const std::array<Column, 9> columns = {{{three_sigma, {370.40, 281, 155.22, 81.2, 43.89, 14.97, 6.30, 2.00}},
                                          {cusum(0.5, 3), {58.80, 36.2, 17.20, 9.67, 6.40, 3.75, 2.68, 1.77}},
                                          {cusum(0.5, 4), {168, 74.2, 26.6, 13.3, 8.38, 4.75, 3.34, 2.19}},
                                          {cusum(0.5, 4, 2), {149, 62.7, 20.1, 8.97, 5.29, 2.86, 2.01, 1.32}},
                                          {cusum(0.5, 5), {465, 139, 38.0, 17.0, 10.4, 5.75, 4.01, 2.57}},
                                          {ewma(0.5, 3.071), {500, 255, 88.8, 35.9, 17.5, 6.53, 3.63, 1.93}},
                                          {ewma(0.2, 2.962), {500, 150, 41.8, 18.2, 10.5, 5.50, 3.74, 2.38}},
                                          {ewma(0.1, 2.814), {500, 106, 31.3, 15.9, 10.3, 6.08, 4.36, 2.87}},
                                          {ewma(0.03, 2.437), {500, 76.7, 29.3, 17.6, 12.6, 8.07, 5.99, 4.03}}}};
  Evidence row("lucas-crosier-1982, lucas-saccucci-1990, crowder-1987, computed apart", "1");
  for (const Column& column : columns) {
    for (std::size_t i = 0; i < shifts.size(); ++i) row.within_percent(average_run_length(column.chart, shifts[i]), column.lengths[i], 0.5);
  }
}

TEST(ControlChart, PublishedAnchors) {
  Evidence row("brook and evans 1972, crowder-1987 and a statistical package's examples", "1");
  row.within_percent(average_run_length(cusum(0.5, 3, 0, false), 0), 117.596, 0.001);
  row.within_percent(average_run_length(cusum(0.5, 3, 0, false), 1.5), 3.749, 0.02);
  row.within_percent(average_run_length(cusum(0.5, 4, 0, false), 0), 335.37, 0.002);
  row.within_percent(average_run_length(cusum(0.5, 5, 0, false), 0), 930.89, 0.001);
  row.within_percent(average_run_length(cusum(0.25, 8, 0, true), 2.5), 4.15008373, 1e-5);
  row.within_percent(average_run_length(ewma(0.25, 3), 1), 11.154267016, 1e-6);
  row.within_percent(average_run_length(ewma(0.5, 2), 0), 26.45, 0.03);
  row.within_percent(average_run_length(ewma(0.05, 2), 0.5), 18.97, 0.03);
}

/// One-sided CUSUM as a chain of many states, no integral equation.
double chain_length(double k, double h, double shift, int states) {
  const double width = 2 * h / (2 * states - 1);
  std::vector<double> length(static_cast<std::size_t>(states), 1.0);
  std::vector<double> chance(static_cast<std::size_t>(2 * states + 1));
  const auto below = [&](double x) { return 0.5 * std::erfc(-x / std::sqrt(2.0)); };
  for (int sweep = 0; sweep < 20000; ++sweep) {
    double moved = 0;
    for (int i = 0; i < states; ++i) {
      double next = 1 + length[0] * below(-i * width + width / 2 + k - shift);
      for (int j = 1; j < states; ++j) {
        const double to = (j - i) * width + k - shift;
        next += length[static_cast<std::size_t>(j)] * (below(to + width / 2) - below(to - width / 2));
      }
      moved = std::max(moved, std::abs(next - length[static_cast<std::size_t>(i)]));
      length[static_cast<std::size_t>(i)] = next;
    }
    if (moved < 1e-7) break;
  }
  return length[0];
}

TEST(ControlChart, RunLengthsAgreeWithAChainOfStates) {
  Evidence row("chain of 60 states, its own program", "1");
  row.within_percent(average_run_length(cusum(0.5, 3, 0, false), 0.5), chain_length(0.5, 3, 0.5, 60), 0.5);
  row.within_percent(average_run_length(cusum(0.5, 4, 0, false), 1), chain_length(0.5, 4, 1, 60), 0.5);
}

TEST(ControlChart, RunLengthsAgreeWithSimulation) {
  tests::SimulatedBench bench(60251);
  const int runs = tests::simulated(40000, 8000);
  const auto simulated = [&](double shift, bool is_cusum) {
    double sum = 0;
    for (int run = 0; run < runs; ++run) {
      double high = 0, low = 0, z = 0;
      for (;;) {
        const double u = shift + bench.normal();
        sum += 1;
        high = std::max(0.0, high + u - 0.5);
        low = std::max(0.0, low - u - 0.5);
        z = 0.2 * u + 0.8 * z;
        if (is_cusum ? std::max(high, low) > 3 : std::abs(z) > 2.962 / 3) break;
      }
    }
    return sum / runs;
  };
  Evidence row("simulation, seeded", "1");
  row.within_percent(average_run_length(cusum(0.5, 3), 0), simulated(0, true), 4);
  row.within_percent(average_run_length(cusum(0.5, 3), 1), simulated(1, true), 2);
  row.within_percent(average_run_length(ewma(0.2, 2.962), 1), simulated(1, false), 2);
}

TEST(ControlChart, metrology_P14) {
  const std::vector<double> data = {52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5,
                                    49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1};
  const std::vector<double> printed = {50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33,
                                       50.11, 49.36, 49.52, 50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99};
  const Ewma chart = ewma_chart(data, 50, 2.0539, 0.3, 3);
  Evidence row("sematech-handbook, EWMA example");
  for (std::size_t i = 0; i < printed.size(); ++i) row.near(chart.value[i], printed[i], 0.005);
  row.near(50 + chart.half_width.front(), 51.8485, 1e-4);
  row.near(50 + chart.half_width[14], 52.5884, 1e-3);
  EXPECT_FALSE(chart.first_alarm);
}

TEST(ControlChart, metrology_P15) {
  const std::vector<double> data = {324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125, 324.525, 325.225, 324.600,
                                    324.625, 325.150, 328.325, 327.250, 327.825, 328.500, 326.675, 327.775, 326.875, 328.350};
  const Cusum chart = cusum_chart(data, 325, 1, 0.3175, 4.1959);
  Evidence row("sematech-handbook, CUSUM example");
  ASSERT_TRUE(chart.first_alarm);
  row.near(static_cast<double>(*chart.first_alarm), 14, 1e-9);
  row.near(chart.high[13], 4.94, 1e-3);
  row.near(chart.high.back(), 19.035, 1e-3);
}

TEST(ControlChart, metrology_P16) {
  const std::vector<double> offsets = {.5, -1, 1.5, 0, -2, 1, -.5, 2, -1.5, 0, 2.5, 1, 4, 3, 2, 5, 3.5, 4.5, 6, 5};
  const Cusum sums = cusum_chart(offsets, 0, 2, 0.5, 4);
  const Ewma mean = ewma_chart(offsets, 0, 2, 0.2, 2.962);
  Evidence row("offsets of a furnace, computed apart", "1");
  ASSERT_TRUE(sums.first_alarm && mean.first_alarm);
  row.near(static_cast<double>(*sums.first_alarm), 16, 1e-9);
  row.near(static_cast<double>(*mean.first_alarm), 16, 1e-9);
  row.near(sums.high[15], 5.75, 1e-3);
  row.near(mean.value[15] / 2, 1.1742, 1e-3);
  row.near(mean.half_width[15] / 2, 0.9869, 1e-3);
  EXPECT_FALSE(shewhart_chart(offsets, 0, 2).beyond_three_sigma);
}

}  // namespace
}  // namespace heatwork
