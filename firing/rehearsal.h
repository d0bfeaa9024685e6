// The result of a rehearsal: what chamber and pieces live through, and how that compares with the maker's own firing.
#pragma once

#include <cstddef>
#include <cstdint>
#include <exception>
#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "firing/chamber.h"
#include "firing/piece_stress.h"
#include "physics/crystallisation.h"
#include "physics/powder.h"
#include "physics/zirconia_sintering.h"
#include "trade/deciding_inputs.h"
#include "trade/firing.h"

namespace heatwork::firing {

/// What decides whether two firings of a material are alike: heat-work, z of the last step, ln Theta, or nothing. theory: (comparison.1)
enum class DecidingQuantity { none, heat_work, crystallisation_z, log_theta };
std::string_view word(DecidingQuantity quantity);

/// What one face of one layer has become, carried from firing to firing.
struct PointState {
  std::optional<physics::PowderState> powder;
  std::optional<physics::CrystallisationState> crystals;
  std::optional<physics::ZirconiaState> zirconia;
  double leucite_minutes = 0;  ///< between 650 and 850 °C, over all firings that are known
  bool operator==(const PointState&) const = default;
};

/// State of a piece between firings, a point each in the fixed order of its points.
struct PieceState {
  std::vector<PointState> points;
  std::vector<SectionStressState> stress;  ///< one a section that was followed; empty where stress was not asked for
  bool operator==(const PieceState&) const = default;
};

/// A point of a piece at which kinetics are followed: the surface or the core of one layer of one section.
struct PointResult {
  int section = 0;
  int layer = 0;
  bool outer_face = true;  ///< outer or inner face of the layer
  std::string material;
  bool decides = false;  ///< the firing is for this layer
  bool viscous = false;  ///< powder or glaze; else a crystallising block, or zirconia before sintering
  double peak_C = 0;
  double deciding = 0;  ///< the deciding quantity at the end (of the whole firing); of zirconia Theta itself, in s/K
  // powders and glaze
  double porosity_percent = 0;
  double relative_density = 0;
  double heat_work = 0;
  double rounding_um = 0;
  double levelling_exponent = 0;             ///< of the grain band
  double sealed_share_at_vacuum_start = 0;   ///< share of the pores that seals in this firing before pumping begins
  double sealed_share_at_release = 1;        ///< share of the pores sealed when air comes back; 1 where it does not
  double half_sealed_s = -1, sealed_s = -1;  ///< -1: never
  double half_sealed_C = 0;
  double pressure_at_sealing_Pa = 0;  ///< chamber pressure when half sealed
  double swelling = 1;                ///< largest coarse pore at the end over its volume at sealing
  std::vector<double> porosity_trace_percent;
  std::vector<double> sealed_trace;
  std::vector<double> rounding_trace_um;
  // crystallising classes: an entry a step
  std::vector<double> fraction;
  std::vector<double> exponent_argument;  ///< z; negative where the step was complete as delivered
  double crystal_um = 0;
  double transmittance_percent = 0;
  std::vector<double> fraction_trace;  ///< of the last step
  double leucite_minutes = 0;          ///< spent between 650 and 850 °C in this firing
  double leucite_minutes_before = 0;   ///< the same in the firings before, as far as they are known
  // zirconia before sintering
  std::optional<physics::CurveStanding> curve;  ///< how far its density may be trusted; absent: no zirconia that sinters
  double sintered_density = 0;                  ///< relative
  double grain_um = 0;
  std::vector<double> density_trace;
};

struct SectionResult {
  std::string name;
  bool lumped = false;  ///< taken at one temperature, allowed by the Biot test
  double biot = 0;
  std::vector<double> surface_C, core_C;  ///< on the piece's time grid
  std::vector<double> water_g;
  double water_start_g = 0;
  double water_at_close_percent = 0;  ///< of the start; 0 where dry or never wet
  double water_at_vacuum_percent = 0;
  double dry_s = -1;       ///< when less than 1 % is left; -1: never
  double burst_index = 0;  ///< largest over the firing
  double burst_at_s = 0;
  bool not_water = false;       ///< mixed with a liquid that is not modelled
  double sag_um = 0;            ///< of an unsupported overhang; 0 where none
  bool on_rigid_frame = false;  ///< thin layer on a frame: porosity is a lower bound
};

/// "Like ... K" and "like ... s of hold" of one piece against the maker's firing in the true furnace.
struct Comparison {
  DecidingQuantity quantity = DecidingQuantity::none;
  std::optional<double> shift_K;
  std::optional<double> hold_s;    ///< null beyond the bounds
  bool shift_beyond = false;       ///< beyond +-150 K
  bool hold_beyond_whole = false;  ///< "more than the whole hold" less
  bool hold_beyond_hour = false;   ///< more than 60 min more
  double hold_of_maker_s = 0;
};

/// Upper bound of how far the metal frame of a span sinks under its own weight.
struct FrameSag {
  double span_mm = 0;             ///< from the middle of the first tooth to that of the last
  double radius_mm = 0;           ///< of the thinnest solid metal, taken as round all along
  std::optional<double> most_um;  ///< of the middle; absent where the alloy may begin to melt
};

struct PieceResult {
  std::string piece;
  trade::PlaceOnTray place{};
  double peak_display_C = 0, peak_chamber_C = 0, peak_surface_C = 0, peak_core_C = 0;
  std::vector<SectionResult> sections;
  std::vector<PointResult> points;
  int deciding_point = -1;  ///< index into points: least deciding quantity
  double deciding_least = 0, deciding_greatest = 0;
  std::vector<SectionStress> stress;  ///< one a section; empty where stress was not asked for
  std::optional<FrameSag> frame_sag;  ///< of three units or more on metal with a solid section of it
};

/// One firing computed: chamber, pieces, moments. `tray_known` false: heat is drawn as a band and cannot be judged.
struct FiringResult {
  ChamberHistory chamber;
  std::vector<double> time_s;  ///< common grid of all pieces
  std::vector<double> tray_C;
  std::vector<PieceResult> pieces;
  std::vector<PieceState> end;       ///< one a piece
  double energy_residual_share = 0;  ///< of the load's balance
};

/// A set of results that belong together.
struct Outcome {
  FiringResult firing;
  std::vector<FiringResult>
      reference;                     ///< one a piece; empty in a variant that leaves the maker's firing as it is, and without instruction
  std::vector<Comparison> compared;  ///< one a piece; empty without instruction
};

/// One deciding input taken to the ends of its range, all else as given. Of the results only the numbers that hang on the input are kept.
struct Varied {
  trade::DecidingInput input;
  std::string material;       ///< whose property it is; empty for other inputs
  bool coarse = false;        ///< solved with the coarser steps of `Rehearsal::coarse`, and to be held against that
  bool cut = false;           ///< an end lay beyond the model's domain, and the range was cut there
  std::vector<Outcome> ends;  ///< one or two; none where the input changes nothing here
};

enum class MomentKind { dry, closed, vacuum_started, vacuum_reached, half_sealed, sealed, released, top, hold_ends, open };
std::string_view word(MomentKind kind);

struct Moment {
  MomentKind what{};
  std::string piece;  ///< empty: of the chamber
  double at_s = 0;
  double display_C = 0;
};

struct Rehearsal {
  trade::ResolvedFiring request;
  bool tray_known = true;
  std::optional<std::string> impossible;  ///< why the furnace cannot run the program, one sentence; then nothing below is computed
  FiringResult firing;                    ///< with the lightest tray where the mass is unknown
  std::optional<FiringResult> heaviest;   ///< only where the tray's mass is unknown
  std::vector<FiringResult> reference;    ///< the maker's firing in the true furnace, one a piece; empty without instruction
  std::vector<Comparison> compared;       ///< one a piece; quantity none without instruction
  std::string reference_tray;
  std::vector<std::string> assumptions;       ///< of the reference, plain sentences
  std::vector<std::string> taken_from_shape;  ///< values not given, and what was taken
  std::vector<Moment> moments;                ///< in order of time
  Outcome coarse;                             ///< this firing and the maker's with the coarser steps of the variants; empty without bands
  std::vector<Varied> varied;                 ///< in the order of the inputs' file; empty without bands
  int model_version = 0;
  std::string inputs_hash;
  std::uint64_t seed = 0;
  bool bands = false;  ///< the deciding inputs were taken to the ends of their ranges
};

/// Changes whenever a kept number moves by more than 1e-6.
inline constexpr int model_version = 2;

/// What was computed of firings, under keys of their inputs (kept_under). It only saves time: whatever it lacks is computed anew. Several
/// threads may ask.
template <class Computed>
class ByInputs {
 public:
  explicit ByInputs(std::size_t most) : most_(most) {}
  [[nodiscard]] std::optional<Computed> find(const std::string& key) const {
    const std::lock_guard lock(guard_);
    const auto found = kept_.find(key);
    return found == kept_.end() ? std::nullopt : std::optional(found->second);
  }
  /// Where `most` are kept, all others go.
  void keep(const std::string& key, Computed computed) {
    const std::lock_guard lock(guard_);
    if (kept_.size() >= most_) kept_.clear();
    kept_.insert_or_assign(key, std::move(computed));
  }

