#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <vector>

#include "metrology/control_chart.h"
#include "metrology/distributions.h"
#include "metrology/range.h"

namespace heatwork::metrology {
namespace {

struct Nodes {
  std::vector<double> at, weight;
};

/// Gauss-Legendre nodes of an interval, by Newton on the Legendre polynomial.
Nodes gauss_legendre(std::size_t count, double low, double high) {
  Nodes out;
  const auto n = static_cast<double>(count);
  for (std::size_t i = 0; i < count; ++i) {
    double x = std::cos(std::numbers::pi * (static_cast<double>(i) + 0.75) / (n + 0.5)), slope = 1.0;
    for (int step = 0; step < 100; ++step) {
      double before = 0.0, now = 1.0;
      for (std::size_t k = 0; k < count; ++k) {
        const double next =
            ((2.0 * static_cast<double>(k) + 1.0) * x * now - static_cast<double>(k) * before) / (static_cast<double>(k) + 1.0);
        before = now;
        now = next;
      }
      slope = n * (x * now - before) / (x * x - 1.0);
      const double move = now / slope;
      x -= move;
      if (std::abs(move) < 1e-15) break;
    }
    out.at.push_back(0.5 * (low + high) + 0.5 * (high - low) * x);
    out.weight.push_back((high - low) / ((1.0 - x * x) * slope * slope));
  }
  return out;
}

/// Solves the equations a x = y in place, with pivots.
std::vector<double> solved(std::vector<std::vector<double>> a, std::vector<double> y) {
  const std::size_t n = y.size();
  for (std::size_t j = 0; j < n; ++j) {
    std::size_t pivot = j;
    for (std::size_t i = j + 1; i < n; ++i) pivot = std::abs(a[i][j]) > std::abs(a[pivot][j]) ? i : pivot;
    std::swap(a[j], a[pivot]);
    std::swap(y[j], y[pivot]);
    for (std::size_t i = j + 1; i < n; ++i) {
      const double factor = a[i][j] / a[j][j];
      for (std::size_t k = j; k < n; ++k) a[i][k] -= factor * a[j][k];
      y[i] -= factor * y[j];
    }
  }
  for (std::size_t j = n; j-- > 0;) {
    for (std::size_t k = j + 1; k < n; ++k) y[j] -= a[j][k] * y[k];
    y[j] /= a[j][j];
  }
  return y;
}

/// L(u) = 1 + L(floor) * stuck(u) + integral of L(x) density(x, u) dx: run lengths at the nodes, and the one at the floor first.
template <typename Stuck, typename Density>
double run_length_at(double start, double floor, const Nodes& nodes, Stuck stuck, Density density) {
  const std::size_t n = nodes.at.size() + 1;
  std::vector<std::vector<double>> a(n, std::vector<double>(n, 0.0));
  const auto place = [&](std::size_t i) { return i == 0 ? floor : nodes.at[i - 1]; };
  for (std::size_t i = 0; i < n; ++i) {
    a[i][0] = -stuck(place(i));
    for (std::size_t j = 1; j < n; ++j) a[i][j] = -nodes.weight[j - 1] * density(nodes.at[j - 1], place(i));
    a[i][i] += 1.0;
  }
  const std::vector<double> lengths = solved(std::move(a), std::vector<double>(n, 1.0));
  double out = 1.0 + stuck(start) * lengths[0];
  for (std::size_t j = 1; j < n; ++j) out += nodes.weight[j - 1] * density(nodes.at[j - 1], start) * lengths[j];
  return out;
}

double cusum_one_sided(const ChartSetting& chart, double shift, double start) {
  const auto count = static_cast<std::size_t>(std::clamp(12.0 * chart.limit, 40.0, 160.0));
  const Nodes nodes = gauss_legendre(count, 0.0, chart.limit);
  const auto stuck = [&](double from) { return normal_share_below(chart.slack - from - shift); };
  const auto density = [&](double to, double from) { return normal_density(to + chart.slack - from - shift); };
  return run_length_at(start, 0.0, nodes, stuck, density);
}

double cusum_two_sided(const ChartSetting& chart, double shift) {
  const double up = cusum_one_sided(chart, shift, 0.0), down = cusum_one_sided(chart, -shift, 0.0);
  if (chart.head_start <= 0.0) return 1.0 / (1.0 / up + 1.0 / down);
  const double up_ahead = cusum_one_sided(chart, shift, chart.head_start), down_ahead = cusum_one_sided(chart, -shift, chart.head_start);
  return (up_ahead * down + up * down_ahead - up * down) / (up + down);
}

double ewma(const ChartSetting& chart, double shift) {
  const double w = chart.weight, reach = chart.limit * std::sqrt(w / (2.0 - w));
  const double low = chart.two_sided ? -reach : 0.0;
  // Enough nodes for a kernel as narrow as the weight.
  const auto count = static_cast<std::size_t>(std::clamp(6.0 * (reach - low) / w, 60.0, 260.0));
  const Nodes nodes = gauss_legendre(count, low, reach);
  const auto stuck = [&](double from) { return chart.two_sided ? 0.0 : normal_share_below((low - (1.0 - w) * from) / w - shift); };
  const auto density = [&](double to, double from) { return normal_density((to - (1.0 - w) * from) / w - shift) / w; };
  return run_length_at(0.0, low, nodes, stuck, density);
}

}  // namespace

double average_run_length(const ChartSetting& chart, double shift) {
  require_within(shift, -10.0, 10.0, "The shift (sigma)");
  require_within(chart.limit, 1e-6, 20.0, "The limit");
  double out = 0.0;
  if (chart.kind == ChartKind::shewhart) {
    const double above = normal_share_below(shift - chart.limit);
    out = 1.0 / (chart.two_sided ? above + normal_share_below(-chart.limit - shift) : above);
  } else if (chart.kind == ChartKind::cusum) {
    require_within(chart.slack, 0.0, 5.0, "The slack k");
    require_within(chart.head_start, 0.0, chart.limit, "The head start");
    out = chart.two_sided ? cusum_two_sided(chart, shift) : cusum_one_sided(chart, shift, chart.head_start);
  } else {
    require_within(chart.weight, 0.01, 1.0, "The weight lambda");
    if (chart.weight == 1.0) return average_run_length({ChartKind::shewhart, chart.limit, 0.5, 1.0, 0.0, chart.two_sided}, shift);
    out = ewma(chart, shift);
  }
  // Beyond some 1e12 checks the equations no longer hold the answer in double precision.
  if (!(out >= 1.0 - 1e-9 && out < 1e12))
    throw std::domain_error("The average run length is beyond 1e12 checks: there is no number for it.");
  return out;
}

}  // namespace heatwork::metrology
