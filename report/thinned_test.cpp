#include "report/thinned.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <regex>
#include <string>

#include "report/firing_picture.h"
#include "report/made_up_rehearsal.h"

namespace heatwork::report {
namespace {

double distance_to(const Point& point, const std::vector<Point>& line) {
  double least = 1e9;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double dx = line[i].x - line[i - 1].x, dy = line[i].y - line[i - 1].y, square = dx * dx + dy * dy;
    const double along = square > 0 ? std::clamp(((point.x - line[i - 1].x) * dx + (point.y - line[i - 1].y) * dy) / square, 0.0, 1.0) : 0;
    least = std::min(least, std::hypot(point.x - line[i - 1].x - along * dx, point.y - line[i - 1].y - along * dy));
  }
  return least;
}

TEST(Thinned, EveryPointGivenStaysNearTheLineThatIsDrawn) {
  std::vector<Point> curve;
  for (int i = 0; i <= 2000; ++i) {
    const double x = 0.45 * i;
    curve.push_back({x, 120 + 80 * std::sin(x / 40) + (i > 900 && i < 910 ? 30.0 : 0.0) + 60 * std::exp(-x / 9)});
  }
  for (const double within : {0.05, thinned_px, 0.3}) {
    const std::vector<Point> drawn = thinned(curve, within);
    EXPECT_LT(drawn.size(), curve.size() / 6);
    for (const Point& point : curve) ASSERT_LE(distance_to(point, drawn), within + 1e-9);
    for (const Point& point : drawn) ASSERT_LE(distance_to(point, curve), 1e-9) << "only points that were given";
    EXPECT_EQ(drawn.front().x, curve.front().x);
    EXPECT_EQ(drawn.back().x, curve.back().x);
  }
}

TEST(Thinned, AStraightLineIsItsEndsAndASpikeStays) {
  EXPECT_EQ(thinned({{0, 0}, {1, 1}, {2, 2}, {3, 3}}).size(), 2U);
  EXPECT_EQ(thinned({{0, 0}, {5, 0}, {5, 9}, {5, 0}, {10, 0}}).size(), 5U) << "there and back again";
  EXPECT_EQ(thinned({{1, 1}, {1, 1}, {1, 1}}).size(), 2U);
  EXPECT_TRUE(thinned({}).empty());
}

std::string drawn(const PictureOptions& options) {
  return firing_picture(made_up::rehearsal(), made_up::verdict(), made_up::limits(), made_up::words(), options);
}

TEST(PictureForAPage, HasNoStyleOfItsOwnAndIdsOfItsOwn) {
  PictureOptions options;
  options.own_style = false;
  options.id = "beside";
  const std::string svg = drawn(options);
  EXPECT_EQ(svg.find("<style"), std::string::npos);
  EXPECT_EQ(svg.find("style="), std::string::npos);
  EXPECT_LT(svg.size(), 40000U);
  static const std::regex id(" id=\"([^\"]*)\"");
  int ids = 0;
  for (std::sregex_iterator it(svg.begin(), svg.end(), id), end; it != end; ++it, ++ids) EXPECT_EQ((*it)[1].str().rfind("beside-", 0), 0U);
  EXPECT_EQ(ids, 3) << "title, description, clip of the close-up";
  EXPECT_NE(svg.find("url(#beside-close-up)"), std::string::npos);
}

TEST(PictureForAPage, ItsStyleSheetHasEveryRuleInsideThePictureOnly) {
  const std::string style = picture_style();
  EXPECT_NE(style.find("\n.firing-picture .small{"), std::string::npos);
  EXPECT_NE(style.find(":root:not([data-theme=\"light\"]) .firing-picture .paper{fill:#16181b}"), std::string::npos);
  EXPECT_NE(style.find("[data-theme=\"dark\"] .firing-picture .paper{fill:#16181b}"), std::string::npos);
  static const std::regex rule(R"(([^{}\n][^{}]*)\{)");
  for (std::sregex_iterator it(style.begin(), style.end(), rule), end; it != end; ++it) {
    std::string selectors = (*it)[1];
    if (selectors[0] == '@') continue;
    for (std::size_t from = 0; from < selectors.size();) {
      const std::size_t comma = std::min(selectors.find(',', from), selectors.size());
      EXPECT_NE(selectors.substr(from, comma - from).find(".firing-picture "), std::string::npos) << selectors;
      from = comma + 1;
    }
  }
  const std::string svg = drawn({});
  static const std::regex classes("class=\"([^\"]*)\"");
  for (std::sregex_iterator it(svg.begin(), svg.end(), classes), end; it != end; ++it) {
    const std::string last = (*it)[1].str().substr((*it)[1].str().rfind(' ') + 1);
    if (last != "firing-picture" && !last.empty()) {
      EXPECT_NE(style.find('.' + last), std::string::npos) << last;
    }
  }
}

}  // namespace
}  // namespace heatwork::report
