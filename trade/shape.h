// What the shape of a piece gives where its file leaves a size out. Every number is assumed, has a range, and the result names it.
#pragma once

#include <span>
#include <string_view>

#include "quantity/quantity.h"

namespace heatwork::trade {

/// A size with the range it may have. Standing: assumed.
template <class T>
struct ShapeSize {
  T value{};
  T low{};
  T high{};
};

struct ShapeDefaults {
  std::string_view word;                     ///< as files write it, such as "three-unit bridge"
  ShapeSize<quantity::Area> section_area;    ///< outer area one section stands for
  ShapeSize<quantity::Length> inner_radius;  ///< of a tube or shell
};

/// Every shape there is.
std::span<const ShapeDefaults> shapes();

/// Sizes of a shape. Errors: std::domain_error naming the shapes there are.
const ShapeDefaults& shape_defaults(std::string_view word);

}  // namespace heatwork::trade
