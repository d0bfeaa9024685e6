#include <fmt/format.h>

#include <optional>
#include <utility>

#include "desk/lab/furnace_check.h"
#include "desk/lab/furnace_check_answer.h"
#include "desk/lab/told_in_units.h"
#include "furnace_care/temperature_check.h"
#include "furnace_care/wire_questions.h"
#include "trade/choice_words.h"

namespace heatwork::desk {
namespace {

using furnace_care::CheckLevel;
using furnace_care::DisplayError;
using furnace_care::WireTold;

WireTold tell(const FurnaceCheckDraft& draft) {
  std::optional<double> limit_K;
  if (draft.check.limit) limit_K = draft.check.limit->value.si();
  OthersFound others = others_found(draft.earlier, draft.furnace, keyed_K(draft), draft.now_ms, draft.check);
  return furnace_care::tell_wire_test({draft.furnace, draft.check.wire.value_or(trade::WireTest{}), draft.check.trials,
                                       earlier_error(draft.earlier, draft.furnace, draft.now_ms), keyed_K(draft), limit_K,
                                       std::move(others.errors), others.means_of_this});
}

/// What these wires found by themselves, as it is kept; nothing while the check goes on.
std::optional<DisplayError> found_by(const WireTold& told) {
  if (!told.found || told.verdict.level == CheckLevel::going_on) return std::nullopt;
  return DisplayError{told.point->temperature_C, told.found->error_K, told.found->standard_uncertainty_K};
}

void put_outcome(trade::Check& check, const WireTold& told) {
  set_outcome(check, told.verdict.level);
  set_error(check, found_by(told));
  if (!check.error) return;
  check.verdict = furnace_care::word(told.verdict.level);
}

Json trials_json(const trade::Check& check) {
  JsonList list;
  for (const auto& trial : check.trials)
    list.push_back(JsonObject{{"display_C", trial.display.value.celsius()}, {"melted", trial.melted}, {"at", text_or_null(trial.at)}});
  return list;
}

void tell_known(CheckAnswer& answer, const WireTold& told) {
  answer.member("before", JsonObject{{"error_K", told.before.error_K}, {"sd_K", told.before.sd_K}, {"sentence", told.before.sentence}});
  if (!told.point) {
    answer.member("melting", Json());
    return;
  }
  answer.member("melting", JsonObject{{"temperature_C", told.point->temperature_C},
                                      {"standard_uncertainty_K", told.point->uncertainty_K},
                                      {"superheat_K", told.point->superheat_K},
                                      {"sentence", told.point->sentence},
                                      {"standing", trade::choice_word(told.point->standing)},
                                      {"source", told.point->source}});
  answer.line("Known", told.before.sentence);
  answer.line("Melts", told.point->sentence);
}

void tell_found(CheckAnswer& answer, const FurnaceCheckDraft& draft, const WireTold& told) {
  answer.member("trials", trials_json(draft.check));
  if (!told.found) {
    answer.member("found", Json());
    return;
  }
  const auto& found = *told.found;
  answer.member("found", JsonObject{{"threshold_C", found.threshold_C},
                                    {"threshold_low_C", found.low_C},
                                    {"threshold_high_C", found.high_C},
                                    {"error_K", found.error_K},
                                    {"standard_uncertainty_K", found.standard_uncertainty_K},
                                    {"range_low_K", found.range_low_K},
                                    {"range_high_K", found.range_high_K},
                                    {"contradictory", found.contradictory}});
  answer.line("Wires", fmt::format("{}; half of them would melt at a display of {:.1f} °C (95 %: {:.1f} to {:.1f} °C)",
                                   counted(static_cast<std::int64_t>(draft.check.trials.size()), "firing", "firings"), found.threshold_C,
                                   found.low_C, found.high_C));
  answer.line("Error", fmt::format("{:+.1f} K, from {:+.1f} to {:+.1f} K (k = 2)", found.error_K, found.range_low_K, found.range_high_K));
}

void tell_next(CheckAnswer& answer, const WireTold& told) {
  if (!told.next_display_C) {
    answer.member("next", Json());
    return;
  }
  answer.member("next", JsonObject{{"display_C", *told.next_display_C}, {"sentence", told.next_sentence}});
  answer.line("Next", told.next_sentence);
}

/// What a correction would mend; nothing where none is advised.
std::optional<double> error_to_mend(const WireTold& told) {
  std::optional<double> error_K;
  if (told.verdict.level == CheckLevel::not_good || told.verdict.correct) error_K = told.judged->error_K;
  return error_K;
}

std::vector<std::string> what_follows(const FurnaceCheckDraft& draft, const WireTold& told) {
  std::vector<std::string> all = told.verdict.settled_by;
  if (told.verdict.level == CheckLevel::going_on) return all;
  if (const auto error_K = error_to_mend(told))
    for (auto& sentence : furnace_care::confirming_firings(told.point->temperature_C, *error_K, decision_of(draft.check)))
      all.push_back(std::move(sentence));
  if (draft.check.wire->metal->value == trade::TestWire::silver)
    for (auto& sentence : furnace_care::after_silver()) all.push_back(std::move(sentence));
  return all;
}

CareAnswer answered(const AskedLab& asked, const FurnaceCheckDraft& draft, const WireTold& told, const std::optional<records::Kept>& kept) {
  CheckAnswer answer(draft);
  const bool is_bad = told.verdict.level == CheckLevel::not_good;
  answer.level(told.verdict.level, told.verdict.sentence);
  tell_known(answer, told);
  tell_found(answer, draft, told);
  answer.budget(told.found ? told.budget : furnace_care::Budget{});
  answer.limit("limit_K", told.limit_K, told.limit_of_lab);
  answer.question(told.question);
  answer.answered(furnace_care::answered_wire_questions(draft.check.wire.value_or(trade::WireTest{})), draft);
  answer.judged(told.judged);
  tell_next(answer, told);
  answer.remarks(with_taken_out(draft, told.remarks));
  answer.errors_at(told.line);
  answer.correction(draft, error_to_mend(told), told.verdict.stop_use);
  answer.then(what_follows(draft, told));
  answer.since_good(asked, draft, told.verdict.level);
  answer.kept(kept, draft);
  return answer.done(is_bad);
}

}  // namespace

CareAnswer check_temperature(const AskedLab& asked, const FurnaceCheckWords& words) {
  const StorePlace place = place_of(asked);
  const auto work = [&] {
    records::Store store = words.keep ? opened(place, Reading::and_writing) : opened(place, Reading::only);
    FurnaceCheckDraft draft = draft_of(place, store, words, trade::CheckOf::temperature);
    const WireTold told = tell(draft);
    put_outcome(draft.check, told);
    decide(draft, words.decision, error_to_mend(told));
    std::optional<records::Kept> kept;
    if (words.keep) kept = keep_draft(place, store, draft, words.reason);
    return answered(asked, draft, told, kept);
  };
  return caring(place, [&] { return refusing_in(scale_typed_in(words), work); });
}

}  // namespace heatwork::desk
