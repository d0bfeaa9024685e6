#include "verdict/bench.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "firing/band.h"
#include "quantity/write.h"

namespace heatwork::verdict {

std::string Bench::number(double value, int digits) const {
  std::string text = fmt::format("{:.{}f}", value, digits);
  if (text.find_first_not_of("-0.") == std::string::npos && text[0] == '-') text.erase(0, 1);
  const auto point = text.find('.');
  if (point != std::string::npos) text.replace(point, 1, words.say("language.decimal_mark"));
  return text;
}

std::string Bench::rounded(double value) const {
  const double size = std::abs(value);
  std::string text = number(value, size >= 9.95 ? 0 : size >= 0.95 ? 1 : 2);
  const std::string mark = words.say("language.decimal_mark");
  const auto point = text.find(mark);
  if (point == std::string::npos) return text;
  while (text.back() == '0') text.pop_back();
  if (text.size() == point + mark.size()) text.resize(point);
  return text;
}

std::string Bench::time(double seconds) const {
  return quantity::write(quantity::seconds(std::round(seconds)));
}

std::string Bench::sentence(std::string_view key, Gaps gaps) const {
  std::string text = words.say(key, gaps);
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

const firing::SectionResult* PieceCase::maker_section(std::size_t section) const {
  return maker == nullptr ? nullptr : &maker->sections.at(section);
}

const firing::PointResult* PieceCase::maker_point(std::size_t point) const {
  return maker == nullptr ? nullptr : &maker->points.at(point);
}

const std::string& PieceCase::section_name(const firing::PointResult& point) const {
  return here->sections.at(static_cast<std::size_t>(point.section)).name;
}

std::vector<PieceCase> cases_of(const firing::Rehearsal& rehearsal) {
  const std::size_t pieces = rehearsal.firing.pieces.size();
  if (rehearsal.request.pieces.size() != pieces) throw std::logic_error("A rehearsal has results for another number of pieces.");
  if (!rehearsal.reference.empty() && (rehearsal.reference.size() != pieces || rehearsal.compared.size() != pieces)) {
    throw std::logic_error("A rehearsal is compared for another number of pieces.");
  }
  std::vector<PieceCase> cases(pieces);
  for (std::size_t i = 0; i < pieces; ++i) {
    cases[i].index = i;
    cases[i].piece = &rehearsal.request.pieces[i];
    cases[i].here = &rehearsal.firing.pieces[i];
    cases[i].firing = &rehearsal.firing;
    if (rehearsal.reference.empty()) continue;
    cases[i].maker_firing = &rehearsal.reference[i];
    cases[i].maker = &rehearsal.reference[i].pieces.at(0);
    cases[i].compared = &rehearsal.compared[i];
  }
  return cases;
}

namespace {

/// The same piece in another outcome of the same firing.
PieceCase case_in(const PieceCase& piece, const firing::Outcome& outcome, const std::vector<firing::FiringResult>& reference) {
  PieceCase other = piece;
  other.firing = &outcome.firing;
  other.here = &outcome.firing.pieces.at(piece.index);
  if (!reference.empty()) {
    other.maker_firing = &reference.at(piece.index);
    other.maker = &reference.at(piece.index).pieces.at(0);
  }
  if (!outcome.compared.empty()) other.compared = &outcome.compared.at(piece.index);
  return other;
}

}  // namespace

Number Bench::banded(Aspect aspect, const PieceCase& piece, const Value& value, const Value& maker, double least) const {
  const auto banded_value = [&](const Value& of, std::optional<double>& low, std::optional<double>& high, std::string* widest) {
    const double nominal = of(piece);
    const firing::Band band = firing::band_of(rehearsal, word(aspect), nominal,
                                              [&](const firing::Outcome& outcome, const std::vector<firing::FiringResult>& reference) {
                                                return of(case_in(piece, outcome, reference));
                                              });
    if (band.low) low = std::max(least, *band.low);
    high = band.high;
    if (widest != nullptr) *widest = band.widest;
    return nominal;
  };
  Number number;
  number.band_follows = band_follows();
  number.nominal = banded_value(value, number.low, number.high, &number.widest);
  if (maker && piece.maker != nullptr) number.maker = banded_value(maker, number.maker_low, number.maker_high, nullptr);
  return number;
}

std::string word_key_of(const std::string& input) {
  std::string key = "inputs." + input;
  for (char& letter : key) letter = letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
  return key;
}

Finding judged(const Bench& bench, Aspect aspect, const std::string& piece, const Number& number, std::string_view limit_name, Side side,
               std::string sentence, const std::string& maker_says) {
  const trade::Limit& limit = bench.limits.at(limit_name);
  const Assessment assessment = assess(number, limit, side);
  Finding finding;
  finding.aspect = aspect;
  finding.level = assessment.level;
  finding.piece = piece;
  finding.sentence = std::move(sentence);
  if (!maker_says.empty()) {
    finding.sentence += ' ';
    finding.sentence += bench.say(assessment.maker_breaks_too      ? "findings.maker_breaks_too"
                                  : assessment.maker_breaks_at_end ? "findings.maker_breaks_at_end"
                                                                   : "findings.maker_has",
                                  {{"value", maker_says}});
  }
  if (assessment.only_the_band && !number.widest.empty()) {
    finding.narrow = bench.say("findings.narrow", {{"input", bench.words.say(word_key_of(number.widest))}});
  } else if (assessment.level == Level::cannot_tell && !number.widest.empty()) {
    finding.sentence += ' ' + bench.say("findings.most_from", {{"input", bench.words.say(word_key_of(number.widest))}});
  }
  finding.number = number.nominal;
  finding.unit = limit.unit;
  finding.low = number.low;
  finding.high = number.high;
  finding.band_follows = number.band_follows;
  finding.limit = assessment.limit;
  finding.limit_from = limit.of_lab ? LimitFrom::lab : LimitFrom::heatwork;
  return finding;
}

Finding untold(Aspect aspect, const std::string& piece, std::string sentence) {
  Finding finding;
  finding.aspect = aspect;
  finding.level = Level::cannot_tell;
  finding.piece = piece;
  finding.sentence = std::move(sentence);
  return finding;
}

}  // namespace heatwork::verdict
