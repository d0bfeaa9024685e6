#include "verdict/point.h"

#include <utility>

#include "firing/material_physics.h"

namespace heatwork::verdict {

const trade::Estimate* own_of(const Bench& bench, const std::string& material, const std::string& property) {
  const auto found = bench.rehearsal.request.materials.find(material);
  return found != bench.rehearsal.request.materials.end() ? firing::known_property(found->second, property) : nullptr;
}

Finding judged_by_own(const Bench& bench, Aspect aspect, const std::string& piece, const Number& number, const OwnLimit& own, Side side,
                      std::string sentence, const std::string& maker_says) {
  trade::Limit limit = bench.limits.at(own.name);
  if (!limit.of_lab && own.first) limit.first = *own.first;
  if (!limit.of_lab && own.second) limit.second = *own.second;
  trade::Limits limits;
  limits.by_name.emplace(std::string(own.name), limit);
  const Bench with_own(bench.rehearsal, limits, bench.words, bench.units);
  return judged(with_own, aspect, piece, number, own.name, side, std::move(sentence), maker_says);
}

Number number_of_point(const Bench& bench, Aspect aspect, const PieceCase& piece, std::size_t index, OfPoint value) {
  return bench.banded(
      aspect, piece, [&](const PieceCase& one) { return value(one.here->points[index]); },
      [&](const PieceCase& one) { return value(*one.maker_point(index)); }, 0);
}

Finding at_point(const PieceCase& piece, std::size_t index, Finding finding, std::string change) {
  if (finding.level != Level::sound) finding.change = std::move(change);
  finding.where = piece.section_name(piece.here->points[index]);
  return finding;
}

Finding too_much(const Bench& bench, const PieceCase& piece, bool (*takes_part)(const Point&), const TooMuch& of) {
  const std::size_t index =
      first_point(piece, takes_part, [&](const Point& a, const Point& b) { return of.value(a) > of.value(b); }).value();
  const Point& point = piece.here->points[index];
  const Point* maker = piece.maker_point(index);
  const trade::Estimate* own = own_of(bench, point.material, std::string(of.property));
  const std::string sentence = bench.sentence(
      of.sentence, {{"piece", piece.here->piece}, {"section", piece.section_name(point)}, {of.gap, of.told(bench, of.value(point))}});
  return at_point(piece, index,
                  judged_by_own(bench, of.aspect, piece.here->piece, number_of_point(bench, of.aspect, piece, index, of.value),
                                {of.limit, own != nullptr ? std::optional(own->value) : std::nullopt}, Side::above, sentence,
                                maker != nullptr ? of.told(bench, of.value(*maker)) + std::string(of.maker_unit) : ""),
                  bench.say(of.change));
}

}  // namespace heatwork::verdict
