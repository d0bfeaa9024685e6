#include <fmt/format.h>

#include <optional>
#include <utility>

#include "desk/lab/furnace_record.h"
#include "desk/lab/told_in_units.h"
#include "furnace_care/vacuum_check.h"
#include "trade/choice_words.h"

namespace heatwork::desk {
namespace {

using furnace_care::CheckLevel;
using furnace_care::VacuumTold;

std::vector<furnace_care::PumpSeen> pumps_seen(const FurnaceCheckDraft& draft) {
  std::vector<furnace_care::PumpSeen> pumps;
  if (!draft.check.after_repair.empty()) return pumps;
  for (auto kept = draft.earlier.rbegin(); kept != draft.earlier.rend(); ++kept) {
    const trade::Check& check = kept->check;
    if (check.of.value != trade::CheckOf::vacuum || !check.pump_time_constant || !check.ultimate) continue;
    const bool warm = check.vacuum && check.vacuum->pump_warm && check.vacuum->pump_warm->value;
    pumps.push_back({day_of(kept->at_ms), check.pump_time_constant->value.si(), check.ultimate->value.si() / 100.0, warm});
  }
  return pumps;
}

void put_outcome(trade::Check& check, const VacuumTold& told) {
  set_outcome(check, told.level);
  check.verdict = told.verdict;
  if (told.pump) {
    check.pump_time_constant.emplace().value = quantity::seconds(told.pump->time_constant_s);
    check.ultimate.emplace().value = quantity::millibars(told.pump->ultimate_mbar);
    check.pump_time_constant_sd.emplace().value = quantity::seconds(*told.time_constant_sd_s);
    check.ultimate_sd.emplace().value = quantity::millibars(*told.ultimate_sd_mbar);
  }
  if (told.leak_mbar_per_s && told.leak_sd_mbar_per_s && told.chamber->verdict != metrology::RiseVerdict::undecided) {
    check.leak.emplace().value = quantity::PressureRate::si(100.0 * *told.leak_mbar_per_s);
    check.leak_sd.emplace().value = quantity::PressureRate::si(100.0 * *told.leak_sd_mbar_per_s);
  } else if (told.leak_mbar_per_s && told.chamber && !told.chamber->rises) {
    check.leak.emplace().value = quantity::PressureRate::si(0);
    check.leak_sd.emplace().value = quantity::PressureRate::si(100.0 * *told.leak_sd_mbar_per_s);
  }
}

Json pump_json(const VacuumTold& told) {
  if (!told.pump) return {};
  const Json usual = told.usual
                         ? Json(JsonObject{{"time_constant_s", told.usual->time_constant_s}, {"ultimate_mbar", told.usual->ultimate_mbar}})
                         : Json();
  return JsonObject{{"time_constant_s", told.pump->time_constant_s},       {"time_constant_sd_s", number_or_null(told.time_constant_sd_s)},
                    {"ultimate_mbar", told.pump->ultimate_mbar},           {"ultimate_sd_mbar", number_or_null(told.ultimate_sd_mbar)},
                    {"speed_L_per_s", number_or_null(told.speed_L_per_s)}, {"to_50_mbar_s", number_or_null(told.to_porcelain_vacuum_s)},
                    {"change", furnace_care::word(told.change)},           {"usual", usual}};
}

Json chamber_json(const FurnaceCheckDraft& draft, const VacuumTold& told) {
  if (!told.chamber) return {};
  const metrology::Rise& rise = *told.chamber;
  const double litres = 1000.0 * draft.furnace.chamber_volume.value.si();
  return JsonObject{{"verdict", rise.rises             ? furnace_care::word(rise.verdict)
                                : rise.leak_mbar_per_s ? "holds"
                                                       : "undecided"},
                    {"leak_mbar_per_s", number_or_null(told.leak_mbar_per_s)},
                    {"leak_sd_mbar_per_s", number_or_null(told.leak_sd_mbar_per_s)},
                    {"leak_mbar_L_per_s", told.leak_mbar_per_s ? Json(*told.leak_mbar_per_s * litres) : Json()},
                    {"outgassing_mbar", number_or_null(rise.outgassing_mbar)},
                    {"outgassing_time_s", number_or_null(rise.outgassing_time_s)},
                    {"rest_mbar", number_or_null(rise.plateau_mbar)},
                    {"water_saturation_mbar", number_or_null(told.saturation_mbar)},
                    {"late_over_early", number_or_null(rise.late_over_early)}};
}

void tell_numbers(CheckAnswer& answer, const FurnaceCheckDraft& draft, const VacuumTold& told, bool cannot_be_shut) {
  answer.member("gauge", trade::choice_word(told.gauge));
  answer.member("air", JsonObject{{"pressure_mbar", told.air.pressure_mbar},
                                  {"sd_mbar", told.air.sd_mbar},
                                  {"by_barometer", told.air.by_barometer},
                                  {"altitude_m", told.air.altitude_m}});
  answer.line("Gauge",
              fmt::format("{}, in air of {:.0f} mbar {}", trade::choice_word(told.gauge), told.air.pressure_mbar,
                          told.air.by_barometer ? "by the barometer" : fmt::format("by the altitude of {:.0f} m", told.air.altitude_m)));
  if (told.pump)
    answer.line("Pump",
                fmt::format("time constant {:.1f} s (± {:.1f}), lowest {:.1f} mbar (± {:.1f}){}", told.pump->time_constant_s,
                            2 * *told.time_constant_sd_s, told.pump->ultimate_mbar, 2 * *told.ultimate_sd_mbar,
                            told.to_porcelain_vacuum_s ? fmt::format(", {:.0f} mbar after {:.0f} s", furnace_care::porcelain_vacuum_mbar,
                                                                     *told.to_porcelain_vacuum_s)
                                                       : ""));
  if (told.leak_mbar_per_s)
    answer.line("Leak", fmt::format("{:.3f} mbar/s (± {:.3f})", *told.leak_mbar_per_s, 2 * told.leak_sd_mbar_per_s.value_or(0)));
  answer.member("pump", pump_json(told));
  answer.member("chamber", chamber_json(draft, told));
  answer.member("rise_possible", !cannot_be_shut);
  answer.member("forecast", forecast_json(draft, told.forecast));
  answer.member("records", JsonObject{{"pump_down", points_json(told.pump_down)}, {"rise", points_json(told.rise)}});
}

}  // namespace

CareAnswer check_vacuum(const AskedLab& asked, const VacuumCheckWords& words) {
  const StorePlace place = place_of(asked);
  return caring(place, [&] {
    FurnaceCheckWords answers = words;
    add_record(answers, "vacuum.pump_down", words.pump_down);
    add_record(answers, "vacuum.rise", words.rise);
    return refusing_in(scale_typed_in(answers), [&] {
      records::Store store = opened(place, words.keep ? Reading::and_writing : Reading::only);
      FurnaceCheckDraft draft = draft_of(place, store, answers, trade::CheckOf::vacuum);
      const trade::VacuumTest test = draft.check.vacuum.value_or(trade::VacuumTest{});
      const VacuumTold told =
          furnace_care::tell_vacuum({draft.furnace, test, pumps_seen(draft), day_of(draft.now_ms), !words.cannot_be_shut});
      put_outcome(draft.check, told);
      if (draft.check.method.empty() && words.cannot_be_shut)
        draft.check.method = "pump-down; this furnace cannot be shut with its pump off";
      std::optional<records::Kept> kept;
      if (words.keep) kept = keep_draft(place, store, draft, words.reason);
      CheckAnswer answer(draft);
      tell_findings(answer, told.verdict, told.level, told.sentence, told.findings);
      tell_numbers(answer, draft, told, words.cannot_be_shut);
      answer.then(told.next);
      answer.remarks(told.remarks);
      answer.since_good(asked, draft, told.level);
      answer.kept(kept, draft);
      return answer.done(told.level == CheckLevel::not_good);
    });
  });
}

}  // namespace heatwork::desk
