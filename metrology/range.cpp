#include "metrology/range.h"

#include <stdexcept>
#include <string>

#include "metrology/number_text.h"

namespace heatwork::metrology {

void require_within(double value, double low, double high, const char* what) {
  if (value >= low && value <= high) return;
  throw std::domain_error(std::string(what) + " must be from " + number_text(low) + " to " + number_text(high) + ", not " +
                          number_text(value) + ".");
}

}  // namespace heatwork::metrology
