// What firing does to a piece's layers: kinetics along the temperatures its points live through.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "firing/chamber.h"
#include "firing/load_of_firing.h"
#include "firing/rehearsal.h"
#include "physics/crystallisation.h"
#include "physics/load.h"
#include "physics/powder.h"
#include "physics/zirconia_sintering.h"
#include "trade/firing.h"

namespace heatwork::firing {

/// A point of a piece that carries kinetics: one face of one layer. Both faces of every layer that sinters or crystallises are followed.
struct Point {
  int section = 0;
  int layer = 0;
  bool outer_face = false;
  const trade::Material* material = nullptr;
  bool decides = false;     ///< the firing is for this layer: unfired powder, a block that crystallises, zirconia before sintering
  double thickness_mm = 0;  ///< of its layer once dense
  std::optional<physics::PowderProperties> powder;
  std::optional<physics::CrystallisationProperties> crystals;
  std::optional<physics::ZirconiaProperties> zirconia;
};

/// The points of a piece, by section, layer, inner face first. A build-up that the state shows to be fired already decides
/// only where no other layer does.
/// `start` null: every green layer is unfired.
std::vector<Point> points_of(const trade::Piece& piece, const Stock& stock, const PieceState* start = nullptr);

/// True where a layer that went in green is powder no more, or zirconia that has sintered.
bool is_fired(const Point& point, const PointState& state);

/// Index of the thermal node at a point. [0, nodes)
std::size_t node_of(const physics::SectionHistory& section, const Point& point);

/// State of a piece before its firing: unfired layers new, layers fired before as after their nominal firing unless a state is carried in.
PieceState start_state(std::span<const Point> points);

/// The state carried from a piece as it was into the piece as it is: points of the same section, layer, face and material go on,
/// others start as `start_state`.
PieceState carried_state(const trade::Piece& was, const Stock& was_stock, const PieceState& state, const trade::Piece& is,
                         const Stock& stock);

/// Times of the load's rows and of the chamber's points in one rising list. [s]
std::vector<double> common_times(const std::vector<double>& load_s, const std::vector<double>& chamber_s);

/// How much is worked out of what a load lives through.
enum class Detail {
  whole,  ///< all, with the traces
  ends,   ///< the numbers at the end, no traces of pores, gloss and crystals; pores where asked for
  work,   ///< heat, water, heat-work, gloss and crystals only: no pores
  drying  ///< water and bursting only
};

struct PieceLife {
  PieceResult result;
  PieceState end;
};

/// Lives one piece through its firing. `sections` are its own sections of the load's history. With Detail::ends pores are followed at the
/// points of `pores_at` only, where it is given.
PieceLife live(const trade::Piece& piece, trade::PlaceOnTray place, const Stock& stock, std::span<const physics::SectionHistory> sections,
               std::span<const double> load_s, const ChamberHistory& chamber, std::span<const double> times_s, const PieceState& start,
               Detail detail = Detail::whole, const std::vector<bool>* pores_at = nullptr);

}  // namespace heatwork::firing
