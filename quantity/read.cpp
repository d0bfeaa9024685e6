#include "quantity/read.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <cmath>
#include <optional>
#include <vector>

#include "quantity/unit.h"

namespace heatwork::quantity {
namespace {

using tl::make_unexpected;

/// What a sentence needs to say of a kind: its name, how it is written, the units that come first to mind.
struct Kind {
  std::string_view name;
  std::string_view example;
  std::vector<std::string_view> units;
  bool takes_negative;
};

const Kind temperature_kind{"a temperature", "850 °C", {"°C", "°F"}, true};
const Kind difference_kind{"a temperature difference", "12 K", {"K", "°C", "°F"}, true};
const Kind rate_kind{"a heating rate", "55 K/min", {"K/min", "K/s", "°C/min", "°F/min"}, true};
const Kind duration_kind{"a duration", "1 min 30 s", {"s", "min", "h", "d"}, false};
const Kind pressure_kind{"a pressure", "50 mbar", {"mbar", "hPa", "kPa", "Pa", "bar", "mmHg", "inHg"}, false};
const Kind pressure_rate_kind{"a rate of pressure", "0.02 mbar/s", {"mbar/s", "mbar/min", "Pa/s"}, true};
const Kind length_kind{"a length", "0.7 mm", {"mm", "µm", "cm", "m"}, true};
const Kind area_kind{"an area", "2.4 cm2", {"mm2", "cm2", "m2"}, false};
const Kind volume_kind{"a volume", "1.3 l", {"mm3", "cm3", "ml", "l", "m3"}, false};
const Kind mass_kind{"a mass", "31 g", {"mg", "g", "kg"}, false};
const Kind voltage_kind{"a voltage", "230 V", {"V", "mV"}, false};
const Kind fraction_kind{"a share", "70 %", {"%"}, true};
const Kind frequency_kind{"a rate per time", "0.004 /s", {"/s", "/min", "/h"}, true};

/// Digits of a power as they are printed, raised: "⁰" to "⁹".
constexpr std::array<std::string_view, 10> raised{"⁰", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"};

/// Takes one of the texts off the front; which one, or nothing.
template <std::size_t count>
std::optional<std::size_t> take_one(std::string_view& text, const std::array<std::string_view, count>& texts) {
  for (std::size_t i = 0; i < count; ++i) {
    if (!text.starts_with(texts[i])) continue;
    text.remove_prefix(texts[i].size());
    return i;
  }
  return std::nullopt;
}

/// The power at the front of what follows a 10, "^-5" or "⁻⁵", as "-5"; empty where there is none.
std::string power_in(std::string_view& text) {
  std::string_view left = text;
  const bool caret = left.starts_with('^');
  if (caret) left.remove_prefix(1);
  constexpr std::array<std::string_view, 4> minus{"-", "−", "⁻", "+"};
  std::string power;
  if (const auto sign = caret || left.starts_with("⁻") ? take_one(left, minus) : std::nullopt; sign && *sign < 3) power = "-";
  const std::size_t before = power.size();
  if (caret) {
    while (!left.empty() && left[0] >= '0' && left[0] <= '9') {
      power += left[0];
      left.remove_prefix(1);
    }
  } else {
    while (const auto digit = take_one(left, raised)) power += static_cast<char>('0' + *digit);
  }
  if (power.size() == before) return {};
  text = left;
  return power;
}

/// "2·10⁻⁷ /s" and "2 x 10^-7 /s" with the power as programs write it, "2e-7 /s".
std::string with_plain_power(std::string_view typed) {
  std::string_view after;
  std::string power;
  std::size_t ten = typed.find("10");
  for (; ten != std::string_view::npos; ten = typed.find("10", ten + 1)) {
    after = typed.substr(ten + 2);
    power = power_in(after);
    if (!power.empty()) break;
  }
  if (power.empty()) return std::string(typed);
  std::string_view before = typed.substr(0, ten);
  const auto without_blanks = [&] {
    while (before.ends_with(' ')) before.remove_suffix(1);
  };
  without_blanks();
  if (before.empty() || before == "-" || before == "+" || before == "−") return fmt::format("{}1e{}{}", before, power, after);
  for (const std::string_view times : {"·", "×", "*", "x"}) {
    if (!before.ends_with(times)) continue;
    before.remove_suffix(times.size());
    without_blanks();
    return fmt::format("{}e{}{}", before, power, after);
  }
  return std::string(typed);
}

/// What was typed in the plain spelling that is read.
std::string plainly(std::string_view typed) {
  return plain_spelling(with_plain_power(typed));
}

/// What is quoted back is kept short and free of characters that would upset a terminal.
std::string quoted(std::string_view typed) {
  std::string text;
  for (const char c : typed.substr(0, 60)) text += (static_cast<unsigned char>(c) < 32 || c == 127) ? '?' : c;
  if (typed.size() > 60) {
    while (!text.empty() && (static_cast<unsigned char>(text.back()) & 0xC0U) == 0x80U) text.pop_back();
    if (!text.empty() && (static_cast<unsigned char>(text.back()) & 0x80U) != 0) text.pop_back();
    text += "...";
  }
  return fmt::format("\"{}\"", text);
}

std::string allowed(const Kind& kind) {
  return fmt::format("{} is written such as \"{}\" ({})", kind.name, kind.example, fmt::join(kind.units, ", "));
}

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

struct Number {
  double value = 0;
  std::string_view rest;
};

std::size_t digits_from(std::string_view text, std::size_t at) {
  while (at < text.size() && is_digit(text[at])) ++at;
  return at;
}

/// A comma before exactly three digits after a whole part other than zero may be a mark of thousands.
bool is_ambiguous(std::string_view whole, std::string_view decimals) {
  return decimals.size() == 3 && whole.find_first_not_of('0') != std::string_view::npos;
}

std::string not_a_number(std::string_view text, std::string_view allowed_text) {
  std::string lower;
  for (const char c : text.substr(0, 4)) lower += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  if (!lower.empty() && (lower[0] == '-' || lower[0] == '+')) lower.erase(0, 1);
  if (lower.starts_with("nan") || lower.starts_with("inf")) return fmt::format("{} is not a finite number; {}", quoted(text), allowed_text);
  if (text.empty()) return fmt::format("nothing is written; {}", allowed_text);
  return fmt::format("{} does not begin with a number; {}", quoted(text), allowed_text);
}

/// The exponent "e-3" starting at `at`, or `at` where there is none (an "e" without digits is left to the unit).
std::size_t exponent_from(std::string_view text, std::size_t at) {
  if (at >= text.size() || (text[at] != 'e' && text[at] != 'E')) return at;
  std::size_t digits = at + 1;
  if (digits < text.size() && (text[digits] == '-' || text[digits] == '+')) ++digits;
  const std::size_t end = digits_from(text, digits);
  return end == digits ? at : end;
}

/// The number a plain text begins with; sentences quote what was typed. `text` must outlive the rest.
Reading<Number> leading_number(std::string_view text, std::string_view typed, std::string_view allowed_text) {
  const std::size_t first = !text.empty() && (text[0] == '-' || text[0] == '+') ? 1 : 0;
  const std::size_t whole_end = digits_from(text, first);
  if (whole_end == first) return make_unexpected(not_a_number(typed, allowed_text));
  std::string digits(text.substr(0, whole_end));
  std::size_t end = whole_end;
  if (end + 1 < text.size() && (text[end] == '.' || text[end] == ',') && is_digit(text[end + 1])) {
    const std::size_t decimals_end = digits_from(text, end + 1);
    const std::string_view decimals = text.substr(end + 1, decimals_end - end - 1);
    if (decimals_end < text.size() && (text[decimals_end] == '.' || text[decimals_end] == ','))
      return make_unexpected(
          fmt::format("{} has two decimal marks; write one decimal point or comma and no mark of thousands", quoted(typed)));
    if (text[end] == ',' && is_ambiguous(text.substr(first, whole_end - first), decimals))
      return make_unexpected(fmt::format("{} may mean {}{} or {}.{}; write it with a point or without the comma", quoted(typed), digits,
                                         decimals, digits, decimals));
    digits += fmt::format(".{}", decimals);
    end = decimals_end;
  }
  const std::size_t exponent_end = exponent_from(text, end);
  digits += text.substr(end, exponent_end - end);
  const char* begin = digits.data() + (digits[0] == '+' ? 1 : 0);
  Number number{0, text.substr(exponent_end)};
  const auto [stop, error] = std::from_chars(begin, digits.data() + digits.size(), number.value);
  const bool too_large = error == std::errc::result_out_of_range || !(std::abs(number.value) <= 1e30);
  if (too_large || stop != digits.data() + digits.size())
    return make_unexpected(fmt::format("{} is beyond what is read: numbers lie between -1e30 and 1e30", quoted(typed)));
  while (!number.rest.empty() && number.rest[0] == ' ') number.rest.remove_prefix(1);
  return number;
}

/// The degree sign where the plain spelling has "deg" for it, not within a word such as "degrees".
std::string with_degree_sign(std::string_view unit) {
  std::string shown(unit);
  const auto letter_at = [&](std::size_t at) { return at < shown.size() && std::isalpha(static_cast<unsigned char>(shown[at])) != 0; };
  for (auto at = shown.find("deg"); at != std::string::npos; at = shown.find("deg", at + 1))
    if (!letter_at(at + 4)) shown.replace(at, 3, "°");
  return shown;
}

std::string unit_mistake(std::string_view typed, std::string_view unit, const Kind& kind) {
  if (unit.empty()) return fmt::format("{} has no unit; {}", quoted(typed), allowed(kind));
  std::vector<std::string> plain_units;
  for (const auto name : kind.units) plain_units.push_back(plain_spelling(name));
  const std::string near = near_miss(unit, plain_units);
  const std::string shown = with_degree_sign(unit);
  std::string sentence = fmt::format("{}: the unit {} does not fit; {}", quoted(typed), quoted(shown), allowed(kind));
  const auto found = std::find(plain_units.begin(), plain_units.end(), near);
  if (!near.empty() && found != plain_units.end())
    sentence += fmt::format("; did you mean \"{}\"?", kind.units[static_cast<std::size_t>(found - plain_units.begin())]);
  return sentence;
}

/// Number times unit, in SI, where the unit has the dimension of the kind's first one.
Reading<double> read_si(std::string_view typed, const Kind& kind) {
  const std::string plain = plainly(typed);
  const auto number = leading_number(plain, typed, allowed(kind));
  if (!number) return make_unexpected(number.error());
  const auto unit = read_unit(number->rest);
  if (!unit || !unit->same_dimension(*read_unit(kind.units.front()))) return make_unexpected(unit_mistake(typed, number->rest, kind));
  if (number->value < 0 && !kind.takes_negative)
    return make_unexpected(fmt::format("{} is negative; {} is zero or more", quoted(typed), kind.name));
  return number->value * unit->factor;
}

template <class T>
Reading<T> read_amount(std::string_view typed, const Kind& kind) {
  return read_si(typed, kind).map([](double value) { return T::si(value); });
}

std::string clock_mistake(std::string_view typed) {
  return fmt::format("{} is not a time of a clock; it is written \"1:30\" (1 min 30 s) or \"1:05:00\" (1 h 5 min), the last parts below 60",
                     quoted(typed));
}

/// "1:30" is 1 min 30 s and "1:05:00" is 1 h 5 min; the parts after the first run to 59.
Reading<Duration> read_clock(std::string_view typed, std::string_view plain) {
  double total = 0;
  int parts = 0;
  while (true) {
    const std::size_t end = digits_from(plain, 0);
    if (end == 0 || end > 3 || (parts > 0 && end != 2)) return make_unexpected(clock_mistake(typed));
    double part = 0;
    std::from_chars(plain.data(), plain.data() + end, part);
    if (parts > 0 && part >= 60) return make_unexpected(clock_mistake(typed));
    total = 60 * total + part;
    ++parts;
    if (end == plain.size()) break;
    if (plain[end] != ':' || parts == 3) return make_unexpected(clock_mistake(typed));
    plain.remove_prefix(end + 1);
  }
  if (parts < 2) return make_unexpected(clock_mistake(typed));
  return seconds(total);
}

/// "1 min 30 s": parts from the longest unit down, each part after the first below one of the unit before it.
Reading<Duration> read_parts(std::string_view typed, std::string_view plain) {
  double total = 0;
  double last_unit = 0;
  bool fraction_seen = false;
  while (!plain.empty()) {
    const auto number = leading_number(plain, typed, allowed(duration_kind));
    if (!number) return make_unexpected(number.error());
    const std::size_t end = std::min(number->rest.find_first_of(" 0123456789-+"), number->rest.size());
    const std::string_view name = number->rest.substr(0, end);
    const auto unit = read_unit(name);
    const std::string_view shown = last_unit == 0 ? number->rest : name;
    if (!unit || !unit->same_dimension(*read_unit("s"))) return make_unexpected(unit_mistake(typed, shown, duration_kind));
    if (number->value < 0) return make_unexpected(fmt::format("{} is negative; a duration is zero or more", quoted(typed)));
    const double part = number->value * unit->factor;
    if (last_unit > 0 && (fraction_seen || unit->factor >= last_unit || part >= last_unit))
      return make_unexpected(fmt::format(
          "{}: parts of a duration go from long to short and only the last has a fraction, such as \"1 min 30 s\"", quoted(typed)));
    fraction_seen = number->value != std::floor(number->value);
    last_unit = unit->factor;
    total += part;
    plain = number->rest.substr(end);
    plain.remove_prefix(std::min(plain.find_first_not_of(' '), plain.size()));
  }
  return seconds(total);
}

std::string_view strip_suffix(std::string_view text, std::string_view suffix, bool& found) {
  if (!text.ends_with(suffix)) return text;
  found = true;
  text.remove_suffix(suffix.size());
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  return text;
}

}  // namespace

template <>
Reading<Temperature> read(std::string_view typed) {
  const std::string plain = plainly(typed);
  const auto number = leading_number(plain, typed, allowed(temperature_kind));
  if (!number) return make_unexpected(number.error());
  const std::string_view unit = number->rest;
  if (unit == "K")
    return make_unexpected(
        fmt::format("{}: a temperature is written in °C or °F, such as \"850 °C\"; K is for differences", quoted(typed)));
  const bool is_celsius = unit == "degC" || unit == "C";
  if (!is_celsius && unit != "degF" && unit != "F") return make_unexpected(unit_mistake(typed, unit, temperature_kind));
  const double celsius = is_celsius ? number->value : (number->value - 32) * 5 / 9;
  if (celsius < -zero_celsius_K) return make_unexpected(fmt::format("{} is below absolute zero (-273.15 °C)", quoted(typed)));
  return Temperature::celsius(celsius);
}

template <>
Reading<Duration> read(std::string_view typed) {
  const std::string plain = plainly(typed);
  if (plain.empty()) return make_unexpected(not_a_number(plain, allowed(duration_kind)));
  if (plain.find(':') != std::string::npos) return read_clock(typed, plain);
  return read_parts(typed, plain);
}

template <>
Reading<TemperatureDifference> read(std::string_view typed) {
  return read_amount<TemperatureDifference>(typed, difference_kind);
}
template <>
Reading<HeatingRate> read(std::string_view typed) {
  return read_amount<HeatingRate>(typed, rate_kind);
}
template <>
Reading<Pressure> read(std::string_view typed) {
  return read_pressure(typed, std::nullopt);
}
template <>
Reading<PressureRate> read(std::string_view typed) {
  return read_amount<PressureRate>(typed, pressure_rate_kind);
}
template <>
Reading<Length> read(std::string_view typed) {
  return read_amount<Length>(typed, length_kind);
}
template <>
Reading<Area> read(std::string_view typed) {
  return read_amount<Area>(typed, area_kind);
}
template <>
Reading<Volume> read(std::string_view typed) {
  return read_amount<Volume>(typed, volume_kind);
}
template <>
Reading<Mass> read(std::string_view typed) {
  return read_amount<Mass>(typed, mass_kind);
}
template <>
Reading<Voltage> read(std::string_view typed) {
  return read_amount<Voltage>(typed, voltage_kind);
}
template <>
Reading<Fraction> read(std::string_view typed) {
  return read_amount<Fraction>(typed, fraction_kind);
}
template <>
Reading<Frequency> read(std::string_view typed) {
  return read_amount<Frequency>(typed, frequency_kind);
}

Reading<Pressure> read_pressure(std::string_view typed, std::optional<Pressure> ambient) {
  bool below = false;
  bool absolute = false;
  const std::string plain = plainly(typed);
  std::string_view text = strip_suffix(plain, "below ambient", below);
  text = strip_suffix(text, "absolute", absolute);
  below = below || (!absolute && text.ends_with("Hg"));
  const auto value = read_si(text, pressure_kind);
  if (!value) return make_unexpected(value.error());
  if (!below) return Pressure::si(*value);
  if (!ambient)
    return make_unexpected(
        fmt::format("{} counts down from the ambient pressure, which is not known here; give a barometer reading or the altitude, or write "
                    "an absolute pressure such as \"50 mbar\"",
                    quoted(typed)));
  if (*value > ambient->si())
    return make_unexpected(fmt::format("{} is more than the whole ambient pressure of {:.0f} mbar", quoted(typed), ambient->si() / 100));
  return *ambient - Pressure::si(*value);
}

Reading<double> read_in(std::string_view typed, std::string_view unit, std::string_view what) {
  const auto wanted = read_unit(unit);
  if (!wanted) throw std::invalid_argument(fmt::format("\"{}\" is not a unit", unit));
  const std::string example = fmt::format("1.5 {}", unit);
  const Kind kind{what, example, {unit}, true};
  return read_si(typed, kind).map([&](double value) { return value / wanted->factor; });
}

Reading<double> read_number(std::string_view typed, std::string_view what) {
  const std::string plain = plainly(typed);
  const std::string allowed_text = fmt::format("{} is a plain number such as 0.7", what);
  const auto number = leading_number(plain, typed, allowed_text);
  if (!number) return make_unexpected(number.error());
  if (!number->rest.empty()) return make_unexpected(fmt::format("{} has something after the number; {}", quoted(typed), allowed_text));
  return number->value;
}

Temperature canonical(Temperature value) {
  return Temperature::celsius(std::round(value.celsius() * 100) / 100);
}
TemperatureDifference canonical(TemperatureDifference value) {
  return kelvins(std::round(value.si() * 100) / 100);
}
HeatingRate canonical(HeatingRate value) {
  return kelvins_per_minute(std::round(value.si() * 6000) / 100);
}
Duration canonical(Duration value) {
  return seconds(std::round(value.si()));
}
Pressure canonical(Pressure value) {
  return Pressure::si(std::round(value.si() / 10) * 10);
}

double edit_distance(std::string_view from, std::string_view to) {
  const std::size_t m = from.size();
  const std::size_t n = to.size();
  if (m > 80 || n > 80) return 1000;
  std::vector<std::vector<double>> d(m + 1, std::vector<double>(n + 1));
  for (std::size_t i = 0; i <= m; ++i) d[i][0] = static_cast<double>(i);
  for (std::size_t j = 0; j <= n; ++j) d[0][j] = static_cast<double>(j);
  const auto cost = [](char a, char b) {
    if (a == b) return 0.0;
    return std::tolower(static_cast<unsigned char>(a)) == std::tolower(static_cast<unsigned char>(b)) ? 0.5 : 1.0;
  };
  for (std::size_t i = 1; i <= m; ++i)
    for (std::size_t j = 1; j <= n; ++j) {
      d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + cost(from[i - 1], to[j - 1])});
      if (i > 1 && j > 1 && from[i - 1] == to[j - 2] && from[i - 2] == to[j - 1]) d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
    }
  return d[m][n];
}

}  // namespace heatwork::quantity
