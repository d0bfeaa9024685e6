#include "verdict/finding.h"

#include <array>

namespace heatwork::verdict {
namespace {

constexpr std::array<std::string_view, 4> levels{"fault expected", "cannot tell", "borderline", "sound"};
constexpr std::array<std::string_view, 21> aspects{
    "units",    "panel",   "furnace", "instruction", "chamber",          "entry",           "water", "burst",
    "organics", "heat",    "vacuum",  "pores",       "degree of firing", "gloss and edges", "sag",   "crystals",
    "leucite",  "cooling", "frame",   "zirconia",    "refiring"};
constexpr std::array<std::string_view, 4> origins{"none", "instruction", "lab", "heatwork"};

}  // namespace

std::string_view word(Level level) {
  return levels[static_cast<std::size_t>(level)];
}
std::string_view word(Aspect aspect) {
  return aspects[static_cast<std::size_t>(aspect)];
}
std::string_view word(LimitFrom from) {
  return origins[static_cast<std::size_t>(from)];
}

}  // namespace heatwork::verdict
