#include "desk/lab/deviations.h"
#include "server/body.h"
#include "server/routes/routes.h"

namespace heatwork::server {
namespace {

Answer found(const Asked& asked) {
  const Body body("the body", asked.body, {"name", "from", "found", "firing", "pieces", "at", "reason"});
  return answer_of(desk::open_deviation(asked.lab, {body.text("name"), body.text("from"), body.text("found"), body.text_or("firing", ""),
                                                    body.texts("pieces"), body.text_or("at", ""), body.text_or("reason", "")}));
}

Answer decided(const Asked& asked) {
  const Body body("the body", asked.body, {"decision", "reason", "trial"});
  return answer_of(
      desk::decide_deviation(asked.lab, {asked.path.at("name"), body.text("decision"), body.text("reason"), body.text_or("trial", "")}));
}

Answer released(const Asked& asked) {
  const Body body("the body", asked.body, {"reason"});
  return answer_of(desk::release_deviation(asked.lab, asked.path.at("name"), body.text_or("reason", "")));
}

}  // namespace

std::vector<Route> deviation_routes() {
  return {
      {"POST", "/api/deviations", "open_deviation", Needs::fire, found},
      {"PUT", "/api/deviations/{name}/decision", "decide_deviation", Needs::release, decided},
      {"PUT", "/api/deviations/{name}/release", "release_deviation", Needs::release, released},
  };
}

}  // namespace heatwork::server
