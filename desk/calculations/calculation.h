// A calculation: one model by itself, a JSON object in, a JSON object out. Its table of keys is checked, described and made into a
// schema by the same code for all.
#pragma once

#include <cstddef>
#include <limits>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "desk/json_value.h"

namespace heatwork::desk {

inline constexpr double boundless = std::numeric_limits<double>::infinity();

enum class Shape {
  number,
  truth,
  word,            ///< one of `words` or of `names()`
  numbers,         ///< a list of numbers, each within the range
  number_or_list,  ///< a number, or the coefficients of a polynomial in °C
  rows,            ///< a list of lists with one number for each of `parts`
  objects,         ///< a list of objects with the keys of `parts`
  object           ///< one object with the keys of `parts`
};

/// One key of an input or answer: its meaning, unit, allowed range. Ends of a range are allowed unless `above`.
struct Field {
  std::string_view name;
  std::string_view meaning;
  std::string_view unit{};
  double at_least = -boundless;
  double at_most = boundless;
  Shape shape = Shape::number;
  bool required = true;
  bool above = false;        ///< the lower end itself is not allowed
  bool rising = false;       ///< numbers, or the first column of rows, must rise
  bool may_be_null = false;  ///< answers only
  std::size_t fewest = 1;    ///< of a list
  std::size_t most = 100000;
  std::span<const std::string_view> words{};
  std::vector<std::string> (*names)() = nullptr;
  std::span<const Field> parts{};
};

/// Keys checked against their table, read by name. Asking for a key that is not in it, or of another shape, is a bug.
class Inputs {
 public:
  /// Checks an object against its table. `of` is what sentences call it. Errors: Failure bad_value, one sentence naming the key and
  /// what is allowed.
  Inputs(std::string_view of, const Json& object, std::span<const Field> fields);

  [[nodiscard]] bool has(std::string_view key) const { return object_.find(key) != nullptr; }
  [[nodiscard]] double number(std::string_view key) const;
  [[nodiscard]] double number_or(std::string_view key, double otherwise) const { return has(key) ? number(key) : otherwise; }
  [[nodiscard]] bool truth(std::string_view key) const;
  [[nodiscard]] const std::string& word(std::string_view key) const;
  /// A list of numbers; a single number is a list of one.
  [[nodiscard]] std::vector<double> numbers(std::string_view key) const;
  /// One column of rows.
  [[nodiscard]] std::vector<double> column(std::string_view key, std::size_t index) const;
  [[nodiscard]] std::vector<Inputs> objects(std::string_view key) const;
  [[nodiscard]] Inputs object(std::string_view key) const;

 private:
  [[nodiscard]] std::span<const Field> parts_of(std::string_view key) const;
  [[nodiscard]] const Json& at(std::string_view key) const;
  Json object_;
  std::span<const Field> fields_;
};

/// A set of keys that are given together.
using Together = std::span<const std::string_view>;

struct Calculation {
  std::string_view name;
  std::string_view purpose;  ///< what it is for, one line
  std::string_view equation;
  std::string_view source;
  std::span<const Field> inputs;
  std::span<const Field> outputs;
  std::span<const Together> exactly_one_of;  ///< of these sets one is given, whole, and nothing of the others; may be empty
  Json (*answer)(const Inputs&);
};

/// What is allowed for a key, in words: "a number from 0 to 11000 m".
std::string allowed(const Field& field);
/// Refuses unless exactly one of the sets is given, whole. Errors: Failure bad_value.
void check_choice(const Calculation& calculation, const Inputs& inputs);

}  // namespace heatwork::desk
