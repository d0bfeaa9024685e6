// Altered bytes at the reader of JSON: a value that writes and reads back the same, or one failure in words.
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "desk/errors.h"
#include "desk/json_value.h"

namespace {

/// A number that was not finite is kept as NaN for the refusal to name; such a value has no text.
bool writable(const heatwork::desk::Json& value) {
  if (value.number()) return std::isfinite(*value.number());
  if (value.list()) {
    for (const auto& each : *value.list()) {
      if (!writable(each)) return false;
    }
  }
  if (value.object()) {
    for (const auto& member : *value.object()) {
      if (!writable(member.value)) return false;
    }
  }
  return true;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  using namespace heatwork::desk;
  try {
    const Json value = read_json("altered.json", std::string_view(reinterpret_cast<const char*>(bytes), size));
    if (!writable(value)) return 0;
    const std::string text = write_json(value);
    if (write_json(read_json("written.json", text)) != text) std::abort();
  } catch (const Failure& failure) {
    if (failure.error() != ErrorWord::bad_json) std::abort();
  }
  return 0;
}
