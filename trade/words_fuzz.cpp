// Altered bytes at the reader of words: a catalogue whose every text can be said once its gaps are filled, or one located mistake.
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "trade/mistake.h"
#include "trade/words.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  using namespace heatwork::trade;
  try {
    const Words words = Words::read("altered.toml", std::string_view(reinterpret_cast<const char*>(bytes), size));
    for (const auto& [key, text] : words.all()) {
      if (!words.has(key) || text.empty()) std::abort();
      if (text.find('{') == std::string_view::npos && words.say(key) != text) std::abort();
    }
  } catch (const Mistake& mistake) {
    if (mistake.sentence().empty()) std::abort();
  }
  return 0;
}
