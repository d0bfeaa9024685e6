// "Is its vacuum, its heating still what it was?": checks from a record of a gauge or of the display, worked out whole and kept if asked.
#pragma once

#include <string>
#include <vector>

#include "desk/lab/furnace_check.h"

namespace heatwork::desk {

/// Readings over time: typed one by one, or a table; one of the three.
struct RecordTyped {
  std::vector<std::string> readings;  ///< "30 s, 300 mbar" or "30 s, 412 °C"
  std::string file;                   ///< of a table on this machine
  std::string table;                  ///< its text
};

/// Beside the record: `answers` take "vacuum.gauge", "vacuum.barometer", "vacuum.pump_warm", "vacuum.room", "vacuum.chamber".
struct VacuumCheckWords : FurnaceCheckWords {
  RecordTyped pump_down, rise;
  bool cannot_be_shut = false;  ///< this furnace does not hold its vacuum with the pump off
};

/// Beside the record: `answers` take "heating_run.mains", "heating_run.room", "heating_run.capped", "heating_run.asked_rate".
struct HeatingCheckWords : FurnaceCheckWords {
  RecordTyped run;
};

// Nothing is kept but where `keep` says so. Wrong where the furnace is not good. Errors: Failure, std::domain_error, trade::Mistake,
// records::StoreError; then nothing was kept.

CareAnswer check_vacuum(const AskedLab& asked, const VacuumCheckWords& words);
CareAnswer check_heating(const AskedLab& asked, const HeatingCheckWords& words);

}  // namespace heatwork::desk
