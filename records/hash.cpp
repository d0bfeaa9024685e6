#include "records/hash.h"

#include <sodium.h>

#include <cstring>
#include <stdexcept>
#include <vector>

namespace heatwork::records {

static_assert(sizeof(crypto_generichash_state) <= 384);

namespace {

crypto_generichash_state* state_of(std::array<unsigned char, 384>& bytes) {
  return reinterpret_cast<crypto_generichash_state*>(bytes.data());
}

const unsigned char* as_bytes(std::string_view text) {
  return reinterpret_cast<const unsigned char*>(text.data());
}

void set_up() {
  static const bool ready = sodium_init() >= 0;
  if (!ready) throw std::runtime_error("The machine gives no random numbers.");
}

std::string hex_of(const unsigned char* bytes, std::size_t size) {
  std::string text(size * 2 + 1, '\0');
  sodium_bin2hex(text.data(), text.size(), bytes, size);
  text.pop_back();
  return text;
}

}  // namespace

Hash::Hash() {
  set_up();
  crypto_generichash_init(state_of(state_), nullptr, 0, 32);
}

Hash& Hash::bytes(std::string_view bytes) {
  crypto_generichash_update(state_of(state_), as_bytes(bytes), bytes.size());
  return *this;
}

Hash& Hash::value(std::string_view bytes) {
  return this->bytes(std::to_string(bytes.size()) + ":").bytes(bytes);
}

Hash& Hash::value(std::int64_t number) {
  return value(std::to_string(number));
}

std::string Hash::hex() {
  std::array<unsigned char, 32> digest{};
  crypto_generichash_final(state_of(state_), digest.data(), digest.size());
  return hex_of(digest.data(), digest.size());
}

DigestKey drawn_key() {
  set_up();
  DigestKey key{};
  static_assert(std::tuple_size_v<DigestKey> == crypto_shorthash_siphashx24_KEYBYTES);
  randombytes_buf(key.data(), key.size());
  return key;
}

Digest keyed_digest(const DigestKey& key, std::string_view bytes) {
  std::array<unsigned char, crypto_shorthash_siphashx24_BYTES> out{};
  crypto_shorthash_siphashx24(out.data(), as_bytes(bytes), bytes.size(), key.data());
  Digest digest{};
  static_assert(sizeof(digest) == sizeof(out));
  std::memcpy(digest.data(), out.data(), out.size());
  return digest;
}

std::string hash_of_bytes(std::string_view bytes) {
  return Hash().bytes(bytes).hex();
}

std::string random_hex(std::size_t bytes) {
  set_up();
  std::vector<unsigned char> drawn(bytes);
  randombytes_buf(drawn.data(), drawn.size());
  return hex_of(drawn.data(), drawn.size());
}

std::string base64(std::string_view bytes) {
  constexpr int variant = sodium_base64_VARIANT_ORIGINAL;
  std::string text(sodium_base64_encoded_len(bytes.size(), variant), '\0');
  sodium_bin2base64(text.data(), text.size(), as_bytes(bytes), bytes.size(), variant);
  text.pop_back();
  return text;
}

bool from_base64(std::string_view text, std::string& bytes) {
  bytes.assign(text.size() / 4 * 3 + 3, '\0');
  std::size_t size = 0;
  const int answer = sodium_base642bin(reinterpret_cast<unsigned char*>(bytes.data()), bytes.size(), text.data(), text.size(), nullptr,
                                       &size, nullptr, sodium_base64_VARIANT_ORIGINAL);
  bytes.resize(size);
  return answer == 0;
}

}  // namespace heatwork::records
