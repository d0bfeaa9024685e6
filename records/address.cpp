#include "records/address.h"

#include <algorithm>
#include <cctype>

#include "records/store_error.h"

namespace heatwork::records {

namespace {

constexpr std::string_view allowed = "a path such as lab.sqlite, or postgresql://user@host:port/database";

[[noreturn]] void refuse(const std::string& why) {
  throw StoreError(StoreProblem::bad_address, "A store's address " + why + "; allowed is " + std::string(allowed) + ".");
}

/// Passwords hide in two places of a URL: user:password@ and ?password=...
std::string without_password(std::string url) {
  const auto start = url.find("://") + 3;
  const auto end = std::min(url.find_first_of("/?#", start), url.size());
  const auto at = url.rfind('@', end);
  if (at != std::string::npos && at >= start && at < end) {
    const auto colon = url.find(':', start);
    if (colon != std::string::npos && colon < at) url.erase(colon, at - colon);
  }
  const auto question = url.find('?');
  if (question == std::string::npos) return url;
  std::string kept;
  for (std::size_t from = question + 1; from < url.size();) {
    const auto to = std::min(url.find('&', from), url.size());
    const std::string part = url.substr(from, to - from);
    std::string key = part.substr(0, part.find('='));
    std::transform(key.begin(), key.end(), key.begin(), [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
    // A name may hide a letter behind %: whatever is not plainly another setting is left out.
    const bool secret = key.find("pass") != std::string::npos || key.find('%') != std::string::npos;
    if (!secret) kept += (kept.empty() ? "?" : "&") + part;
    from = to + 1;
  }
  return url.substr(0, question) + kept;
}

}  // namespace

std::string_view word(Engine engine) {
  return engine == Engine::sqlite ? "SQLite" : "PostgreSQL";
}

std::string Address::shown() const {
  return engine == Engine::sqlite ? where : without_password(where);
}

Address read_address(std::string_view text) {
  if (text.empty()) refuse("is empty");
  const auto control = [](char letter) { return static_cast<unsigned char>(letter) < 0x20 || letter == 0x7f; };
  if (std::any_of(text.begin(), text.end(), control)) refuse("holds a control character");
  for (const std::string_view scheme : {"postgresql://", "postgres://"}) {
    if (text.substr(0, scheme.size()) != scheme) continue;
    if (text.find(' ') != std::string_view::npos) refuse("of PostgreSQL holds a blank");
    if (text.size() == scheme.size()) refuse("names no server and no database");
    return {Engine::postgresql, std::string(text)};
  }
  constexpr std::string_view sqlite = "sqlite:";
  std::string path(text.substr(0, sqlite.size()) == sqlite ? text.substr(sqlite.size()) : text);
  if (text.substr(0, sqlite.size()) == sqlite && path.rfind("//", 0) == 0) path.erase(0, 2);
  if (path.empty()) refuse("names no file");
  if (path.find("://") != std::string::npos) refuse("begins with \"" + path.substr(0, path.find("://") + 3) + "\"");
  if (path.back() == '/') refuse("ends with \"/\", which is a folder");
  if (path == ":memory:") refuse("names no file: what is kept must outlive the program");
  return {Engine::sqlite, path};
}

}  // namespace heatwork::records
