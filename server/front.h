// One request in, one answer out, whatever carried it: host, origin, session, token, role and route are asked here and nowhere else.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "desk/lab/asked.h"
#include "server/route.h"
#include "server/router.h"
#include "server/sessions.h"

namespace heatwork::server {

/// A request as it arrived.
struct Heard {
  std::string method, target;  ///< target as sent: "/api/lots/dentine-7?page=2"
  std::vector<std::pair<std::string, std::string>> headers;
  std::string body;
  std::string from;     ///< address of whoever asks
  bool secure = false;  ///< it came over TLS
  /// The first of this name, letter case aside; nullptr where there is none.
  [[nodiscard]] const std::string* header(std::string_view name) const;
  [[nodiscard]] std::string_view path() const;
};

struct FrontWords {
  desk::AskedLab lab;              ///< of the one who started the server
  std::vector<std::string> hosts;  ///< names it answers to, without port, in small letters
  int port = 0;                    ///< part of the cookie's name: cookies know no ports
  SessionTimes times{};
};

class Front {
 public:
  Front(FrontWords words, std::vector<Route> routes);

  /// Never throws.
  [[nodiscard]] Answer answer(const Heard& heard);

  /// The route a request goes to, before its body is read: how much it may carry. nullptr where there is none.
  [[nodiscard]] const Route* route_of(const Heard& heard) const;
  /// What the log calls it: the id of the route, "page", or "none".
  [[nodiscard]] std::string name_for_log(const Heard& heard) const;

  [[nodiscard]] const Router& router() const { return router_; }

 private:
  Answer answer_or_throw(const Heard& heard);
  Answer routed(const Heard& heard, const Router::Found& found);
  Answer session_state(const Heard& heard);
  std::shared_ptr<Session> session_of(const Heard& heard);
  [[nodiscard]] std::string cookie_name() const;
  Answer with_cookie(Answer answer, const Sessions::Begun& begun, bool secure) const;
  Answer state_of(const Session& session) const;
  desk::AskedLab lab_of(const Session& session) const;

  FrontWords words_;
  Sessions sessions_;
  Router router_;
};

/// The headers that every answer has.
const std::vector<std::pair<std::string, std::string>>& headers_of_all();

}  // namespace heatwork::server
