// The maker's sheet for a material and stage of work, kept as the lab typed it: limits and program.
#pragma once

#include <string>
#include <vector>

#include "quantity/quantity.h"
#include "trade/place.h"
#include "trade/stage_of_work.h"

namespace heatwork::trade {

/// Limits of the sheet; an absent one is not limited by the maker.
struct InstructionLimits {
  Maybe<quantity::Temperature> entry_at_most;
  Maybe<quantity::Duration> drying_at_least;
  Maybe<quantity::Duration> closing_at_least;
  Maybe<quantity::HeatingRate> rate_at_least, rate_at_most;
  Maybe<quantity::Temperature> top_at_least, top_at_most;
  Maybe<quantity::Duration> hold_at_least, hold_at_most;
  Maybe<quantity::Temperature> vacuum_from_at_most;
  Maybe<quantity::Pressure> vacuum_level_at_most;
  Maybe<quantity::HeatingRate> cooling_rate_at_most;
  Maybe<quantity::Temperature> opening_at_most;
};

struct Instruction {
  std::string name;
  std::string label;
  std::string note;
  Given<std::string> material;  ///< name of a Material
  Given<StageOfWork> stage;
  std::string edition;
  std::string date;            ///< ISO 8601, as printed on the sheet
  std::string file_hash;       ///< BLAKE2b-256 of the sheet's scan, hexadecimal, may be empty
  Given<std::string> program;  ///< name of a Program
  Maybe<std::string> tray;     ///< name of a Tray; absent: the lab's lightest
  InstructionLimits limits;
  Place place;
};

}  // namespace heatwork::trade
