#include "physics/response_surface.h"

#include <algorithm>
#include <cmath>

namespace heatwork::physics {

namespace {

constexpr unsigned highest_degree = 4;

std::vector<std::array<unsigned, 4>> all_up_to(unsigned degree) {
  std::vector<std::array<unsigned, 4>> all;
  for (unsigned sum = 0; sum <= degree; ++sum)
    for (unsigned a = 0; a <= sum; ++a)
      for (unsigned b = 0; a + b <= sum; ++b)
        for (unsigned c = 0; a + b + c <= sum; ++c) all.push_back({a, b, c, sum - a - b - c});
  return all;
}

// Legendre's polynomials on 0 to 1: nearly independent of one another over a spread set.
std::array<double, highest_degree + 1> legendre(double share) {
  const double x = 2.0 * share - 1.0;
  std::array<double, highest_degree + 1> p{1.0, x};
  for (unsigned n = 1; n < highest_degree; ++n) p[n + 1] = ((2.0 * n + 1.0) * x * p[n] - n * p[n - 1]) / (n + 1.0);
  return p;
}

}  // namespace

ResponseSurface::ResponseSurface(std::span<const SpreadPoint> members) {
  degrees_ = all_up_to(1);
  for (unsigned degree = 2; degree <= highest_degree; ++degree)
    if (auto more = all_up_to(degree); 2 * more.size() <= members.size()) degrees_ = std::move(more);
  layout_ = at(members);
  const std::size_t terms = degrees_.size();
  normal_.shape(std::vector<std::size_t>(terms, 0));
  for (std::size_t i = 0; i < terms; ++i)
    for (std::size_t j = 0; j <= i; ++j)
      for (std::size_t m = 0; m < members.size(); ++m) normal_.at(i, j) += layout_[m * terms + i] * layout_[m * terms + j];
  normal_.factor();
}

std::vector<double> ResponseSurface::at(std::span<const SpreadPoint> points) const {
  std::vector<double> layout;
  layout.reserve(points.size() * degrees_.size());
  for (const SpreadPoint& point : points) {
    std::array<std::array<double, highest_degree + 1>, 4> of{};
    for (std::size_t d = 0; d < 4; ++d) of[d] = legendre(point[d]);
    for (const auto& degree : degrees_) layout.push_back(of[0][degree[0]] * of[1][degree[1]] * of[2][degree[2]] * of[3][degree[3]]);
  }
  return layout;
}

ResponseSurface::Fit ResponseSurface::fit(std::span<const double> values) const {
  const std::size_t terms = degrees_.size(), members = values.size();
  Fit fit{std::vector<double>(terms, 0.0), 0.0};
  for (std::size_t m = 0; m < members; ++m)
    for (std::size_t i = 0; i < terms; ++i) fit.shares[i] += layout_[m * terms + i] * values[m];
  normal_.solve(fit.shares.data());
  const std::vector<double> found = this->values(fit, layout_);
  double squares = 0.0;
  for (std::size_t m = 0; m < members; ++m) squares += (found[m] - values[m]) * (found[m] - values[m]);
  fit.misses = std::sqrt(squares / static_cast<double>(members - terms));
  return fit;
}

std::vector<double> ResponseSurface::values(const Fit& fit, std::span<const double> layout) const {
  const std::size_t terms = fit.shares.size();
  std::vector<double> all(layout.size() / terms, 0.0);
  for (std::size_t p = 0; p < all.size(); ++p)
    for (std::size_t i = 0; i < terms; ++i) all[p] += fit.shares[i] * layout[p * terms + i];
  return all;
}

}  // namespace heatwork::physics
