#include "server/serve.h"

#include <fmt/format.h>

#include "server/connections.h"
#include "server/front.h"
#include "server/routes/routes.h"

namespace heatwork::server {
namespace {

std::string log_line(const Told& told) {
  return fmt::format(R"({{"method": "{}", "route": "{}", "status": {}, "ms": {:.1f}, "bytes": {}}})", told.method, told.route, told.status,
                     told.milliseconds, told.bytes);
}

}  // namespace

void serve(const ServeWords& words, const ServeHooks& hooks) {
  Connections connections({{"127.0.0.1"}, words.port, "", ""}, Limits{});
  Front front({words.lab, {"localhost", "127.0.0.1"}, connections.port(), {}}, all_routes());
  hooks.ready(fmt::format("Heatwork is at http://127.0.0.1:{}/ for this machine alone; Ctrl-C ends it.\n", connections.port()));
  connections.serve(front, hooks.stop, [&](const Told& told) { hooks.log(log_line(told) + "\n"); });
}

}  // namespace heatwork::server
