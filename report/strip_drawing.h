// Draws one strip: panel, windows, wanted bands, lines, marks in lanes, key and notes beside it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "firing/rehearsal.h"
#include "report/axis.h"
#include "report/strips.h"
#include "report/svg.h"

namespace heatwork::report {

/// Where things stand across the picture, in pixels; the same for every strip.
struct PictureColumns {
  double width = 1366;
  double margin = 24;
  double plot_left = 150;
  double plot_right = 1054;
  double key_left = 1072;
  double marks_left = 150;  ///< words of marks stand between these
  double marks_right = 1054;
  [[nodiscard]] double key_right() const { return width - margin; }
};

/// What every strip of a picture shares.
struct StripFrame {
  PictureColumns columns;
  Axis time;
  std::vector<double> time_ticks_s;
  std::vector<double> guides_s;  ///< moments drawn through all strips
  std::vector<SealingWindow> windows;
  std::optional<double> bench_from_s;  ///< the firing is over then, and the picture goes on
  const firing::Rehearsal* rehearsal = nullptr;
  const Numbers* numbers = nullptr;
  std::string id = "picture";  ///< what ids in the picture begin with
};

/// How tall a plot is, and how tall with the lanes of its marks at least; `plot_top`, where given, is set to where the plot begins. [px]
struct PlotHeight {
  double plot = 0, with_marks = 0;
  double* plot_top = nullptr;
};

/// Draws the marks of a strip and its plot under them from `top` down, without title and key; returns where it ends. [px]
double draw_plot(Svg& svg, const Strip& strip, const StripFrame& frame, double top, const PlotHeight& height);
/// Draws a strip from `top` down and returns where it ends. [px]
double draw_strip(Svg& svg, const Strip& strip, const StripFrame& frame, double top);
/// Draws what happens round the highest temperature, large, into a box of the key column; returns where it ends. [px]
double draw_close_up(Svg& svg, const Strip& temperature, const StripFrame& frame, double top, double height);
/// Height the key of a strip takes. [px]
double key_height(const Strip& strip, const StripFrame& frame);

}  // namespace heatwork::report
