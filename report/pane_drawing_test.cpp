#include "report/pane_drawing.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <regex>
#include <string>

#include "report/firing_picture.h"
#include "report/made_up_rehearsal.h"

namespace heatwork::report {
namespace {

std::string pane(double width_px, double height_px = 0) {
  PictureOptions options;
  options.pane_width_px = width_px;
  options.pane_height_px = height_px;
  return firing_picture(made_up::rehearsal({}, true), made_up::verdict(), made_up::limits(), made_up::words(), options);
}

double attribute(const std::string& svg, const std::string& name) {
  std::smatch found;
  return std::regex_search(svg, found, std::regex(" " + name + "=\"([0-9.]+)\"")) ? std::atof(found[1].str().c_str()) : -1;
}

int count_of(const std::string& text, const std::string& what) {
  int count = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + what.size())) ++count;
  return count;
}

TEST(PaneDrawing, IsAsWideAsThePaneInsideWhatCanBeRead) {
  EXPECT_EQ(attribute(pane(560), "width"), 560);
  EXPECT_EQ(attribute(pane(358), "width"), 358);
  EXPECT_EQ(attribute(pane(20), "width"), narrowest_pane_px);
  EXPECT_EQ(attribute(pane(9000), "width"), widest_pane_px);
}

TEST(PaneDrawing, MarksEveryMomentAtAnyWidth) {
  const std::size_t moments = made_up::rehearsal({}, true).moments.size();
  for (const double width : {320.0, 560.0, 900.0}) EXPECT_EQ(count_of(pane(width), "data-moment="), static_cast<int>(moments)) << width;
}

TEST(PaneDrawing, PlotsGrowAndShrinkTowardsTheHeightOfThePane) {
  const double natural = attribute(pane(560), "height");
  const double lower = attribute(pane(560, natural - 60), "height"), higher = attribute(pane(560, natural + 80), "height");
  EXPECT_NEAR(lower, natural - 60, 2);
  EXPECT_NEAR(higher, natural + 80, 2);
  EXPECT_GT(attribute(pane(560, 10), "height"), 0.5 * natural) << "a plot never gets too low to read";
}

TEST(PaneDrawing, LeavesHeadAndFootToTheScreenButTellsAllInItsDescription) {
  const std::string svg = pane(560);
  EXPECT_EQ(count_of(svg, "class=\"headline\""), 0);
  EXPECT_EQ(count_of(svg, "class=\"title\""), 0);
  EXPECT_NE(svg.find("<desc id=\"picture-desc\">"), std::string::npos);
  EXPECT_NE(svg.find("First finding, "), std::string::npos);
}

}  // namespace
}  // namespace heatwork::report
