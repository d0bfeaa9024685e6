#include "desk/lab/form.h"
#include "server/kinds.h"
#include "server/routes/routes.h"

namespace heatwork::server {
namespace {

Answer form(const Asked& asked) {
  return answer_of(desk::form_for(kind_of(asked), asked.language, asked.units));
}

}  // namespace

std::vector<Route> form_routes() {
  return {{"GET", "/api/forms/{kind}", "form", Needs::sign_in, form}};
}

}  // namespace heatwork::server
