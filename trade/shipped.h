// The files that ship inside the binary: materials, furnaces, programs, limits, words, the demo lab. Read when named.
#pragma once

#include <span>
#include <string_view>

namespace heatwork::trade {

struct ShippedFile {
  std::string_view path;  ///< below data/, such as "materials/glaze.toml"
  std::string_view text;
};

/// In order of path.
std::span<const ShippedFile> shipped_files();
/// Empty where none has that path.
std::string_view shipped_text(std::string_view path);

}  // namespace heatwork::trade
