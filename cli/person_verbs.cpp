#include <memory>
#include <string>

#include "cli/answer.h"
#include "cli/verbs.h"
#include "desk/lab/persons.h"

namespace heatwork::cli {
namespace {

struct PersonRequest {
  desk::AskedLab lab;
  desk::PersonWords words;
  bool may_set_up = false, left = false, came_back = false;
  bool json = false;
};

void shared(Verb& verb, PersonRequest& request) {
  verb.store(request.lab);
  verb.json(request.json);
}

void personal_words(Verb& verb, PersonRequest& request) {
  verb.option("--name", "TEXT", request.words.name, "what the person is called; personal data, kept apart");
  verb.option("--contact", "TEXT", request.words.contact, "how the person is reached; personal data, kept apart");
}

void add_entering(Verb& person) {
  Verb add = person.verb("add", "Enter a person by code, with what the person may do",
                         "person add mara --role release --may-set-up --name \"Mara Muster\"");
  const auto request = std::make_shared<PersonRequest>();
  add.value("CODE", request->words.code, "short and lasting: it stays in the trail for good");
  add.option("--role", "ROLE", request->words.role, "look, fire or release, each with all before it");
  add.flag("--may-set-up", request->may_set_up, "may enter persons, erase their data and photos, move the store");
  personal_words(add, *request);
  add.reason(request->words.reason);
  shared(add, *request);
  add.does(
      [request] {
        request->words.may_set_up = request->may_set_up ? "yes" : "no";
        return show(desk::add_person(request->lab, request->words), request->json);
      },
      [request] { return request->words.role ? "" : "--role is missing: look, fire or release"; });
}

void add_changing(Verb& person) {
  Verb change = person.verb("change", "Change what a person may do, or say that the person left",
                            "person change tom --role release --reason \"passed the course\"");
  const auto request = std::make_shared<PersonRequest>();
  change.value("CODE", request->words.code, "of the person");
  change.option("--role", "ROLE", request->words.role, "look, fire or release");
  change.option("--may-set-up", "YES", request->words.may_set_up, "yes or no");
  change.flag("--left", request->left, "the person left and may only read");
  change.flag("--came-back", request->came_back, "the person is here again");
  change.reason(request->words.reason, Need::required);
  shared(change, *request);
  change.does(
      [request] {
        if (request->left || request->came_back) request->words.left = request->left;
        return show(desk::change_person(request->lab, request->words), request->json);
      },
      [request]() -> std::string {
        if (request->left && request->came_back) return "--left and --came-back exclude each other";
        const bool nothing = !request->words.role && !request->words.may_set_up && !request->left && !request->came_back;
        return nothing ? "say what changes: --role, --may-set-up, --left or --came-back" : "";
      });
}

void add_personal(Verb& person) {
  Verb personal = person.verb("personal", "Keep or change name and contact, apart from the records",
                              "person personal tom --contact \"tom@example.org\" --reason \"new address\"");
  const auto request = std::make_shared<PersonRequest>();
  personal.value("CODE", request->words.code, "of the person");
  personal_words(personal, *request);
  personal.reason(request->words.reason, Need::required);
  shared(personal, *request);
  personal.does([request] { return show(desk::change_personal(request->lab, request->words), request->json); },
                [request] { return request->words.name || request->words.contact ? "" : "say what is kept: --name or --contact"; });

  Verb forget = person.verb("forget", "Erase name and contact; the code stays", "person forget tom --reason \"asked for it\"");
  const auto forgotten = std::make_shared<PersonRequest>();
  forget.value("CODE", forgotten->words.code, "of the person");
  forget.reason(forgotten->words.reason, Need::required);
  shared(forget, *forgotten);
  forget.does(
      [forgotten] { return show(desk::forget_person(forgotten->lab, forgotten->words.code, forgotten->words.reason), forgotten->json); });
}

void add_looking(Verb& person) {
  Verb one = person.verb("show", "What a person may do; name and contact for whoever may see them", "person show mara");
  const auto asked = std::make_shared<PersonRequest>();
  one.value("CODE", asked->words.code, "of the person");
  shared(one, *asked);
  one.does([asked] { return show(desk::show_person(asked->lab, asked->words.code), asked->json); });

  Verb whoami = person.verb("whoami", "Who Heatwork takes you for, from where, and what you may do", "person whoami");
  const auto me = std::make_shared<PersonRequest>();
  shared(whoami, *me);
  whoami.does([me] { return show(desk::who_am_i(me->lab), me->json); });
}

}  // namespace

void add_person_work(Verb& person) {
  add_entering(person);
  add_changing(person);
  add_personal(person);
  add_looking(person);
  add_signing_in(person);
}

}  // namespace heatwork::cli
