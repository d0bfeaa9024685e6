#include "desk/lab/exact_numbers.h"

#include <array>
#include <bit>
#include <charconv>
#include <cstdint>
#include <stdexcept>

namespace heatwork::desk {
namespace {

constexpr std::string_view alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
constexpr std::size_t bytes_a_number = 8;

void append(std::string& text, std::uint32_t three_bytes, std::size_t bytes) {
  for (std::size_t i = 0; i < 4; ++i) text += i <= bytes ? alphabet[(three_bytes >> (18U - 6U * i)) & 63U] : '=';
}

std::uint32_t value_of(char letter) {
  const std::size_t at = alphabet.find(letter);
  if (at == std::string_view::npos) throw std::invalid_argument("numbers kept bit for bit hold a letter that is none of base64");
  return static_cast<std::uint32_t>(at);
}

std::vector<unsigned char> bytes_of(std::string_view text) {
  if (text.size() % 4 != 0) throw std::invalid_argument("numbers kept bit for bit are cut off");
  std::vector<unsigned char> bytes;
  for (std::size_t at = 0; at < text.size(); at += 4) {
    std::size_t letters = 4;
    if (at + 4 == text.size())
      while (letters > 2 && text[at + letters - 1] == '=') --letters;
    std::uint32_t four = 0;
    for (std::size_t i = 0; i < 4; ++i) four = (four << 6U) | (i < letters ? value_of(text[at + i]) : 0U);
    for (std::size_t i = 0; i + 1 < letters; ++i) bytes.push_back(static_cast<unsigned char>((four >> (16U - 8U * i)) & 255U));
  }
  return bytes;
}

/// What a number at a place is where nothing is told of it.
double untold(std::size_t at, const std::vector<double>& so_far, std::span<const double> like, std::size_t row) {
  if (at < like.size()) return like[at];
  return at >= row ? so_far[at - row] : 0.0;
}

bool same_bits(double one, double other) {
  return std::bit_cast<std::uint64_t>(one) == std::bit_cast<std::uint64_t>(other);
}

constexpr std::string_view hexadecimal = "0123456789abcdef";
constexpr std::size_t most_numbers = 100'000;

}  // namespace

std::string exact_text(std::span<const double> values) {
  std::string text;
  text.reserve((values.size() * bytes_a_number + 2) / 3 * 4);
  std::uint32_t three = 0;
  std::size_t held = 0;
  for (const double value : values) {
    const auto bits = std::bit_cast<std::uint64_t>(value);
    for (std::size_t i = 0; i < bytes_a_number; ++i) {
      three = (three << 8U) | static_cast<std::uint32_t>((bits >> (8U * i)) & 255U);
      if (++held < 3) continue;
      append(text, three, 3);
      three = 0;
      held = 0;
    }
  }
  if (held > 0) append(text, three << (8U * (3 - held)), held);
  return text;
}

std::vector<double> exact_numbers(std::string_view text) {
  const std::vector<unsigned char> bytes = bytes_of(text);
  if (bytes.size() % bytes_a_number != 0) throw std::invalid_argument("numbers kept bit for bit are cut off");
  std::vector<double> values;
  for (std::size_t at = 0; at < bytes.size(); at += bytes_a_number) {
    std::uint64_t bits = 0;
    for (std::size_t i = 0; i < bytes_a_number; ++i) bits |= static_cast<std::uint64_t>(bytes[at + i]) << (8U * i);
    values.push_back(std::bit_cast<double>(bits));
  }
  return values;
}

std::string exact_text(std::span<const double> values, std::span<const double> like, std::size_t row) {
  const std::vector<double> all(values.begin(), values.end());
  std::string told(values.size() / 4 + (values.size() % 4 == 0 ? 0 : 1), '0');
  std::vector<double> numbers;
  for (std::size_t at = 0; at < all.size(); ++at) {
    if (same_bits(all[at], untold(at, all, like, row))) continue;
    told[at / 4] = hexadecimal[hexadecimal.find(told[at / 4]) | (std::size_t{1} << (at % 4))];
    numbers.push_back(all[at]);
  }
  return std::to_string(all.size()) + ":" + told + ":" + exact_text(numbers);
}

std::vector<double> exact_numbers(std::string_view text, std::span<const double> like, std::size_t row) {
  const std::size_t first = text.find(':'), second = first == std::string_view::npos ? first : text.find(':', first + 1);
  std::size_t count = 0;
  if (second == std::string_view::npos || std::from_chars(text.data(), text.data() + first, count).ptr != text.data() + first ||
      count > most_numbers || second - first - 1 != (count + 3) / 4)
    throw std::invalid_argument("numbers kept bit for bit do not say how many they are");
  const std::string_view told = text.substr(first + 1, second - first - 1);
  const std::vector<double> numbers = exact_numbers(text.substr(second + 1));
  std::vector<double> values;
  std::size_t next = 0;
  for (std::size_t at = 0; at < count; ++at) {
    const std::size_t digit = hexadecimal.find(told[at / 4]);
    if (digit == std::string_view::npos) throw std::invalid_argument("numbers kept bit for bit do not say which of them are told");
    const bool is_told = ((digit >> (at % 4)) & 1U) != 0;
    if (is_told && next == numbers.size()) throw std::invalid_argument("numbers kept bit for bit are cut off");
    values.push_back(is_told ? numbers[next++] : untold(at, values, like, row));
  }
  if (next != numbers.size()) throw std::invalid_argument("there are more numbers kept bit for bit than are told of");
  return values;
}

}  // namespace heatwork::desk
