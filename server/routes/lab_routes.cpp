#include "desk/lab/lab_settings.h"
#include "server/body.h"
#include "server/kinds.h"
#include "server/routes/routes.h"

namespace heatwork::server {
namespace {

Answer show(const Asked& asked) {
  const Query query(asked.query, {});
  return answer_of(desk::show_lab(asked.lab));
}

Answer set(const Asked& asked) {
  const Body body("the body", asked.body, {"name", "language", "units", "from", "reason"});
  desk::LabWords words;
  words.called = body.text_if("name");
  words.language = body.text_if("language");
  words.units = body.text_if("units");
  words.from = body.whole_if("from", 1, most_versions).value_or(0);
  words.reason = body.text_or("reason", "");
  return refused_with_more([&] { return answer_of(desk::set_lab(asked.lab, words)); }, nullptr);
}

}  // namespace

std::vector<Route> lab_routes() {
  return {
      {"GET", "/api/lab", "show_lab", Needs::sign_in, show},
      {"PUT", "/api/lab", "set_lab", Needs::set_up, set},
  };
}

}  // namespace heatwork::server