 private:
  std::size_t most_;
  mutable std::mutex guard_;
  std::map<std::string, Computed> kept_;
};

/// States of the pieces after a firing.
class StateCache : public ByInputs<std::vector<PieceState>> {
 public:
  explicit StateCache(std::size_t most = 200) : ByInputs(most) {}
};

/// Stress of the sections of each piece with traces, bounds and levers: the longest part of a rehearsal.
class StressCache : public ByInputs<std::vector<std::vector<SectionStress>>> {
 public:
  explicit StressCache(std::size_t most = 24) : ByInputs(most) {}
};

class MakerRuns;

/// Thrown where the one who asked wants the answer no more.
class Stopped : public std::exception {
 public:
  [[nodiscard]] const char* what() const noexcept override { return "the rehearsal was stopped"; }
};

struct RehearseOptions {
  bool traces = true;
  bool compare = true;
  std::vector<PieceState> start;                  ///< states carried in, one a piece; empty: unfired, or as nominally fired
  StateCache* cache = nullptr;                    ///< of the states after earlier firings
  StressCache* stress_cache = nullptr;            ///< of stress with bounds and levers
  MakerRuns* maker_runs = nullptr;                ///< of the maker's own firings
  const trade::DecidingInputs* inputs = nullptr;  ///< taken to the ends of their ranges for the bands; nullptr: no bands
  bool stress = false;                            ///< of the layers as they cool; takes longer than all the rest
  double unchecked_display_K = 24;                ///< how far a display that was never checked may be off, either way
  unsigned workers = 0;                           ///< threads; 0: as many as the machine has. The results are the same
  std::function<bool()> stop;                     ///< asked between the parts of the work, by all threads; true ends it with Stopped

  /// Errors: Stopped where the answer is wanted no more.
  void go_on() const {
    if (stop && stop()) throw Stopped();
  }
};

/// Rehearses a firing; where it names an instruction, the maker's program in the true furnace is rehearsed beside it.
/// A program that this furnace can never run leaves `impossible` and no result. Errors: trade::Mistake, located; std::domain_error with
/// one sentence where an earlier firing cannot be run; Stopped.
Rehearsal rehearse(const trade::ResolvedFiring& request, const RehearseOptions& options = {});

}  // namespace heatwork::firing
