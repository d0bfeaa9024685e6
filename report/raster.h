// PNG and PDF of a picture. The libraries that draw them are loaded when first asked for, so that they cost nothing at start.
#pragma once

#include <filesystem>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace heatwork::report {

enum class RasterKind { png, pdf };

enum class Paper { a4, letter };
struct PaperSize {
  double across_pt = 0, down_pt = 0;  ///< upright
};
PaperSize size_of(Paper paper);

/// This machine cannot draw: the part is not installed, or its libraries are not. Says so in one sentence.
class RasterUnavailable : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// Bytes of a PNG (`scale` pixels for each pixel of the SVG) or of a PDF (one A4 page on its side, 10 mm margins; `scale` is not used).
/// The same SVG gives the same bytes. Errors: RasterUnavailable; std::invalid_argument where the SVG is not one or `scale` is outside 0.25
/// to 8.
std::string raster(std::string_view svg, RasterKind kind, double scale = 2);

/// Bytes of a PDF, an SVG a page, upright and filling it. Errors: as above.
std::string raster_pages(const std::vector<std::string>& pages, Paper paper, const std::string& title);

/// The same, with the part sought in the folders given.
std::string raster_from(const std::vector<std::filesystem::path>& folders, std::string_view svg, RasterKind kind, double scale = 2);

/// Where the part is sought: beside the running binary, then in ../lib/heatwork from there.
std::vector<std::filesystem::path> raster_folders();

}  // namespace heatwork::report
