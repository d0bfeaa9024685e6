#include "server/body.h"
#include "server/description.h"
#include "server/routes/routes.h"

namespace heatwork::server {
namespace {

Answer show(const Asked& asked) {
  const Query query(asked.query, {});
  return answer_of(description());
}

}  // namespace

std::vector<Route> description_routes() {
  return {{"GET", "/api/openapi.json", "description", Needs::sign_in, show}};
}

}  // namespace heatwork::server
