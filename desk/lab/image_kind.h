// Which kind of picture some bytes are, by how they begin: what is no photo is not kept as one.
#pragma once

#include <string_view>

namespace heatwork::desk {

/// "JPEG", "PNG", "WebP", "HEIC" or "TIFF"; empty: none of them.
std::string_view image_kind(std::string_view bytes);
/// All of them, for sentences.
inline constexpr std::string_view image_kinds = "JPEG, PNG, WebP, HEIC or TIFF";

}  // namespace heatwork::desk
