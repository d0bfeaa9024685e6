// How numbers are shown to people and written to files: one place, no more digits than are known.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>

#include "trade/words.h"

namespace heatwork::report {

enum class TemperatureScale { celsius, fahrenheit };

/// A temperature as a bare number, for an axis. [°C or °F]
double in_scale(double value_C, TemperatureScale scale);
/// Unit of the scale, "°C" or "°F". [text]
std::string unit_of(TemperatureScale scale);
/// A point of time on a picture, "13:05" (minutes and seconds) from the start of the firing. [text]
std::string clock(double at_s);
/// Rounds to ten digits, as files carry them. Errors: std::logic_error naming `what` where the number is not finite.
double written(double value, const char* what);

/// Numbers and words as one reader is told them: language with its decimal mark, unit of temperatures.
class Numbers {
 public:
  using Gaps = std::initializer_list<std::pair<std::string_view, std::string>>;

  explicit Numbers(const trade::Words& words, TemperatureScale scale = TemperatureScale::celsius);
  [[nodiscard]] const trade::Words& words() const { return *words_; }
  [[nodiscard]] TemperatureScale scale() const { return scale_; }
  /// The text of a key of the words, gaps filled. [text]
  [[nodiscard]] std::string say(std::string_view key, Gaps gaps = {}) const { return words_->say(key, gaps); }

  /// A temperature as whole degrees, "903 °C" or "1657 °F". [text]
  [[nodiscard]] std::string temperature(double value_C) const;
  /// Two temperatures, "890 to 903 °C". [text]
  [[nodiscard]] std::string temperatures(double from_C, double to_C) const;
  /// A difference to whole kelvins without sign, "12 K" or "22 °F"; under half a kelvin "under 1 K". [text]
  [[nodiscard]] std::string difference(double value_K) const;
  /// Unit of a difference, "K" or "°F". [text]
  [[nodiscard]] std::string unit_of_difference() const;
  /// A duration to whole seconds, "1 h 2 min", "13 min 5 s", "40 s"; a negative one is shown without its sign. [text]
  [[nodiscard]] std::string duration(double value_s) const;
  /// A share or porosity, two digits that count: "0.42 %", "3.1 %", "38 %"; under 0.1 "under 0.1 %"; `value` is in percent. [text]
  [[nodiscard]] std::string percent(double value) const;
  /// A chamber pressure in whole millibars, under 10 with one decimal. [text]
  [[nodiscard]] std::string pressure(double value_Pa) const;
  /// A length of edges and crystals, whole micrometres, under 10 with one decimal; "over 10 mm" where it means nothing. [text]
  [[nodiscard]] std::string micrometres(double value_um) const;
  /// Any other number with three digits that count, two under 1, and its unit. [text]
  [[nodiscard]] std::string plain(double value, const std::string& unit) const;
  /// A number in its unit as the functions above would show it, by the unit's text ("K", "°C", "s", "%", "mbar", "µm" ...). [text]
  [[nodiscard]] std::string shown(double value, const std::string& unit) const;
  /// A limit as it was set, without digits it does not have: "5 %", "10 K", "0.3". [text]
  [[nodiscard]] std::string limit(double value, const std::string& unit) const;
  /// A number of an axis, whole from 1 up, else with one decimal. [text]
  [[nodiscard]] std::string tick(double value) const;

 private:
  [[nodiscard]] std::string marked(const std::string& number) const;
  [[nodiscard]] std::string in_unit(const std::string& number, const std::string& unit) const;
  [[nodiscard]] std::string under(const std::string& value) const;

  const trade::Words* words_;
  std::string decimal_mark_;
  TemperatureScale scale_;
};

}  // namespace heatwork::report
