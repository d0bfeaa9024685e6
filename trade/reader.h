// A noun from its file. Every mistake is one located sentence.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "trade/alloy.h"
#include "trade/firing.h"
#include "trade/mistake.h"
#include "trade/noun.h"

namespace heatwork::trade {

/// Pressure of the air at an altitude, for dials that count below ambient; from the standard atmosphere where the caller has it.
using AmbientOfAltitude = quantity::Pressure (*)(quantity::Length altitude);

/// What a reader may know beyond the text. Without an ambient pressure a dial reading below ambient is refused, with what is missing.
struct ReadingContext {
  std::optional<quantity::Pressure> ambient;
  AmbientOfAltitude ambient_of_altitude = nullptr;
};

/// A text under the name messages print.
[[nodiscard]] std::shared_ptr<const Source> source_of(std::string_view name, std::string_view text);

/// Reads `format = 1` and one noun, a Program, Furnace, Material ... Errors: Mistake.
template <class T>
[[nodiscard]] T read_noun(const std::shared_ptr<const Source>& source, const ReadingContext& context = {});

#define HEATWORK_NOUN(type, enumerator, noun_word, folder) \
  extern template type read_noun<type>(const std::shared_ptr<const Source>&, const ReadingContext&);
HEATWORK_EVERY_NOUN(HEATWORK_NOUN)
#undef HEATWORK_NOUN

/// A mistake, and the key of the value it is of, as an edit takes it: "heating[2].hold"; empty: of the text as a whole.
struct KeyMistake {
  std::string key;
  Mistake mistake;
};

/// Every mistake of a text, not only the first: of each value for itself, in the order of the field table, keys that are not known before
/// those of their table; where there is none, what several values are not together.
[[nodiscard]] std::vector<KeyMistake> all_mistakes(Noun noun, const std::shared_ptr<const Source>& source,
                                                   const ReadingContext& context = {});

/// Reads whatever noun the text holds, for its mistakes only, and says which it was.
Noun read_any(const std::shared_ptr<const Source>& source, const ReadingContext& context = {});

/// What a text holds, without reading more than its TOML. Nothing where it has no `format` or no noun: a file of something else.
struct Heading {
  Noun noun = Noun::program;
  std::string name;
};
/// Errors: Mistake where the text is no TOML.
[[nodiscard]] std::optional<Heading> heading_of(const std::shared_ptr<const Source>& source);

}  // namespace heatwork::trade
