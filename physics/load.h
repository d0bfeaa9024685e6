// The whole load as one thermal network: sections of pieces in conduction, supports and the tray as masses, all sharing the chamber's
// radiation, drying as they warm. Driven by a history of the chamber; nothing of trade is known here.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "physics/layer.h"

namespace heatwork::physics {

/// What the load lives in, linear between points; two points at one time are a jump. [s, K, Pa]
/// All four lists have one length of at least 2, times never fall.
struct Surroundings {
  std::vector<double> time_s;
  std::vector<double> chamber_K;    ///< radiating temperature of the chamber wall
  std::vector<double> pressure_Pa;  ///< absolute, in the chamber
  std::vector<double> opening;      ///< 0 shut, 1 fully open
  double room_K = 293.15;
  double room_pressure_Pa = 101325.0;
  double open_view = 0.2;          ///< share of its view that a piece below the fully open muffle gives to the chamber (computed)
  double film_W_per_m2K = 15;      ///< of still hot air at the standard pressure, 10 to 20 (memory)
  double room_vapour_Pa = 1170.0;  ///< partial pressure of water in the room; 50 % humidity at 20 C
};

/// Tray (or die plate): one temperature, radiates with the chamber and the pieces. [SI units as named]
struct TrayBody {
  double mass_kg = 0;
  TemperatureProperty specific_heat_J_per_kgK;
  double area_m2 = 0;  ///< total radiating surface
  double emissivity = 0.5;
  double start_K = 293.15;
};

/// What the inside face of a section meets.
enum class Inside {
  closed,  ///< middle of a solid: no heat through it
  open,    ///< sees the chamber with the share `InsideFace::chamber_share`, the rest of its view is itself
  mass     ///< a die, pin, paste or post behind it, through a gap
};

struct InsideFace {
  Inside kind = Inside::closed;
  double heat_capacity_J_per_m2K = 0;  ///< mass: per area of the inside face
  double gap_W_per_m2K = 0;            ///< mass: conductance of the gap, per area of the inside face
  double chamber_share = 0.3;          ///< open: share of the hollow's view that is chamber, 0 to 1 (assumed)
};

/// The layer that is still powder: wet at first, conducting badly until it has sealed. [SI units as named]
struct PowderLayer {
  std::size_t layer = 0;             ///< index among the section's layers, inside out
  double water_kg_per_m2 = 0;        ///< held at the start, per outer area; 0 = dry
  double conductivity_factor = 0.4;  ///< powder over dense, 0 to 1 (assumed)
  double sealing_from_K = 0;         ///< conductivity rises to that of the dense glass from here
  double sealing_to_K = 0;           ///< ... to here, on the way up; never falls back
  double grain_diameter_m = 12e-6;   ///< for the passage of vapour (viscous-sintering practice, computed)
  double void_fraction = 0.42;
  double strength_Pa = 7000.0;  ///< of moist, just-dry powder, 5 to 10 kPa (memory)
};

/// One section of a piece: layers inside out, its own inside, its share of views. [SI units as named]
struct SectionBody {
  SectionForm form = SectionForm::plate;
  double inner_radius_m = 0;  ///< tube and shell; 0 is allowed (solid rod, ball)
  std::vector<Layer> layers;
  double area_m2 = 0;  ///< outer radiating area this section adds to the load
  double emissivity = 0.85;
  double chamber_share = 0.8;  ///< of the outer face's view; see the theory page of the load
  double tray_share = 0.2;     ///< the two add to at most 1; what is missing sees its like (other pieces) and exchanges nothing
  InsideFace inside;
  std::optional<PowderLayer> powder;
};

/// Pins, beads, wool under one piece: one mass, fed by the chamber and touching tray and piece. [SI units as named]
struct SupportBody {
  double heat_capacity_J_per_K = 0;
  double area_m2 = 0;  ///< radiating with the chamber
  double emissivity = 0.5;
  double chamber_share = 0.5;
  double to_tray_W_per_K = 0;   ///< contact with the tray
  double to_piece_W_per_K = 0;  ///< contact with the piece, spread over its sections' outer faces by area
};

struct PieceBody {
  std::vector<SectionBody> sections;
  std::optional<SupportBody> support;
  double start_K = 293.15;
};

struct Load {
  std::optional<TrayBody> tray;  ///< none: the shares of the tray see the chamber instead, and the result says so
  std::vector<PieceBody> pieces;
};

/// How finely to solve. The defaults hold 0.1 K against a far finer solution (tests/analytic, tests/peers).
struct LoadAccuracy {
  double step_tolerance_K = 0.02;       ///< error of one step
  std::size_t spaces_per_section = 14;  ///< between nodes, shared among the layers (`shared_spaces`)
  double longest_output_gap_s = 20;     ///< rows of the history are never farther apart
  double row_error_K = 0.04;            ///< rows are set so close that a straight line between them errs less
  double water_tolerance_share = 1e-4;  ///< error of one step in the water, as a share of the first water
  bool allow_lumped = false;            ///< one temperature for a section where the Biot number stays below 0.1, and said so
};

/// Life of one section: row r belongs to time_s[r]. [K, kg/m2, kg/(m2 s)]
struct SectionHistory {
  std::size_t piece = 0, section = 0;
  bool lumped = false;      ///< computed as one temperature
  double largest_biot = 0;  ///< over the firing, with radiation and film
  std::size_t nodes = 0;
  std::vector<double> depth_m;             ///< of each node, from the inside face (0) to the outer face
  std::vector<std::size_t> layer_of_node;  ///< the layer outside of the node (the last layer for the outer face)
  std::vector<double> node_K;              ///< rows x nodes, inside out
  std::vector<double> surface_K;           ///< outer face, exact node
  std::vector<double> core_K;              ///< the node that lags: inside face, or the middle where the inside is open
  std::vector<double> inside_mass_K;       ///< empty unless a mass is behind
  std::vector<double> water_kg_per_m2;     ///< left, per outer area; empty where no powder
  std::vector<double> evaporation_kg_per_m2s;
  std::vector<double> burst_index;  ///< running maximum
  double water_start_kg_per_m2 = 0;
  /// Temperature of a node in a row. [K]
  [[nodiscard]] double node_at(std::size_t row, std::size_t node) const { return node_K[row * nodes + node]; }
};

/// Heat in and heat kept over the whole load since the start; stored = radiated + convected - evaporated to 0.1 %. [J]
struct EnergyLedger {
  double stored_J = 0;      ///< sensible heat of pieces, tray, supports and water left
  double radiated_J = 0;    ///< net, chamber and room to load
  double convected_J = 0;   ///< net, gas to load
  double evaporated_J = 0;  ///< latent, and the sensible heat the vapour took along
};

struct LoadHistory {
  std::vector<double> time_s;                  ///< common to all; linear interpolation between rows errs under 0.1 K
  std::vector<SectionHistory> sections;        ///< by piece, then section
  std::vector<double> tray_K;                  ///< empty without a tray
  std::vector<std::vector<double>> support_K;  ///< one list a piece, empty where it has none
  EnergyLedger energy;                         ///< at the end
  bool without_tray = false;
  long steps = 0;  ///< of the integrator
};

/// Solves loads; keeps its memory, so that many variants of one load cost no set-up.
/// `set_load` takes the load in; `solve` may follow any number of times. What `solve` returns is valid until the next call.
class LoadSolver {
 public:
  LoadSolver();
  ~LoadSolver();
  LoadSolver(LoadSolver&&) noexcept;
  LoadSolver& operator=(LoadSolver&&) noexcept;

  /// Takes the load in and lays its nodes. Must be called before `solve`.
  /// error: std::invalid_argument naming piece and section (from 1) and what is allowed
  void set_load(const Load& load, const LoadAccuracy& accuracy = {});

  /// The life of the load in these surroundings, `chamber_shift_K` added to every chamber temperature. [K, s]
  /// error: std::invalid_argument for lists that do not fit; std::runtime_error in one sentence where no step succeeds
  /// theory: (load.1)
  const LoadHistory& solve(const Surroundings& surroundings, double chamber_shift_K = 0.0);

 private:
  struct State;
  std::unique_ptr<State> state_;
};

/// One load, once. [K, s] source: incropera
LoadHistory solve_load(const Load& load, const Surroundings& surroundings, const LoadAccuracy& accuracy = {});

}  // namespace heatwork::physics
