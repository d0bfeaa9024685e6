#include "trade/shape.h"

#include <fmt/format.h>

#include <array>
#include <stdexcept>
#include <string>

namespace heatwork::trade {
namespace {

constexpr ShapeSize<quantity::Area> square_millimetres(double value, double low, double high) {
  return {quantity::Area::si(value * 1e-6), quantity::Area::si(low * 1e-6), quantity::Area::si(high * 1e-6)};
}

constexpr ShapeSize<quantity::Length> millimetres(double value, double low, double high) {
  return {quantity::millimetres(value), quantity::millimetres(low), quantity::millimetres(high)};
}

// A crown has about 120 (incisor) to 280 mm² (molar) of outer area, and its walls are stated by two sections; a bridge by three.
// Specimens: bars of 20 to 30 mm by 4 mm by 1.2 to 3 mm, discs of 12 to 16 mm by 1.2 to 2 mm, all faces.
constexpr std::array<ShapeDefaults, 6> all_shapes{{
    {"crown", square_millimetres(100, 60, 150), millimetres(3.2, 2.3, 4.5)},
    {"three-unit bridge", square_millimetres(190, 110, 290), millimetres(3.0, 2.0, 4.5)},
    {"veneer", square_millimetres(90, 55, 130), millimetres(6.0, 4.0, 10.0)},
    {"inlay", square_millimetres(70, 35, 120), millimetres(2.0, 1.0, 3.0)},
    {"bar", square_millimetres(310, 210, 450), millimetres(1.0, 0.5, 2.0)},
    {"disc", square_millimetres(340, 270, 510), millimetres(6.0, 5.0, 8.0)},
}};

}  // namespace

std::span<const ShapeDefaults> shapes() {
  return all_shapes;
}

const ShapeDefaults& shape_defaults(std::string_view word) {
  for (const ShapeDefaults& shape : all_shapes)
    if (shape.word == word) return shape;
  std::string allowed;
  for (const ShapeDefaults& shape : all_shapes) allowed += fmt::format("{}{}", allowed.empty() ? "" : ", ", shape.word);
  throw std::domain_error(fmt::format("there is no shape named \"{}\"; shapes are: {}", word, allowed));
}

}  // namespace heatwork::trade
