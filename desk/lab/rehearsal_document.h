// A kept rehearsal: what was computed, from which texts, with which findings, and the pieces' states to the last bit; no traces.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "desk/rehearse_files.h"
#include "firing/rehearsal.h"
#include "trade/records.h"

namespace heatwork::desk {

/// Which text a name stood for, and where it was found.
struct TextStoodFor {
  trade::NameUsed name;
  std::string from;  ///< "shipped: materials/glaze.toml"; empty where it is the store's own
  bool operator==(const TextStoodFor& other) const;
};

/// A finding as it was given; words as in `rehearse --json`, empty where there is nothing.
struct KeptFinding {
  std::string aspect, level, piece, sentence;
  std::optional<double> number;
  std::string unit;
  std::optional<double> low, high, limit;
  std::string limit_from, narrow, change, where;
};

/// What a layer the firing was for has become, at the face that got least; absent where it does not apply.
struct LayerReading {
  std::string section, material;
  std::optional<double> porosity_percent, sealed_share, heat_work, rounding_um;  ///< sealed: share of the pores that are closed
  std::optional<double> crystallised_share, crystal_um;
};

/// Stress of the glass of a section in its worst form, tension positive; where it was not computed only why. [MPa]
struct StressReading {
  std::string section, material, form;
  std::optional<double> stays_MPa, low_MPa, high_MPa;  ///< highest that stays, and between which bounds
  std::optional<double> on_the_way_MPa;                ///< highest while it cooled
  std::string not_computed;
};

struct PieceReading {
  std::string piece;
  std::string quantity;  ///< compared with the maker's firing by; empty: not compared
  std::optional<double> shift_K, hold_s;
  std::optional<double> peak_C;  ///< of its surface
  std::optional<double> water_left_g;
  std::vector<LayerReading> layers;
  std::vector<StressReading> stress;  ///< a section each; empty where it was not asked for
};

struct RehearsalDocument {
  std::string firing;
  int firing_version = 0;
  std::string program_version, data_version;
  int model_version = 0;
  std::uint64_t seed = 0;
  std::string inputs_hash;
  std::vector<TextStoodFor> used;
  std::optional<std::string> impossible;  ///< why the furnace cannot run the program; then there are no pieces and no states
  std::vector<KeptFinding> findings;
  std::vector<PieceReading> pieces;
  std::vector<firing::PieceState> states;  ///< one a piece; on the lightest tray that may be where its mass is not known
};

/// What is kept of a rehearsal.
RehearsalDocument rehearsal_document(const Rehearsed& rehearsed, int firing_version, std::vector<TextStoodFor> used);

/// Readings of the pieces alone, as `rehearsal_document` has them; none where the furnace cannot run the program.
std::vector<PieceReading> piece_readings(const firing::Rehearsal& rehearsal);

/// One line of JSON without line end; docs/formats/rehearsal-document.md. Errors: std::logic_error where a number is not finite.
std::string write_rehearsal_document(const RehearsalDocument& document);
/// Errors: std::runtime_error with one sentence where it is none, or one of another format.
RehearsalDocument read_rehearsal_document(std::string_view text);

}  // namespace heatwork::desk
