#include "desk/version.h"

#include <fmt/core.h>
#include <sodium.h>

#include <array>

#include "trade/shipped.h"

namespace heatwork::desk {

std::string_view program_version() {
  return HEATWORK_VERSION;
}

std::string data_version() {
  crypto_generichash_state state;
  crypto_generichash_init(&state, nullptr, 0, crypto_generichash_BYTES);
  const auto take = [&](std::string_view part) {
    const std::string length = fmt::format("{}:", part.size());
    crypto_generichash_update(&state, reinterpret_cast<const unsigned char*>(length.data()), length.size());
    crypto_generichash_update(&state, reinterpret_cast<const unsigned char*>(part.data()), part.size());
  };
  for (const trade::ShippedFile& file : trade::shipped_files()) {
    take(file.path);
    take(file.text);
  }
  std::array<unsigned char, crypto_generichash_BYTES> hash{};
  crypto_generichash_final(&state, hash.data(), hash.size());
  std::string digits;
  for (std::size_t i = 0; i < 8; ++i) digits += fmt::format("{:02x}", hash[i]);
  return digits;
}

std::string disclaimer(trade::Language language) {
  return trade::words_of(language).say("safety.disclaimer");
}

}  // namespace heatwork::desk
