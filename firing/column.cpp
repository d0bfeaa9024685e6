#include "firing/column.h"

#include <algorithm>
#include <stdexcept>

namespace heatwork::firing {
namespace {

void check(std::span<const double> times_s, std::span<const double> column) {
  if (column.empty() || column.size() != times_s.size())
    throw std::logic_error("a column of a history is empty or of another length than its times");
}

/// Between the point before `right` and `right`, `right` at least 1.
double between(std::span<const double> times_s, std::span<const double> column, std::size_t right, double at_s) {
  const double width = times_s[right] - times_s[right - 1];
  const double share = width > 0 ? (at_s - times_s[right - 1]) / width : 1.0;
  return column[right - 1] + share * (column[right] - column[right - 1]);
}

}  // namespace

double value_at(std::span<const double> times_s, std::span<const double> column, double at_s) {
  check(times_s, column);
  const auto after = static_cast<std::size_t>(std::upper_bound(times_s.begin(), times_s.end(), at_s) - times_s.begin());
  if (after == 0) return column.front();
  if (after == times_s.size()) return column.back();
  return between(times_s, column, after, at_s);
}

std::vector<double> read_off(std::span<const double> times_s, std::span<const double> column, std::span<const double> to_s) {
  check(times_s, column);
  std::vector<double> out(to_s.size());
  std::size_t right = 0;
  for (std::size_t i = 0; i < to_s.size(); ++i) {
    while (right < times_s.size() && times_s[right] < to_s[i]) ++right;
    if (right == 0) {
      out[i] = column.front();
    } else if (right == times_s.size()) {
      out[i] = column.back();
    } else {
      out[i] = between(times_s, column, right, to_s[i]);
    }
  }
  return out;
}

}  // namespace heatwork::firing
