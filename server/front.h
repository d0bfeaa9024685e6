// One request in, one answer out, whatever carried it: host, origin, session, token, role and route are asked here and nowhere else.
#pragma once

#include <atomic>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "server/gate.h"
#include "server/heard.h"
#include "server/route.h"
#include "server/router.h"
#include "server/session_work.h"

namespace heatwork::server {

class Front {
 public:
  Front(GateWords words, std::vector<Route> routes);

  /// Never throws.
  [[nodiscard]] Answer answer(const Heard& heard);

  /// The route a request goes to, before its body is read: how much it may carry. nullptr where there is none.
  [[nodiscard]] const Route* route_of(const Heard& heard) const;
  /// What the log calls it: the id of the route, "page", or "none".
  [[nodiscard]] std::string name_for_log(const Heard& heard) const;

  [[nodiscard]] const Router& router() const { return router_; }

 private:
  Answer answer_or_throw(const Heard& heard);
  Answer page(const Heard& heard);
  Answer routed(const Heard& heard, const Router::Found& found);

  /// An open line holds a worker: so many at most, so that some are left for answers.
  std::function<void(OpenLine&)> held(std::function<void(OpenLine&)> events, std::shared_ptr<Session> session);

  Gate gate_;
  SessionWork sessions_;
  Router router_;
  std::shared_ptr<std::atomic<int>> open_lines_ = std::make_shared<std::atomic<int>>(0);
};

/// The headers that every answer has.
const std::vector<std::pair<std::string, std::string>>& headers_of_all();

}  // namespace heatwork::server
