// The firing picture for a pane of a screen, narrow or wide: strips alone, each with its title and key above its plot.
#pragma once

#include <vector>

#include "report/strip_drawing.h"

namespace heatwork::report {

/// Narrowest and widest pane a picture is drawn for. [px]
inline constexpr double narrowest_pane_px = 320, widest_pane_px = 1366;

/// Where things stand across a pane: the plot takes its whole width, so that letters keep their size on a small screen.
PictureColumns pane_columns(double width_px);

/// Draws all strips and the time axis from `top` down; returns where they end. Plots grow or shrink to come near `height_px`
/// as far as they stay readable; 0 leaves them as they are. [px]
double draw_pane(Svg& svg, const std::vector<Strip>& strips, const StripFrame& frame, double top, double height_px);

}  // namespace heatwork::report
