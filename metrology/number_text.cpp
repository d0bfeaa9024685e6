#include "metrology/number_text.h"

#include <array>
#include <cstdio>

namespace heatwork::metrology {

std::string number_text(double value, int digits) {
  std::array<char, 48> out{};
  std::snprintf(out.data(), out.size(), "%.*g", digits, value);
  return out.data();
}

}  // namespace heatwork::metrology
