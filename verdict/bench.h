// The judge's bench: what every aspect works with, the numbers as a reader wants them, and the making of a finding.
#pragma once

#include <cstddef>
#include <functional>
#include <initializer_list>
#include <limits>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "quantity/write.h"
#include "verdict/finding.h"
#include "verdict/level.h"

namespace heatwork::verdict {

using Gaps = std::initializer_list<std::pair<std::string_view, std::string>>;

struct PieceCase;
/// A number of one piece's firing, given or varied. NaN: there is none.
using Value = std::function<double(const PieceCase&)>;

/// A rehearsal on the bench, with limits and words; findings gather here.
class Bench {
 public:
  Bench(const firing::Rehearsal& on_bench, const trade::Limits& with_limits, const trade::Words& with_words,
        quantity::UnitSystem reader_units)
      : rehearsal(on_bench), limits(with_limits), words(with_words), units(reader_units) {}

  const firing::Rehearsal& rehearsal;
  const trade::Limits& limits;
  const trade::Words& words;
  const quantity::UnitSystem units;
  std::vector<Finding> findings;

  /// A number with digits after the mark, in the mark of the language; -0 is 0.
  [[nodiscard]] std::string number(double value, int digits = 0) const;
  /// Three digits or so: 0.14, 2.6, 31.
  [[nodiscard]] std::string rounded(double value) const;
  // A temperature, a difference and a rate in the reader's degrees; only the first gets the 32 of the Fahrenheit scale.
  [[nodiscard]] double in_degrees(double value_C) const { return fahrenheit() ? 1.8 * value_C + 32 : value_C; }
  [[nodiscard]] double in_steps(double value_K) const { return fahrenheit() ? 1.8 * value_K : value_K; }
  [[nodiscard]] std::string unit_of_degrees() const { return fahrenheit() ? " °F" : " °C"; }
  [[nodiscard]] std::string unit_of_steps() const { return fahrenheit() ? " °F" : " K"; }
  [[nodiscard]] std::string unit_of_rates() const { return unit_of_steps() + "/min"; }
  /// "903 °C".
  [[nodiscard]] std::string degrees(double value_C) const { return number(in_degrees(value_C)) + unit_of_degrees(); }
  /// "12 K".
  [[nodiscard]] std::string kelvins(double value_K) const { return number(in_steps(value_K)) + unit_of_steps(); }
  /// "1.4 K".
  [[nodiscard]] std::string about_kelvins(double value_K) const { return rounded(in_steps(value_K)) + unit_of_steps(); }
  /// "5 min 20 s".
  [[nodiscard]] std::string time(double seconds) const;
  /// The text of a key, its first letter a capital.
  [[nodiscard]] std::string sentence(std::string_view key, Gaps gaps) const;
  [[nodiscard]] std::string say(std::string_view key, Gaps gaps = {}) const { return words.say(key, gaps); }

  /// A number of a case with its band, from the inputs that decide the aspect, and where `maker` is given and there is a maker's firing,
  /// the maker's with its own. A band never goes below `least`.
  [[nodiscard]] Number banded(Aspect aspect, const PieceCase& piece, const Value& value, const Value& maker = {},
                              double least = -std::numeric_limits<double>::infinity()) const;

  /// No band was asked for where one could be computed.
  [[nodiscard]] bool band_follows() const { return !rehearsal.bands && rehearsal.tray_known && !rehearsal.impossible; }

  Finding& add(Finding finding) { return findings.emplace_back(std::move(finding)); }

 private:
  [[nodiscard]] bool fahrenheit() const { return units == quantity::UnitSystem::fahrenheit; }
};

/// One piece on the bench, beside the same piece in the maker's own firing.
struct PieceCase {
  std::size_t index = 0;
  const trade::Piece* piece = nullptr;
  const firing::PieceResult* here = nullptr;
  const firing::FiringResult* firing = nullptr;
  const firing::PieceResult* maker = nullptr;  ///< nullptr without instruction
  const firing::FiringResult* maker_firing = nullptr;
  const firing::Comparison* compared = nullptr;  ///< nullptr where there is none

  /// The same section or point of the maker's firing; nullptr without instruction.
  [[nodiscard]] const firing::SectionResult* maker_section(std::size_t section) const;
  [[nodiscard]] const firing::PointResult* maker_point(std::size_t point) const;
  [[nodiscard]] const std::string& section_name(const firing::PointResult& point) const;
};

/// Every piece of the firing. Errors: std::logic_error where results do not belong together.
std::vector<PieceCase> cases_of(const firing::Rehearsal& rehearsal);

/// Key of the words for an input; keys of words have small letters only.
std::string word_key_of(const std::string& input);

/// A finding of a number against a limit: level, limit and whose, and what the maker's own firing has.
/// `maker_says` names the maker's number in the sentence (empty: there is none); where it breaks the limit too, the sentence says so.
Finding judged(const Bench& bench, Aspect aspect, const std::string& piece, const Number& number, std::string_view limit_name, Side side,
               std::string sentence, const std::string& maker_says = {});
/// A finding without a level of its own, for want of what is named in the sentence.
Finding untold(Aspect aspect, const std::string& piece, std::string sentence);

// The aspects; each adds at most one finding a piece, or one of the firing.
void judge_furnace(Bench& bench, const std::vector<PieceCase>& cases);
void judge_water(Bench& bench, const PieceCase& piece);
void judge_burst(Bench& bench, const PieceCase& piece);
void judge_organics(Bench& bench, const PieceCase& piece);
void judge_heat(Bench& bench, const PieceCase& piece);
void judge_unknown_tray(Bench& bench);
void judge_vacuum_level(Bench& bench, const std::vector<PieceCase>& cases);
void judge_vacuum(Bench& bench, const PieceCase& piece);
void judge_pores(Bench& bench, const PieceCase& piece);
void judge_degree(Bench& bench, const PieceCase& piece);
void judge_gloss(Bench& bench, const PieceCase& piece);
void judge_sag(Bench& bench, const PieceCase& piece);
void judge_crystals(Bench& bench, const PieceCase& piece);
void judge_leucite(Bench& bench, const PieceCase& piece);
void judge_frame(Bench& bench, const PieceCase& piece);
void judge_zirconia(Bench& bench, const PieceCase& piece);
/// Whether the furnace can sinter the zirconia on its tray at all; needs no rehearsal.
void judge_zirconia_furnace(Bench& bench);
void judge_refiring(Bench& bench, const PieceCase& piece);
void judge_stress(Bench& bench, const PieceCase& piece);

/// True where the display's error points the same way as the comparison and makes up half of it or more.
bool display_explains(const Bench& bench, double shift_K);

/// What lacks where nothing is compared: an instruction, a tray of known mass, or a furnace that can run the maker's program.
std::string way_to_compare(const Bench& bench);

/// "about 13 K too cold, like 24 s less hold".
std::string like(const Bench& bench, const firing::Comparison& compared);

}  // namespace heatwork::verdict
