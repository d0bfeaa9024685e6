#include "desk/lab/persons.h"
#include "server/body.h"
#include "server/routes/routes.h"

namespace heatwork::server {
namespace {

std::optional<std::string> yes_or_no(const std::optional<bool>& truth) {
  return truth ? std::optional<std::string>(*truth ? "yes" : "no") : std::nullopt;
}

Answer add(const Asked& asked) {
  const Body body("the body", asked.body, {"code", "role", "may_set_up", "name", "contact", "reason"});
  desk::PersonWords words;
  words.code = body.text("code");
  words.role = body.text("role");
  words.may_set_up = yes_or_no(body.truth_if("may_set_up"));
  words.name = body.text_if("name");
  words.contact = body.text_if("contact");
  words.reason = body.text_or("reason", "");
  return answer_of(desk::add_person(asked.lab, words));
}

Answer change(const Asked& asked) {
  const Body body("the body", asked.body, {"role", "may_set_up", "left", "reason"});
  desk::PersonWords words;
  words.code = asked.path.at("code");
  words.role = body.text_if("role");
  words.may_set_up = yes_or_no(body.truth_if("may_set_up"));
  words.left = body.truth_if("left");
  words.reason = body.text("reason");
  return answer_of(desk::change_person(asked.lab, words));
}

Answer personal(const Asked& asked) {
  const Body body("the body", asked.body, {"name", "contact", "reason"});
  desk::PersonWords words;
  words.code = asked.path.at("code");
  words.name = body.text_if("name");
  words.contact = body.text_if("contact");
  words.reason = body.text_or("reason", "");
  return answer_of(desk::change_personal(asked.lab, words));
}

Answer forget(const Asked& asked) {
  const Body body("the body", asked.body, {"reason"});
  return answer_of(desk::forget_person(asked.lab, asked.path.at("code"), body.text("reason")));
}

Answer show(const Asked& asked) {
  const Query query(asked.query, {});
  return answer_of(desk::show_person(asked.lab, asked.path.at("code")));
}

}  // namespace

std::vector<Route> person_routes() {
  return {
      {"POST", "/api/persons", "add_person", Needs::set_up, add},
      {"GET", "/api/persons/{code}", "show_person", Needs::sign_in, show},
      {"PUT", "/api/persons/{code}", "change_person", Needs::set_up, change},
      // One's own are changed without setting up: desk asks whose they are.
      {"PUT", "/api/persons/{code}/personal", "change_personal_data", Needs::sign_in, personal},
      {"DELETE", "/api/persons/{code}/personal", "forget_person", Needs::set_up, forget},
  };
}

}  // namespace heatwork::server
