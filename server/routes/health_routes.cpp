#include "desk/lab/store_care.h"
#include "desk/version.h"
#include "server/routes/routes.h"

namespace heatwork::server {
namespace {

Answer health(const Asked& asked) {
  std::string_view store = "reached";
  try {
    desk::status_of_store(asked.lab);
  } catch (...) {
    store = "not reached";
  }
  return answer_of(
      desk::Json(desk::JsonObject{{"format", 1}, {"status", "running"}, {"version", desk::program_version()}, {"store", store}}));
}

}  // namespace

std::vector<Route> health_routes() {
  return {{"GET", "/health", "health", Needs::nothing, health}};
}

}  // namespace heatwork::server
