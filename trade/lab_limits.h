// The lab's own limits, beside its firings: they come before the shipped ones, and after those of a maker's instruction.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "trade/limits.h"

namespace heatwork::trade {

/// Name of the file that is sought beside a firing.
inline constexpr std::string_view lab_limits_file = "lab-limits.toml";

/// The shipped limits with those the lab sets: `[limits.NAME] first, second, unit, source` and `[rules.NAME] level, source`.
/// A limit keeps its unit and the order of first and second, and has a second where the shipped one has: nothing becomes sound by leaving a
/// line out. Errors: located sentence as every reader's.
Limits with_lab_limits(const Limits& shipped, std::string_view source_name, std::string_view text);

/// The file of the lab's limits beside a firing's file; absent where there is none.
std::optional<std::filesystem::path> find_lab_limits(const std::filesystem::path& firing_file);

}  // namespace heatwork::trade
