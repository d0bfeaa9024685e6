#include <fmt/format.h>

#include <cmath>
#include <filesystem>

#include "desk/calibrate.h"
#include "desk/calibrated_material.h"
#include "desk/columns.h"

namespace heatwork::desk {
namespace {

constexpr std::size_t words_margin = 16;

/// A word at the left, its text beside it.
std::string told(std::string_view what, std::string_view text) {
  return wrapped(fmt::format("{:<{}}{}", what, words_margin, text), words_margin, 0);
}

double number_of(const trade::Material& material, const char* property) {
  return material.properties.at(property).value;
}

std::string_view face_of(const firing::PointResult& point) {
  return point.outer_face ? "outer" : "inner";
}

/// What it fires at in a nominal firing, against what it started from.
double moved_K(const Calibration& made) {
  return number_of(made.material, "nominal_temperature") - number_of(made.from, "nominal_temperature");
}

std::string headline(const Calibration& made) {
  const double by_K = moved_K(made);
  const std::string against = std::abs(by_K) < 0.5 ? "as" : fmt::format("{:.0f} K {}", std::abs(by_K), by_K > 0 ? "above" : "below");
  return wrapped(fmt::format("{} fires right at {:.0f} °C with a hold of 1 min, the piece itself: {} {}.", made.material.name,
                             number_of(made.material, "nominal_temperature"), against, made.from.name),
                 0, 0);
}

/// Rounded up, so that no range looks narrower than it is.
int whole_K(double within_K) {
  return static_cast<int>(std::ceil(within_K - 1e-6));
}

std::string ranges(const Calibration& made) {
  const trade::ResolvedFiring& firing = made.trial.firing;
  const CalibratedRanges& known = made.ranges;
  std::string text = fmt::format("± {} K in furnace {} on tray {}, ± {} K on another tray there; in another furnace ",
                                 whole_K(known.here_K), firing.furnace.name, firing.tray.name, whole_K(known.another_tray_K));
  if (known.as_well_checked_K)
    text += fmt::format("± {} K where its display is known as well as this one's (to {:g} K), ", whole_K(*known.as_well_checked_K),
                        firing.furnace.display_error->standard_uncertainty.value.si());
  return text + fmt::format("± {} K where its display was never checked", whole_K(known.never_checked_K));
}

std::string what_next(const Calibration& made, const std::string& firing_folder) {
  const std::filesystem::path output(made.output);
  const auto folder = [](const std::filesystem::path& path) {
    std::error_code ignored;
    return std::filesystem::weakly_canonical(path.empty() ? "." : path, ignored);
  };
  const bool beside = folder(output.parent_path()) == folder(firing_folder);
  return fmt::format("write material = \"{}\" into the layer of the piece's file{}", made.material.name,
                     beside ? "; the file stands beside the firing and is found there"
                            : fmt::format(", and keep {} in the folder of the firing, where names are sought", output.filename().string()));
}

}  // namespace

std::string calibration_as_text(const Calibration& made) {
  const trade::ResolvedFiring& firing = made.trial.firing;
  const firing::PointResult& point = made.found.point;
  std::string text = headline(made) + "\n";
  text += told("Trial", fmt::format("firing {}: piece {} {}, in furnace {} on tray {} under program {}", firing.firing.name,
                                    firing.pieces[made.trial.piece].name, look_in_words(made.trial.degree_K), firing.furnace.name,
                                    firing.tray.name, firing.program.name));
  text += told("Read at", fmt::format("section {}, layer {} ({}), {} face: the point with the least heat-work, by which a piece is judged",
                                      made.found.section, point.layer + 1, made.from.name, face_of(point)));
  text += told("It went to", fmt::format("{:.0f} °C; heat-work {:.3g} with the glass found, right is {:.3g}", point.peak_C, point.heat_work,
                                         made.found.wanted));
  text += told("Glass", fmt::format("log10(viscosity / Pa s) = {:g} + {:.1f} K / (T - {:.2f} °C), transition {:g} °C",
                                    number_of(made.material, "viscosity_A"), number_of(made.material, "viscosity_B"),
                                    number_of(made.material, "viscosity_T0"), made.found.glass_transition_C));
  text += told("Known to", ranges(made));
  text += told("Written", made.output);
  text += told("Next", what_next(made, made.firing_folder));
  for (const std::string& caution : made.cautions) text += "\n" + told("Caution", caution);
  return text;
}

Json calibration_as_json(const Calibration& made) {
  const trade::ResolvedFiring& firing = made.trial.firing;
  const firing::PointResult& point = made.found.point;
  const CalibratedRanges& known = made.ranges;
  const auto number = [&](const char* property) { return number_of(made.material, property); };
  const trade::Estimate& decades = made.material.properties.at("viscosity_A");
  return JsonObject{
      {"format", 1},
      {"name", made.material.name},
      {"output", made.output},
      {"from", made.from.name},
      {"firing", firing.firing.name},
      {"furnace", firing.furnace.name},
      {"tray", firing.tray.name},
      {"program", firing.program.name},
      {"piece", firing.pieces[made.trial.piece].name},
      {"inputs_hash", made.inputs_hash},
      {"degree_K", made.trial.degree_K},
      {"point", JsonObject{{"section", made.found.section},
                           {"layer", point.layer + 1},
                           {"face", face_of(point)},
                           {"peak_C", point.peak_C},
                           {"heat_work", point.heat_work},
                           {"heat_work_right", made.found.wanted}}},
      {"viscosity", JsonObject{{"A", number("viscosity_A")},
                               {"A_low", decades.low},
                               {"A_high", decades.high},
                               {"B_K", number("viscosity_B")},
                               {"T0_C", number("viscosity_T0")}}},
      {"glass_transition_C", made.found.glass_transition_C},
      {"nominal_temperature_C", number("nominal_temperature")},
      {"moved_K", moved_K(made)},
      {"shift_K", made.found.shift_K},
      {"within_K", JsonObject{{"here", known.here_K},
                              {"another_tray", known.another_tray_K},
                              {"another_furnace_known_as_well", known.as_well_checked_K ? Json(*known.as_well_checked_K) : Json()},
                              {"another_furnace_never_checked", known.never_checked_K}}},
      {"cautions", JsonList(made.cautions.begin(), made.cautions.end())}};
}

}  // namespace heatwork::desk
