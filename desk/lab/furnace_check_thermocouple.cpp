#include <fmt/format.h>

#include <optional>
#include <utility>

#include "desk/lab/furnace_check.h"
#include "desk/lab/furnace_check_answer.h"
#include "desk/lab/local_time.h"
#include "desk/lab/told_in_units.h"
#include "furnace_care/certificate.h"
#include "furnace_care/due.h"
#include "furnace_care/probe_check.h"

namespace heatwork::desk {
namespace {

using furnace_care::CheckLevel;
using furnace_care::DisplayError;
using furnace_care::ProbeTold;

constexpr double ms_a_day = 86'400'000;

/// From the day it was certified to the day it is due again; nothing where it is not known when either was.
std::optional<double> certificate_lasts_days(const trade::Reference& reference) {
  const auto certified = furnace_care::day_number(reference.certified);
  if (!certified) return std::nullopt;
  const auto due = furnace_care::certificate_due(reference, *certified);
  return due ? std::optional<double>(due->day - *certified) : std::nullopt;
}

ProbeTold tell(const FurnaceCheckDraft& draft, bool more_follows) {
  trade::Probe probe = draft.check.probe.value_or(trade::Probe{});
  // What is kept of the thermocouple says when it was certified where the check does not.
  if (draft.reference && probe.certified.empty()) probe.certified = draft.reference->certified;
  furnace_care::ProbeAsked asked{draft.furnace, probe, draft.check.compared, std::nullopt, std::nullopt};
  if (!probe.certified.empty())
    asked.certificate_age_days = static_cast<double>(draft.now_ms - day_begins_ms(probe.certified, draft.zone)) / ms_a_day;
  if (draft.reference) asked.certificate_lasts_days = certificate_lasts_days(*draft.reference);
  if (draft.check.limit) asked.limit_K = draft.check.limit->value.si();
  OthersFound others = others_found(draft.earlier, draft.furnace, keyed_K(draft), draft.now_ms, draft.check);
  asked.others = std::move(others.errors);
  asked.means = others.means_of_this;
  ProbeTold told = furnace_care::tell_probe_check(asked);
  if (more_follows) told.verdict = {CheckLevel::going_on, false, false, told.verdict.worst, "The check still goes on.", {}};
  return told;
}

/// The comparison the check is judged by; nullptr: nothing was compared yet.
const furnace_care::ProbeFound* deciding(const ProbeTold& told) {
  return told.found.empty() ? nullptr : &told.found[told.verdict.worst];
}

/// What this thermocouple found by itself, as it is kept; nothing while the check goes on.
std::optional<DisplayError> found_by(const ProbeTold& told) {
  const auto* found = deciding(told);
  if (found == nullptr || told.verdict.level == CheckLevel::going_on) return std::nullopt;
  return DisplayError{found->true_C, found->error_K, found->standard_uncertainty_K};
}

/// What the level is told by.
std::optional<DisplayError> judged_by(const ProbeTold& told) {
  if (told.judged.empty() || told.verdict.level == CheckLevel::going_on) return std::nullopt;
  return told.judged[told.verdict.worst];
}

void put_outcome(trade::Check& check, const ProbeTold& told) {
  set_outcome(check, told.verdict.level);
  set_error(check, found_by(told));
  if (told.verdict.level == CheckLevel::going_on) return;
  check.verdict = furnace_care::word(told.verdict.level);
}

void tell_found(CheckAnswer& answer, const ProbeTold& told) {
  JsonList list;
  for (const auto& found : told.found) {
    list.push_back(JsonObject{{"display_C", found.display_C},
                              {"probe_C", found.probe_C},
                              {"true_C", found.true_C},
                              {"error_K", found.error_K},
                              {"standard_uncertainty_K", found.standard_uncertainty_K}});
    answer.line("Compared", fmt::format("display {:.0f} °C, true {:.1f} °C: {:+.1f} K (± {:.1f} K)", found.display_C, found.true_C,
                                        found.error_K, 2 * found.standard_uncertainty_K));
  }
  answer.member("found", std::move(list));
}

/// What a correction would mend; nothing where none is advised.
std::optional<double> error_to_mend(const ProbeTold& told) {
  std::optional<double> error_K;
  if (told.verdict.level == CheckLevel::not_good || told.verdict.correct) error_K = told.mend_K;
  return error_K;
}

CareAnswer answered(const AskedLab& asked, const FurnaceCheckDraft& draft, const ProbeTold& told,
                    const std::optional<records::Kept>& kept) {
  CheckAnswer answer(draft);
  answer.level(told.verdict.level, told.verdict.level == CheckLevel::going_on ? "The check still goes on." : told.verdict.sentence);
  tell_found(answer, told);
  const auto* found = deciding(told);
  answer.budget(found == nullptr ? furnace_care::Budget{} : found->budget);
  answer.limit("limit_K", told.limit_K, told.limit_of_lab);
  answer.question(told.question);
  answer.answered(furnace_care::answered_probe_questions(draft.check.probe.value_or(trade::Probe{})), draft);
  answer.judged(judged_by(told));
  answer.remarks(told.remarks);
  answer.errors_at(told.line);
  answer.correction(draft, error_to_mend(told), told.verdict.stop_use);
  std::vector<std::string> then = told.verdict.settled_by;
  if (error_to_mend(told) && decision_of(draft.check).value_or(trade::CheckDecision::corrected) == trade::CheckDecision::corrected)
    then.emplace_back("Compare once more at the same temperatures, as left after the adjustment.");
  answer.then(then);
  answer.since_good(asked, draft, told.verdict.level);
  answer.kept(kept, draft);
  return answer.done(told.verdict.level == CheckLevel::not_good);
}

}  // namespace

CareAnswer check_thermocouple(const AskedLab& asked, const FurnaceCheckWords& words) {
  const StorePlace place = place_of(asked);
  const auto work = [&] {
    records::Store store = words.keep ? opened(place, Reading::and_writing) : opened(place, Reading::only);
    FurnaceCheckDraft draft = draft_of(place, store, words, trade::CheckOf::thermocouple);
    const ProbeTold told = tell(draft, words.more_follows);
    put_outcome(draft.check, told);
    decide(draft, words.decision, error_to_mend(told));
    std::optional<records::Kept> kept;
    if (words.keep) kept = keep_draft(place, store, draft, words.reason);
    return answered(asked, draft, told, kept);
  };
  return caring(place, [&] { return refusing_in(scale_typed_in(words), work); });
}

}  // namespace heatwork::desk
