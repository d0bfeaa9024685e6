// Altered bytes at the reader of an export's lines: a row that writes the very same line again, or a refusal in words.
#include <cstdint>
#include <cstdlib>
#include <stdexcept>
#include <string>
#include <string_view>
#include <variant>

#include "records/export_rows.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  using namespace heatwork::records;
  const std::string_view line(reinterpret_cast<const char*>(bytes), size);
  try {
    const ExportRow row = read_export_line(line);
    if (std::visit([](const auto& read) { return export_line(read); }, row) != line) std::abort();
  } catch (const std::invalid_argument& refusal) {
    if (std::string_view(refusal.what()).empty()) std::abort();
  }
  return 0;
}
