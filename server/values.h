// Texts by their name, as a path or a query gives them.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace heatwork::server {

class Values {
 public:
  using Pair = std::pair<std::string, std::string>;
  Values() = default;
  Values(std::vector<Pair> pairs) : pairs_(std::move(pairs)) {}

  /// nullptr where there is none of this name.
  [[nodiscard]] const std::string* find(std::string_view name) const;
  /// Of a name that must stand there. Errors: std::logic_error.
  [[nodiscard]] const std::string& at(std::string_view name) const;
  [[nodiscard]] const std::vector<Pair>& pairs() const { return pairs_; }

 private:
  std::vector<Pair> pairs_;
};

}  // namespace heatwork::server
