#include "furnace_care/probe_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "furnace_care/certificate.h"
#include "furnace_care/known_error.h"
#include "metrology/display_limits.h"
#include "metrology/display_offset.h"
#include "metrology/thermocouple.h"
#include "trade/choice_words.h"

namespace heatwork::furnace_care {
namespace {

using metrology::ThermocoupleType;
using trade::ProbeUse;
using trade::Standing;

// Standing of all: assumed. source: chosen-here
constexpr double indicator_K = 0.6;  ///< indicator and cold junction where nothing is stated
constexpr double immersion_K = 1.5;  ///< heat led away along the probe
constexpr double certified_drift_K = 0.1, noble_drift_K = 0.3;
constexpr double base_half_width_K = 5.0;  ///< what a used base-metal wire may have drifted: 5 K / root 3
constexpr double unstated_certificate_K = 0.5;
constexpr double near_one_another_K = 20.0,
                 most_repeats_apart_K = 8.0;  ///< three times what place, ripple and step of the display let differ

ThermocoupleType type_of(const std::string& letter) {
  if (letter == "S") return ThermocoupleType::S;
  if (letter == "R") return ThermocoupleType::R;
  if (letter == "B") return ThermocoupleType::B;
  if (letter == "K") return ThermocoupleType::K;
  return ThermocoupleType::N;
}

bool is_base_metal(const std::string& letter) {
  return letter == "K" || letter == "N";
}

bool is_new(const trade::Probe& probe) {
  return probe.use && probe.use->value == ProbeUse::fresh;
}

std::optional<Question> next_question(const trade::Probe& probe) {
  if (probe.type.empty())
    return Question{"probe.type",
                    "Of which type is the thermocouple?",
                    "Its letter stands on plug or certificate; each type has its own voltage.",
                    {"S", "R", "B", "K", "N"},
                    "S"};
  if (!probe.use) {
    const auto words = trade::choices<ProbeUse>();
    return Question{"probe.use",
                    "Is it new, or was it hot before?",
                    "Wire drifts in use, type K by several kelvin.",
                    {words.begin(), words.end()},
                    "new"};
  }
  if (!probe.correction && !probe.tolerance_class)
    return Question{"probe.correction",
                    "Which correction does its certificate state, or of which class is its wire?",
                    "Without one of the two nothing says how true it is.",
                    {},
                    "0.4 K",
                    {},
                    {},
                    "probe.tolerance_class: 1, 2"};
  return std::nullopt;
}

void check_probe(const ProbeAsked& asked) {
  const trade::Probe& probe = asked.probe;
  if (asked.certificate_age_days && *asked.certificate_age_days < 0)
    throw std::domain_error(fmt::format("The day of the certificate, {}, is still to come.", probe.certified));
  const bool was_hot = probe.use && !is_new(probe);
  if (probe.type == "K" && was_hot && !is_base_metal(asked.furnace.sensor_type))
    throw std::domain_error(fmt::format(
        "A type K thermocouple that was hot before cannot be the reference of furnace {}, whose own sensor is of type {}: use changes "
        "type K by up to 5 K and no class or certificate covers that; take a new one, or one of type S.",
        asked.furnace.name, asked.furnace.sensor_type));
}

double probe_reading_C(const trade::Probe& probe, const trade::ProbeReading& reading) {
  const ThermocoupleType type = type_of(probe.type);
  if (reading.emf_mV) return metrology::thermocouple_temperature_C(type, reading.emf_mV->value, reading.cold_junction->value.celsius());
  const double read_C = reading.probe->value.celsius();
  const auto range = metrology::thermocouple_range(type);
  if (read_C < range.lowest_read_C || read_C > range.highest_C)
    throw std::domain_error(fmt::format("A type {} thermocouple reads {:.0f} to {:.0f} °C, not {:.0f} °C.", probe.type, range.lowest_read_C,
                                        range.highest_C, read_C));
  return read_C;
}

void check_apart(double display_C, double probe_C) {
  if (probe_C < 20 && display_C > 100)
    throw std::domain_error(
        fmt::format("The thermocouple reads {:.0f} °C while the display shows {:.0f} °C: its wires look reversed.", probe_C, display_C));
  if (std::abs(display_C - probe_C) > metrology::beyond_any_error_K)
    throw std::domain_error(
        fmt::format("Display {:.0f} °C and thermocouple {:.0f} °C are too far apart for an error of a furnace: reversed or wrong "
                    "wires, another type, or two places; look at the probe first.",
                    display_C, probe_C));
}

/// What the probe itself may be wrong by at a temperature.
BudgetPart reference_part(const trade::Probe& probe, double temperature_C) {
  if (probe.correction)
    return {"calibration of the thermocouple", probe.correction_u ? probe.correction_u->value.si() : unstated_certificate_K,
            probe.correction_u ? Standing::measured : Standing::assumed,
            probe.certified.empty() ? "its certificate" : fmt::format("its certificate of {}", probe.certified)};
  const double tolerance_K = metrology::thermocouple_tolerance_K(type_of(probe.type), probe.tolerance_class->value, temperature_C);
  return {"tolerance of the thermocouple's class", metrology::rectangular_uncertainty_K(tolerance_K), Standing::measured, "iec-60584-1"};
}

bool is_out_of_date(const ProbeAsked& asked) {
  if (!asked.certificate_age_days) return false;
  const auto usual = usual_certificate_interval(trade::ReferenceOf::thermocouple);
  return *asked.certificate_age_days > asked.certificate_lasts_days.value_or(usual->every_days.value());
}

BudgetPart drift_part(const ProbeAsked& asked) {
  const trade::Probe& probe = asked.probe;
  if (is_base_metal(probe.type) && !is_new(probe))
    return {"drift of the thermocouple", metrology::rectangular_uncertainty_K(base_half_width_K), Standing::memory, "chosen-here"};
  return {"drift of the thermocouple", probe.correction && !is_out_of_date(asked) ? certified_drift_K : noble_drift_K, Standing::assumed,
          "chosen-here"};
}

ProbeFound compare(const ProbeAsked& asked, const trade::ProbeReading& reading) {
  ProbeFound found;
  found.display_C = reading.display.value.celsius();
  found.probe_C = probe_reading_C(asked.probe, reading);
  check_apart(found.display_C, found.probe_C);
  found.true_C = found.probe_C + (asked.probe.correction ? asked.probe.correction->value.si() : 0);
  found.error_K = found.display_C - found.true_C;
  found.budget.push_back(reference_part(asked.probe, found.true_C));
  found.budget.push_back(drift_part(asked));
  found.budget.push_back({"indicator and cold junction", asked.probe.indicator_u ? asked.probe.indicator_u->value.si() : indicator_K,
                          asked.probe.indicator_u ? Standing::measured : Standing::assumed,
                          asked.probe.indicator_u ? "stated in the check" : "chosen-here"});
  found.budget.push_back({"immersion of the thermocouple", immersion_K, Standing::assumed, "chosen-here"});
  for (BudgetPart& part : found.budget) part.is_shared = true;  // of the probe itself, whatever it reads
  add_parts_of_display(found.budget, asked.furnace.ability.temperature_step.value.si());
  found.standard_uncertainty_K = combined_K(found.budget);
  return found;
}

std::vector<std::string> remarks_on(const ProbeAsked& asked) {
  std::vector<std::string> remarks;
  if (is_out_of_date(asked))
    remarks.push_back(
        fmt::format("The certificate is {:.0f} days old: have the thermocouple calibrated again.", *asked.certificate_age_days));
  if (asked.probe.correction && !asked.probe.correction_u)
    remarks.emplace_back("The certificate's own uncertainty is not given: 0.5 K is taken.");
  if (is_base_metal(asked.probe.type) && !is_new(asked.probe))
    remarks.emplace_back("Wire of this type changes with every hot hour: such a comparison finds large errors only.");
  return remarks;
}

/// Two readings of one probe near one temperature repeat to a few kelvin; farther apart something moved between them.
void look_for_contradiction(ProbeTold& told) {
  for (std::size_t i = 1; i < told.found.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      const ProbeFound &earlier = told.found[j], &later = told.found[i];
      const double apart_K = std::abs(later.error_K - earlier.error_K);
      if (std::abs(later.display_C - earlier.display_C) > near_one_another_K || apart_K <= most_repeats_apart_K) continue;
      told.remarks.push_back(
          fmt::format("Two comparisons near {:.0f} °C contradict each other by {:.0f} K: one reading may be wrong. Compare once more, both "
                      "steady, and take the wrong one out.",
                      later.display_C, apart_K));
      return;
    }
  }
}

void judge(ProbeTold& told, const ProbeAsked& asked) {
  for (const ProbeFound& found : told.found) {
    const ErrorAt here = told.line->at(found.true_C);
    told.judged.push_back({found.true_C, here.error_K, here.standard_uncertainty_K});
  }
  told.verdict = judge_display(told.judged, told.limit_K, trade::CheckOf::thermocouple);
  const auto [least, most] =
      std::minmax_element(told.judged.begin(), told.judged.end(), [](const auto& a, const auto& b) { return a.error_K < b.error_K; });
  look_for_contradiction(told);
  told.mend_K = 0.5 * (least->error_K + most->error_K);
  if (told.found.size() > 1 && (told.verdict.level == CheckLevel::not_good || told.verdict.correct))
    told.remarks.push_back(
        fmt::format("One correction serves every temperature: that of {:+.1f} K, in the middle of what was found, leaves up to "
                    "{:.1f} K.",
                    told.mend_K, most->error_K - told.mend_K));
  if (asked.others.empty()) return;
  const ProbeFound& worst = told.found[told.verdict.worst];
  for (auto& remark : remarks_on_others(worst.error_K, worst.standard_uncertainty_K, told.line->agreement))
    told.remarks.push_back(std::move(remark));
}

}  // namespace

