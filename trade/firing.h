// A firing as a request in trade words: these pieces, on this tray, in this furnace, under this program.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "trade/furnace.h"
#include "trade/furnace_known.h"
#include "trade/instruction.h"
#include "trade/material.h"
#include "trade/piece.h"
#include "trade/program.h"
#include "trade/records.h"

namespace heatwork::trade {

struct PieceOnTray {
  Given<std::string> piece;  ///< name of a Piece
  Given<PlaceOnTray> place;
  Maybe<std::string> was;  ///< its name in the firings before, where layers were added since; absent: the same name
};

/// The firing file: names only; `Resolved` carries what the names stand for.
struct Firing {
  std::string name;
  std::string label;
  std::string note;
  Given<StageOfWork> stage;
  std::vector<PieceOnTray> pieces;
  Given<std::string> tray;
  Given<std::string> furnace;
  Given<std::string> program;
  Maybe<std::string> instruction;
  std::vector<Given<std::string>> after;  ///< names of the firings these pieces went through before, in order
  ChamberState chamber;
  Maybe<quantity::Pressure> barometer;  ///< absent: from the furnace's altitude
  std::optional<FiringRecord> record;   ///< what became of it; absent in a firing that is only asked about
  Place place;
};

/// The very text a name stood for, kept so that the same firing can be found again when newer versions stand.
struct TextUsed {
  std::string kind;  ///< word of its noun
  std::string name;
  std::shared_ptr<const Source> source;
  int version = 0;  ///< of the store's document; 0: it came from elsewhere
};

/// Everything a firing names, found. Materials and liquids are indexed by name; `came_from` says where each name was found.
struct ResolvedFiring {
  Firing firing;
  std::vector<Piece> pieces;  ///< in the order of firing.pieces
  std::vector<PlaceOnTray> places;
  Tray tray;
  Furnace furnace;             ///< where its checks are kept, as they know it
  FurnaceKnown furnace_known;  ///< what of it rests on checks
  Program program;
  std::optional<Instruction> instruction;
  std::optional<Program> instruction_program;
  std::optional<Tray> instruction_tray;  ///< named by the instruction, else the lab's lightest with a known mass
  bool instruction_tray_is_lightest = false;
  std::vector<Tray> lab_trays;  ///< every tray of the lab whose mass is known, lightest first; bounds where this firing's is not
  std::map<std::string, Material> materials;
  std::map<std::string, Liquid> liquids;
  std::map<std::string, Support> supports;
  std::vector<ResolvedFiring> earlier;                         ///< firing.after, found, in order; none of them names others
  std::vector<std::pair<std::string, std::string>> came_from;  ///< "furnace corner" -> place, in order of first naming
  std::vector<TextUsed> used;                                  ///< all that a number hangs on, in order of first naming
};

}  // namespace heatwork::trade
