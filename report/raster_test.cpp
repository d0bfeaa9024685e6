#include "report/raster.h"

#include <gtest/gtest.h>

#include <filesystem>

#include "report/firing_picture.h"
#include "report/made_up_rehearsal.h"

namespace heatwork::report {
namespace {

constexpr std::string_view small_svg =
    "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"60\" height=\"40\"><rect width=\"60\" height=\"40\" fill=\"#ffffff\"/><text x=\"4\" "
    "y=\"20\">a</text></svg>";

std::size_t big_endian(const std::string& bytes, std::size_t at) {
  std::size_t value = 0;
  for (std::size_t i = at; i < at + 4; ++i) value = value * 256 + static_cast<unsigned char>(bytes.at(i));
  return value;
}

TEST(Raster, PngHasTheSizeAskedAndRepeats) {
  const std::string png = raster(small_svg, RasterKind::png, 2);
  ASSERT_GT(png.size(), 60U);
  EXPECT_EQ(png.substr(0, 8), "\x89PNG\r\n\x1a\n");
  EXPECT_EQ(big_endian(png, 16), 120U);
  EXPECT_EQ(big_endian(png, 20), 80U);
  EXPECT_EQ(png, raster(small_svg, RasterKind::png, 2));
  EXPECT_NE(png, raster(small_svg, RasterKind::png, 1));
}

TEST(Raster, PdfIsOnePageA4OnItsSideAndRepeats) {
  const std::string svg = firing_picture(made_up::rehearsal(), made_up::verdict(), made_up::limits(), made_up::words());
  const std::string pdf = raster(svg, RasterKind::pdf);
  EXPECT_EQ(pdf.substr(0, 5), "%PDF-");
  EXPECT_NE(pdf.find("841.89"), std::string::npos);
  EXPECT_NE(pdf.find("/CreationDate (20000101"), std::string::npos) << "the date of creation is fixed";
  EXPECT_NE(pdf.find("DejaVuSans"), std::string::npos) << "text stays text, in the font the picture names";
  EXPECT_EQ(pdf, raster(svg, RasterKind::pdf));
}

TEST(Raster, BadInputGetsOneSentence) {
  EXPECT_THROW(raster("<svg", RasterKind::png), std::invalid_argument);
  EXPECT_THROW(raster("no svg at all", RasterKind::pdf), std::invalid_argument);
  EXPECT_THROW(raster(small_svg, RasterKind::png, 0.1), std::invalid_argument);
  EXPECT_THROW(raster(small_svg, RasterKind::png, 1.0 / 0.0), std::invalid_argument);
}

TEST(Raster, AMissingPartIsNamedAndSvgRecommended) {
  try {
    raster_from({"nowhere"}, small_svg, RasterKind::png);
    FAIL() << "drew without its part";
  } catch (const RasterUnavailable& missing) {
    EXPECT_STREQ(missing.what(), "PNG and PDF cannot be drawn here, heatwork_raster.so is not in nowhere; SVG needs none.");
  }
}

TEST(Raster, ThePartIsSoughtBesideTheBinaryAndInItsLibraryFolder) {
  const auto folders = raster_folders();
  ASSERT_EQ(folders.size(), 2U);
  EXPECT_TRUE(std::filesystem::exists(folders[0] / "heatwork_raster.so"));
  EXPECT_EQ(folders[1].filename(), "heatwork");
  EXPECT_EQ(folders[1].parent_path().filename(), "lib");
}

}  // namespace
}  // namespace heatwork::report
