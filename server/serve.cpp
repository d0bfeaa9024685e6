#include "server/serve.h"

#include <fmt/format.h>

#include <exception>

#include "desk/lab/store_care.h"
#include "server/connections.h"
#include "server/front.h"
#include "server/routes/routes.h"

namespace heatwork::server {
namespace {

std::string log_line(const Told& told) {
  return fmt::format(R"({{"method": "{}", "route": "{}", "status": {}, "ms": {:.1f}, "bytes": {}}})", told.method, told.route, told.status,
                     told.milliseconds, told.bytes);
}

/// Where no store stands one is made, and said: whoever opens the page first begins with an empty lab, not with an error. What else may be
/// wrong with a store is for its own requests to tell.
std::string made_where_none_stands(const desk::AskedLab& lab) {
  try {
    return desk::make_store(lab).text;
  } catch (const std::exception&) {
    return {};
  }
}

}  // namespace

void serve(const ServeWords& words, const ServeHooks& hooks) {
  Connections connections({{"127.0.0.1"}, words.port, "", ""}, Limits{});
  Front front({words.lab, {"localhost", "127.0.0.1", "[::1]"}, connections.port()}, all_routes());
  if (const std::string made = made_where_none_stands(words.lab); !made.empty()) hooks.log(made);
  hooks.ready(fmt::format("Heatwork is at http://127.0.0.1:{}/ for this machine alone; Ctrl-C ends it.\n", connections.port()));
  connections.serve(front, hooks.stop, [&](const Told& told) { hooks.log(log_line(told) + "\n"); });
}

}  // namespace heatwork::server
