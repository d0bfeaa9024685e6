// Crystals of blocks, and the leucite of a porcelain: counted, its published effect quoted, never modelled.
#include <algorithm>
#include <optional>
#include <vector>

#include "verdict/bench.h"
#include "verdict/point.h"

namespace heatwork::verdict {
namespace {

bool crystallises(const firing::PointResult& point) {
  return !point.fraction.empty();
}

/// True where the last step was complete as delivered: nothing is left to crystallise, only to be over-fired.
bool done_as_delivered(const firing::PointResult& point) {
  return !point.exponent_argument.empty() && point.exponent_argument.back() < 0;
}

Finding fraction(const Bench& bench, const PieceCase& piece, std::size_t index) {
  const firing::PointResult& point = piece.here->points[index];
  const firing::PointResult* maker = piece.maker_point(index);
  Number number = number_of_point(bench, Aspect::crystals, piece, index, [](const Point& one) { return one.fraction.back(); });
  if (number.high) number.high = std::min(1.0, *number.high);
  const std::string sentence = bench.sentence("findings.crystals.fraction", {{"piece", piece.here->piece},
                                                                             {"section", piece.section_name(point)},
                                                                             {"fraction", bench.number(100 * point.fraction.back())},
                                                                             {"crystal", bench.number(point.crystal_um, 2)}});
  return at_point(piece, index,
                  judged(bench, Aspect::crystals, piece.here->piece, number, "crystallised_fraction", Side::below, sentence,
                         maker != nullptr ? bench.number(100 * maker->fraction.back()) + " %" : ""),
                  bench.say("findings.crystals.fire_more"));
}

constexpr TooMuch too_hot{Aspect::crystals,
                          "block_temperature",
                          "overfired_from",
                          [](const Point& point) { return point.peak_C; },
                          "findings.crystals.hottest",
                          "temperature",
                          [](const Bench& bench, double C) { return bench.degrees(C); },
                          "",
                          "findings.crystals.fire_less"};
constexpr TooMuch too_coarse{Aspect::crystals,
                             "crystal_size",
                             "overfired_crystal",
                             [](const Point& point) { return point.crystal_um; },
                             "findings.crystals.coarse",
                             "crystal",
                             [](const Bench& bench, double um) { return bench.number(um, 2); },
                             " µm",
                             "findings.crystals.fire_less"};

}  // namespace

void judge_crystals(Bench& bench, const PieceCase& piece) {
  const auto least = first_point(piece, crystallises, [](const Point& a, const Point& b) { return a.fraction.back() < b.fraction.back(); });
  if (!least) return;
  std::vector<Finding> candidates;
  if (!done_as_delivered(piece.here->points[*least])) candidates.push_back(fraction(bench, piece, *least));
  for (const TooMuch& of : {too_hot, too_coarse}) candidates.push_back(too_much(bench, piece, crystallises, of));
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
