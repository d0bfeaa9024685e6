// Quantities read from what a person types: a number, decimal point or comma, and a unit. A mistake is a value: one sentence.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>

#include "quantity/quantity.h"

namespace heatwork::quantity {

/// What was read, or one sentence that says what is wrong and what is allowed.
template <class T>
using Reading = tl::expected<T, std::string>;

/// Reads one quantity with its unit, unrounded, such as "99 °F/min". Kinds: every type of quantity.h.
/// A Temperature takes °C or °F only: K is the unit of differences. A Pressure is absolute; see read_pressure for dials.
template <class T>
[[nodiscard]] Reading<T> read(std::string_view typed);

template <>
Reading<Temperature> read(std::string_view typed);
template <>
Reading<TemperatureDifference> read(std::string_view typed);
template <>
Reading<HeatingRate> read(std::string_view typed);
template <>
Reading<Duration> read(std::string_view typed);
template <>
Reading<Pressure> read(std::string_view typed);
template <>
Reading<PressureRate> read(std::string_view typed);
template <>
Reading<Length> read(std::string_view typed);
template <>
Reading<Area> read(std::string_view typed);
template <>
Reading<Volume> read(std::string_view typed);
template <>
Reading<Mass> read(std::string_view typed);
template <>
Reading<Voltage> read(std::string_view typed);
template <>
Reading<Fraction> read(std::string_view typed);
template <>
Reading<Frequency> read(std::string_view typed);

/// Reads an absolute pressure [Pa]. mmHg and inHg, and any unit followed by "below ambient", are dial readings counted downwards from
/// `ambient`; without it they are refused by a sentence that asks for a barometer or an altitude.
[[nodiscard]] Reading<Pressure> read_pressure(std::string_view typed, std::optional<Pressure> ambient);

/// Reads a number with a unit of the same dimension as `unit` and gives the number in `unit`: read_in("72 GPa", "MPa") is 72000.
/// `what` names the property in the sentence, with its article ("a thermal conductivity").
[[nodiscard]] Reading<double> read_in(std::string_view typed, std::string_view unit, std::string_view what);

/// A plain number without unit; decimal comma as in quantities. `what` as in read_in.
[[nodiscard]] Reading<double> read_number(std::string_view typed, std::string_view what);

/// Resolution of stored values: 0.01 K, 0.01 K/min, 1 s, 0.1 mbar; the other kinds are kept as read.
[[nodiscard]] Temperature canonical(Temperature value);
[[nodiscard]] TemperatureDifference canonical(TemperatureDifference value);
[[nodiscard]] HeatingRate canonical(HeatingRate value);
[[nodiscard]] Duration canonical(Duration value);
[[nodiscard]] Pressure canonical(Pressure value);
template <class Tag>
[[nodiscard]] Amount<Tag> canonical(Amount<Tag> value) {
  return value;
}

/// The entry of `known` nearest to `typed` by letters changed, added, dropped or swapped; empty when none is near.
template <class Names>
[[nodiscard]] std::string near_miss(std::string_view typed, const Names& known);

/// Letters to change, add, drop or swap with a neighbour to come from one word to the other; case counts half a letter.
[[nodiscard]] double edit_distance(std::string_view from, std::string_view to);

template <class Names>
std::string near_miss(std::string_view typed, const Names& known) {
  std::string best;
  // A slip changes less than the whole word: a letter may not become any other letter.
  const auto size = static_cast<double>(typed.size());
  double best_distance = size < 2 ? size : 1 + size / 4;
  for (const auto& name : known) {
    const double distance = edit_distance(typed, name);
    if (distance >= best_distance) continue;
    best_distance = distance;
    best = name;
  }
  return best;
}

}  // namespace heatwork::quantity
