// Altered bytes at the reader of quantities: it never falls over, and what it accepts it says back so that it is read again.
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "quantity/read.h"
#include "quantity/write.h"

namespace {

void hold(bool true_always) {
  if (!true_always) std::abort();
}

template <class T>
void read_and_say_back(std::string_view typed) {
  const auto first = heatwork::quantity::read<T>(typed);
  if (!first) {
    hold(!first.error().empty() && first.error().find('\n') == std::string::npos);
    return;
  }
  const std::string said = heatwork::quantity::write(heatwork::quantity::canonical(*first));
  const double size = std::abs(std::strtod(said.c_str(), nullptr));
  if (size != 0 && (size < 1e-9 || size > 1e12)) return;  // beyond what is said back digit for digit
  const auto again = heatwork::quantity::read<T>(said);
  hold(again.has_value());
  hold(heatwork::quantity::write(heatwork::quantity::canonical(*again)) == said);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  using namespace heatwork::quantity;
  if (size == 0) return 0;
  const std::string_view typed(reinterpret_cast<const char*>(bytes) + 1, size - 1);
  switch (bytes[0] % 8) {
    case 0:
      read_and_say_back<Temperature>(typed);
      break;
    case 1:
      read_and_say_back<TemperatureDifference>(typed);
      break;
    case 2:
      read_and_say_back<HeatingRate>(typed);
      break;
    case 3:
      read_and_say_back<Duration>(typed);
      break;
    case 4:
      read_and_say_back<Pressure>(typed);
      break;
    case 5:
      read_and_say_back<Length>(typed);
      break;
    case 6:
      read_and_say_back<Fraction>(typed);
      break;
    default:
      read_and_say_back<Mass>(typed);
      break;
  }
  return 0;
}
