// Findings of one point of a piece: the face of a layer where a number is least or greatest, against limits of the material's own.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "verdict/bench.h"

namespace heatwork::verdict {

using Point = firing::PointResult;
using OfPoint = double (*)(const Point&);

/// A property that the material itself has a value of; nullptr without one.
const trade::Estimate* own_of(const Bench& bench, const std::string& material, const std::string& property);

/// A limit whose first and second are the material's own where they are given, unless the lab has set its own.
struct OwnLimit {
  std::string_view name;
  std::optional<double> first = std::nullopt, second = std::nullopt;
};
Finding judged_by_own(const Bench& bench, Aspect aspect, const std::string& piece, const Number& number, const OwnLimit& own, Side side,
                      std::string sentence, const std::string& maker_says = {});

/// A number of one point, here and in the maker's firing, with bands; never below zero.
Number number_of_point(const Bench& bench, Aspect aspect, const PieceCase& piece, std::size_t index, OfPoint value);

/// A finding with the section of its point, and unless it is sound with what to change.
Finding at_point(const PieceCase& piece, std::size_t index, Finding finding, std::string change);

/// Index of the first in an order among the points that take part; nothing where none does.
template <class TakesPart, class Before>
std::optional<std::size_t> first_point(const PieceCase& piece, const TakesPart& takes_part, const Before& before) {
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < piece.here->points.size(); ++i) {
    if (!takes_part(piece.here->points[i])) continue;
    if (!found || before(piece.here->points[i], piece.here->points[*found])) found = i;
  }
  return found;
}

/// A number of points that counts as over-fired above a limit, and the words it is told in.
struct TooMuch {
  Aspect aspect;
  std::string_view limit;
  std::string_view property;  ///< of the material: its value comes before that of the limit
  OfPoint value;
  std::string_view sentence;  ///< with gaps for piece, section and the number
  std::string_view gap;       ///< the number's
  std::string (*told)(const Bench&, double);
  std::string_view maker_unit;  ///< after the maker's number, where `told` is without
  std::string_view change;
};

/// The finding of the point where it is greatest. At least one point must take part.
Finding too_much(const Bench& bench, const PieceCase& piece, bool (*takes_part)(const Point&), const TooMuch& of);

}  // namespace heatwork::verdict
