#include "desk/calibrated_material.h"

#include <fmt/format.h>

#include <cmath>
#include <filesystem>

#include "firing/calibrated_range.h"
#include "quantity/write.h"
#include "trade/reader.h"
#include "trade/writer.h"

namespace heatwork::desk {
namespace {

// Digits of the file: finer than 0.01 K of firing temperature, and rounded only here.
double rounded(double value, double step) {
  return std::round(value / step) * step;
}

trade::Estimate computed(double value, double within, const std::string& source) {
  return {value, value - within, value + within, trade::Standing::computed, source, {}, {}};
}

/// How well a transition told by the maker is known: dilatometric readings of one porcelain scatter so with their thermal history.
constexpr double told_transition_within_K = 20.0;

void set_transition(trade::Material& material, const firing::Trial& trial) {
  if (!trial.glass_transition_C) return;
  const double told_C = *trial.glass_transition_C;
  material.properties["glass_transition"] = {
      told_C,
      std::max(200.0, told_C - told_transition_within_K),
      std::min(900.0, told_C + told_transition_within_K),
      trade::Standing::memory,
      fmt::format("told when it was calibrated, not looked up; the range of ± {} K is assumed", told_transition_within_K),
      {},
      {}};
}

std::string note_of(const Calibration& made, const CalibrateAsked& asked) {
  const trade::ResolvedFiring& firing = made.trial.firing;
  return fmt::format(
      "Calibrated by one trial firing of the lab's own, which proves nothing by itself: firing {} ({}) with program {} in furnace {} on "
      "tray "
      "{}; piece {} {}. All but the viscosity, its transition and the firing temperature is taken from {}. Inputs {}.",
      firing.firing.name, std::filesystem::path(asked.firing_file).filename().string(), firing.program.name, firing.furnace.name,
      firing.tray.name, firing.pieces[made.trial.piece].name, look_in_words(made.trial.degree_K), made.from.name, made.inputs_hash);
}

}  // namespace

std::string look_in_words(double degree_K) {
  if (degree_K == 0) return "looked right";
  return fmt::format("looked like {} K too {}", quantity::write_number(std::abs(degree_K)), degree_K > 0 ? "much" : "little");
}

trade::Material calibrated_material(const Calibration& made, const CalibrateAsked& asked, double unchecked_display_K) {
  const trade::ResolvedFiring& firing = made.trial.firing;
  const physics::Vft& found = made.found.vft;
  trade::Material material = firing::with_glass(made.from, {found.A, rounded(found.B_K, 0.01), rounded(found.T0_C, 0.001)});
  material.name = asked.name;
  material.label = fmt::format("{}, as a trial firing of the lab's own tells", made.from.label.empty() ? made.from.name : made.from.label);
  material.note = note_of(made, asked);
  trade::Calibrated calibrated;
  calibrated.furnace = firing.furnace.name;
  calibrated.tray = firing.tray.name;
  calibrated.within.value = quantity::kelvins(firing::trial_within_K);
  if (const auto& display = firing.furnace.display_error)
    calibrated.display_error_u = trade::Given<quantity::TemperatureDifference>{display->standard_uncertainty.value, {}, {}};
  material.calibrated = calibrated;
  const double within_K = firing::calibrated_within_K(material, firing.furnace, firing.tray, unchecked_display_K);
  const std::string source = fmt::format("trial firing of the lab's own in furnace {} on tray {}: it {}", calibrated.furnace,
                                         calibrated.tray, look_in_words(made.trial.degree_K));
  auto& properties = material.properties;
  const double decades = std::ceil(firing::decades_for_K(material, within_K) * 1e4) / 1e4;
  properties["viscosity_A"] =
      computed(found.A, decades, fmt::format("{}; the range is what {:.0f} K are there in decades of viscosity", source, within_K));
  for (const char* name : {"viscosity_B", "viscosity_T0"})
    properties[name] = computed(properties[name].value, 0, source + "; no range of its own: that of viscosity_A stands for the law");
  properties["nominal_temperature"] =
      computed(rounded(made.found.nominal_C, 0.01), std::ceil(within_K),
               source + "; does the work of the material it started from when fired as that is, the piece itself, without lag");
  set_transition(material, made.trial);
  return trade::read_noun<trade::Material>(trade::source_of(asked.output, trade::write_noun(material)));
}

}  // namespace heatwork::desk
