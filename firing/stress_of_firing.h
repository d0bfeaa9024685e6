// Stress of the sections of a piece as a firing cools them: its own temperatures through the wall, then the room's still air till it is
// cold.
#pragma once

#include <functional>
#include <span>
#include <vector>

#include "firing/chamber.h"
#include "firing/load_of_firing.h"
#include "firing/piece_stress.h"
#include "firing/rehearsal.h"
#include "firing/stress_layers.h"
#include "physics/load.h"

namespace heatwork::firing {

/// A form a section is looked at in.
struct FormCase {
  physics::SectionCase of;
  bool remark_only = false;
};

/// Forms of a section, the one its shape stands for first. theory: (stress-judgement.4)
std::vector<FormCase> forms_of(const trade::Piece& piece, const trade::Section& section);

/// One section ready to be cooled: its bonded layers, and all it lives through. Where `not_computed` says why not, the rest is empty.
struct CooledSection {
  std::string section;
  StressLayers bonded;
  std::vector<FormCase> forms;
  physics::CoolingCourse course;
  const SectionStressState* carried = nullptr;  ///< null where it starts as a liquid, free of stress
  double started_C = 0;
  std::optional<double> opened_at_C;
  double cooling_K_per_s = 0;
  std::string not_computed;
};

/// What a load lived through, as far as a piece is concerned.
struct PieceHistory {
  std::span<const physics::SectionHistory> sections;  ///< its own
  std::span<const double> load_s;
  const ChamberHistory& chamber;
};

/// The sections of a piece, ready. `start` may be null; it must outlive what is returned.
std::vector<CooledSection> cooled_sections(const trade::Piece& piece, const Stock& stock, const PieceHistory& history,
                                           const PieceState* start);

/// Stress of one section in each of its forms, with its error; `end` gets the state it is left in. theory: (stress-judgement.5)
SectionStress stress_of(const CooledSection& cooled, bool traces, SectionStressState* end = nullptr);

/// The stresses of one form only, as a search for levers needs them.
std::vector<physics::LayerCooling> stress_in_form(const CooledSection& cooled, const FormCase& form);

/// Adds what the ranges of the materials do to each form that is judged; the same for any number of workers. 0: as many as the machine has.
void add_bounds(const CooledSection& cooled, unsigned workers, const std::function<void()>& go_on, SectionStress& stress);

/// States of the sections of a piece as it is, from those of the piece as it was: what is ground is gone, what is new is free of stress.
std::vector<SectionStressState> carried_stress_states(const trade::Piece& was, const Stock& was_stock,
                                                      const std::vector<SectionStressState>& states, const trade::Piece& is,
                                                      const Stock& stock);

}  // namespace heatwork::firing
