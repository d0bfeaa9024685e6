// "Has this furnace drifted?": the charts of its kept checks as text, JSON and picture.
#pragma once

#include <string>
#include <vector>

#include "desk/lab/asked.h"
#include "desk/lab/clock.h"
#include "desk/lab/store_care.h"
#include "furnace_care/drift.h"
#include "report/firing_picture.h"
#include "trade/words.h"

namespace heatwork::desk {

struct ChartWords {
  std::string furnace;
  std::string of;     ///< "temperature", "thermocouple"; empty: both
  std::string limit;  ///< what the display may be off, "10 K"; empty: as the newest check states, else as checks are judged
};

/// A check that no chart can take.
struct CheckLeftOut {
  std::string name, sentence;
};

/// What the store keeps of a furnace, charted.
struct ChartedFurnace {
  std::string furnace, zone;
  std::vector<std::string> of;
  double limit_K = 0;
  std::string limit_from;  ///< "asked", "check NAME", "chosen here"
  std::vector<furnace_care::ChartedCheck> checks;
  std::vector<std::string> at, kind;  ///< of each: UTC; what it checked
  std::vector<CheckLeftOut> left_out;
  furnace_care::DriftChart chart;
};

/// Errors: Failure bad_value, unknown_name (no furnace of that name), no_answer (no check to chart); trade::Mistake; records::StoreError.
ChartedFurnace charted_furnace(const AskedLab& asked, const ChartWords& words);

/// Wrong where the charts do not find the furnace good.
CareAnswer answer_of(const ChartedFurnace& charted);

/// One SVG, in the reader's language.
std::string picture_of(const ChartedFurnace& charted, trade::Language language, const report::PictureOptions& options = {});

/// Draws it into a file that ends in .svg, .png or .pdf. Errors: Failure wrong_use, cannot_write, part_missing.
void write_chart_picture(const std::string& path, const ChartedFurnace& charted, trade::Language language,
                         report::TemperatureScale units = report::TemperatureScale::celsius);

/// What was charted, what the charts say, and what to do next, in one sentence each.
std::string chart_finding(const ChartedFurnace& charted);
std::string chart_next(const ChartedFurnace& charted);
std::string_view outcome_word(furnace_care::ChartOutcome outcome);

}  // namespace heatwork::desk
