#include "desk/lab/persons.h"

#include <fmt/format.h>

#include <utility>

#include "desk/errors.h"
#include "desk/lab/keep.h"
#include "desk/lab/kept_text.h"
#include "desk/lab/personal_data.h"
#include "desk/lab/store_place.h"
#include "trade/choice_words.h"
#include "trade/writer.h"

namespace heatwork::desk {
namespace {

struct Standing {
  trade::Person person;
  int version = 0;
};

void check_code(const std::string& code) {
  if (const auto wrong = trade::wrong_name(code)) throw Failure(ErrorWord::bad_value, fmt::format("Code of a person: {}", *wrong));
}

Standing standing(records::Store& store, const std::string& code) {
  const auto found = store.find("person", code);
  if (!found)
    throw Failure(ErrorWord::unknown_name, fmt::format("No person \"{}\" is entered. Nothing was kept; enter the person first.", code));
  return {read_kept<trade::Person>(trade::source_of("person " + code, found->body)), found->version};
}

trade::PersonRole role_of(const std::string& typed) {
  if (const auto role = trade::choice_of<trade::PersonRole>(typed)) return *role;
  throw Failure(ErrorWord::bad_value,
                fmt::format("The role is \"{}\"; allowed are {}.", typed, fmt::join(trade::choices<trade::PersonRole>(), ", ")));
}

bool yes_or_no(const std::string& typed) {
  if (typed != "yes" && typed != "no")
    throw Failure(ErrorWord::bad_value, fmt::format("\"May set up\" is \"{}\"; allowed are yes, no.", typed));
  return typed == "yes";
}

records::NewVersion version_of(const trade::Person& person, int after, const std::string& reason) {
  records::NewVersion version;
  version.kind = "person";
  version.id = person.name;
  version.after = after;
  version.body = trade::write_noun(person);
  version.action = after == 0 ? "added" : "changed";
  version.reason = reason;
  return version;
}

std::string_view yes(bool truth) {
  return truth ? "yes" : "no";
}

std::string_view role_means(trade::PersonRole role) {
  constexpr std::string_view means[] = {"reads, keeps nothing", "keeps firings, bench steps, checks and files",
                                        "also decides and releases deviations, locks and unlocks"};
  return means[static_cast<std::size_t>(role)];
}

std::string lines_of(const trade::Person& person) {
  return care_line("Role", fmt::format("{}: {}", word(person.role.value), role_means(person.role.value))) +
         care_line("May set up", person.may_set_up.value ? "yes: enters persons, erases their data and photos, moves the store" : "no") +
         care_line("Left", person.left ? "yes: may only read" : "no");
}

CareAnswer kept_answer(const trade::Person& person, const records::Kept& kept, bool personal) {
  const int version = kept.documents.front().version;
  std::string text = care_line("Kept", fmt::format("person {}, version {}", person.name, version)) + lines_of(person);
  if (personal) text += care_line("Apart", "name and contact, where they can be erased");
  return {text + care_line("Head hash", kept.head),
          JsonObject{{"format", 1},
                     {"person", person.name},
                     {"version", version},
                     {"role", word(person.role.value)},
                     {"may_set_up", person.may_set_up.value},
                     {"left", person.left},
                     {"personal_data", personal},
                     {"head", kept.head}},
          false};
}

}  // namespace

CareAnswer add_person(const AskedLab& asked, const PersonWords& words) {
  check_code(words.code);
  trade::Person person;
  person.name = words.code;
  person.role.value = role_of(words.role.value_or(""));
  person.may_set_up.value = yes_or_no(words.may_set_up.value_or("no"));
  const PersonalData data = with(PersonalData{}, words.name, words.contact);
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened_to_keep(place);
    records::Change change;
    change.documents = {version_of(person, 0, words.reason)};
    if (!data.empty()) change.personal = {{words.code, text_of(data), words.reason}};
    const bool first = asker_of(place, store).nobody_entered;
    CareAnswer answer = kept_answer(person, keep(place, store, std::move(change)), !data.empty());
    const auto& who = place.opening.who;
    if (first && who.person != words.code)
      answer.text += care_line("From now on", fmt::format("roles are in force, and {} ({}) may only read: add --as {}, or write person = "
                                                          "\"{}\" into the settings.",
                                                          who.person, who.known_by, words.code, words.code));
    return answer;
  });
}

CareAnswer change_person(const AskedLab& asked, const PersonWords& words) {
  check_code(words.code);
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::and_writing);
    Standing stands = standing(store, words.code);
    trade::Person person = stands.person;
    if (words.role) person.role.value = role_of(*words.role);
    if (words.may_set_up) person.may_set_up.value = yes_or_no(*words.may_set_up);
    if (words.left) person.left = *words.left;
    if (trade::write_noun(person) == trade::write_noun(stands.person))
      throw Failure(ErrorWord::bad_value,
                    fmt::format("Person \"{}\" is so already, in version {}. Nothing was kept.", words.code, stands.version));
    records::Change change;
    change.documents = {version_of(person, stands.version, words.reason)};
    const bool personal = store.personal(words.code).has_value();
    return kept_answer(person, keep(place, store, std::move(change)), personal);
  });
}

