// A check that leaves its row in the evidence report: value, expected, tolerance, unit, source, kind.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <string>

namespace heatwork::reference {

/// Records and tests checks of one test, in order; the second and later ones get their own row.
class Evidence {
 public:
  explicit Evidence(std::string source, std::string unit = "1", std::string kind = "verification")
      : source_(std::move(source)), unit_(std::move(unit)), kind_(std::move(kind)) {}

  /// Within a tolerance in the unit of the value.
  void near(double value, double expected, double tolerance) { row(value, expected, number(tolerance), tolerance); }

  /// Within so many percent of the expected value.
  void within_percent(double value, double expected, double percent) {
    row(value, expected, number(percent) + " %", std::abs(expected) * percent / 100.0);
  }

  /// Between two values; recorded as their middle and half their distance.
  void between(double value, double low, double high) { near(value, 0.5 * (low + high), 0.5 * (high - low)); }

  /// Not below another value; recorded as what is short of it.
  void above(double value, double floor) { row(std::max(0.0, floor - value), 0, "1e-9", 1e-9); }

  /// As `above`, but known to be missed: the row stays in the report as a miss, and whoever mends the model learns that it no longer is
  /// one.
  void missed_above(double value, double floor) {
    record(floor - value, 0, "1e-9");
    EXPECT_LT(value, floor) << "check " << count_ << " is met and no longer a miss";
  }

  /// Unit and source of the rows to come.
  void in(const std::string& unit) { unit_ = unit; }
  void from(const std::string& source) { source_ = source; }

 private:
  static std::string number(double value) {
    char text[40];
    std::snprintf(text, sizeof text, "%.8g", value);
    return text;
  }

  void record(double value, double expected, const std::string& tolerance) {
    const std::string tail = ++count_ == 1 ? "" : "_" + std::to_string(count_);
    ::testing::Test::RecordProperty("value" + tail, number(value));
    ::testing::Test::RecordProperty("expected" + tail, number(expected));
    ::testing::Test::RecordProperty("tolerance" + tail, tolerance);
    ::testing::Test::RecordProperty("unit" + tail, unit_);
    ::testing::Test::RecordProperty("source" + tail, source_);
    ::testing::Test::RecordProperty("kind" + tail, kind_);
  }

  void row(double value, double expected, const std::string& tolerance, double allowed) {
    record(value, expected, tolerance);
    EXPECT_NEAR(value, expected, allowed) << "check " << count_ << ", unit " << unit_;
  }

  std::string source_, unit_, kind_;
  int count_ = 0;
};

}  // namespace heatwork::reference
