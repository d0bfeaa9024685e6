#include <fmt/format.h>

#include <optional>
#include <utility>

#include "desk/lab/furnace_record.h"
#include "desk/lab/told_in_units.h"
#include "furnace_care/heating_check.h"
#include "trade/choice_words.h"

namespace heatwork::desk {
namespace {

using furnace_care::CheckLevel;
using furnace_care::HeatingTold;

std::vector<furnace_care::MuffleSeen> muffles_seen(const FurnaceCheckDraft& draft) {
  std::vector<furnace_care::MuffleSeen> muffles;
  if (!draft.check.after_repair.empty()) return muffles;
  for (auto kept = draft.earlier.rbegin(); kept != draft.earlier.rend(); ++kept) {
    const trade::Check& check = kept->check;
    if (check.of.value != trade::CheckOf::heating || !check.gain || !check.loss) continue;
    muffles.push_back({day_of(kept->at_ms), check.gain->value.si(), check.loss->value.si(), check.name});
  }
  return muffles;
}

/// A run that was held back, or whose mains nobody read, says nothing that a rehearsal could use.
void put_outcome(trade::Check& check, const HeatingTold& told) {
  set_outcome(check, told.level);
  check.verdict = told.verdict;
  const bool capped = check.heating_run && check.heating_run->capped && check.heating_run->capped->value;
  if (!told.run || told.run->held_until_C || capped || !told.mains_V) return;
  check.gain.emplace().value = quantity::HeatingRate::si(told.run->gain_at_nominal_K_per_s);
  check.loss.emplace().value = quantity::Frequency::si(told.run->measured.loss_per_s);
  const double volts = told.nominal_V / *told.mains_V;
  check.gain_sd.emplace().value = quantity::HeatingRate::si(told.run->gain_sd * volts * volts);
  check.loss_sd.emplace().value = quantity::Frequency::si(told.run->loss_sd);
}

std::string word(metrology::MuffleVerdict verdict) {
  switch (verdict) {
    case metrology::MuffleVerdict::healthy:
      return "healthy";
    case metrology::MuffleVerdict::element_ageing:
      return "element ageing";
    case metrology::MuffleVerdict::replace_element:
      return "replace element";
    case metrology::MuffleVerdict::insulation:
      return "insulation";
    case metrology::MuffleVerdict::held_back:
      return "held back";
    case metrology::MuffleVerdict::cannot_tell:
      break;
  }
  return "cannot tell";
}

Json run_json(const HeatingTold& told) {
  if (!told.run) return {};
  const metrology::HeatingRun& run = *told.run;
  // While it was held back, what the fit makes of the rest is no figure of the muffle.
  const auto of_muffle = [&](const std::optional<double>& number) { return run.held_until_C ? Json() : number_or_null(number); };
  return JsonObject{{"verdict", word(run.verdict)},
                    {"gain_K_per_s", of_muffle(run.measured.gain_K_per_s)},
                    {"gain_sd_K_per_s", of_muffle(run.gain_sd)},
                    {"gain_at_nominal_K_per_s", of_muffle(run.gain_at_nominal_K_per_s)},
                    {"loss_per_s", of_muffle(run.measured.loss_per_s)},
                    {"loss_sd_per_s", of_muffle(run.loss_sd)},
                    {"limit_C", of_muffle(run.limit_C)},
                    {"power_health", of_muffle(run.power_health)},
                    {"loss_health", of_muffle(run.loss_health)},
                    {"from_500_to_900_s", number_or_null(told.from_500_to_900_s)},
                    {"held_until_C", number_or_null(run.held_until_C)},
                    {"moisture_dip_K", number_or_null(run.moisture_dip_K)},
                    {"slow_while_drying_s", number_or_null(told.slow_while_drying_s)},
                    {"drying_advised", told.drying_advised}};
}

Json when_new_json(const HeatingTold& told) {
  if (!told.when_new) return {};
  return JsonObject{{"gain_K_per_s", told.when_new->gain_K_per_s},
                    {"loss_per_s", told.when_new->loss_per_s},
                    {"from_500_to_900_s", number_or_null(told.from_500_to_900_when_new_s)},
                    {"from", told.compared_with}};
}

void tell_numbers(CheckAnswer& answer, const FurnaceCheckDraft& draft, const HeatingTold& told) {
  answer.member("mains_V", number_or_null(told.mains_V));
  answer.member("nominal_mains_V", told.nominal_V);
  answer.member("room_C", told.room_C);
  answer.member("run", run_json(told));
  answer.member("compared_with", when_new_json(told));
  answer.line("Mains", told.mains_V ? fmt::format("{:.0f} V of {:.0f} V", *told.mains_V, told.nominal_V) : "not read");
  if (told.run && !told.run->held_until_C)
    answer.line("Muffle",
                fmt::format("gain {:.3f} K/s at {:.0f} V (± {:.3f}), loss {:.5f} /s (± {:.5f})", told.run->gain_at_nominal_K_per_s,
                            told.nominal_V, 2 * told.run->gain_sd, told.run->measured.loss_per_s, 2 * told.run->loss_sd));
  answer.member("forecast", forecast_json(draft, told.forecast));
  std::vector<std::array<double, 2>> points;
  if (draft.check.heating_run)
    for (const trade::TemperatureSample& sample : draft.check.heating_run->samples)
      points.push_back({sample.after.si(), sample.temperature.celsius()});
  answer.member("samples", points_json(points));
}

}  // namespace

CareAnswer check_heating(const AskedLab& asked, const HeatingCheckWords& words) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    FurnaceCheckWords answers = words;
    add_record(answers, "heating_run.samples", words.run);
    return refusing_in(scale_typed_in(answers), [&] {
      records::Store store = opened(place, words.keep ? Reading::and_writing : Reading::only);
      FurnaceCheckDraft draft = draft_of(place, store, answers, trade::CheckOf::heating);
      const trade::HeatingRunTest test = draft.check.heating_run.value_or(trade::HeatingRunTest{});
      const HeatingTold told = furnace_care::tell_heating({draft.furnace, test, muffles_seen(draft), day_of(draft.now_ms)});
      put_outcome(draft.check, told);
      std::optional<records::Kept> kept;
      if (words.keep) kept = keep_draft(place, store, draft, words.reason);
      CheckAnswer answer(draft);
      tell_findings(answer, told.verdict, told.level, told.sentence, told.findings);
      tell_numbers(answer, draft, told);
      answer.then(told.next);
      answer.remarks(told.remarks);
      answer.since_good(asked, draft, told.level);
      answer.kept(kept, draft);
      return answer.done(told.level == CheckLevel::not_good);
    });
  });
}

}  // namespace heatwork::desk
