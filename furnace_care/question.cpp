#include "furnace_care/question.h"

namespace heatwork::furnace_care {

std::string word(CheckLevel level) {
  switch (level) {
    case CheckLevel::going_on:
      return "going on";
    case CheckLevel::good:
      return "good";
    case CheckLevel::not_good:
      return "not good";
    case CheckLevel::cannot_tell:
      return "cannot tell";
  }
  return {};
}

}  // namespace heatwork::furnace_care