CareAnswer change_personal(const AskedLab& asked, const PersonWords& words) {
  check_code(words.code);
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::and_writing);
    static_cast<void>(standing(store, words.code));
    const auto before = store.personal(words.code);
    const PersonalData data = with(before ? personal_data(words.code, *before) : PersonalData{}, words.name, words.contact);
    if (data.empty())
      throw Failure(
          ErrorWord::bad_value,
          fmt::format("Neither name nor contact would be left. Nothing was kept; both are erased where the person is forgotten."));
    records::Change change;
    change.personal = {{words.code, text_of(data), words.reason}};
    const records::Kept kept = keep(place, store, std::move(change));
    return CareAnswer{care_line("Kept", fmt::format("name and contact of {}, trail entry {}", words.code, kept.sequence)) +
                          care_line("Trail", "holds of them a hash over a random salt, and the reason") + care_line("Head hash", kept.head),
                      JsonObject{{"format", 1}, {"person", words.code}, {"entry", static_cast<double>(kept.sequence)}, {"head", kept.head}},
                      false};
  });
}

CareAnswer forget_person(const AskedLab& asked, const std::string& code, const std::string& reason) {
  check_code(code);
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::and_writing);
    const auto before = store.personal(code);
    // Looked for in the text: what cannot be read must be erasable too.
    const auto holds = [&](std::string_view key) { return before && before->find(key) != std::string::npos; };
    const bool secrets = holds("\"password\": ") || holds("\"pin\": ");
    records::Change change;
    change.personal = {{code, "", reason}};
    const records::Kept kept = keep(place, store, std::move(change));
    return CareAnswer{
        care_line("Erased", fmt::format("{} of {}, and the salt of their hash",
                                        secrets ? "name, contact, password and PIN" : "name and contact", code)) +
            care_line("Stays", fmt::format("the code {} in records and trail, what it may do, and that and why its data was erased: trail "
                                           "entry {}",
                                           code, kept.sequence)) +
            care_line("Beware", "Backups and exports made before still hold them.") + care_line("Head hash", kept.head),
        JsonObject{{"format", 1}, {"person", code}, {"entry", static_cast<double>(kept.sequence)}, {"head", kept.head}}, false};
  });
}

CareAnswer show_person(const AskedLab& asked, const std::string& code) {
  check_code(code);
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = opened(place, Reading::only);
    const auto found = store.find("person", code);
    if (!found) throw Failure(ErrorWord::unknown_name, fmt::format("No person \"{}\" is entered.", code));
    const auto person = read_kept<trade::Person>(trade::source_of("person " + code, found->body));
    CareAnswer answer;
    answer.text = care_line("Person", fmt::format("{}, version {}", code, found->version)) + lines_of(person);
    JsonObject json{{"format", 1},
                    {"person", code},
                    {"version", found->version},
                    {"role", word(person.role.value)},
                    {"may_set_up", person.may_set_up.value},
                    {"left", person.left}};
    const auto kept = store.personal(code);
    const bool seen = may_see_personal(asker_of(place, store), code);
    json.push_back({"personal_data", kept.has_value()});
    if (kept && seen) {
      const PersonalData data = personal_data(code, *kept);
      if (!data.name.empty()) answer.text += care_line("Name", data.name);
      if (!data.contact.empty()) answer.text += care_line("Contact", data.contact);
      if (!data.password.empty()) answer.text += care_line("Password", "is kept; it is never shown");
      if (!data.pin.empty()) answer.text += care_line("PIN", "is kept; it is never shown");
      json.push_back({"name", data.name});
      json.push_back({"contact", data.contact});
      json.push_back({"password", !data.password.empty()});
      json.push_back({"pin", !data.pin.empty()});
    } else {
      answer.text += care_line("Name", kept ? fmt::format("kept apart; shown to {} and to those who may set up", code) : "none is kept");
    }
    answer.json = std::move(json);
    return answer;
  });
}

CareAnswer who_am_i(const AskedLab& asked) {
  const StorePlace place = place_of(asked);
  const auto& who = place.opening.who;
  const auto answer = [&](std::string_view may, std::string_view role, bool may_set_up, const Asker* asker) {
    return CareAnswer{
        care_line("You are", fmt::format("{}, by {}", who.person, known_by_in_words(who.known_by))) + care_line("You may", may),
        JsonObject{{"format", 1},
                   {"person", who.person},
                   {"known_by", who.known_by},
                   {"entered", asker != nullptr && asker->entered.has_value()},
                   {"left", asker != nullptr && asker->entered && asker->entered->left},
                   {"role", role},
                   {"may_set_up", may_set_up}},
        false};
  };
  return caring(place, [&] {
    try {
      records::Store store = opened(place, Reading::only);
      const Asker asker = asker_of(place, store);
      if (asker.nobody_entered) return answer("do everything: no person is entered yet", "release", true, &asker);
      if (!asker.entered) return answer("only read: you are not entered in this store; name a person who is", "look", false, &asker);
      if (asker.entered->left) return answer("only read: you have left", "look", false, &asker);
      const auto role = asker.entered->role;
      return answer(fmt::format("{}: {}; set up: {}", word(role), role_means(role), yes(asker.entered->may_set_up)), word(role),
                    asker.entered->may_set_up, &asker);
    } catch (const records::StoreError& error) {
      if (error.problem() != records::StoreProblem::no_store) throw;
      return answer("do everything: no store stands yet, and nobody is entered", "release", true, nullptr);
    }
  });
}

}  // namespace heatwork::desk
