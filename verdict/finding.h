// A finding: aspect, level, one plain sentence, number, limit, whose limit, what to change. Never a level without its sentence.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "firing/rehearsal.h"
#include "quantity/write.h"
#include "trade/limits.h"
#include "trade/words.h"

namespace heatwork::verdict {

enum class Level { fault_expected, cannot_tell, borderline, sound };  ///< in the order findings are shown
std::string_view word(Level level);
/// Under which its word stands among trade::Words: "levels.fault_expected".
std::string word_key(Level level);

/// In the order of causes before consequences.
enum class Aspect {
  units,
  panel,
  furnace,
  instruction,
  chamber,
  entry,
  water,
  burst,
  organics,
  heat,
  vacuum,
  pores,
  degree_of_firing,
  gloss_and_edges,
  sag,
  crystals,
  leucite,
  cooling,
  frame,
  zirconia,
  refiring
};
std::string_view word(Aspect aspect);
std::string word_key(Aspect aspect);

enum class LimitFrom { none, instruction, lab, heatwork };
std::string_view word(LimitFrom from);
std::string word_key(LimitFrom from);

/// A value of the program that a finding advises to key in.
struct Advised {
  std::string key;    ///< as an edit takes it: "heating[1].to"
  std::string value;  ///< as the sentence has it, in the reader's degrees: "830 °C"
};

struct Finding {
  Aspect aspect{};
  Level level = Level::cannot_tell;
  std::string piece;  ///< empty: of the firing
  std::string sentence;
  std::optional<double> number;
  std::string unit;
  std::optional<double> low, high;  ///< the band; absent until it is computed
  bool band_follows = false;        ///< its band was not asked for: the level is by the number alone, and not final
  std::optional<double> limit;
  LimitFrom limit_from = LimitFrom::none;
  std::string narrow;            ///< what would make it surer, where only the band keeps it from sound; then nothing else need change
  std::string change;            ///< what to change, empty where nothing
  std::vector<Advised> advised;  ///< the values `change` names, where it names any
  std::string where;             ///< section, or the user's place in a file
};

/// The finding's level in the words of a reader; one that is not final says so.
std::string level_in_words(const Finding& finding, const trade::Words& words);
/// Its aspect in the words of a reader.
std::string aspect_in_words(const Finding& finding, const trade::Words& words);

struct Verdict {
  std::vector<Finding> findings;  ///< in the order of showing
  bool fault_expected = false;
};

/// Judges a rehearsal by differences to the maker's firing first, absolute numbers second. Sentences come in these words and units; numbers
/// and limits of findings stay in °C and K.
Verdict judge(const firing::Rehearsal& rehearsal, const trade::Limits& limits, const trade::Words& words,
              quantity::UnitSystem units = quantity::UnitSystem::metric);

}  // namespace heatwork::verdict
