// Reading a column of a history between its points. One home for chamber, pieces, verdict, report and desk.
#pragma once

#include <span>
#include <vector>

namespace heatwork::firing {

/// A column given at rising times read off at one time, linear between points, its end values outside them.
/// Errors: std::logic_error where the column is empty or of another length than its times.
double value_at(std::span<const double> times_s, std::span<const double> column, double at_s);

/// The same at many rising times, in one pass.
std::vector<double> read_off(std::span<const double> times_s, std::span<const double> column, std::span<const double> to_s);

}  // namespace heatwork::firing
