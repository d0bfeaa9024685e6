// The firing picture: time to the right, temperature on top, one strip a phenomenon below, the moments that decide in words. SVG.
#pragma once

#include <string>

#include "firing/rehearsal.h"
#include "report/number.h"
#include "trade/limits.h"
#include "verdict/finding.h"

namespace heatwork::report {

/// Paper or screen: light, dark, or whichever the reader's screen asks for (renderers that know no such wish draw it light).
enum class Shade { as_asked, light, dark };

struct PictureOptions {
  TemperatureScale scale = TemperatureScale::celsius;
  Shade shade = Shade::as_asked;
  bool own_style = true;        ///< false: classes only, for a page that brings picture_style() itself and allows no style sheet inside
  std::string id = "picture";   ///< what the ids in it begin with, so that two stand on one page
  bool stress_follows = false;  ///< leaves the strip of the stress its place, where an answer with it is still to come
  double pane_width_px = 0;     ///< of a pane of a screen that shows findings and answers beside the picture; 0: the whole sheet
  double pane_height_px = 0;    ///< height the pane has for it; 0: as high as it comes
};

/// Draws a rehearsal and its first finding, judged with the same words, as one SVG document of 1366 px width, or of the pane's; the same
/// rehearsal gives the same bytes. Wanted bands come from `limits` and the program; a limit that is not there leaves its band out.
std::string firing_picture(const firing::Rehearsal& rehearsal, const verdict::Verdict& verdict, const trade::Limits& limits,
                           const trade::Words& words, const PictureOptions& options = {});

/// The style sheet for pictures without their own, inside `.firing-picture` only: light, dark where the reader asks for it, and either
/// where an element around it has data-theme="light" or "dark".
std::string picture_style();

}  // namespace heatwork::report
