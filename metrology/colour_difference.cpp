#include "metrology/colour_difference.h"

#include <cmath>
#include <numbers>

#include "metrology/range.h"

namespace heatwork::metrology {
namespace {

constexpr double degree = std::numbers::pi / 180.0;

void check(const Lab& colour) {
  require_within(colour.L, 0.0, 100.0, "The lightness L");
  require_within(colour.a, -200.0, 200.0, "a of the colour");
  require_within(colour.b, -200.0, 200.0, "b of the colour");
}

double cosine_of_degrees(double angle) {
  return std::cos(degree * angle);
}

/// Of chroma c: root(c^7 / (c^7 + 25^7)), near 0 for greys and near 1 for strong colours.
double chroma_root(double chroma) {
  const double seventh = std::pow(chroma, 7);
  return std::sqrt(seventh / (seventh + std::pow(25.0, 7)));
}

/// Hue in degrees from 0 to 360; 0 for a grey.
double hue_of(double a, double b) {
  if (a == 0.0 && b == 0.0) return 0.0;
  const double angle = std::atan2(b, a) / degree;
  return angle < 0.0 ? angle + 360.0 : angle;
}

struct Hues {
  double difference, mean;  ///< degrees
};

Hues between(double first, double second, bool a_grey) {
  if (a_grey) return {0.0, first + second};
  const double apart = second - first, sum = first + second;
  if (std::abs(apart) <= 180.0) return {apart, 0.5 * sum};
  return {apart > 180.0 ? apart - 360.0 : apart + 360.0, 0.5 * (sum < 360.0 ? sum + 360.0 : sum - 360.0)};
}

}  // namespace

double colour_difference_1976(const Lab& first, const Lab& second) {
  check(first);
  check(second);
  return std::hypot(first.L - second.L, first.a - second.a, first.b - second.b);
}

double colour_difference_2000(const Lab& first, const Lab& second) {
  check(first);
  check(second);
  const double spread = 0.5 * (1.0 - chroma_root(0.5 * (std::hypot(first.a, first.b) + std::hypot(second.a, second.b))));
  const double a1 = (1.0 + spread) * first.a, a2 = (1.0 + spread) * second.a;
  const double c1 = std::hypot(a1, first.b), c2 = std::hypot(a2, second.b);
  const Hues hue = between(hue_of(a1, first.b), hue_of(a2, second.b), c1 * c2 == 0.0);
  const double lightness = 0.5 * (first.L + second.L), chroma = 0.5 * (c1 + c2);
  const double hue_weight = 1.0 - 0.17 * cosine_of_degrees(hue.mean - 30.0) + 0.24 * cosine_of_degrees(2.0 * hue.mean) +
                            0.32 * cosine_of_degrees(3.0 * hue.mean + 6.0) - 0.20 * cosine_of_degrees(4.0 * hue.mean - 63.0);
  const double off_middle = (lightness - 50.0) * (lightness - 50.0), blue = (hue.mean - 275.0) / 25.0;
  const double in_L = (second.L - first.L) / (1.0 + 0.015 * off_middle / std::sqrt(20.0 + off_middle));
  const double in_C = (c2 - c1) / (1.0 + 0.045 * chroma);
  const double in_H = 2.0 * std::sqrt(c1 * c2) * std::sin(0.5 * degree * hue.difference) / (1.0 + 0.015 * chroma * hue_weight);
  const double turn = -std::sin(2.0 * degree * 30.0 * std::exp(-blue * blue)) * 2.0 * chroma_root(chroma);
  return std::sqrt(in_L * in_L + in_C * in_C + in_H * in_H + turn * in_C * in_H);
}

}  // namespace heatwork::metrology
