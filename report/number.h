// How numbers are shown to people and written to files: one place, no more digits than are known.
#pragma once

#include <string>

namespace heatwork::report {

enum class TemperatureScale { celsius, fahrenheit };

/// A temperature as whole degrees, "903 °C" or "1657 °F". [text]
std::string temperature(double value_C, TemperatureScale scale = TemperatureScale::celsius);
/// The same as a bare number, for an axis. [°C or °F]
double in_scale(double value_C, TemperatureScale scale);
/// A difference to whole kelvins without sign, "12 K" or "22 °F"; under half a kelvin "under 1 K". [text]
std::string difference(double value_K, TemperatureScale scale = TemperatureScale::celsius);
/// Unit of the scale, "°C" or "°F". [text]
std::string unit_of(TemperatureScale scale);

/// A duration to whole seconds, "1 h 2 min", "13 min 5 s", "40 s"; a negative one is shown without its sign. [text]
std::string duration(double value_s);
/// A point of time on a picture, "13:05" (minutes and seconds) from the start of the firing. [text]
std::string clock(double at_s);
/// A share or porosity, two digits that count: "0.42 %", "3.1 %", "38 %"; under 0.1 "under 0.1 %"; `value` is in percent. [text]
std::string percent(double value);
/// A chamber pressure in whole millibars, under 10 with one decimal. [text]
std::string pressure(double value_Pa);
/// A length of edges and crystals, whole micrometres, under 10 with one decimal; "over 10 mm" where it means nothing. [text]
std::string micrometres(double value_um);
/// Any other number with three digits that count, two under 1, and its unit. [text]
std::string plain(double value, const std::string& unit);
/// A number in its unit as the functions above would show it, by the unit's text ("K", "°C", "s", "%", "mbar", "µm" ...). [text]
std::string shown(double value, const std::string& unit, TemperatureScale scale = TemperatureScale::celsius);

/// A limit as it was set, without digits it does not have: "5 %", "10 K", "0.3". [text]
std::string limit(double value, const std::string& unit, TemperatureScale scale = TemperatureScale::celsius);

/// Rounds to ten digits, as files carry them. Errors: std::logic_error naming `what` where the number is not finite.
double written(double value, const char* what);

}  // namespace heatwork::report
