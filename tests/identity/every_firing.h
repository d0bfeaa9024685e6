// Every class of material that sinters or crystallises, under every program, in every furnace, on every tray that ships: the grid the
// laws of a firing are held against, and one such firing computed.
#pragma once

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "../reference/evidence_row.h"
#include "demo_firing.h"
#include "firing/chamber.h"
#include "firing/fire.h"
#include "firing/material_physics.h"
#include "physics/load.h"
#include "trade/library.h"

namespace heatwork::tests {

/// One firing of the grid, by the names of what ships.
struct Combination {
  std::string material, program, furnace, tray;
  [[nodiscard]] std::string name() const { return material + " under " + program + " in " + furnace + " on " + tray; }
};

/// True where the full counts are asked for.
inline bool full_counts() {
  return std::getenv("HEATWORK_LONG") != nullptr;
}

/// A piece of one section that a class of material is fired on: what carries it, how thick, wet with water where it is powder.
inline trade::Piece piece_of(const trade::Material& material) {
  const auto layer = [](const std::string& of, const char* thickness, bool green) {
    return fmt::format("[[piece.section.layer]]\nmaterial = \"{}\"\nthickness = \"{}\"\n{}\n", of, thickness,
                       green ? "green = true\nliquid = \"water\"" : "");
  };
  const char* crown = "form = \"shell\"\ninner_radius = \"3.3 mm\"\narea = \"107 mm2\"\n";
  const char* film = "form = \"plate\"\narea = \"61 mm2\"\n";
  std::string form = crown, layers;
  if (material.family == "glaze") {
    form = film;
    layers = layer("leucite-glass-ceramic", "1.3 mm", false) + layer(material.name, "0.05 mm", true);
  } else if (firing::is_viscous(material)) {
    const bool on_metal = material.family == "feldspathic veneer for metal";
    const bool opaque = material.name.find("opaque") != std::string::npos;
    layers =
        layer(on_metal ? "base-metal-alloy" : "zirconia-3y", "0.5 mm", false) + layer(material.name, opaque ? "0.3 mm" : "1.3 mm", true);
  } else {
    layers = layer(material.name, "1.3 mm", false);
  }
  const std::string text = fmt::format(
      "format = 1\n[piece]\nname = \"piece\"\nshape = \"crown\"\nteeth = [16]\nsupport = \"pins\"\n[[piece.section]]\nname = \"wall\"\n"
      "{}inside = \"mass\"\ninner_mass = {{ heat_capacity = \"5300 J/(m2 K)\", gap = \"370 W/(m2 K)\" }}\n{}",
      form, layers);
  return trade::read_noun<trade::Piece>(trade::source_of("piece of " + material.name, text));
}

/// Everything that ships and can stand in a firing, read once.
class Shipped {
 public:
  static const Shipped& all() {
    static const Shipped shipped;
    return shipped;
  }

  std::vector<std::string> classes;  ///< that sinter or crystallise
  std::map<std::string, trade::Material> materials;
  std::map<std::string, trade::Liquid> liquids;
  std::map<std::string, trade::Support> supports;
  std::map<std::string, trade::Program> programs;
  std::map<std::string, trade::Furnace> furnaces;
  std::map<std::string, trade::Tray> trays;
  std::map<std::string, trade::Instruction> instructions;

  /// Those of the classes that are powder.
  [[nodiscard]] std::vector<std::string> powders() const {
    std::vector<std::string> some;
    for (const std::string& name : classes)
      if (firing::is_viscous(materials.at(name))) some.push_back(name);
    return some;
  }

  /// A class in the grid: every program in every furnace on every tray.
  [[nodiscard]] std::vector<Combination> of_class(const std::string& material) const {
    std::vector<Combination> all;
    for (const auto& program : programs)
      for (const auto& furnace : furnaces)
        for (const auto& tray : trays) all.push_back({material, program.first, furnace.first, tray.first});
    return all;
  }

  /// The same for what takes long: one tray after the other by turns; all of them for the full counts.
  [[nodiscard]] std::vector<Combination> sample_of_class(const std::string& material) const {
    const std::vector<Combination> all = of_class(material);
    if (full_counts()) return all;
    std::vector<Combination> some;
    const std::size_t rows = all.size() / trays.size();
    for (std::size_t row = 0; row < rows; ++row)  // one tray further in the next program, so that no furnace keeps its tray
      some.push_back(all[row * trays.size() + (row + row / furnaces.size()) % trays.size()]);
    return some;
  }

  /// Fewer still, for what runs a firing over and over: a class under every program, furnace and tray changing from one to the next.
  [[nodiscard]] std::vector<Combination> few_of_class(const std::string& material) const {
    const std::vector<Combination> all = of_class(material);
    if (full_counts()) return all;
    std::vector<Combination> some;
    const std::size_t each = furnaces.size() * trays.size();
    for (std::size_t program = 0; program < programs.size(); ++program)
      some.push_back(
          all[program * each + (program % furnaces.size()) * trays.size() + (program + program / furnaces.size()) % trays.size()]);
    return some;
  }

  /// The firing of a combination; its own program and tray stand for the maker's, as an instruction of the lab would name them.
  [[nodiscard]] trade::ResolvedFiring firing(const Combination& of) const {
    trade::ResolvedFiring made;
    made.firing.name = of.name();
    made.firing.chamber = chamber_state_;
    made.pieces = {piece_of(materials.at(of.material))};
    trade::PieceOnTray stands;
    stands.piece.value = made.pieces.front().name;
    stands.place.value = trade::PlaceOnTray::middle;
    made.firing.pieces = {stands};
    made.places = {trade::PlaceOnTray::middle};
    made.tray = trays.at(of.tray);
    made.furnace = furnaces.at(of.furnace);
    made.program = programs.at(of.program);
    made.materials = materials;
    made.liquids = liquids;
    made.supports = supports;
    made.instruction.emplace();
    made.instruction->name = "sheet of " + of.program;
    made.instruction->material.value = of.material;
    made.instruction_program = made.program;
    made.instruction_tray = made.tray;
    return made;
  }

