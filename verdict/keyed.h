// Every number of a program as it is keyed in, by name, beside the same number of the maker's program.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "verdict/bench.h"

namespace heatwork::verdict {

enum class KeyedKind { temperature, time, rate };

struct Keyed {
  std::string_view part;  ///< key of the word for it
  int stage = 0;          ///< from 1; 0: not of a stage
  KeyedKind kind{};
  double value = 0;             ///< [C], [s] or [K/min]
  std::optional<double> maker;  ///< the same number of the maker's program
  bool top = false;             ///< of the last heating stage
};

/// All numbers of a program in the order of a firing; `maker` may be nullptr. Where the stages are not as many, only the last heating
/// stages are taken for the same.
std::vector<Keyed> keyed_in(const trade::Program& program, const trade::Program* maker);

/// The key of a number of the program as an edit takes it: "heating[1].to".
std::string key_of(std::string_view part, int stage);
/// "Heating stage 1, top".
std::string name_of(const Bench& bench, const Keyed& keyed);
/// "°C", "s", "K/min": the unit of a number of this kind.
std::string unit_of(KeyedKind kind);
/// A quantity as a number of its kind. [C], [s] or [K/min]
double number_of(quantity::Temperature value);
double number_of(quantity::Duration value);
double number_of(quantity::HeatingRate value);
/// "811 °C", "1 min 15 s", "43 K/min": a number of this kind.
std::string shown(const Bench& bench, KeyedKind kind, double value);

}  // namespace heatwork::verdict
