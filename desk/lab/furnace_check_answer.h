// The answer of a guided check, put together: what every kind of it tells, as lines and as JSON.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "desk/json_value.h"
#include "desk/lab/furnace_check_draft.h"
#include "desk/lab/store_care.h"
#include "furnace_care/budget.h"
#include "furnace_care/correction.h"
#include "furnace_care/display_verdict.h"
#include "furnace_care/question.h"
#include "furnace_care/temperature_line.h"

namespace heatwork::desk {

/// Lines of text and members of JSON, side by side.
class CheckAnswer {
 public:
  /// Begins with furnace, check, version and of what.
  explicit CheckAnswer(const FurnaceCheckDraft& draft);

  void line(std::string_view what, const std::string& says);
  void member(std::string key, Json value);
  /// null where nothing is asked.
  void question(const std::optional<furnace_care::Question>& question);
  /// What was answered so far, each with its question, so that it can be answered anew.
  void answered(const std::vector<furnace_care::Question>& questions, const FurnaceCheckDraft& draft);
  /// The error the check is judged by, with its range (k = 2); null where none was found.
  void judged(const std::optional<furnace_care::DisplayError>& error);
  void level(furnace_care::CheckLevel level, const std::string& sentence);
  void limit(std::string_view key, double limit, bool of_lab);
  void budget(const furnace_care::Budget& budget);
  void remarks(const std::vector<std::string>& remarks);
  /// What to do, in order.
  void then(const std::vector<std::string>& sentences);
  /// Keying and the two ways; null where no correction is advised. An error beyond use is not to be allowed for: one way is left.
  void correction(const FurnaceCheckDraft& draft, std::optional<double> error_K, bool is_beyond_use);
  /// The error at temperatures of firings; null without a line.
  void errors_at(const std::optional<furnace_care::ErrorLine>& line);
  /// What was fired since the last good check of this kind; null where the furnace is good or nobody can tell.
  void since_good(const AskedLab& asked, const FurnaceCheckDraft& draft, furnace_care::CheckLevel level);
  void kept(const std::optional<records::Kept>& kept, const FurnaceCheckDraft& draft);

  [[nodiscard]] CareAnswer done(bool wrong);

 private:
  std::string text_;
  JsonObject json_;
};

/// null too where it is not finite.
Json number_or_null(const std::optional<double>& number);

/// A list of {"sentence": ...}.
JsonList sentences_json(const std::vector<std::string>& sentences);

/// The outcome told as a check keeps it: level, and that it is finished.
void set_outcome(trade::Check& check, furnace_care::CheckLevel level);

/// Nothing: none was found, and what was told before goes.
void set_error(trade::Check& check, const std::optional<furnace_care::DisplayError>& found);

/// What was decided about its error; none yet.
[[nodiscard]] std::optional<trade::CheckDecision> decision_of(const trade::Check& check);

/// The decision a person took over a finished check, and with "corrected" what is keyed then. Errors: Failure bad_value or conflict.
void decide(FurnaceCheckDraft& draft, const std::string& decision, std::optional<double> error_K);

}  // namespace heatwork::desk
