// Altered bytes at the reader of JSON and at every calculation: an answer or a refusal in one sentence, never anything else.
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "desk/calculations/registry.h"
#include "desk/errors.h"
#include "desk/json_value.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace heatwork::desk;
  if (size == 0) return 0;
  const Calculation& calculation = *calculations()[data[0] % calculations().size()];
  const std::string_view text(reinterpret_cast<const char*>(data + 1), size - 1);
  try {
    const std::string answer = write_json(calculate_all(calculation, read_json("fuzz", text)));
    if (write_json(read_json("answer", answer)) != answer) std::abort();
  } catch (const Failure& refused) {
    if (std::string_view(refused.what()).empty()) std::abort();
  }
  return 0;
}