ProbeTold tell_probe_check(const ProbeAsked& asked) {
  ProbeTold told;
  told.limit_K = asked.limit_K.value_or(metrology::usual_display_limit_K);
  told.limit_of_lab = asked.limit_K.has_value();
  check_probe(asked);
  told.question = next_question(asked.probe);
  if (told.question) {
    if (!asked.compared.empty())
      throw std::domain_error(fmt::format("A thermocouple was read before it is known what it is: first answer {}.", told.question->key));
    return told;
  }
  told.remarks = remarks_on(asked);
  if (asked.compared.empty()) {
    told.question = Question{"compared",
                             "What do display and thermocouple show, both steady, with the probe's tip where the pieces stand?",
                             "One temperature near 800 °C and one near the highest you fire at tell a line.",
                             {},
                             "800 °C reads 803 °C"};
    return told;
  }
  for (const trade::ProbeReading& reading : asked.compared) told.found.push_back(compare(asked, reading));
  std::vector<ErrorFound> all = asked.others;
  for (const ErrorFound& each : errors_of(told, asked.means)) all.push_back(each);
  told.line = line_of(std::move(all));
  judge(told, asked);
  return told;
}

std::vector<Question> answered_probe_questions(const trade::Probe& probe) {
  std::vector<Question> answered;
  trade::Probe so_far;
  while (const auto question = next_question(so_far)) {
    if (question->key == "probe.type") {
      so_far.type = probe.type;
    } else if (question->key == "probe.use") {
      so_far.use = probe.use;
    } else {
      so_far.correction = probe.correction;
      so_far.tolerance_class = probe.tolerance_class;
    }
    if (const auto same = next_question(so_far); same && same->key == question->key) break;
    answered.push_back(*question);
  }
  return answered;
}

std::vector<ErrorFound> errors_of(const ProbeTold& told, int means) {
  std::vector<ErrorFound> errors;
  for (const ProbeFound& found : told.found) errors.push_back(found_with(found.true_C, found.error_K, found.budget, means));
  return errors;
}

}  // namespace heatwork::furnace_care
