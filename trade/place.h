// Where a value was written, kept to the end so that nonsense found later still points at the user's own line.
#pragma once

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>

namespace heatwork::trade {

/// The text a value was read from; `name` is what messages print (a file name as the user gave it, or "shipped:NAME").
struct Source {
  std::string name;
  std::string text;
};

/// A place in a source. `line` and `column` count from 1; 0 means unknown (a value made by the program itself).
struct Place {
  std::shared_ptr<const Source> source;
  int line = 0;
  int column = 0;
};

/// Where plain texts of a noun were written, by key, for sentences that speak of several of them.
using PlacesByKey = std::map<std::string, Place, std::less<>>;

/// A value with what was typed and where. Without a place it is a default, which the result has to name.
template <class T>
struct Given {
  T value{};
  std::string typed;
  Place place;
  [[nodiscard]] bool by_user() const { return place.source != nullptr; }
};

template <class T>
using Maybe = std::optional<Given<T>>;

/// How well a number is known, in falling order of trust.
enum class Standing { measured, computed, memory, assumed, none_found };

/// A number with its range, standing and source; ends of the range are inclusive. `value` is in the unit of its property.
struct Estimate {
  double value = 0;
  double low = 0;
  double high = 0;
  Standing standing = Standing::assumed;
  std::string source;
  std::string typed;
  Place place;
};

}  // namespace heatwork::trade
