// Answers made of what desk gives, and of what it throws: one place where a failure becomes a status and a sentence.
#pragma once

#include <exception>
#include <optional>
#include <string>

#include "desk/errors.h"
#include "desk/json_value.h"
#include "server/route.h"
#include "trade/noun.h"

namespace heatwork::server {

/// A failure that tells the page more than its sentence: members that stand beside it, such as "mistakes".
class FailureWith : public desk::Failure {
 public:
  FailureWith(desk::ErrorWord error, const std::string& sentence, desk::JsonObject also)
      : desk::Failure(error, sentence), also_(std::move(also)) {}
  [[nodiscard]] const desk::JsonObject& also() const { return also_; }

 private:
  desk::JsonObject also_;
};

/// "bad value" of the table of errors is "bad_value" in JSON.
std::string key_of(desk::ErrorWord error);

/// Of anything that was thrown: {"format": 1, "error": "bad_value", "sentence": "..."}. A conflict adds kind, name, from and newest.
Answer answer_of(const std::exception_ptr& thrown, Language language = Language::english,
                 report::TemperatureScale units = report::TemperatureScale::celsius);

/// As answer_of, with its sentences as the asker's language says them, and its differences where it is of two texts of a kind.
Answer told_answer(const Asked& asked, const desk::CareAnswer& answer, std::optional<trade::Noun> noun = std::nullopt);

/// The same, with the temperatures of its sentences in the asker's units.
Answer measured_answer(const Asked& asked, const desk::CareAnswer& answer);

/// A refusal with a status that is not the row's own, such as 405.
Answer refusal(desk::ErrorWord error, const std::string& sentence, int status = 0);

}  // namespace heatwork::server
