// Stress of the bonded layers of a piece from its last cooling: while it cools, and what stays, in each form its section may be taken for.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "physics/cooling_stress.h"
#include "physics/stress_interval.h"

namespace heatwork::firing {

/// A form as files and calculations name it: "sphere", "plate-flat".
std::string_view word(physics::StressForm form);

/// One form of a section, cooled as the firing cools it. [Pa, m, K]
struct FormStress {
  physics::StressForm form = physics::StressForm::sphere;
  double inner_radius_m = 0;                          ///< curved forms
  bool remark_only = false;                           ///< shown beside, not judged: no piece of this shape may bend so freely
  std::vector<physics::LayerCooling> layers;          ///< at the room's temperature, inside out, and the highest on the way
  double curvature_per_m = 0;                         ///< of a free plate
  double largest_difference_K = 0;                    ///< between any two places of the section, a support behind it among them
  double error_Pa = 0;                                ///< by which a figure may be off, from a second run with doubled steps
  std::optional<physics::StressIntervals> interval;   ///< over the ranges of the materials; absent without bands
  std::vector<std::vector<double>> highest_trace_Pa;  ///< of each layer, on `SectionStress::time_s`; empty without traces
};

/// What a form of a section keeps from firing to firing, as physics::CoolingStress::state has it.
struct FormStressState {
  physics::StressForm form = physics::StressForm::sphere;
  double inner_radius_m = 0;
  std::vector<double> state;
  bool operator==(const FormStressState&) const = default;
};

/// What a section keeps from firing to firing.
struct SectionStressState {
  std::string section;
  bool must_melt = false;  ///< something was laid on: it is free of stress only once its glasses have become liquid
  std::vector<FormStressState> forms;
  /// What it was cooled through since its glasses were liquid, for the bounds of what comes next; nullptr where that is not known. It
  /// follows from the same firings as the states do, and is no part of what makes two alike.
  std::shared_ptr<const std::vector<physics::EarlierCooling>> cooled_through;
  bool operator==(const SectionStressState& other) const {
    return section == other.section && must_melt == other.must_melt && forms == other.forms;
  }
};

/// How stresses move when the program cools otherwise; all else as it is. [Pa]
struct StressLever {
  enum class What { slower, opened_lower };
  What what = What::slower;
  double to_C = 0;                                         ///< display down to which, or at which the chamber is opened
  double rate_K_per_s = 0;                                 ///< of the slower cooling
  double transient_before_Pa = 0, transient_after_Pa = 0;  ///< highest of the glass on the way, in the worst form
  double residual_before_Pa = 0, residual_after_Pa = 0;    ///< highest of the glass that stays
};

std::string_view word(StressLever::What what);

/// Of one section. Without a glass bonded to another layer nothing is computed, and `forms` is empty.
struct SectionStress {
  std::string section;
  std::vector<std::string> materials;  ///< of the layers, inside out
  std::size_t glass = 0;               ///< layer that relaxes and is judged, counted from the inside
  std::vector<FormStress> forms;       ///< the one its shape stands for first
  std::size_t worst = 0;               ///< form with the highest figure, remarks aside
  double started_C = 0;               ///< from which it was followed, free of stress; where states were carried in: the start of the firing
  bool carried_in = false;            ///< went on from the state an earlier firing left
  double glass_transition_C = 0;      ///< of the judged layer, as a dilatometer finds it at 5 K/min
  std::optional<double> opened_at_C;  ///< hottest place of the judged layer when the chamber began to open; absent: it never did
  double cooling_K_per_s = 0;         ///< mean, of the judged layer from 50 K above its transition to 100 K below it; positive
  double mismatch_per_K = 0;          ///< mean expansion of the layer inside it less its own, 25 to 500 °C
  std::size_t set_size = 0;           ///< members behind the intervals; 0 without bands
  bool settled = false;               ///< doubling the set moved no end by 1 MPa
  std::vector<double> time_s;         ///< of the traces, on the firing's clock; goes on past its end till the piece is cold
  std::vector<StressLever> levers;
  std::vector<std::string> remarks;  ///< what of it was left out, a sentence each
  std::string not_computed;          ///< why, one sentence; empty where it was
};

}  // namespace heatwork::firing
