// A request as it arrived, whatever carried it.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace heatwork::server {

struct Heard {
  std::string method{}, target{};  ///< target as sent: "/api/lots/dentine-7?page=2"
  std::vector<std::pair<std::string, std::string>> headers{};
  std::string body{};
  std::string from{};   ///< address of whoever asks
  bool secure = false;  ///< it came over TLS

  /// The first of this name, letter case aside; nullptr where there is none.
  [[nodiscard]] const std::string* header(std::string_view name) const;
  /// The same; empty where there is none.
  [[nodiscard]] std::string header_or_nothing(std::string_view name) const;
  /// Empty where there is none.
  [[nodiscard]] std::string cookie(std::string_view name) const;
  [[nodiscard]] std::string_view path() const;
  [[nodiscard]] std::string_view query() const;
  /// Everything but GET and HEAD.
  [[nodiscard]] bool writes() const;
};

/// Letter case aside, for ASCII.
bool same_letters(std::string_view one, std::string_view other);

}  // namespace heatwork::server
