// Crystals of blocks, and the leucite of a porcelain: counted, its published effect quoted, never modelled.
#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "verdict/bench.h"

namespace heatwork::verdict {
namespace {

/// A number of one point, here and in the maker's firing, with bands.
template <class OfPoint>
Number of_point(const Bench& bench, const PieceCase& piece, std::size_t index, const OfPoint& value) {
  return bench.banded(
      Aspect::crystals, piece, [&](const PieceCase& one) { return value(one.here->points[index]); },
      [&](const PieceCase& one) { return value(*one.maker_point(index)); }, 0);
}

bool crystallises(const firing::PointResult& point) {
  return !point.fraction.empty();
}

/// True where the last step was complete as delivered: nothing is left to crystallise, only to be over-fired.
bool done_as_delivered(const firing::PointResult& point) {
  return !point.exponent_argument.empty() && point.exponent_argument.back() < 0;
}

/// Limits of the material's own come before the general ones: the temperature and the crystal at which it counts as over-fired.
Finding with_material(const Bench& bench, const PieceCase& piece, const Number& number, std::string_view limit_name,
                      const std::string& material, const char* property, std::string sentence, const std::string& maker_says) {
  trade::Limit limit = bench.limits.at(limit_name);
  const auto found = bench.rehearsal.request.materials.find(material);
  const trade::Estimate* own = found == bench.rehearsal.request.materials.end() ? nullptr : found->second.find(property);
  trade::Limits limits;
  if (!limit.of_lab && own != nullptr && own->standing != trade::Standing::none_found) limit.first = own->value;
  limits.by_name.emplace(std::string(limit_name), limit);
  const Bench with_own(bench.rehearsal, limits, bench.words, bench.units);
  return judged(with_own, Aspect::crystals, piece.here->piece, number, limit_name, Side::above, std::move(sentence), maker_says);
}

Finding fraction(const Bench& bench, const PieceCase& piece, std::size_t index) {
  const firing::PointResult& point = piece.here->points[index];
  const firing::PointResult* maker = piece.maker_point(index);
  Number number = of_point(bench, piece, index, [](const firing::PointResult& one) { return one.fraction.back(); });
  if (number.high) number.high = std::min(1.0, *number.high);
  const std::string sentence = bench.sentence("findings.crystals.fraction", {{"piece", piece.here->piece},
                                                                             {"section", piece.section_name(point)},
                                                                             {"fraction", bench.number(100 * point.fraction.back())},
                                                                             {"crystal", bench.number(point.crystal_um, 2)}});
  Finding finding = judged(bench, Aspect::crystals, piece.here->piece, number, "crystallised_fraction", Side::below, sentence,
                           maker != nullptr ? bench.number(100 * maker->fraction.back()) + " %" : "");
  if (finding.level != Level::sound) finding.change = bench.say("findings.crystals.fire_more");
  finding.where = piece.section_name(point);
  return finding;
}

Finding over_fired(const Bench& bench, const PieceCase& piece, std::size_t index) {
  const firing::PointResult& point = piece.here->points[index];
  const firing::PointResult* maker = piece.maker_point(index);
  const Number number = of_point(bench, piece, index, [](const firing::PointResult& one) { return one.peak_C; });
  Finding finding = with_material(
      bench, piece, number, "block_temperature", point.material, "overfired_from",
      bench.sentence("findings.crystals.hottest",
                     {{"piece", piece.here->piece}, {"section", piece.section_name(point)}, {"temperature", bench.degrees(point.peak_C)}}),
      maker != nullptr ? bench.degrees(maker->peak_C) : "");
  if (finding.level != Level::sound) finding.change = bench.say("findings.crystals.fire_less");
  finding.where = piece.section_name(point);
  return finding;
}

Finding coarse(const Bench& bench, const PieceCase& piece, std::size_t index) {
  const firing::PointResult& point = piece.here->points[index];
  const firing::PointResult* maker = piece.maker_point(index);
  const Number number = of_point(bench, piece, index, [](const firing::PointResult& one) { return one.crystal_um; });
  Finding finding = with_material(bench, piece, number, "crystal_size", point.material, "overfired_crystal",
                                  bench.sentence("findings.crystals.coarse", {{"piece", piece.here->piece},
                                                                              {"section", piece.section_name(point)},
                                                                              {"crystal", bench.number(point.crystal_um, 2)}}),
                                  maker != nullptr ? bench.number(maker->crystal_um, 2) + " µm" : "");
  if (finding.level != Level::sound) finding.change = bench.say("findings.crystals.fire_less");
  finding.where = piece.section_name(point);
  return finding;
}

template <class Worse>
std::optional<std::size_t> extreme(const PieceCase& piece, const Worse& worse) {
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < piece.here->points.size(); ++i) {
    if (!crystallises(piece.here->points[i])) continue;
    if (!found || worse(piece.here->points[i], piece.here->points[*found])) found = i;
  }
  return found;
}

using Point = firing::PointResult;

}  // namespace

