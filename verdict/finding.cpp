#include "verdict/finding.h"

#include <algorithm>
#include <array>

namespace heatwork::verdict {
namespace {

constexpr std::array<std::string_view, 4> levels{"fault expected", "cannot tell", "borderline", "sound"};
constexpr std::array<std::string_view, 21> aspects{
    "units",    "panel",   "furnace", "instruction", "chamber",          "entry",           "water", "burst",
    "organics", "heat",    "vacuum",  "pores",       "degree of firing", "gloss and edges", "sag",   "crystals",
    "leucite",  "cooling", "frame",   "zirconia",    "refiring"};
constexpr std::array<std::string_view, 4> origins{"none", "instruction", "lab", "heatwork"};

std::string key_of(std::string_view table, std::string_view word) {
  std::string key = std::string(table) + "." + std::string(word);
  std::replace(key.begin(), key.end(), ' ', '_');
  return key;
}

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

std::string word_key(Level level) {
  return key_of("levels", word(level));
}
std::string word_key(Aspect aspect) {
  return key_of("aspects", word(aspect));
}
std::string word_key(LimitFrom from) {
  return key_of("limit_from", word(from));
}

std::string level_in_words(const Finding& finding, const trade::Words& words) {
  return words.say(finding.band_follows ? key_of("levels_so_far", word(finding.level)) : word_key(finding.level));
}

std::string aspect_in_words(const Finding& finding, const trade::Words& words) {
  return words.say(word_key(finding.aspect));
}

}  // namespace heatwork::verdict
