#include <iterator>
#include <utility>

#include "server/routes/routes.h"

namespace heatwork::server {

std::vector<Route> all_routes() {
  std::vector<Route> all;
  for (const auto group : {health_routes, session_routes, document_routes, form_routes, today_routes, question_routes, firing_work_routes,
                           person_routes, deviation_routes, lab_routes, demo_routes, description_routes, rehearse_routes, help_routes,
                           job_routes, furnace_check_routes, furnace_care_routes}) {
    std::vector<Route> routes = group();
    std::move(routes.begin(), routes.end(), std::back_inserter(all));
  }
  return all;
}

}  // namespace heatwork::server
