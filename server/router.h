// From the path of a request to its route: templates such as "/api/documents/{kind}/{name}", decoded strictly.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "server/route.h"

namespace heatwork::server {

/// "%C3%A4" is "ä". Nothing where the encoding is broken, gives a NUL or another control character, or is not UTF-8.
std::optional<std::string> decoded(std::string_view part);

/// "a=b&c=d"; "+" is a space. Nothing where it cannot be decoded, a name stands twice or is empty.
std::optional<Values> decoded_query(std::string_view text);

class Router {
 public:
  /// Errors: std::logic_error where two routes are the same, or a path is none.
  explicit Router(std::vector<Route> routes);

  struct Found {
    const Route* route = nullptr;         ///< nullptr: none of this method
    Values values;                        ///< of the places in the path
    std::vector<std::string_view> other;  ///< methods this path has, where it has not the one asked for
  };
  /// `path` as it was sent, without the query. A fixed part goes before a place: "/api/lots/new" before "/api/lots/{name}".
  [[nodiscard]] Found find(std::string_view method, std::string_view path) const;
  [[nodiscard]] const std::vector<Route>& routes() const { return routes_; }

 private:
  std::vector<Route> routes_;
  std::vector<std::vector<std::string_view>> parts_;  ///< of each route
};

}  // namespace heatwork::server
