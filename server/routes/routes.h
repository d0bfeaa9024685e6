// The groups of routes: each stands in a file of its own, NAME_routes.cpp, and is joined in all_routes.cpp.
#pragma once

#include <vector>

#include "server/route.h"

namespace heatwork::server {

std::vector<Route> health_routes();
std::vector<Route> session_routes();
std::vector<Route> document_routes();
std::vector<Route> form_routes();
std::vector<Route> today_routes();
std::vector<Route> question_routes();
std::vector<Route> firing_work_routes();
std::vector<Route> person_routes();
std::vector<Route> deviation_routes();
std::vector<Route> lab_routes();
std::vector<Route> demo_routes();
std::vector<Route> description_routes();
std::vector<Route> rehearse_routes();
std::vector<Route> help_routes();
std::vector<Route> job_routes();
std::vector<Route> furnace_check_routes();
std::vector<Route> furnace_care_routes();

/// All of them.
std::vector<Route> all_routes();

}  // namespace heatwork::server
