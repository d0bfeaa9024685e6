// Altered bytes at the readers of limits and of what decides them: whatever they hold, an answer or one located mistake.
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "trade/deciding_inputs.h"
#include "trade/lab_limits.h"
#include "trade/limits.h"
#include "trade/mistake.h"
#include "trade/shipped.h"

namespace {

template <class Read>
void try_reading(Read read) {
  try {
    read();
  } catch (const heatwork::trade::Mistake& mistake) {
    if (mistake.sentence().empty()) std::abort();
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  using namespace heatwork::trade;
  const std::string_view text(reinterpret_cast<const char*>(bytes), size);
  try_reading([&] { (void)read_limits("altered.toml", text); });
  try_reading([&] { (void)read_deciding_inputs("altered.toml", text); });
  static const Limits shipped = read_limits("limits.toml", shipped_text("limits/limits.toml"));
  try_reading([&] { (void)with_lab_limits(shipped, "altered.toml", text); });
  return 0;
}
