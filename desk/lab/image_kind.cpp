#include "desk/lab/image_kind.h"

#include <array>

namespace heatwork::desk {

using namespace std::string_view_literals;

std::string_view image_kind(std::string_view bytes) {
  if (bytes.starts_with("\xFF\xD8\xFF"sv)) return "JPEG";
  if (bytes.starts_with("\x89PNG\r\n\x1A\n"sv)) return "PNG";
  if (bytes.starts_with("RIFF"sv) && bytes.substr(0, 12).ends_with("WEBP"sv) && bytes.size() >= 12) return "WebP";
  if (bytes.starts_with("II*\0"sv) || bytes.starts_with("MM\0*"sv)) return "TIFF";
  constexpr std::array heic = {"heic"sv, "heix"sv, "heim"sv, "heis"sv, "mif1"sv};
  if (bytes.size() >= 12 && bytes.substr(4, 4) == "ftyp"sv)
    for (const std::string_view brand : heic)
      if (bytes.substr(8, 4) == brand) return "HEIC";
  return {};
}

}  // namespace heatwork::desk
