#include <fmt/format.h>

#include <string>
#include <utility>
#include <vector>

#include "desk/errors.h"
#include "desk/lab/check_draft.h"
#include "desk/lab/kept_change.h"
#include "desk/lab/kept_show.h"
#include "desk/lab/told_in.h"
#include "server/answer.h"
#include "server/body.h"
#include "server/kinds.h"
#include "server/routes/routes.h"

namespace heatwork::server {
namespace {

std::vector<std::string> as_words(const std::vector<Values::Pair>& pairs) {
  std::vector<std::string> words;
  for (const auto& [key, value] : pairs) words.push_back(fmt::format("{}={}", key, value));
  return words;
}

/// Persons and locks come by routes of their own, as by verbs of their own on the command line.
trade::Noun kind_to_keep(const Asked& asked) {
  const trade::Noun noun = kind_of(asked);
  if (noun == trade::Noun::person)
    throw desk::Failure(desk::ErrorWord::wrong_use, "Persons are entered and changed under /api/persons, not as documents.");
  if (noun == trade::Noun::lock)
    throw desk::Failure(desk::ErrorWord::wrong_use, "A lock is set and opened by PUT /api/documents/KIND/NAME/lock, not as a document.");
  return noun;
}

desk::AddWords new_one(const Body& body) {
  desk::AddWords words;
  words.reason = body.text_or("reason", "");
  words.text = body.text_or("text", "");
  if (body.has("text") == (body.has("name") || body.has("set")))
    throw desk::Failure(desk::ErrorWord::bad_value, "Give \"name\" and \"set\", or \"text\" alone.");
  if (!body.has("text")) words.what = {body.text("name")};
  words.set = as_words(body.texts_by_name("set"));
  return words;
}

desk::ChangeWords change_of(const Body& body, const std::string& name) {
  desk::ChangeWords words;
  words.name = name;
  words.text = body.text_or("text", "");
  words.set = as_words(body.texts_by_name("set"));
  words.unset = body.texts("unset");
  words.from = body.whole_if("from", 1, most_versions).value_or(0);
  words.reason = body.text_or("reason", "");
  return words;
}

/// Sentences and differences as the asker's language says them.
Answer told(const Asked& asked, const desk::CareAnswer& answer) {
  return told_answer(asked, answer, kind_of(asked));
}

/// What was kept, and the document as it now stands.
Answer kept_and_shown(const Asked& asked, trade::Noun noun, const desk::CareAnswer& kept) {
  desk::JsonObject json = *kept.json.object();
  const desk::Json& document = kept.json.find("kept")->list()->front();
  const desk::CareAnswer shown = desk::show_kept(asked.lab, noun, *document.find("name")->text());
  for (const desk::JsonMember& member : *shown.json.object())
    if (kept.json.find(member.key) == nullptr) json.push_back(member);
  return answer_of(desk::told_in(asked.language, desk::Json(std::move(json)), noun));
}

Answer list(const Asked& asked) {
  const Query query(asked.query, {"word", "state", "page"});
  return answer_of(desk::list_kept(asked.lab, kind_of(asked), {query.text_or("word", ""), query.text_or("state", ""), query.page(), true}));
}

Answer show(const Asked& asked) {
  const Query query(asked.query, {"version"});
  std::string name = asked.path.at("name");
  if (const auto version = query.whole_if("version", 1, most_versions)) name += fmt::format("@{}", *version);
  return answer_of(desk::show_kept(asked.lab, kind_of(asked), name));
}

Answer history(const Asked& asked) {
  return told(asked, desk::history_of_kept(asked.lab, kind_of(asked), asked.path.at("name")));
}

Answer difference(const Asked& asked) {
  const Query query(asked.query, {"before", "after"});
  const auto side = [&](std::string_view which) {
    const auto version = query.whole_if(which, 1, most_versions);
    if (!version)
      throw desk::Failure(desk::ErrorWord::bad_value, fmt::format("\"{}\" is missing: it must be the number of a version.", which));
    return fmt::format("{}@{}", asked.path.at("name"), *version);
  };
  const std::string before = side("before"), after = side("after");
  return told(asked, desk::difference_of_kept(asked.lab, kind_of(asked), before, after));
}

Answer add(const Asked& asked) {
  const trade::Noun noun = kind_to_keep(asked);
  const auto words = new_one(Body("the body", asked.body, {"name", "set", "text", "reason"}));
  return refused_with_more([&] { return kept_and_shown(asked, noun, desk::add_kept(asked.lab, noun, words)); },
                           [&] { return desk::check_new(asked.lab, noun, words); });
}

Answer change(const Asked& asked) {
  const trade::Noun noun = kind_to_keep(asked);
  const Body body("the body", asked.body, {"from", "set", "unset", "text", "reason"});
  const auto words = change_of(body, asked.path.at("name"));
  if (words.from == 0)
    throw desk::Failure(desk::ErrorWord::bad_value, "\"from\" is missing from the body: it must be the version the change was made from.");
  if (words.reason.empty()) throw desk::Failure(desk::ErrorWord::bad_value, "\"reason\" is missing from the body: it must be text.");
  return refused_with_more([&] { return kept_and_shown(asked, noun, desk::change_kept(asked.lab, noun, words)); },
                           [&] { return desk::check_change(asked.lab, noun, words); });
}

/// Of a new one, or, with "from", of a change of the one it names.
Answer check(const Asked& asked) {
  const trade::Noun noun = kind_to_keep(asked);
  const Body body("the body", asked.body, {"name", "from", "set", "unset", "text", "reason"});
  if (body.has("from") || body.has("unset")) return told(asked, desk::check_change(asked.lab, noun, change_of(body, body.text("name"))));
  return told(asked, desk::check_new(asked.lab, noun, new_one(body)));
}

Answer check_of_change(const Asked& asked) {
  const Body body("the body", asked.body, {"from", "set", "unset", "text", "reason"});
  return told(asked, desk::check_change(asked.lab, kind_to_keep(asked), change_of(body, asked.path.at("name"))));
}

Answer lock(const Asked& asked) {
  const Body body("the body", asked.body, {"locked", "reason"});
  const bool locked = body.truth("locked");
  return answer_of(desk::set_lock(asked.lab, kind_of(asked), asked.path.at("name"), locked, body.text("reason")));
}

}  // namespace

std::vector<Route> document_routes() {
  return {
      {"GET", "/api/documents/{kind}", "list_documents", Needs::sign_in, list},
      {"POST", "/api/documents/{kind}", "add_document", Needs::fire, add},
      {"POST", "/api/documents/{kind}/check", "check_new_document", Needs::sign_in, check},
      {"GET", "/api/documents/{kind}/{name}", "show_document", Needs::sign_in, show},
      {"PUT", "/api/documents/{kind}/{name}", "change_document", Needs::fire, change},
      {"POST", "/api/documents/{kind}/{name}/check", "check_changed_document", Needs::sign_in, check_of_change},
      {"GET", "/api/documents/{kind}/{name}/history", "history_of_document", Needs::sign_in, history},
      {"GET", "/api/documents/{kind}/{name}/difference", "difference_of_versions", Needs::sign_in, difference},
      {"PUT", "/api/documents/{kind}/{name}/lock", "lock_document", Needs::release, lock},
  };
}

}  // namespace heatwork::server
