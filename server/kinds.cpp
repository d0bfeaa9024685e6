#include "server/kinds.h"

#include "desk/errors.h"
#include "desk/schema.h"
#include "server/answer.h"
#include "trade/mistake.h"

namespace heatwork::server {

trade::Noun kind_of(const Asked& asked) {
  return desk::noun_named(asked.path.at("kind"));
}

namespace {

/// "units: ... is not known" is a mistake of the value "units".
desk::Json only(const trade::Mistake& mistake) {
  const std::string& sentence = mistake.sentence();
  const auto colon = sentence.find(": ");
  const std::string key = colon == std::string::npos ? "" : sentence.substr(0, colon);
  const bool is_key = key.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_.[]") == std::string::npos;
  return desk::JsonObject{{"of", ""}, {"key", is_key ? key : ""}, {"sentence", sentence}};
}

}  // namespace

Answer refused_with_more(const std::function<Answer()>& write, const std::function<desk::CareAnswer()>& mistakes) {
  try {
    return write();
  } catch (const trade::Mistake& mistake) {
    const desk::Json told = mistakes ? *mistakes().json.find("mistakes") : desk::Json(desk::JsonList{only(mistake)});
    throw FailureWith(desk::ErrorWord::bad_file, mistake.what(), {{"mistakes", told}});
  }
}

}  // namespace heatwork::server
