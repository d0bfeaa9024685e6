#include "desk/lab/demo_lab.h"
#include "server/body.h"
#include "server/routes/routes.h"

namespace heatwork::server {
namespace {

/// The demo lab beside the lab's own store: made where none stands; with "anew" in place of the one that stands.
Answer make(const Asked& asked) {
  const Body body("the body", asked.body, {"anew"});
  desk::AskedLab demo = asked.lab;
  demo.store = desk::demo_store_of(asked.lab);
  return answer_of(body.truth_or("anew", false) ? desk::make_demo_lab_anew(demo, asked.language)
                                                : desk::make_demo_lab(demo, asked.language));
}

}  // namespace

std::vector<Route> demo_routes() {
  return {{"POST", "/api/demo", "make_demo_lab", Needs::fire, make}};
}

}  // namespace heatwork::server
