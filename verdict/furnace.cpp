// The furnace where it explains the comparison: its display, and the power it lacks.
#include <algorithm>
#include <cmath>

#include "firing/chamber.h"
#include "verdict/bench.h"
#include "verdict/keyed.h"
#include "verdict/program_checks.h"

namespace heatwork::verdict {
namespace {

/// The piece whose firing differs most from the maker's; nullptr without a comparison.
const PieceCase* worst_of(const std::vector<PieceCase>& cases) {
  const PieceCase* worst = nullptr;
  const auto distance = [](const PieceCase& piece) {
    if (piece.compared == nullptr || piece.compared->quantity == firing::DecidingQuantity::none) return -1.0;
    return piece.compared->shift_beyond ? 1e9 : std::abs(piece.compared->shift_K.value_or(0));
  };
  for (const PieceCase& piece : cases) {
    if (distance(piece) >= 0 && (worst == nullptr || distance(piece) > distance(*worst))) worst = &piece;
  }
  return worst;
}

/// "Key in all temperatures 12 K higher ..., or set the correction from 0 to -12 K".
std::string way_to_correct(const Bench& bench, double error_K) {
  const trade::Furnace& furnace = bench.rehearsal.request.furnace;
  const double by_K = std::round(error_K);
  const double keyed_K = furnace.correction_keyed.value.si();
  const bool on_display = furnace.correction_convention.value == trade::CorrectionConvention::added_to_display;
  const std::string set = bench.kelvins(on_display ? keyed_K - by_K : keyed_K + by_K);
  const std::string convention = bench.say(on_display ? "findings.furnace.added_to_display" : "findings.furnace.added_to_setting");
  return bench.say(
      by_K > 0 ? "findings.furnace.key_in_higher" : "findings.furnace.key_in_lower",
      {{"by", bench.kelvins(std::abs(by_K))}, {"old", bench.number(bench.in_steps(keyed_K))}, {"new", set}, {"convention", convention}});
}

/// Every temperature of the program, as keyed in where the display is so far off.
std::vector<Advised> all_shifted(const Bench& bench, double by_K) {
  std::vector<Advised> advised;
  for (const Keyed& keyed : keyed_in(bench.rehearsal.request.program, nullptr)) {
    if (keyed.kind == KeyedKind::temperature)
      advised.push_back({key_of(keyed.part, keyed.stage), shown(bench, keyed.kind, keyed.value + by_K)});
  }
  return advised;
}

Finding unchecked(const Bench& bench) {
  const trade::Limit& limit = bench.limits.at("display_unchecked");
  Finding finding = untold(Aspect::furnace, "",
                           bench.sentence("findings.furnace.unchecked",
                                          {{"furnace", bench.rehearsal.request.furnace.name}, {"by", bench.kelvins(limit.first)}}));
  finding.limit = limit.first;
  finding.unit = limit.unit;
  finding.limit_from = limit.of_lab ? LimitFrom::lab : LimitFrom::heatwork;
  finding.change = bench.say("findings.furnace.check_display");
  return finding;
}

/// The display's error, known to so many standard uncertainties; without a band where none was asked for.
Number error_of_display(const Bench& bench) {
  const trade::DisplayError& display = *bench.rehearsal.request.furnace.display_error;
  Number number{display.error.value.si()};
  number.band_follows = bench.band_follows();
  for (const firing::Varied& varied : bench.rehearsal.varied) {
    if (varied.input.name != "display_error") continue;
    number.low = number.nominal + varied.input.low * display.standard_uncertainty.value.si();
    number.widest = varied.input.name;
    number.high = number.nominal + varied.input.high * display.standard_uncertainty.value.si();
  }
  return number;
}

Finding display(const Bench& bench, const std::vector<PieceCase>& cases) {
  const trade::Furnace& furnace = bench.rehearsal.request.furnace;
  const double error_K = furnace.display_error->error.value.si();
  const std::string twice_u = bench.about_kelvins(2 * furnace.display_error->standard_uncertainty.value.si());
  // What hangs on an unknown tray is not said of a piece.
  const PieceCase* worst = bench.rehearsal.tray_known ? worst_of(cases) : nullptr;
  const std::string_view reads = std::abs(error_K) < 0.5 ? "findings.furnace.reads_true"
                                 : error_K > 0           ? "findings.furnace.reads_high"
                                                         : "findings.furnace.reads_low";
  const std::string display =
      bench.say(reads, {{"furnace", furnace.name}, {"error", bench.about_kelvins(std::abs(error_K))}, {"within", twice_u}});
  const bool explains = worst != nullptr && worst->compared->shift_K && display_explains(bench, *worst->compared->shift_K);
  const bool alike = worst != nullptr && worst->compared->shift_K && std::abs(*worst->compared->shift_K) <= bench.limits.at("shift").first;
  const std::string_view words = worst == nullptr ? "findings.furnace.alone"
                                 : alike          ? "findings.furnace.alike"
                                 : explains       ? "findings.furnace.does_to_piece"
                                                  : "findings.furnace.not_the_display";
  const std::string sentence =
      worst == nullptr
          ? bench.sentence(words, {{"display", display}})
          : bench.sentence(words, {{"display", display}, {"piece", worst->here->piece}, {"like", like(bench, *worst->compared)}});
  Finding finding = judged(bench, Aspect::furnace, "", error_of_display(bench), "display_error", Side::either, sentence);
  if (explains && finding.level != Level::sound) {
    finding.level = graver(finding.level, assess({*worst->compared->shift_K}, bench.limits.at("shift"), Side::either).level);
  }
  const bool true_as_far_as_known = std::abs(error_K) <= bench.limits.at("display_error").first;
  if (finding.level != Level::sound)
    finding.change = true_as_far_as_known ? bench.say("findings.furnace.check_sharper") : way_to_correct(bench, error_K);
  if (finding.level != Level::sound && !true_as_far_as_known) finding.advised = all_shifted(bench, std::round(error_K));
  return finding;
}

Finding held_back(const Bench& bench) {
  const trade::Heating& heating = bench.rehearsal.request.furnace.heating;
  const double lag_K = bench.rehearsal.firing.chamber.largest_lag_behind_asked_K;
  const auto behind = [&](const firing::FiringResult& result) { return result.chamber.largest_lag_behind_asked_K; };
  Number number{lag_K};
  std::string maker_says;
  if (!bench.rehearsal.reference.empty()) {
    number.maker = behind(bench.rehearsal.reference.front());
    maker_says = bench.about_kelvins(*number.maker);
  }
  Finding finding = judged(bench, Aspect::furnace, "", number, "held_back", Side::above,
                           bench.sentence("findings.furnace.held_back", {{"furnace", bench.rehearsal.request.furnace.name},
                                                                         {"lag", bench.kelvins(lag_K)},
                                                                         {"mains", bench.number(heating.mains.value.si())},
                                                                         {"nominal", bench.number(heating.nominal_mains.value.si())}}),
                           maker_says);
  finding.change = way_to_power(bench);
  return finding;
}

}  // namespace

std::string way_to_power(const Bench& bench) {
  const firing::ChamberConditions today = firing::conditions_today(bench.rehearsal.request.furnace, bench.rehearsal.request.firing.chamber,
                                                                   bench.rehearsal.firing.chamber.ambient_Pa);
  const double possible = 60 * firing::full_power_K_per_s(today, top_C(bench.rehearsal.request.program) - today.display_error_K);
  return possible >= 1 ? bench.say("findings.furnace.more_power",
                                   {{"possible", bench.number(std::floor(bench.in_steps(possible))) + bench.unit_of_rates()}})
                       : bench.say("findings.furnace.slower_or_power");
}

void judge_furnace(Bench& bench, const std::vector<PieceCase>& cases) {
  Finding finding = bench.rehearsal.request.furnace.display_error ? display(bench, cases) : unchecked(bench);
  if (bench.rehearsal.firing.chamber.held_back) {
    Finding weak = held_back(bench);
    if (weak.level != Level::sound) bench.add(std::move(weak));
  }
  bench.add(std::move(finding));
}

}  // namespace heatwork::verdict
