// What a firing is for, in the words of files and results.
#pragma once

#include <array>
#include <string_view>

namespace heatwork::trade {

/// What a firing is for. The words are those of files and results.
enum class StageOfWork {
  heat_treatment,
  oxidise,
  opaque,
  wash,
  margin,
  dentine,
  correction,
  stain,
  glaze,
  crystallise,
  sinter,
  press,
  solder,
  degas_die,
  add_on,
  dry_only,
  warm_up,
  dry_out,
  cleaning,
  specimen
};

inline constexpr std::array<std::string_view, 20> stage_of_work_words = {
    "heat treatment", "oxidise", "opaque", "wash",      "margin", "dentine",  "correction", "stain",   "glaze",    "crystallise",
    "sinter",         "press",   "solder", "degas die", "add-on", "dry only", "warm-up",    "dry-out", "cleaning", "specimen"};

constexpr std::string_view word(StageOfWork stage) {
  return stage_of_work_words[static_cast<std::size_t>(stage)];
}

}  // namespace heatwork::trade
