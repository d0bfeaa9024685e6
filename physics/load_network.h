// The load as equations: all temperatures and waters of sections, tray and supports in one state, with an exact Jacobian of arrow shape.
// Inner part of physics/load.h; not for use elsewhere.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "physics/conduction.h"
#include "physics/drying.h"
#include "physics/load.h"

namespace heatwork::physics {

/// What surrounds the load at one moment.
struct Around {
  double chamber_K = 0, chamber4 = 0, room4 = 0, gas_K = 0;
  double chamber_view = 1, room_view = 0;  ///< of a face that sees the chamber when shut
  DryingAir air;
};

/// The history of surroundings, read at a moment; knows where it jumps or bends so much that a step must end there.
class AroundHistory {
 public:
  /// Copies nothing: `from` must outlive the use. error: std::invalid_argument naming what does not fit
  void take(const Surroundings& from, double chamber_shift_K);
  /// Times between which all is smooth enough to step over, first and last included. [s]
  [[nodiscard]] std::span<const double> corners() const { return corner_; }
  /// From now on moments lie in [corner i, corner i + 1]; at a jump the values are those of this side.
  void enter(std::size_t i);
  [[nodiscard]] Around at(double time_s) const;

 private:
  void find_corners();
  const Surroundings* from_ = nullptr;
  double shift_K_ = 0;
  std::vector<double> corner_;
  std::vector<std::size_t> corner_point_;      // point at which the stretch after this corner begins
  std::vector<std::size_t> corner_end_point_;  // and at which it ends
  std::size_t first_ = 0, last_ = 0;
  mutable std::size_t hint_ = 0;
};

/// Heat and water across the faces of one section, per outer area. [W/m2], [kg/(m2 s)]
struct FaceExchange {
  double radiated = 0, convected = 0, from_tray = 0, from_support = 0;  ///< into the outer node
  double inside_radiated = 0, inside_convected = 0;                     ///< into the inner node
  double latent = 0;                                                    ///< out of the outer node
  Evaporation water;
};

/// One section inside the network.
struct NetworkSection {
  SectionBody body;
  std::size_t piece = 0, number = 0;
  SectionMesh mesh;
  bool lumped = false;
  double resistance_m2K_per_W = 0;   // for the Biot number: thickness over conductivity, half where both faces are heated
  std::size_t first = 0, count = 0;  // of the state
  std::size_t inner = 0, outer = 0;  // state index of the face nodes
  std::size_t mass = none, water = none, support = none;  // state index; support: index among borders
  std::size_t core = 0;                                   // state index of the node below the one that lags,
  double core_share = 0;                                  // and the share of the way to the next
  double start_K = 0, water_start = 0, support_W_per_m2K = 0;
  std::vector<double> water_share;                      // of the section's water, one a node
  std::vector<double> factor, factor_slope, hottest_K;  // powder's conductivity, one a face
  bool sealed = true, dry = true;
  std::vector<double> capacity, capacity_slope;  // of the nodes, with their water; room to work in
  Tridiagonal matrix;
  std::vector<double> response;                                     // inverse of the matrix applied to a unit at the outer node
  double by_tray = 0, tray_by = 0, by_support = 0, support_by = 0;  // couplings at the last linearisation, 1/s
  static constexpr std::size_t none = static_cast<std::size_t>(-1);
};

/// The system that the stepper drives. State: per section [mass behind] nodes [water], then tray, then supports.
/// theory: (load.1) to (load.8)
class LoadNetwork {
 public:
  /// Lays nodes and couplings; `lumped` says of each section whether one temperature serves.
  /// error: std::invalid_argument naming piece and section
  void build(const Load& load, const LoadAccuracy& accuracy, std::span<const char> lumped);

  /// Number of states; the sections; where tray and supports stand among the states.
  [[nodiscard]] std::size_t size() const { return size_; }
  [[nodiscard]] std::vector<NetworkSection>& sections() { return sections_; }
  [[nodiscard]] const std::vector<NetworkSection>& sections() const { return sections_; }
  [[nodiscard]] bool has_tray() const { return tray_.has_value(); }
  [[nodiscard]] std::size_t tray_index() const { return border_; }
  /// State index of the support of a piece, or NetworkSection::none.
  [[nodiscard]] std::size_t support_index(std::size_t piece) const;

  /// The history to read; must outlive the use.
  void set_surroundings(AroundHistory* around) { around_ = around; }
  /// Writes the start values, [K] and [kg/m2]; forgets heat and dryness of an earlier run.
  void start(std::span<double> y);
  /// After an accepted step: powder remembers how hot it has been, and a layer with less than a millionth of its water is dry.
  void remember(std::span<double> y);

  /// What the stepper asks for (see RodasStepper): rates [K/s], [kg/(m2 s)], the factored matrix, its solution, the error [1].
  void rate(double t, const double* y, double* f);
  void factor(double t, const double* y, const double* f, double inverse, double* f_t);
  void solve(double* b);
  [[nodiscard]] double error_norm(const double* y, const double* y_new, const double* e) const;

  /// Heat and water flows over the whole load at a moment. [W]
  struct Flows {
    double radiated = 0, convected = 0, evaporated = 0;
  };
  /// See Flows. [W]
  [[nodiscard]] Flows flows(double t, const double* y) const;
  /// Sensible heat since the start. [J]
  [[nodiscard]] double stored_J(const double* y) const;
  /// What crosses the faces of a section. [W/m2]
  [[nodiscard]] FaceExchange exchange(const NetworkSection& section, const Around& around, const double* y) const;
  /// Biot number with radiation and film. [pure number]
  [[nodiscard]] double biot(const NetworkSection& section, const Around& around, double surface_K) const;

 private:
  struct Lumped {  // a support
    SupportBody body;
    double start_K;
    std::size_t piece;
    double film_area;
  };
  void add_section(const SectionBody& body, const PieceBody& piece, std::size_t piece_number, std::size_t number, bool lumped);
  void lay_powder(NetworkSection& section);
  void boundary(const Around& around, const double* y, double* heat) const;
  void powder_factors(NetworkSection& section, const double* T) const;
  void factor_conduction(NetworkSection& section, const double* T) const;
  void factor_faces(NetworkSection& section, const Around& around, const double* y, double inverse) const;
  void factor_section(NetworkSection& section, const Around& around, const double* y, const double* f, double inverse);
  void factor_border(const Around& around, const double* y, const double* f, double inverse);
  void node_capacities(NetworkSection& section, const double* y, double* slope) const;
  [[nodiscard]] double tray_capacity(double T) const;

  std::vector<NetworkSection> sections_;
  std::optional<TrayBody> tray_;
  std::vector<Lumped> supports_;
  double tray_open_area_ = 0;  // that radiates with the chamber, times its emissivity
  AroundHistory* around_ = nullptr;
  LoadAccuracy accuracy_;
  std::size_t size_ = 0, border_ = 0, borders_ = 0;
  std::vector<double> dense_, border_rhs_, heat_, heat_later_;  // dense_: borders x borders, factored in place
};

}  // namespace heatwork::physics
