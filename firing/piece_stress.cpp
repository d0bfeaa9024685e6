#include "firing/piece_stress.h"

#include <array>

namespace heatwork::firing {

std::string_view word(physics::StressForm form) {
  constexpr std::array<std::string_view, 6> words = {"plate-free", "plate-flat", "plate-plane-strain", "membrane", "cylinder", "sphere"};
  return words.at(static_cast<std::size_t>(form));
}

std::string_view word(StressLever::What what) {
  constexpr std::array<std::string_view, 2> words = {"slower", "opened lower"};
  return words.at(static_cast<std::size_t>(what));
}

}  // namespace heatwork::firing
