#include "desk/lab/demo_photo.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <string_view>

namespace heatwork::desk {
namespace {

constexpr int width = 240, height = 180;

std::string big_endian(std::uint32_t number) {
  std::string bytes;
  for (int shift = 24; shift >= 0; shift -= 8) bytes += static_cast<char>((number >> shift) & 0xffU);
  return bytes;
}

/// Check value of a part of a PNG file (its polynomial is that of the format).
std::uint32_t check_of(std::string_view bytes) {
  std::uint32_t check = 0xffffffffU;
  for (const char each : bytes) {
    check ^= static_cast<unsigned char>(each);
    for (int bit = 0; bit < 8; ++bit) check = (check >> 1U) ^ ((check & 1U) != 0 ? 0xedb88320U : 0U);
  }
  return ~check;
}

std::string part(std::string_view type, const std::string& bytes) {
  const std::string checked = std::string(type) + bytes;
  return big_endian(static_cast<std::uint32_t>(bytes.size())) + checked + big_endian(check_of(checked));
}

/// As a stream that is not packed: blocks of at most 65535 bytes, each with its length and the length turned round.
std::string stored(const std::string& bytes) {
  constexpr std::size_t most = 65'535;
  std::string out("\x78\x01", 2);
  std::uint32_t low = 1, high = 0;
  for (const char each : bytes) {
    low = (low + static_cast<unsigned char>(each)) % 65'521U;
    high = (high + low) % 65'521U;
  }
  for (std::size_t from = 0; from < bytes.size(); from += most) {
    const std::size_t size = std::min(most, bytes.size() - from);
    out += from + size == bytes.size() ? '\x01' : '\x00';
    for (const std::size_t each : {size, ~size}) {
      out += static_cast<char>(each & 0xffU);
      out += static_cast<char>((each >> 8U) & 0xffU);
    }
    out += bytes.substr(from, size);
  }
  return out + big_endian((high << 16U) | low);
}

/// Light from above left on a rounded shape; below it the edge of a tray.
unsigned char grey_at(int x, int y) {
  const double across = (x - width * 0.5) / 62.0, down = (y - height * 0.47) / 58.0;
  const double inside = std::pow(std::abs(across), 2.6) + std::pow(std::abs(down), 2.6);
  if (inside < 1) {
    const double depth = std::sqrt(1 - inside);
    return static_cast<unsigned char>(std::clamp(120 + 100 * (0.75 * depth - 0.3 * across - 0.35 * down), 70.0, 238.0));
  }
  const double tray = std::hypot((x - width * 0.5) / 105.0, (y - height * 0.82) / 20.0);
  return static_cast<unsigned char>(tray < 1 ? 168 - 22 * tray : 92 + y / 6);
}

}  // namespace

std::string demo_photo() {
  std::string rows;
  for (int y = 0; y < height; ++y) {
    rows += '\0';
    for (int x = 0; x < width; ++x) rows += static_cast<char>(grey_at(x, y));
  }
  const std::string head = big_endian(width) + big_endian(height) + std::string("\x08\x00\x00\x00\x00", 5);
  return std::string("\x89PNG\r\n\x1a\n", 8) + part("IHDR", head) + part("IDAT", stored(rows)) + part("IEND", "");
}

}  // namespace heatwork::desk
