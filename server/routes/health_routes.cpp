#include <chrono>
#include <mutex>

#include "desk/lab/store_care.h"
#include "desk/version.h"
#include "server/routes/routes.h"

namespace heatwork::server {
namespace {

constexpr auto remembered = std::chrono::seconds(2);

bool reaches(const desk::AskedLab& lab) {
  try {
    desk::status_of_store(lab);
    return true;
  } catch (...) {
    return false;
  }
}

/// Asked without log-in: the store is not opened for each that asks.
bool store_is_reached(const desk::AskedLab& lab) {
  static std::mutex mutex;
  static std::chrono::steady_clock::time_point asked_at;
  static bool reached = false;
  const std::lock_guard lock(mutex);
  const auto now = std::chrono::steady_clock::now();
  if (asked_at == std::chrono::steady_clock::time_point() || now - asked_at >= remembered) {
    reached = reaches(lab);
    asked_at = std::chrono::steady_clock::now();
  }
  return reached;
}

Answer health(const Asked& asked) {
  const std::string_view store = store_is_reached(asked.lab) ? "reached" : "not reached";
  return answer_of(
      desk::Json(desk::JsonObject{{"format", 1}, {"status", "running"}, {"version", desk::program_version()}, {"store", store}}));
}

}  // namespace

std::vector<Route> health_routes() {
  return {{"GET", "/health", "health", Needs::nothing, health}};
}

}  // namespace heatwork::server
