// Limits of judgement with standing and source; shipped in data/limits/, a lab may set its own.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "trade/place.h"

namespace heatwork::trade {

/// First and second limit of one aspect's number; a limit without a second gives `borderline` at most.
struct Limit {
  double first = 0;
  std::optional<double> second;
  std::string unit;
  std::string meaning;
  Standing standing = Standing::assumed;
  std::string source;
  bool of_lab = false;  ///< set by the lab, not shipped
};

/// What a broken rule without a number amounts to.
enum class RuleLevel { fault_expected, borderline };

/// A rule of the trade without a number: its level when it is broken.
struct Rule {
  RuleLevel level = RuleLevel::borderline;
  std::string meaning;
  Standing standing = Standing::assumed;
  std::string source;
  bool of_lab = false;  ///< set by the lab, not shipped
};

struct Limits {
  std::map<std::string, Limit, std::less<>> by_name;
  std::map<std::string, Rule, std::less<>> rules;
  /// Errors: std::out_of_range naming the limit; all names used by judge() ship.
  [[nodiscard]] const Limit& at(std::string_view name) const;
  /// Errors: std::out_of_range naming the rule.
  [[nodiscard]] const Rule& rule(std::string_view name) const;
};

/// Reads a limits file. Errors: located sentence as every reader's.
Limits read_limits(std::string_view source_name, std::string_view text);

}  // namespace heatwork::trade
