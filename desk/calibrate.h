// The use case "calibrate a material of mine": one trial firing and how it came out in, a material's file out.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "desk/json_value.h"
#include "firing/trial.h"
#include "trade/material.h"

namespace heatwork::desk {

/// What was fired, how it came out, and what the material shall be called; as typed.
struct CalibrateAsked {
  std::string firing_file;
  std::optional<std::string> piece;             ///< absent: the only one
  std::optional<std::string> material;          ///< of its green layers; absent: the only one
  std::optional<std::string> degree;            ///< "10 K": like so much too much; absent: it looked right
  std::optional<std::string> glass_transition;  ///< absent: that of the material it starts from
  std::string name;
  std::string output;  ///< ends in .toml
};

/// How far its firing temperature may be off, either way [K].
struct CalibratedRanges {
  double here_K = 0;
  double another_tray_K = 0;  ///< in the same furnace
  std::optional<double>
      as_well_checked_K;       ///< in another furnace whose display is known as well as the trial's; absent: that was never checked
  double never_checked_K = 0;  ///< in another furnace whose display was never checked
};

struct Calibration {
  firing::Trial trial;
  firing::TrialFound found;
  trade::Material from;      ///< what it started from
  trade::Material material;  ///< what was found, as its file says it
  CalibratedRanges ranges;
  std::string firing_folder;  ///< of the trial's file
  std::string output;
  std::string inputs_hash;            ///< of the trial as fired, with the material it started from
  std::vector<std::string> cautions;  ///< plain sentences
};

/// Reads a trial and writes the material's file, whole or not at all; a file that stands there already is never replaced.
/// Errors: Failure, trade::Mistake, std::domain_error, each one sentence.
Calibration calibrate(const CalibrateAsked& asked);

/// Text of at most 100 columns.
std::string calibration_as_text(const Calibration& calibration);
/// Keys stay; `format` first.
Json calibration_as_json(const Calibration& calibration);

}  // namespace heatwork::desk
