#include "server/router.h"

#include <algorithm>
#include <set>
#include <stdexcept>
#include <utility>

#include "trade/utf8.h"

namespace heatwork::server {
namespace {

int digit_of(char letter) {
  if (letter >= '0' && letter <= '9') return letter - '0';
  if (letter >= 'a' && letter <= 'f') return letter - 'a' + 10;
  if (letter >= 'A' && letter <= 'F') return letter - 'A' + 10;
  return -1;
}

bool is_place(std::string_view part) {
  return part.starts_with('{');
}

std::vector<std::string_view> parts_of(std::string_view path) {
  std::vector<std::string_view> parts;
  if (!path.starts_with('/')) return parts;
  for (std::size_t start = 1;;) {
    const std::size_t end = path.find('/', start);
    parts.push_back(path.substr(start, end == std::string_view::npos ? end : end - start));
    if (end == std::string_view::npos) return parts;
    start = end + 1;
  }
}

/// The decoded values of its places where the parts fit the template.
std::optional<std::vector<Values::Pair>> fitted(const std::vector<std::string_view>& asked, const std::vector<std::string_view>& parts) {
  if (asked.size() != parts.size()) return std::nullopt;
  std::vector<Values::Pair> values;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const auto text = decoded(asked[i]);
    if (!text) return std::nullopt;
    if (is_place(parts[i])) {
      if (text->empty()) return std::nullopt;
      values.emplace_back(parts[i].substr(1, parts[i].size() - 2), *text);
    } else if (*text != parts[i]) {
      return std::nullopt;
    }
  }
  return values;
}

/// Fixed parts go before places, read from the left.
bool goes_before(const std::vector<std::string_view>& one, const std::vector<std::string_view>& other) {
  for (std::size_t i = 0; i < std::min(one.size(), other.size()); ++i) {
    if (is_place(one[i]) != is_place(other[i])) return is_place(other[i]);
  }
  return false;
}

}  // namespace

std::optional<std::string> decoded(std::string_view part) {
  std::string out;
  for (std::size_t i = 0; i < part.size(); ++i) {
    char letter = part[i];
    if (letter == '%') {
      if (i + 2 >= part.size()) return std::nullopt;
      const int high = digit_of(part[i + 1]), low = digit_of(part[i + 2]);
      if (high < 0 || low < 0) return std::nullopt;
      letter = static_cast<char>(high * 16 + low);
      i += 2;
    }
    if (static_cast<unsigned char>(letter) < 0x20 || letter == 0x7F) return std::nullopt;
    out += letter;
  }
  if (trade::first_wrong_byte(out) != std::string_view::npos) return std::nullopt;
  return out;
}

std::optional<Values> decoded_query(std::string_view text) {
  std::vector<Values::Pair> pairs;
  std::set<std::string> seen;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('&'), text.size());
    std::string one(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
    std::replace(one.begin(), one.end(), '+', ' ');
    const std::size_t equals = std::min(one.find('='), one.size());
    const auto name = decoded(std::string_view(one).substr(0, equals));
    const auto value = decoded(std::string_view(one).substr(std::min(equals + 1, one.size())));
    if (!name || !value || name->empty() || !seen.insert(*name).second) return std::nullopt;
    pairs.emplace_back(*name, *value);
  }
  return Values(std::move(pairs));
}

Router::Router(std::vector<Route> routes) : routes_(std::move(routes)) {
  std::stable_sort(routes_.begin(), routes_.end(),
                   [](const Route& one, const Route& other) { return goes_before(parts_of(one.path), parts_of(other.path)); });
  std::set<std::string> seen, ids;
  for (const Route& route : routes_) {
    parts_.push_back(parts_of(route.path));
    std::string shape(route.method);
    for (const std::string_view part : parts_.back()) shape += '/' + (is_place(part) ? "{}" : std::string(part));
    if (parts_.back().empty() || !route.answer || !seen.insert(shape).second || !ids.insert(std::string(route.id)).second)
      throw std::logic_error("a route is wrong or stands twice: " + shape + " " + std::string(route.id));
  }
}

Router::Found Router::find(std::string_view method, std::string_view path) const {
  Found found;
  const std::vector<std::string_view> asked = parts_of(path);
  for (std::size_t i = 0; i < routes_.size(); ++i) {
    auto values = fitted(asked, parts_[i]);
    if (!values) continue;
    if (routes_[i].method == method || (method == "HEAD" && routes_[i].method == "GET")) return {&routes_[i], std::move(*values), {}};
    found.other.push_back(routes_[i].method);
  }
  return found;
}

}  // namespace heatwork::server
