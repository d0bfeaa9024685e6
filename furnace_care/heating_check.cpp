#include "furnace_care/heating_check.h"

#include <fmt/format.h>

#include <stdexcept>

#include "quantity/write.h"

namespace heatwork::furnace_care {
namespace {

using metrology::GainAndLoss;
using metrology::HeatingRun;
using metrology::MuffleVerdict;

// Standing of all: assumed. source: chosen-here
constexpr double usual_room_C = 22.0;
constexpr double above_its_maximum_K = 25.0;
constexpr double no_muffle_gets_stronger = 1.25;
constexpr double low_mains = 0.95;
constexpr double without_mains = 0.20;  ///< what mains that nobody read may do to the gain
constexpr double warn_loss_health = 1.12, replace_power_health = 0.85;
constexpr double dip_from_C = 60.0, dip_to_C = 150.0, dip_share = 0.10, dip_lasts_s = 60.0;

struct DisplayRecord {
  std::vector<double> times_s, temperatures_C;
};

DisplayRecord record_of(const HeatingAsked& asked) {
  DisplayRecord record;
  const double most_C = asked.furnace.maximum.value.celsius() + above_its_maximum_K;
  for (const trade::TemperatureSample& sample : asked.test.samples) {
    if (sample.temperature.celsius() > most_C)
      throw std::domain_error(fmt::format("The log shows {} at {}, but furnace {} ends at {}: it is of another furnace.",
                                          quantity::write(sample.temperature), quantity::write(sample.after), asked.furnace.name,
                                          quantity::write(asked.furnace.maximum.value)));
    record.times_s.push_back(sample.after.si());
    record.temperatures_C.push_back(sample.temperature.celsius());
  }
  return record;
}

/// What the muffle was: by its file, else by the first check that is kept of it.
void take_when_new(const HeatingAsked& asked, HeatingTold& told) {
  const trade::Heating& heating = asked.furnace.heating;
  if (heating.gain_when_new && heating.loss_when_new) {
    told.when_new = GainAndLoss{heating.gain_when_new->value.si(), heating.loss_when_new->value.si()};
    told.compared_with = "when new, by the furnace's file";
  } else if (!asked.earlier.empty()) {
    told.when_new = GainAndLoss{asked.earlier.front().gain_K_per_s, asked.earlier.front().loss_per_s};
    told.compared_with = fmt::format("in its first check that is kept, {}", asked.earlier.front().name);
  }
}

void take_times(HeatingTold& told) {
  const auto seconds = [&](const GainAndLoss& muffle) -> std::optional<double> {
    if (metrology::heating_limit_C(muffle, told.room_C) <= 910.0) return std::nullopt;
    return metrology::heating_time_s(muffle, told.room_C, 500.0, 900.0);
  };
  told.from_500_to_900_s = seconds({told.run->gain_at_nominal_K_per_s, told.run->measured.loss_per_s});
  if (told.when_new) told.from_500_to_900_when_new_s = seconds(*told.when_new);
}

std::string gain_words(const HeatingTold& told) {
  std::string words = fmt::format("gain {:.2f} K/s at {:.0f} V", told.run->gain_at_nominal_K_per_s, told.nominal_V);
  if (told.when_new) words += fmt::format(", {:.2f} K/s {}", told.when_new->gain_K_per_s, told.compared_with);
  if (told.from_500_to_900_s && told.from_500_to_900_when_new_s)
    words += fmt::format("; 500 to 900 °C in {:.0f} s, it was {:.0f} s", *told.from_500_to_900_s, *told.from_500_to_900_when_new_s);
  return words;
}

double percent(double share) {
  return 100.0 * share;
}

void look_at_mains(HeatingTold& told) {
  if (!told.mains_V) {
    told.findings.push_back(
        {"mains", CheckLevel::cannot_tell,
         "The mains were not read while it heated; they alone may change the power by 20 %, so a change of the element by "
         "less than that is not told."});
    told.next.emplace_back("Read the mains under load while the furnace heats at full power, and enter them with the run.");
    return;
  }
  const double share = *told.mains_V / told.nominal_V;
  if (share >= low_mains) return;
  told.findings.push_back(
      {"mains", CheckLevel::good,
       fmt::format("The mains are low: {:.0f} V of {:.0f} V take {:.0f} % of the power. That is the mains, not the element.", *told.mains_V,
                   told.nominal_V, percent(1.0 - share * share))});
  told.next.emplace_back("Have the supply looked at; as long as the mains are low, fast heating rates may not be reached.");
}

/// Without mains only what they cannot explain is told.
void look_at_element_unread(HeatingTold& told) {
  const double power = *told.run->power_health;
  CareFinding finding{"element", CheckLevel::cannot_tell, ""};
  if (power >= 1.0 - without_mains) {
    finding.sentence =
        fmt::format("Power is {:.0f} % of what it was ({}); that may be the mains, or the element.", percent(power), gain_words(told));
  } else {
    finding.level = CheckLevel::not_good;
    finding.sentence = fmt::format("Power is {:.0f} % of what it was ({}): mains within their usual range do not explain that.",
                                   percent(power), gain_words(told));
    told.next.emplace_back("Have the element measured cold, and plan its replacement.");
  }
  told.findings.push_back(std::move(finding));
}

void look_at_element(HeatingTold& told) {
  const HeatingRun& run = *told.run;
  const double power = *run.power_health;
  CareFinding finding{"element", CheckLevel::good, ""};
  switch (run.verdict) {
    case MuffleVerdict::element_ageing:
      finding.level = CheckLevel::not_good;
      finding.sentence = fmt::format("The element ages: power is {:.0f} % of what it was ({}).", percent(power), gain_words(told));
      told.next.emplace_back("Order an element; until it is changed, keep to heating rates the furnace still reaches.");
      break;
    case MuffleVerdict::replace_element:
      finding.level = CheckLevel::not_good;
      finding.sentence = fmt::format("The element is worn: power is {:.0f} % of what it was ({}).", percent(power), gain_words(told));
      told.next.emplace_back("Have the muffle or its element replaced, then check temperature, vacuum and heating anew.");
      break;
    case MuffleVerdict::cannot_tell:
      finding.level = CheckLevel::cannot_tell;
      finding.sentence = fmt::format("Power is {:.0f} % of what it was ({}): too near a limit, or too unsure, to say more.", percent(power),
                                     gain_words(told));
      told.next.emplace_back("Record the run again, from below 100 °C to 900 °C, with a reading every 5 s.");
      break;
    case MuffleVerdict::healthy:
    case MuffleVerdict::insulation:
    case MuffleVerdict::held_back:
      finding.sentence = fmt::format("The element is as it was: power is {:.0f} % ({}).", percent(power), gain_words(told));
      break;
  }
  told.findings.push_back(std::move(finding));
}

void look_at_lining(HeatingTold& told) {
  const double loss = *told.run->loss_health;
  const double sd = told.run->loss_sd / told.when_new->loss_per_s;
  CareFinding finding{"lining", CheckLevel::good,
                      fmt::format("The lining keeps the heat: losses are {:.0f} % of what they were.", percent(loss))};
  if (told.run->verdict == MuffleVerdict::insulation) {
    finding.level = CheckLevel::not_good;
    finding.sentence = fmt::format(
        "The lining loses {:.0f} % of the heat it lost: worn or wet insulation, or a chamber that does not shut.", percent(loss));
    told.next.emplace_back(
        "Look for cracks in the lining and at the seat of the chamber; dry the furnace, record the run again, then have the "
        "insulation renewed.");
  } else if (loss + sd > warn_loss_health) {
    finding.level = CheckLevel::cannot_tell;
    finding.sentence =
        fmt::format("The lining loses {:.0f} % ± {:.0f} % of the heat it lost: whether that is more than it should is not sure.",
                    percent(loss), percent(2.0 * sd));
  }
  told.findings.push_back(std::move(finding));
}

/// How long it fell behind the muffle's own curve by more than a tenth, from 60 to 150 °C.
void look_at_water(const DisplayRecord& record, HeatingTold& told) {
  const GainAndLoss& muffle = told.run->measured;
  double slow_s = 0;
  std::size_t steps = 0;
  for (std::size_t i = 1; i < record.times_s.size(); ++i) {
    const double from_C = record.temperatures_C[i - 1], to_C = record.temperatures_C[i];
    if (from_C < dip_from_C || to_C > dip_to_C) continue;
    ++steps;
    const double took_s = record.times_s[i] - record.times_s[i - 1];
    const double expected_K_per_s = muffle.gain_K_per_s - muffle.loss_per_s * (0.5 * (from_C + to_C) - told.room_C);
    if (to_C - from_C < (1.0 - dip_share) * expected_K_per_s * took_s) slow_s += took_s;
  }
  if (steps == 0 || told.run->held_until_C) return;
  told.slow_while_drying_s = slow_s;
  told.drying_advised = slow_s > dip_lasts_s;
  if (!told.drying_advised) return;
  told.findings.push_back(
      {"water", CheckLevel::not_good,
       fmt::format(
           "Water boils off: from 60 to 150 °C the furnace stayed behind by more than a tenth for {:.0f} s{}.", slow_s,
           told.run->moisture_dip_K && *told.run->moisture_dip_K > 0 ? fmt::format(", {:.0f} K in all", *told.run->moisture_dip_K) : "")});
  told.next.emplace_back(
      "Dry the furnace: a dry-out firing as its maker says, slowly and with the chamber open, then record the run again.");
}

void foresee(const HeatingAsked& asked, HeatingTold& told) {
  if (!told.mains_V) return;
  std::vector<double> days, powers;
  for (const MuffleSeen& seen : asked.earlier) {
    days.push_back(seen.day);
    powers.push_back(seen.gain_K_per_s / told.when_new->gain_K_per_s);
  }
  days.push_back(asked.day);
  powers.push_back(*told.run->power_health);
  told.forecast = forecast_of_limit(days, powers, replace_power_health, false);
  if (told.forecast)
    told.remarks.push_back(fmt::format("The element weakens: as it goes, it is due for replacement in about {} ({} at the earliest).",
                                       in_time(told.forecast->days), in_time(told.forecast->earliest_days)));
}

std::string word_of(const HeatingTold& told) {
  const auto level_of = [&](std::string_view about) {
    for (const CareFinding& finding : told.findings) {
      if (finding.about == about) return finding.level;
    }
    return CheckLevel::good;
  };
  std::vector<std::string> words;
  const bool worn = told.run && told.run->verdict == MuffleVerdict::replace_element;
  if (level_of("element") == CheckLevel::not_good)
    words.emplace_back(!told.mains_V ? "power low" : worn ? "element worn" : "element ageing");
  if (level_of("lining") == CheckLevel::not_good) words.emplace_back("insulation");
  if (level_of("water") == CheckLevel::not_good) words.emplace_back("water");
  if (told.run && told.run->held_until_C) words.emplace_back("held back");
  if (words.empty() && told.level == CheckLevel::cannot_tell)
    words.emplace_back(told.run && !told.when_new ? "nothing to compare with" : "undecided");
  if (words.empty()) words.emplace_back("heats as it did");
  if (told.mains_V && *told.mains_V < low_mains * told.nominal_V) words.emplace_back("mains low");
  return fmt::format("{}", fmt::join(words, ", "));
}

void conclude(HeatingTold& told) {
  told.level = level_of(told.findings);
  told.verdict = word_of(told);
  told.sentence = sentence_of(told.findings);
  if (told.next.empty()) told.next.emplace_back("Nothing has to be done; check again when it is due.");
}

/// False where the record holds no run at full power.
bool fitted(const DisplayRecord& record, HeatingTold& told) {
  const double mains_V = told.mains_V.value_or(told.nominal_V);
  if (mains_V < 0.8 * told.nominal_V || mains_V > 1.3 * told.nominal_V)
    throw std::domain_error(fmt::format("The mains must be from 80 to 130 % of nominal: {:.0f} V of {:.0f} V.", mains_V, told.nominal_V));
  try {
    told.run = metrology::judge_heating_run(record.times_s, record.temperatures_C, told.room_C, mains_V, told.nominal_V, told.when_new);
  } catch (const std::domain_error& refused) {
    told.findings.push_back({"run", CheckLevel::cannot_tell, fmt::format("The run does not suffice. {}", refused.what())});
    told.next.emplace_back("Record a run at full power from below 100 °C to 900 °C, with a reading every 5 s.");
    return false;
  }
  return true;
}

void refuse_another_muffle(const HeatingAsked& asked, const HeatingTold& told) {
  if (told.run->power_health && *told.run->power_health > no_muffle_gets_stronger)
    throw std::domain_error(
        fmt::format("This muffle gains {:.2f} K/s at nominal mains, that of furnace {} gained {:.2f} K/s {}, and no muffle gets "
                    "stronger: the log is of another furnace, or the figures or the mains are wrong.",
                    told.run->gain_at_nominal_K_per_s, asked.furnace.name, told.when_new->gain_K_per_s, told.compared_with));
}

void judge(const HeatingAsked& asked, const DisplayRecord& record, HeatingTold& told) {
  const bool said_capped = asked.test.capped && asked.test.capped->value;
  if (said_capped || told.run->held_until_C) {
    told.findings.push_back({"run", CheckLevel::cannot_tell,
                             told.run->held_until_C
                                 ? fmt::format("The rate was held back up to {:.0f} °C: that is the program, not the muffle at full power.",
                                               *told.run->held_until_C)
                                 : std::string("The rate was held back by the program: that is not the muffle at full power.")});
    told.next.emplace_back("Record the run again with the highest heating rate the panel takes, so that the furnace runs at full power.");
    return;
  }
  refuse_another_muffle(asked, told);
  take_times(told);
  if (!told.when_new) {
    look_at_water(record, told);
    look_at_mains(told);
    told.findings.push_back(
        {"element", CheckLevel::cannot_tell,
         fmt::format("There is nothing to compare with yet: {}. Kept, this run is what later ones are compared with.", gain_words(told))});
    told.next.emplace_back("Keep this check; the next one tells whether the muffle changes.");
    return;
  }
  if (told.mains_V)
    look_at_element(told);
  else
    look_at_element_unread(told);
  look_at_lining(told);
  look_at_water(record, told);
  look_at_mains(told);
  foresee(asked, told);
}

}  // namespace

HeatingTold tell_heating(const HeatingAsked& asked) {
  if (asked.test.samples.empty()) throw std::domain_error("No reading of the display is given: a run at full power is needed.");
  HeatingTold told;
  told.nominal_V = asked.furnace.heating.nominal_mains.value.si();
  if (asked.test.mains) told.mains_V = asked.test.mains->value.si();
  told.room_C = asked.test.room ? asked.test.room->value.celsius() : usual_room_C;
  if (!asked.test.room) told.remarks.push_back(fmt::format("The room was not measured; {:.0f} °C is taken.", usual_room_C));
  const DisplayRecord record = record_of(asked);
  take_when_new(asked, told);
  if (fitted(record, told)) judge(asked, record, told);
  conclude(told);
  return told;
}

}  // namespace heatwork::furnace_care
