// BLAKE2b-256 over values one after another, each written as its length in decimal digits, a colon and its bytes.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace heatwork::records {

class Hash {
 public:
  Hash();
  Hash& value(std::string_view bytes);
  Hash& value(std::int64_t number);  ///< as its decimal digits
  /// Bytes as they are, no length before them.
  Hash& bytes(std::string_view bytes);
  /// 64 hexadecimal digits. Nothing may be added after.
  std::string hex();

 private:
  alignas(64) std::array<unsigned char, 384> state_;
};

/// A secret drawn for one run: what is digested under it can be told by nobody beforehand.
using DigestKey = std::array<unsigned char, 16>;
DigestKey drawn_key();
using Digest = std::array<std::uint64_t, 2>;
/// SipHash-2-4 with 128 bits.
Digest keyed_digest(const DigestKey& key, std::string_view bytes);

/// BLAKE2b-256 over the bytes alone. [64 hexadecimal digits]
std::string hash_of_bytes(std::string_view bytes);
/// Bytes nobody can guess, as hexadecimal digits.
std::string random_hex(std::size_t bytes);
std::string base64(std::string_view bytes);
/// False where the text is no base64.
bool from_base64(std::string_view text, std::string& bytes);

}  // namespace heatwork::records
