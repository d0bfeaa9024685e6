// "Is this furnace qualified?": as found and as left, what is open, specimen firings, out of use; as text, JSON and a sheet to sign.
#pragma once

#include <string>
#include <vector>

#include "desk/lab/asked.h"
#include "desk/lab/clock.h"
#include "desk/lab/furnace_history.h"
#include "desk/lab/store_care.h"
#include "furnace_care/qualification.h"
#include "report/number.h"
#include "report/raster.h"
#include "trade/words.h"

namespace heatwork::desk {

/// A furnace's kept checks as its qualification takes them.
struct FurnaceReport {
  FurnaceKept kept;
  std::string today, zone;
  std::vector<std::size_t> of_check;  ///< which kept check each of the next is
  std::vector<furnace_care::QualifyingCheck> checks;
  furnace_care::Qualification qualification;
};

/// Errors: Failure unknown_name; trade::Mistake; records::StoreError.
FurnaceReport report_of_furnace(const AskedLab& asked, const std::string& furnace, const Clock& clock = clock_of_machine());

/// Wrong where the furnace is not qualified, or out of use.
CareAnswer answer_of(const FurnaceReport& report);

/// How a sheet speaks to whoever reads it.
struct SheetSpeech {
  trade::Language language = trade::Language::english;
  report::TemperatureScale units = report::TemperatureScale::celsius;
};

/// A page a string, SVG.
std::vector<std::string> sheet_of(const FurnaceReport& report, report::Paper paper, const SheetSpeech& speech);

/// The sheet as a PDF. `paper`: "a4" or "letter"; empty: a4. Errors: as report_of_furnace; Failure bad_value; part_missing.
std::string report_sheet(const AskedLab& asked, const std::string& furnace, const std::string& paper, const SheetSpeech& speech);

/// Writes the sheet as a PDF. Errors: Failure wrong_use where the name does not end in .pdf; cannot_write, part_missing.
void write_report_sheet(const std::string& path, const FurnaceReport& report, report::Paper paper, const SheetSpeech& speech);
/// Errors: Failure wrong_use where the name does not end in .pdf.
void check_sheet_name(const std::string& path);

}  // namespace heatwork::desk
