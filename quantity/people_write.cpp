#include "quantity/people_write.h"

#include <fmt/format.h>

#include <array>
#include <cctype>
#include <cstdlib>

namespace heatwork::quantity {
namespace {

/// A number as programs write it: "2", "5", -7 of "2.5e-7"; how many letters of the text it takes.
struct Written {
  std::string whole, part;
  int power = 0;
  bool has_power = false;
  std::size_t length = 0;
};

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

std::string digits_at(std::string_view text, std::size_t& at) {
  std::string digits;
  for (; at < text.size() && is_digit(text[at]); ++at) digits += text[at];
  return digits;
}

Written number_at(std::string_view text, std::size_t from) {
  Written number;
  std::size_t at = from;
  number.whole = digits_at(text, at);
  if (at + 1 < text.size() && text[at] == '.' && is_digit(text[at + 1])) number.part = digits_at(text, ++at);
  std::size_t power_at = at + 1;
  const bool negative = power_at < text.size() && text[power_at] == '-';
  if (power_at < text.size() && (negative || text[power_at] == '+')) ++power_at;
  if (at < text.size() && (text[at] == 'e' || text[at] == 'E')) {
    if (const std::string power = digits_at(text, power_at); !power.empty() && power.size() < 4) {
      number.power = std::atoi(power.c_str()) * (negative ? -1 : 1);
      number.has_power = true;
      at = power_at;
    }
  }
  number.length = at - from;
  return number;
}

std::string raised(int power) {
  constexpr std::array<std::string_view, 10> digits{"⁰", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"};
  std::string out = power < 0 ? "⁻" : "";
  for (const char digit : std::to_string(std::abs(power))) out += digits[static_cast<std::size_t>(digit - '0')];
  return out;
}

std::string people_write(const Written& number, std::string_view mark) {
  constexpr int smallest_power = -5, largest_power = 11;
  const auto pointed = [&](const std::string& whole, const std::string& part) {
    return part.empty() ? whole : fmt::format("{}{}{}", whole, mark, part);
  };
  if (!number.has_power) return pointed(number.whole, number.part);
  std::string digits = number.whole + number.part;
  const auto first = digits.find_first_not_of('0');
  if (first == std::string::npos) return "0";
  const int power = static_cast<int>(number.whole.size()) + number.power - 1 - static_cast<int>(first);
  digits = digits.substr(first, digits.find_last_not_of('0') + 1 - first);
  if (power < smallest_power || power > largest_power)
    return (digits == "1" ? "" : pointed(digits.substr(0, 1), digits.substr(1)) + "·") + "10" + raised(power);
  if (power < 0) return pointed("0", std::string(static_cast<std::size_t>(-power - 1), '0') + digits);
  const auto before_mark = static_cast<std::size_t>(power) + 1;
  if (digits.size() <= before_mark) return digits + std::string(before_mark - digits.size(), '0');
  return pointed(digits.substr(0, before_mark), digits.substr(before_mark));
}

}  // namespace

std::string as_people_write(std::string_view text, std::string_view decimal_mark) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const bool begins =
        is_digit(text[at]) && (at == 0 || (std::isalnum(static_cast<unsigned char>(text[at - 1])) == 0 && text[at - 1] != '.'));
    const Written number = begins ? number_at(text, at) : Written{};
    out += begins ? people_write(number, decimal_mark) : std::string(1, text[at]);
    at += begins ? number.length : 1;
  }
  return out;
}

}  // namespace heatwork::quantity
