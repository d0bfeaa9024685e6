#include "desk/lab/told_in.h"

#include <string>
#include <utility>

#include "trade/difference.h"
#include "trade/sentences.h"

namespace heatwork::desk {
namespace {

std::string text_of(const Json& object, std::string_view key) {
  const Json* value = object.find(key);
  return value != nullptr && value->text() != nullptr ? *value->text() : "";
}

bool is_difference(const Json& object) {
  for (const char* key : {"key", "where", "before", "after", "words"})
    if (object.find(key) == nullptr) return false;
  return true;
}

class Telling {
 public:
  Telling(trade::Language language, std::optional<trade::Noun> noun) : language_(language), noun_(noun) {}

  [[nodiscard]] Json told(const Json& json) const {
    if (const JsonList* list = json.list()) {
      JsonList all;
      for (const Json& each : *list) all.push_back(told(each));
      return all;
    }
    if (json.object() == nullptr) return json;
    return noun_ && is_difference(json) ? difference(json) : object(json);
  }

 private:
  [[nodiscard]] Json object(const Json& json) const {
    JsonObject all;
    for (const JsonMember& member : *json.object()) {
      if (const JsonList* notes = member.value.list(); member.key == "notes" && notes != nullptr) {
        all.push_back({member.key, each_told(*notes)});
        continue;
      }
      const std::string* text = member.value.text();
      const bool is_due = member.key == "what" && json.find("overdue") != nullptr;
      const bool sentence = (member.key == "sentence" || is_due) && text != nullptr;
      all.push_back({member.key, sentence ? Json(trade::in_language(*text, language_)) : told(member.value)});
    }
    return all;
  }

  [[nodiscard]] Json each_told(const JsonList& notes) const {
    JsonList all;
    for (const Json& note : notes) all.push_back(note.text() == nullptr ? told(note) : Json(trade::in_language(*note.text(), language_)));
    return all;
  }

  [[nodiscard]] Json difference(const Json& json) const {
    const trade::Difference difference{text_of(json, "key"), text_of(json, "where"), text_of(json, "before"), text_of(json, "after")};
    const trade::ToldDifference said = trade::told(difference, *noun_, trade::words_of(language_));
    const auto value = [](const Json& was, const std::string& text) { return was.is_null() ? Json() : Json(text); };
    JsonObject all;
    for (const JsonMember& member : *json.object()) {
      Json told = member.value;
      if (member.key == "where") told = said.where;
      if (member.key == "before") told = value(member.value, said.before);
      if (member.key == "after") told = value(member.value, said.after);
      if (member.key == "words") told = said.words;
      all.push_back({member.key, std::move(told)});
    }
    return all;
  }

  trade::Language language_;
  std::optional<trade::Noun> noun_;
};

}  // namespace

Json told_in(trade::Language language, const Json& answer, std::optional<trade::Noun> noun) {
  return language == trade::Language::english ? answer : Telling(language, noun).told(answer);
}

}  // namespace heatwork::desk
