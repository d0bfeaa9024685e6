#include <fmt/format.h>

#include <optional>
#include <utility>

#include "desk/lab/furnace_check.h"
#include "desk/lab/furnace_check_answer.h"
#include "desk/lab/local_time.h"
#include "furnace_care/probe_check.h"

namespace heatwork::desk {
namespace {

using furnace_care::CheckLevel;
using furnace_care::ProbeTold;

constexpr double ms_a_day = 86'400'000;

ProbeTold tell(const FurnaceCheckDraft& draft, bool more_follows) {
  const trade::Probe probe = draft.check.probe.value_or(trade::Probe{});
  furnace_care::ProbeAsked asked{draft.furnace, probe, draft.check.compared, std::nullopt, std::nullopt};
  if (!probe.certified.empty())
    asked.certificate_age_days = static_cast<double>(draft.now_ms - day_begins_ms(probe.certified, draft.zone)) / ms_a_day;
  if (draft.check.limit) asked.limit_K = draft.check.limit->value.si();
  ProbeTold told = furnace_care::tell_probe_check(asked);
  if (more_follows) told.level = CheckLevel::going_on;
  return told;
}

/// The comparison the check is judged by; while it still goes on, the last one. nullptr: nothing was compared yet.
const furnace_care::ProbeFound* deciding(const ProbeTold& told) {
  for (const auto& found : told.found)
    if (found.true_C == told.worst_C && found.error_K == told.worst_K) return &found;
  return told.found.empty() ? nullptr : &told.found.back();
}

/// Nothing while the check goes on.
std::optional<ErrorOfDisplay> found_by(const ProbeTold& told) {
  const auto* found = deciding(told);
  if (found == nullptr || told.level == CheckLevel::going_on) return std::nullopt;
  return ErrorOfDisplay{found->error_K, found->standard_uncertainty_K, found->true_C};
}

void put_outcome(trade::Check& check, const ProbeTold& told) {
  set_outcome(check, told.level);
  set_error(check, found_by(told));
  if (told.level == CheckLevel::going_on) return;
  check.verdict = furnace_care::word(told.level);
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

/// The readings of this probe with what wires and other probes found lately.
std::optional<furnace_care::ErrorLine> line_of_all(const FurnaceCheckDraft& draft, const ProbeTold& told) {
  if (told.found.empty()) return std::nullopt;
  auto found = errors_found(draft.earlier, draft.furnace, keyed_K(draft), draft.now_ms, draft.check.name);
  for (const auto& each : furnace_care::errors_of(told, 0)) found.push_back(each);
  return furnace_care::line_of(std::move(found));
}

/// What a correction would mend; nothing where none is advised.
std::optional<double> error_to_mend(const ProbeTold& told) {
  std::optional<double> error_K;
  if (told.level == CheckLevel::not_good) error_K = told.mend_K;
  return error_K;
}

CareAnswer answered(const AskedLab& asked, const FurnaceCheckDraft& draft, const ProbeTold& told,
                    const std::optional<records::Kept>& kept) {
  CheckAnswer answer(draft);
  const bool is_bad = told.level == CheckLevel::not_good;
  answer.level(told.level, told.level == CheckLevel::going_on ? "The check still goes on." : told.sentence);
  tell_found(answer, told);
  const auto* found = deciding(told);
  answer.budget(found == nullptr ? furnace_care::Budget{} : found->budget);
  answer.limit("limit_K", told.limit_K, told.limit_of_lab);
  answer.question(told.question);
  answer.answered(furnace_care::answered_probe_questions(draft.check.probe.value_or(trade::Probe{})), draft);
  answer.judged(found_by(told));
  answer.remarks(told.remarks);
  answer.errors_at(line_of_all(draft, told));
  answer.correction(draft, error_to_mend(told), told.stop_use);
  answer.then(is_bad ? std::vector<std::string>{"Compare once more at the same temperatures, as left after the adjustment."}
                     : std::vector<std::string>{});
  answer.since_good(asked, draft, told.level);
  answer.kept(kept, draft);
  return answer.done(is_bad);
}

}  // namespace

CareAnswer check_thermocouple(const AskedLab& asked, const FurnaceCheckWords& words) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    records::Store store = words.keep ? opened(place, Reading::and_writing) : opened(place, Reading::only);
    FurnaceCheckDraft draft = draft_of(place, store, words, trade::CheckOf::thermocouple);
    const ProbeTold told = tell(draft, words.more_follows);
    put_outcome(draft.check, told);
    decide(draft, words.decision, error_to_mend(told));
    std::optional<records::Kept> kept;
    if (words.keep) kept = keep_draft(place, store, draft, words.reason);
    return answered(asked, draft, told, kept);
  });
}

}  // namespace heatwork::desk
