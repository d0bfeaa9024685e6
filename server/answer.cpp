#include "server/answer.h"

#include <algorithm>
#include <array>
#include <string>

#include "desk/lab/keep.h"
#include "desk/lab/told_in.h"
#include "desk/lab/told_in_units.h"

namespace heatwork::server {
namespace {

desk::JsonObject members_beside(const std::exception_ptr& thrown) {
  try {
    std::rethrow_exception(thrown);
  } catch (const FailureWith& failure) {
    return failure.also();
  } catch (const desk::ChangedMeanwhile& meanwhile) {
    const auto& [kind, name, from, newest] = meanwhile.versions();
    return {{"kind", kind}, {"name", name}, {"from", from}, {"newest", newest}};
  } catch (...) {
    return {};
  }
}

Answer error_answer(desk::ErrorWord error, int status, const std::string& sentence, const desk::JsonObject& also) {
  desk::JsonObject object{{"format", 1}, {"error", key_of(error)}, {"sentence", sentence}};
  object.insert(object.end(), also.begin(), also.end());
  return answer_of(desk::Json(std::move(object)), status);
}

}  // namespace

std::string key_of(desk::ErrorWord error) {
  std::string key(desk::row(error).word);
  std::replace(key.begin(), key.end(), ' ', '_');
  return key;
}

std::string_view word(Needs needs) {
  constexpr std::array<std::string_view, 5> words{"nothing", "sign-in", "fire", "release", "set-up"};
  return words.at(static_cast<std::size_t>(needs));
}

Answer answer_of(const desk::Json& json, int status) {
  Answer answer;
  answer.status = status;
  answer.body = desk::write_json(json);
  return answer;
}

Answer answer_of(const desk::CareAnswer& answer) {
  if (!answer.wrong || answer.json.object() == nullptr) return answer_of(answer.json);
  desk::JsonObject object = *answer.json.object();
  object.push_back({"wrong", true});
  return answer_of(desk::Json(std::move(object)));
}

Answer told_answer(const Asked& asked, const desk::CareAnswer& answer, std::optional<trade::Noun> noun) {
  return answer_of(desk::CareAnswer{answer.text, desk::told_in(asked.language, answer.json, noun), answer.wrong});
}

Answer measured_answer(const Asked& asked, const desk::CareAnswer& answer) {
  return answer_of(
      desk::CareAnswer{answer.text, desk::sentences_in_units(asked.units, desk::told_in(asked.language, answer.json)), answer.wrong});
}

Answer answer_of(const std::exception_ptr& thrown, Language language, report::TemperatureScale units) {
  const desk::Shown shown = desk::explain_in(thrown, language, units);
  const desk::Json beside = desk::told_in(language, desk::Json(members_beside(thrown)));
  return error_answer(shown.error, shown.http_status, shown.sentence, *beside.object());
}

Answer refusal(desk::ErrorWord error, const std::string& sentence, int status) {
  return error_answer(error, status == 0 ? desk::row(error).http_status : status, sentence, {});
}

}  // namespace heatwork::server
