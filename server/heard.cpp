#include "server/heard.h"

#include <algorithm>
#include <cctype>

namespace heatwork::server {

bool same_letters(std::string_view one, std::string_view other) {
  return std::equal(one.begin(), one.end(), other.begin(), other.end(), [](char a, char b) {
    return std::tolower(static_cast<unsigned char>(a)) == std::tolower(static_cast<unsigned char>(b));
  });
}

const std::string* Heard::header(std::string_view name) const {
  const auto found = std::find_if(headers.begin(), headers.end(), [&](const auto& header) { return same_letters(header.first, name); });
  return found == headers.end() ? nullptr : &found->second;
}

std::string Heard::header_or_nothing(std::string_view name) const {
  const std::string* found = header(name);
  return found == nullptr ? "" : *found;
}

std::string Heard::cookie(std::string_view name) const {
  for (const auto& [key, value] : headers) {
    if (!same_letters(key, "Cookie")) continue;
    for (std::size_t start = 0; start < value.size();) {
      const std::size_t end = std::min(value.find(';', start), value.size());
      std::string_view one = std::string_view(value).substr(start, end - start);
      while (one.starts_with(' ')) one.remove_prefix(1);
      if (one.size() > name.size() && one.starts_with(name) && one[name.size()] == '=') return std::string(one.substr(name.size() + 1));
      start = end + 1;
    }
  }
  return "";
}

std::string_view Heard::path() const {
  return std::string_view(target).substr(0, std::min(target.find('?'), target.size()));
}

std::string_view Heard::query() const {
  return std::string_view(target).substr(std::min(path().size() + 1, target.size()));
}

bool Heard::writes() const {
  return method != "GET" && method != "HEAD";
}

}  // namespace heatwork::server
