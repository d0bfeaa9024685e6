#include <fmt/format.h>

#include <memory>
#include <string>

#include "cli/answer.h"
#include "cli/secret.h"
#include "cli/verbs.h"
#include "desk/lab/sign_in.h"

namespace heatwork::cli {
namespace {

struct SecretRequest {
  desk::AskedLab lab;
  desk::SecretWords words;
  bool none = false, json = false;
};

void add_secret(Verb& person, desk::Secret which, const std::string& purpose) {
  const std::string name = which == desk::Secret::password ? "password" : "pin";
  Verb secret = person.verb(name, purpose, fmt::format("person {} mara", name));
  const auto request = std::make_shared<SecretRequest>();
  request->words.which = which;
  secret.value("CODE", request->words.code, "of the person");
  secret.flag("--none", request->none, fmt::format("the person has no {} any more", word(which)));
  secret.reason(request->words.reason);
  secret.store(request->lab);
  secret.json(request->json);
  secret.does([request, which] {
    const std::string what = fmt::format("{} of {}", which == desk::Secret::password ? "Password" : "PIN", request->words.code);
    if (!request->none) request->words.typed = typed_secret(what);
    return show(desk::keep_secret(request->lab, request->words), request->json);
  });
}

}  // namespace

void add_signing_in(Verb& person) {
  add_secret(person, desk::Secret::password, "Keep what a person signs in by at the page");
  add_secret(person, desk::Secret::pin, "Keep digits for a quick change of person at a shared tablet");
}

}  // namespace heatwork::cli
