#include "report/svg.h"

#include <gtest/gtest.h>

#include "report/plain_ascii.h"
#include "report/text_width.h"

namespace heatwork::report {
namespace {

TEST(Svg, TextIsMadeSafe) {
  EXPECT_EQ(escaped("a<b & \"c\" 'd'>"), "a&lt;b &amp; &quot;c&quot; &apos;d&apos;&gt;");
  EXPECT_EQ(escaped(std::string("a\x01"
                                "b\nc",
                                5)),
            "ab c");
  Svg svg;
  svg.text({1, 2}, "</text><script>", "small");
  EXPECT_EQ(svg.str().find("<script"), std::string::npos);
}

TEST(Svg, CoordinatesToATenth) {
  EXPECT_EQ(coordinate(1.26), "1.3");
  EXPECT_EQ(coordinate(12), "12");
  EXPECT_EQ(coordinate(-0.01), "0");
}

TEST(Svg, PathsLeaveOutWhatNoEyeSees) {
  Svg svg;
  svg.path({{0, 0}, {0.1, 0}, {0.2, 0}, {5, 5}}, "line");
  EXPECT_EQ(svg.str(), "<path class=\"line\" d=\"M0 0L5 5\"/>\n");
}

TEST(TextWidth, KnownWidthsOfTheFont) {
  EXPECT_DOUBLE_EQ(text_width("00", 10), 12.72);
  EXPECT_DOUBLE_EQ(text_width("m", 100), 97.4);
  EXPECT_GT(text_width("bold", 12, true), text_width("bold", 12));
  EXPECT_GT(text_width("é", 12), 0);
}

TEST(TextWidth, BreakingAndCutting) {
  EXPECT_EQ(broken_into_columns("one two three", 7), (std::vector<std::string>{"one two", "three"}));
  EXPECT_EQ(broken_into_columns("", 7).size(), 0U);
  EXPECT_EQ(cut_to_columns("Brücke 24-26", 6), "Brück…");
  EXPECT_EQ(cut_to_columns("kurz", 6), "kurz");
  EXPECT_LE(text_width(cut_to_width("a long label of a piece", 12, 60), 12), 60.0);
  EXPECT_EQ(signs("°µ−a"), 4U);
}

TEST(PlainAscii, KnownSignsAreSpelt) {
  EXPECT_EQ(in_plain_ascii("−19 °C, 3 µm, Brücke · 日"), "-19 C, 3 um, Bruecke - ?");
}

}  // namespace
}  // namespace heatwork::report
