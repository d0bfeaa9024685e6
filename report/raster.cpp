#include "report/raster.h"

#include <dlfcn.h>
#include <fmt/format.h>

#include <array>
#include <system_error>

#include "report/raster_plugin.h"

namespace heatwork::report {
namespace {

/// A function of the part in one of the folders. It stays loaded: the libraries behind it do not survive being unloaded.
template <class Function>
Function found_in(const std::vector<std::filesystem::path>& folders, const char* name) {
  std::string looked;
  for (const std::filesystem::path& folder : folders) {
    const std::filesystem::path file = folder / heatwork_raster_file;
    std::error_code ignored;
    if (!std::filesystem::exists(file, ignored)) {
      looked += (looked.empty() ? "" : " and ") + folder.string();
      continue;
    }
    void* const part = dlopen(file.c_str(), RTLD_NOW | RTLD_LOCAL);
    if (!part)
      throw RasterUnavailable(fmt::format("PNG and PDF cannot be drawn here, a library is missing ({}); SVG needs none.", dlerror()));
    void* const function = dlsym(part, name);
    if (!function)
      throw RasterUnavailable(fmt::format("PNG and PDF cannot be drawn here, {} is of another version; SVG needs none.", file.string()));
    return reinterpret_cast<Function>(function);
  }
  throw RasterUnavailable(fmt::format("PNG and PDF cannot be drawn here, {} is not in {}; SVG needs none.", heatwork_raster_file, looked));
}

}  // namespace

std::vector<std::filesystem::path> raster_folders() {
  std::error_code ignored;
  const std::filesystem::path binary = std::filesystem::read_symlink("/proc/self/exe", ignored);
  const std::filesystem::path beside = binary.parent_path();
  return {beside, (beside / ".." / "lib" / "heatwork").lexically_normal()};
}

namespace {

void keep_bytes(void* context, const unsigned char* part, std::size_t count) {
  static_cast<std::string*>(context)->append(reinterpret_cast<const char*>(part), count);
}

}  // namespace

PaperSize size_of(Paper paper) {
  return paper == Paper::a4 ? PaperSize{595.28, 841.89} : PaperSize{612, 792};
}

std::string raster_pages(const std::vector<std::string>& pages, Paper paper, const std::string& title) {
  const auto function = found_in<HeatworkRasterPages>(raster_folders(), heatwork_raster_pages_name);
  std::vector<const char*> svgs;
  for (const std::string& page : pages) svgs.push_back(page.c_str());
  const PaperSize size = size_of(paper);
  std::string bytes;
  std::array<char, 400> sentence{};
  if (function(svgs.data(), svgs.size(), size.across_pt, size.down_pt, title.c_str(), keep_bytes, &bytes, sentence.data(),
               sentence.size()) != 0)
    throw std::invalid_argument(sentence.data());
  return bytes;
}

std::string raster_from(const std::vector<std::filesystem::path>& folders, std::string_view svg, RasterKind kind, double scale) {
  if (!(scale >= 0.25 && scale <= 8)) throw std::invalid_argument(fmt::format("scale is {:g}, allowed is 0.25 to 8", scale));
  const auto function = found_in<HeatworkRaster>(folders, heatwork_raster_name);
  std::string bytes;
  std::array<char, 400> sentence{};
  if (function(svg.data(), svg.size(), kind == RasterKind::pdf ? 1 : 0, scale, keep_bytes, &bytes, sentence.data(), sentence.size()) != 0) {
    throw std::invalid_argument(sentence.data());
  }
  return bytes;
}

std::string raster(std::string_view svg, RasterKind kind, double scale) {
  return raster_from(raster_folders(), svg, kind, scale);
}

}  // namespace heatwork::report
