#include "quantity/unit.h"

#include <cmath>
#include <utility>

namespace heatwork::quantity {
namespace {

struct Symbol {
  std::string_view name;
  double factor;
  std::array<int, 6> powers;
  bool takes_prefix;
};

// The millimetre of mercury is conventional: 133.322 387 415 Pa; the inch is 25.4 of them. The Fahrenheit degree is 5/9 K exactly.
constexpr double millimetre_of_mercury_Pa = 133.322387415;
constexpr std::array<int, 6> pressure_powers{-1, 1, -2, 0, 0, 0};

constexpr Symbol symbols[] = {
    {"m", 1, {1, 0, 0, 0, 0, 0}, true},
    {"g", 1e-3, {0, 1, 0, 0, 0, 0}, true},
    {"s", 1, {0, 0, 1, 0, 0, 0}, true},
    {"min", 60, {0, 0, 1, 0, 0, 0}, false},
    {"h", 3600, {0, 0, 1, 0, 0, 0}, false},
    {"d", 86400, {0, 0, 1, 0, 0, 0}, false},
    {"K", 1, {0, 0, 0, 1, 0, 0}, true},
    {"degC", 1, {0, 0, 0, 1, 0, 0}, false},
    {"C", 1, {0, 0, 0, 1, 0, 0}, false},
    {"degF", 5.0 / 9.0, {0, 0, 0, 1, 0, 0}, false},
    {"F", 5.0 / 9.0, {0, 0, 0, 1, 0, 0}, false},
    {"mol", 1, {0, 0, 0, 0, 1, 0}, true},
    {"A", 1, {0, 0, 0, 0, 0, 1}, true},
    {"Pa", 1, pressure_powers, true},
    {"bar", 1e5, pressure_powers, true},
    {"mmHg", millimetre_of_mercury_Pa, pressure_powers, false},
    {"inHg", 25.4 * millimetre_of_mercury_Pa, pressure_powers, false},
    {"N", 1, {1, 1, -2, 0, 0, 0}, true},
    {"J", 1, {2, 1, -2, 0, 0, 0}, true},
    {"W", 1, {2, 1, -3, 0, 0, 0}, true},
    {"V", 1, {2, 1, -3, 0, 0, -1}, true},
    {"l", 1e-3, {3, 0, 0, 0, 0, 0}, true},
    {"L", 1e-3, {3, 0, 0, 0, 0, 0}, true},
    {"%", 1e-2, {}, false},
    {"ppm", 1e-6, {}, false},
    {"1", 1, {}, false},
    {"10", 10, {}, false},
};

constexpr std::pair<char, double> prefixes[] = {{'G', 1e9},  {'M', 1e6},  {'k', 1e3},  {'h', 1e2}, {'d', 1e-1},
                                                {'c', 1e-2}, {'m', 1e-3}, {'u', 1e-6}, {'n', 1e-9}};

std::optional<Unit> read_symbol(std::string_view text) {
  for (const auto& symbol : symbols)
    if (symbol.name == text) return Unit{symbol.factor, symbol.powers};
  if (text.size() < 2) return std::nullopt;
  for (const auto& [letter, factor] : prefixes) {
    if (letter != text.front()) continue;
    for (const auto& symbol : symbols)
      if (symbol.takes_prefix && symbol.name == text.substr(1)) return Unit{factor * symbol.factor, symbol.powers};
  }
  return std::nullopt;
}

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// A recursive reader of products, quotients and brackets. A level of bracket is one call; brackets are not nested more than a few deep.
class UnitReader {
 public:
  explicit UnitReader(std::string_view text) : text_(text) {}

  std::optional<Unit> whole() {
    auto unit = expression(0);
    skip_spaces();
    if (!unit || at_ != text_.size()) return std::nullopt;
    return unit;
  }

 private:
  void skip_spaces() {
    while (at_ < text_.size() && text_[at_] == ' ') ++at_;
  }

