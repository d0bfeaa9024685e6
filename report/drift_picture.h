// The picture of a furnace's kept checks: display error over the days with trend and limits, and below it the two sums. SVG.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "report/firing_picture.h"
#include "report/number.h"

namespace heatwork::report {

/// One check as it is drawn; days count from any one day.
struct DriftPoint {
  double day = 0;
  double error_K = 0, uncertainty_K = 0;
  double trend_K = 0, half_width_K = 0, target_K = 0;
  double high = 0, low = 0;  ///< sums, in standard deviations
  bool set_aside = false;
};

/// A word at a day: drawn through both strips and written above the upper one.
struct DriftMark {
  double day = 0;
  std::string words;
  bool begins_run = false;  ///< lines before and after it are not joined
};

struct DriftTick {
  double day = 0;
  std::string label;
};

struct DriftForecastLine {
  double from_day = 0, from_K = 0, to_day = 0, to_K = 0;
};

struct DriftPicture {
  std::string title, setting;   ///< what it is of; how often is checked and by which limits
  std::string level, sentence;  ///< what the charts say
  std::vector<std::string> notes;
  std::vector<DriftPoint> points;  ///< oldest first, at least one
  std::vector<DriftMark> marks;
  std::vector<DriftTick> ticks;
  double limit_K = 10;   ///< what the lab lets the display be off
  double sum_limit = 3;  ///< beyond it a sum alarms
  std::optional<DriftForecastLine> forecast;
};

/// Draws the checks as one SVG document, 1000 px wide or as wide as the pane; the same checks give the same bytes.
std::string drift_picture(const DriftPicture& picture, const Numbers& numbers, const PictureOptions& options = {});

}  // namespace heatwork::report