void judge_crystals(Bench& bench, const PieceCase& piece) {
  const auto least = extreme(piece, [](const Point& a, const Point& b) { return a.fraction.back() < b.fraction.back(); });
  if (!least) return;
  const auto hottest = extreme(piece, [](const Point& a, const Point& b) { return a.peak_C > b.peak_C; });
  const auto coarsest = extreme(piece, [](const Point& a, const Point& b) { return a.crystal_um > b.crystal_um; });
  std::vector<Finding> candidates;
  if (!done_as_delivered(piece.here->points[*least])) candidates.push_back(fraction(bench, piece, *least));
  candidates.push_back(over_fired(bench, piece, *hottest));
  candidates.push_back(coarse(bench, piece, *coarsest));
  const bool with_fraction = candidates.size() == 3;
  // The gravest is shown; among equals one whose limit is broken (by the maker's firing too), else the first.
  const auto order = [&](const Finding& finding) {
    const bool below = with_fraction && &finding == &candidates.front();
    const bool broken = below ? *finding.number < *finding.limit : *finding.number > *finding.limit;
    return std::pair(finding.level, !broken);
  };
  bench.add(
      *std::min_element(candidates.begin(), candidates.end(), [&](const Finding& a, const Finding& b) { return order(a) < order(b); }));
}

void judge_leucite(Bench& bench, const PieceCase& piece) {
  std::optional<std::size_t> longest;
  for (std::size_t i = 0; i < piece.here->points.size(); ++i) {
    const double minutes = piece.here->points[i].leucite_minutes;
    if (minutes > 0 && (!longest || minutes > piece.here->points[*longest].leucite_minutes)) longest = i;
  }
  if (!longest) return;
  const firing::PointResult& point = piece.here->points[*longest];
  const firing::PointResult* maker = piece.maker_point(*longest);
  const std::string sentence = bench.sentence("findings.leucite.minutes", {{"piece", piece.here->piece},
                                                                           {"section", piece.section_name(point)},
                                                                           {"minutes", bench.number(point.leucite_minutes, 1)},
                                                                           {"from", bench.number(bench.in_degrees(650))},
                                                                           {"to", bench.degrees(850)}});
  if (maker == nullptr) {
    Finding& finding = bench.add(untold(Aspect::leucite, piece.here->piece, sentence));
    finding.number = point.leucite_minutes;
    finding.unit = "min";
    return;
  }
  Finding finding = judged(bench, Aspect::leucite, piece.here->piece,
                           bench.banded(Aspect::leucite, piece,
                                        [&](const PieceCase& one) {
                                          return one.here->points[*longest].leucite_minutes - one.maker_point(*longest)->leucite_minutes;
                                        }),
                           "leucite_minutes_over_maker", Side::either, sentence, bench.number(maker->leucite_minutes, 1) + " min");
  if (finding.level != Level::sound) finding.change = bench.say("findings.leucite.same_time");
  finding.where = piece.section_name(point);
  bench.add(std::move(finding));
}

}  // namespace heatwork::verdict
