#include "desk/calibrate.h"

#include <fmt/format.h>

#include <cmath>
#include <filesystem>
#include <set>

#include "desk/calibrated_material.h"
#include "desk/errors.h"
#include "desk/files.h"
#include "desk/rehearse_files.h"
#include "firing/calibrated_range.h"
#include "firing/inputs_hash.h"
#include "firing/material_physics.h"
#include "firing/piece_life.h"
#include "physics/trial_firing.h"
#include "quantity/read.h"
#include "quantity/write.h"
#include "trade/library.h"
#include "trade/limits.h"
#include "trade/mistake.h"
#include "trade/noun.h"
#include "trade/shipped.h"
#include "trade/writer.h"

namespace heatwork::desk {
namespace {

namespace fs = std::filesystem;

constexpr double least_transition_C = 200.0;
constexpr double transition_below_firing_K = 20.0;  // nearer, no melt of this form is known

std::string_view shipped_material_text(const std::string& name) {
  return trade::shipped_text(fmt::format("materials/{}.toml", name));
}

/// Everything that can be refused before anything is computed.
void check_output(const CalibrateAsked& asked) {
  if (const auto wrong = trade::wrong_name(asked.name)) throw Failure(ErrorWord::bad_value, fmt::format("--name: {}.", *wrong));
  if (!shipped_material_text(asked.name).empty()) {
    throw Failure(ErrorWord::already_there,
                  fmt::format("--name {}: a material of that name ships with Heatwork; give yours a name of its own.", asked.name));
  }
  const fs::path output(asked.output);
  if (output.extension() != ".toml") {
    throw Failure(ErrorWord::wrong_use,
                  fmt::format("--output {}: the name must end in .toml, or no firing finds the material.", asked.output));
  }
  if (fs::exists(fs::symlink_status(output))) {
    throw Failure(ErrorWord::already_there,
                  fmt::format("{} stands there already and is never replaced; move it away or name another file.", asked.output));
  }
  const fs::path folder = output.parent_path().empty() ? fs::path(".") : output.parent_path();
  if (!fs::is_directory(folder)) throw Failure(ErrorWord::file_not_found, fmt::format("{}: there is no such folder.", folder.string()));
  for (const trade::Found& other : trade::folder_shelf(output.parent_path())->find(trade::Noun::material, asked.name)) {
    throw Failure(ErrorWord::already_there,
                  fmt::format("--name {}: {} holds a material of that name already; give yours another.", asked.name, other.source->name));
  }
}

template <class T>
T read_option(std::string_view option, const std::string& typed) {
  const auto reading = quantity::read<T>(typed);
  if (!reading) throw Failure(ErrorWord::bad_value, fmt::format("{}: {}.", option, reading.error()));
  return *reading;
}

double degree_K_of(const CalibrateAsked& asked) {
  if (!asked.degree) return 0;
  const double degree_K = read_option<quantity::TemperatureDifference>("--degree", *asked.degree).si();
  if (std::abs(degree_K) > physics::widest_equivalent_shift_K) {
    throw Failure(ErrorWord::bad_value,
                  fmt::format("--degree: \"{}\" is out of range; allowed is -{} K to {} K.", trade::for_message(*asked.degree, 40),
                              physics::widest_equivalent_shift_K, physics::widest_equivalent_shift_K));
  }
  return degree_K;
}

std::optional<double> transition_C_of(const CalibrateAsked& asked, const trade::Material& material) {
  if (!asked.glass_transition) return std::nullopt;
  const double transition_C = read_option<quantity::Temperature>("--glass-transition", *asked.glass_transition).celsius();
  const physics::PowderProperties powder = firing::powder_of(material);
  const double fires_C =
      physics::temperature_of_log10_viscosity_C(powder.vft, physics::well_fired_log10_viscosity - std::log10(powder.crystal_factor));
  const double highest_C = std::floor(fires_C - transition_below_firing_K);
  if (transition_C < least_transition_C || transition_C > highest_C) {
    throw Failure(ErrorWord::bad_value,
                  fmt::format("--glass-transition: \"{}\" is out of range; allowed is {} °C to {} °C, {} K below where {} fires.",
                              trade::for_message(*asked.glass_transition, 40), least_transition_C, highest_C, transition_below_firing_K,
                              material.name));
  }
  return transition_C;
}

std::size_t chosen_piece(const trade::ResolvedFiring& firing, const CalibrateAsked& asked) {
  std::vector<std::string> names;
  for (const trade::Piece& piece : firing.pieces) names.push_back(piece.name);
  if (!asked.piece) {
    if (names.size() == 1) return 0;
    throw Failure(ErrorWord::wrong_use, fmt::format("The firing {} holds {} pieces, {}; name with --piece the one that was judged.",
                                                    firing.firing.name, names.size(), fmt::join(names, ", ")));
  }
  for (std::size_t i = 0; i < names.size(); ++i)
    if (names[i] == *asked.piece) return i;
  throw Failure(ErrorWord::unknown_name, fmt::format("--piece: there is no piece \"{}\" in the firing {}; it holds {}.",
                                                     trade::for_message(*asked.piece, 40), firing.firing.name, fmt::join(names, ", ")));
}

/// The green powder that was judged. Blocks and crystallising materials have no nominal firing, so nothing can be told of them.
std::string chosen_material(const trade::ResolvedFiring& firing, const trade::Piece& piece, const CalibrateAsked& asked) {
  const firing::Stock stock{firing.materials, firing.liquids, firing.supports};
  std::set<std::string> powders, others;
  for (const firing::Point& point : firing::points_of(piece, stock))
    if (point.decides) (point.powder ? powders : others).insert(point.material->name);
  if (asked.material && !powders.contains(*asked.material)) {
    if (others.contains(*asked.material))
      powders.clear();
    else if (!powders.empty())
      throw Failure(ErrorWord::unknown_name, fmt::format("--material: no green layer of {} is of \"{}\"; it has {}.", piece.name,
                                                         trade::for_message(*asked.material, 40), fmt::join(powders, ", ")));
  }
  if (powders.empty() && !others.empty())
    throw Failure(ErrorWord::bad_value,
                  fmt::format("{} is no powder or glaze: it crystallises, and no nominal firing of it is known to hold a trial against.",
                              *others.begin()));
  if (powders.empty())
    throw Failure(ErrorWord::bad_value,
                  fmt::format("The piece {} has no green layer, so this firing is no trial of a powder or glaze; mark "
                              "the layer that was built up with green = true.",
                              piece.name));
  if (asked.material) return *asked.material;
  if (powders.size() > 1)
    throw Failure(ErrorWord::wrong_use, fmt::format("The piece {} has green layers of {}; name with --material the one that was judged.",
                                                    piece.name, fmt::join(powders, " and ")));
  return *powders.begin();
}

CalibratedRanges ranges_of(const trade::Material& material, const trade::ResolvedFiring& firing, double unchecked_K) {
  const auto within = [&](const trade::Furnace& furnace, const trade::Tray& tray) {
    return firing::calibrated_within_K(material, furnace, tray, unchecked_K);
  };
  trade::Furnace another = firing.furnace;
  another.name.clear();
  trade::Furnace unchecked = another;
  unchecked.display_error.reset();
  trade::Tray another_tray = firing.tray;
  another_tray.name.clear();
  CalibratedRanges ranges;
  ranges.here_K = within(firing.furnace, firing.tray);
  ranges.another_tray_K = within(firing.furnace, another_tray);
  if (firing.furnace.display_error) ranges.as_well_checked_K = within(another, firing.tray);
  ranges.never_checked_K = within(unchecked, firing.tray);
  return ranges;
}

std::vector<std::string> cautions_of(const Calibration& made, double unchecked_K) {
  std::vector<std::string> cautions;
  const trade::Furnace& furnace = made.trial.firing.furnace;
  if (!furnace.display_error)
    cautions.push_back(fmt::format(
        "The display of furnace {} was never checked: it may be {:.0f} K off either way, and so may this material. Check it with a "
        "melting wire, write the result into the furnace's file, and calibrate again.",
        furnace.name, unchecked_K));
  const trade::Estimate& of_class = made.from.properties.at("nominal_temperature");
  const double found_C = made.material.properties.at("nominal_temperature").value;
  if (found_C < of_class.low || found_C > of_class.high)
    cautions.push_back(
        fmt::format("{:.0f} °C lies outside the range of {}, {:.0f} °C to {:.0f} °C. Look whether furnace, tray, program and "
                    "piece are those of the trial; if they are, start from a class that fires nearer.",
                    found_C, made.from.name, of_class.low, of_class.high));
  return cautions;
}

}  // namespace

Calibration calibrate(const CalibrateAsked& asked) {
  check_output(asked);
  Calibration made;
  made.output = asked.output;
  made.firing_folder = fs::path(asked.firing_file).parent_path().string();
  firing::Trial& trial = made.trial;
  trial.degree_K = degree_K_of(asked);
  trial.firing = trade::load_firing(asked.firing_file, ambient_of_altitude);
  const trade::ResolvedFiring& firing = trial.firing;
  if (!firing.earlier.empty())
    throw Failure(ErrorWord::bad_value,
                  fmt::format("The firing {} names firings before it; a trial is of fresh powder: leave out \"after\", "
                              "and give what was fired before as layers that are not green.",
                              firing.firing.name));
  trial.piece = chosen_piece(firing, asked);
  trial.material = chosen_material(firing, firing.pieces[trial.piece], asked);
  made.from = firing.materials.at(trial.material);
  trial.glass_transition_C = transition_C_of(asked, made.from);
  made.inputs_hash = firing::inputs_hash(firing, {});
  made.found = firing::read_trial(trial);
  const trade::Limits limits = trade::read_limits("shipped:limits/limits.toml", trade::shipped_text("limits/limits.toml"));
  const double unchecked_K = limits.at("display_unchecked").first;
  made.material = calibrated_material(made, asked, unchecked_K);
  made.ranges = ranges_of(made.material, firing, unchecked_K);
  made.cautions = cautions_of(made, unchecked_K);
  write_whole(asked.output, trade::write_noun(made.material));
  return made;
}

}  // namespace heatwork::desk