 private:
  Shipped() {
    trade::Library library(ambient_at);
    library.add(trade::folder_shelf(std::filesystem::path(HEATWORK_SOURCE_DIR) / "data" / "demo"));
    library.add(trade::shipped_shelf());
    read(library, trade::Noun::material, materials);
    read(library, trade::Noun::liquid, liquids);
    read(library, trade::Noun::support, supports);
    read(library, trade::Noun::program, programs);
    read(library, trade::Noun::furnace, furnaces);
    read(library, trade::Noun::tray, trays);
    read(library, trade::Noun::instruction, instructions);
    for (const auto& [name, material] : materials)
      if (firing::is_viscous(material) || firing::is_crystallising(material)) classes.push_back(name);
    chamber_state_ = demo_firing("window-firing").firing.chamber;
  }

  template <class T>
  static void read(const trade::Library& library, trade::Noun noun, std::map<std::string, T>& into) {
    for (const std::string& name : library.names(noun)) into.emplace(name, library.get<T>(noun, name, {}));
  }

  trade::ChamberState chamber_state_;
};

/// A firing of the grid computed once, with what the load lived through.
struct Fired {
  std::optional<std::string> impossible;
  firing::ChamberHistory chamber;
  physics::LoadHistory load;
  firing::FiringResult result;
  [[nodiscard]] const firing::PieceResult& piece() const { return result.pieces.front(); }
};

inline firing::Stock stock_of(const trade::ResolvedFiring& firing) {
  return {firing.materials, firing.liquids, firing.supports};
}

inline firing::FiringSetup setup_of(const trade::ResolvedFiring& firing) {
  firing::FiringSetup setup;
  for (const trade::Piece& piece : firing.pieces) setup.pieces.push_back(&piece);
  setup.places = firing.places;
  setup.tray = &firing.tray;
  setup.tray_kg = firing.tray.mass->value.si();
  setup.room_C = firing.firing.chamber.room.value.celsius();
  return setup;
}

/// The chamber of a firing as its furnace stands today. Errors: std::domain_error where it cannot run the program.
inline firing::ChamberHistory chamber_of(const trade::ResolvedFiring& firing) {
  const double ambient_Pa = ambient_at(firing.furnace.altitude.value).si();
  return firing::run_program(firing.program, firing.furnace, firing::conditions_today(firing.furnace, firing.firing.chamber, ambient_Pa));
}

/// The load of a firing in a chamber of the caller's, as finely as asked.
inline Fired fired_in(const trade::ResolvedFiring& firing, const firing::ChamberHistory& chamber,
                      const physics::LoadAccuracy& accuracy = {}) {
  static physics::LoadSolver solver;
  const firing::FiringSetup setup = setup_of(firing);
  solver.set_load(firing::load_of(setup, stock_of(firing)), accuracy);
  Fired done;
  done.load = solver.solve(firing::surroundings_of(chamber));
  done.result = firing::lived(setup, stock_of(firing), chamber, done.load);
  done.chamber = chamber;
  return done;
}

inline Fired fired(const trade::ResolvedFiring& firing, const physics::LoadAccuracy& accuracy = {}) {
  try {
    return fired_in(firing, chamber_of(firing), accuracy);
  } catch (const std::domain_error& why) {
    Fired none;
    none.impossible = why.what();
    return none;
  }
}

/// The worst residual met so far, and where.
class Worst {
 public:
  void meet(double residual, const std::string& where) {
    ++count_;
    if (!(std::abs(residual) <= std::abs(residual_)) || where_.empty()) {
      residual_ = residual;
      where_ = where;
    }
  }
  [[nodiscard]] double residual() const { return residual_; }
  [[nodiscard]] const std::string& where() const { return where_; }
  [[nodiscard]] int count() const { return count_; }

 private:
  double residual_ = 0;
  std::string where_;
  int count_ = 0;
};

/// A firing of the grid with what it gave.
struct Kept {
  Combination of;
  trade::ResolvedFiring firing;
  Fired fired;
};

/// All firings of one class that can be run, computed once while its laws are tried.
inline const std::vector<Kept>& every_firing_of(const std::string& material) {
  static std::string of_class;
  static std::vector<Kept> all;
  if (of_class == material) return all;
  all.clear();
  of_class = material;
  for (const Combination& of : Shipped::all().of_class(material)) {
    Kept one{of, Shipped::all().firing(of), {}};
    one.fired = fired(one.firing);
    if (!one.fired.impossible) all.push_back(std::move(one));
  }
  return all;
}

/// Leaves the worst residual in the evidence, with the number of checks it is the worst of and the firing it was met in.
inline void record(reference::Evidence& row, const Worst& worst, double tolerance) {
  ASSERT_GT(worst.count(), 0);
  SCOPED_TRACE(worst.where());
  testing::Test::RecordProperty("checks", std::to_string(worst.count()));
  testing::Test::RecordProperty("worst_at", worst.where());
  row.near(worst.residual(), 0, tolerance);
}

/// Names of classes as test names may be.
inline std::string test_name(const testing::TestParamInfo<std::string>& of) {
  std::string text = of.param;
  for (char& sign : text)
    if (sign == '-') sign = '_';
  return text;
}

}  // namespace heatwork::tests