  static void combine(Unit& result, const Unit& factor, int sign) {
    result.factor *= sign > 0 ? factor.factor : 1 / factor.factor;
    for (std::size_t i = 0; i < result.powers.size(); ++i) result.powers[i] += sign * factor.powers[i];
  }

  std::optional<Unit> expression(int depth) {
    Unit result;
    bool any = false;
    while (true) {
      skip_spaces();
      if (at_ == text_.size() || text_[at_] == ')') break;
      int sign = 1;
      if (text_[at_] == '/') {
        sign = -1;
        ++at_;
        skip_spaces();
      }
      const auto factor = one_factor(depth);
      if (!factor) return std::nullopt;
      combine(result, *factor, sign);
      any = true;
    }
    return any ? std::optional(result) : std::nullopt;
  }

  std::optional<Unit> one_factor(int depth) {
    if (at_ == text_.size()) return std::nullopt;
    if (text_[at_] == '(') {
      if (depth >= 3) return std::nullopt;
      ++at_;
      const auto inside = expression(depth + 1);
      if (!inside || at_ == text_.size() || text_[at_] != ')') return std::nullopt;
      ++at_;
      return inside;
    }
    return powered_symbol();
  }

  std::optional<Unit> powered_symbol() {
    const std::size_t start = at_;
    if (is_digit(text_[at_])) {
      while (at_ < text_.size() && is_digit(text_[at_])) ++at_;
    } else {
      while (at_ < text_.size() && (text_[at_] == '%' || std::isalpha(static_cast<unsigned char>(text_[at_])) != 0)) ++at_;
    }
    const auto symbol = read_symbol(text_.substr(start, at_ - start));
    if (!symbol) return std::nullopt;
    const auto power = read_power();
    if (!power) return std::nullopt;
    Unit result{std::pow(symbol->factor, *power), symbol->powers};
    for (auto& p : result.powers) p *= *power;
    return result;
  }

  std::optional<int> read_power() {
    const bool raised = at_ < text_.size() && text_[at_] == '^';
    if (raised) ++at_;
    const bool negative = at_ < text_.size() && text_[at_] == '-';
    if (negative) ++at_;
    if (at_ == text_.size() || !is_digit(text_[at_])) return raised || negative ? std::nullopt : std::optional(1);
    int power = 0;
    for (int digits = 0; at_ < text_.size() && is_digit(text_[at_]); ++at_, ++digits) {
      if (digits == 2) return std::nullopt;
      power = 10 * power + (text_[at_] - '0');
    }
    return negative ? -power : power;
  }

  std::string_view text_;
  std::size_t at_ = 0;
};

}  // namespace

std::string plain_spelling(std::string_view typed) {
  static constexpr std::pair<std::string_view, std::string_view> spellings[] = {
      {"°", "deg"},    {"℃", "degC"},   {"℉", "degF"},   {"µ", "u"},        {"μ", "u"},        {"·", " "}, {"×", " "},
      {"*", " "},      {"²", "2"},      {"³", "3"},      {"¹", "1"},        {"⁻", "-"},        {"−", "-"}, {"⁶", "6"},
      {"\u00a0", " "}, {"\u202f", " "}, {"\u2009", " "}, {"deg C", "degC"}, {"deg F", "degF"}, {"\t", " "}};
  std::string plain;
  while (!typed.empty()) {
    bool replaced = false;
    for (const auto& [from, to] : spellings) {
      if (!typed.starts_with(from)) continue;
      plain += to;
      typed.remove_prefix(from.size());
      if (from == "°" && typed.size() > 1 && typed[0] == ' ' && (typed[1] == 'C' || typed[1] == 'F')) typed.remove_prefix(1);
      replaced = true;
      break;
    }
    if (replaced) continue;
    plain += typed.front();
    typed.remove_prefix(1);
  }
  const auto first = plain.find_first_not_of(' ');
  if (first == std::string::npos) return {};
  return plain.substr(first, plain.find_last_not_of(' ') - first + 1);
}

std::optional<Unit> read_unit(std::string_view typed) {
  const std::string plain = plain_spelling(typed);
  return UnitReader(plain).whole();
}

}  // namespace heatwork::quantity
