// Altered bytes at the reader of files: whatever they hold, the answer is a noun or one located mistake.
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "trade/mistake.h"
#include "trade/reader.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  using namespace heatwork::trade;
  const auto source = source_of("altered.toml", std::string_view(reinterpret_cast<const char*>(bytes), size));
  try {
    read_any(source);
  } catch (const Mistake& mistake) {
    if (std::string_view(mistake.what()).empty()) std::abort();
  }
  return 0;
}
