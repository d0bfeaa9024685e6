// What stands on the tray: the piece, its sections and layers, what it stands on and where.
#pragma once

#include <string>
#include <vector>

#include "quantity/quantity.h"
#include "trade/place.h"

namespace heatwork::trade {

enum class SectionForm { plate, tube, shell };
enum class SectionInside { closed, open, mass };
enum class PlaceOnTray { middle, between, edge };

/// One layer of a section, counted from the inside out.
struct Layer {
  Given<std::string> material;        ///< name of a Material
  Given<quantity::Length> thickness;  ///< as it goes in: of the unfired build-up where `green`
  bool green = false;                 ///< unfired powder build-up
  Maybe<std::string> liquid;          ///< name of a Liquid; absent: dry
};

/// What stands behind the inside face where `inside` is mass: heat capacity and gap conductance per area of that face.
struct InnerMass {
  Given<double> heat_capacity_J_per_m2K;
  Given<double> gap_W_per_m2K;
};

/// A wall of the piece, taken as one-dimensional: thickest, thinnest, pontic, margin ...
struct Section {
  std::string name;
  Given<SectionForm> form;
  Maybe<quantity::Length> inner_radius;  ///< tube and shell
  std::vector<Layer> layers;             ///< inside out
  Given<SectionInside> inside;
  std::optional<InnerMass> inner_mass;
  Maybe<quantity::Area> area;                  ///< outer area this wall stands for; absent: from the shape, and said
  Maybe<quantity::Length> unsupported_length;  ///< overhang of unsupported porcelain, for sag
  Place place;
};

struct Piece {
  std::string name;
  std::string label;
  std::string note;
  std::string shape;       ///< a word of trade/shape.h
  std::vector<int> teeth;  ///< ISO 3950
  std::vector<Section> sections;
  Maybe<std::string> support;  ///< name of a Support; absent: stands on the tray itself
  Maybe<std::string> of_case;  ///< name of a Case
  Place place;
};

/// Tray: absent mass makes the heat of the load unknown.
struct Tray {
  std::string name;
  std::string label;
  std::string note;
  Maybe<quantity::Mass> mass;
  Given<std::string> material;
  Given<quantity::Length> diameter;
  Given<quantity::Length> thickness;
  Place place;
};

/// Pins, beads, paste or wool under a piece.
struct Support {
  std::string name;
  std::string label;
  std::string note;
  Given<quantity::Mass> mass;  ///< per piece
  Given<std::string> material;
  Given<quantity::Area> contact;  ///< with the piece
  Given<double> gap_W_per_m2K;    ///< conductance of the contact
  Place place;
};

}  // namespace heatwork::trade
