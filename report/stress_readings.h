// What every kind of report reads off the stress of a piece: which section and form speak for it, and what its glass carries.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "firing/rehearsal.h"
#include "report/number.h"

namespace heatwork::report {

/// The glass of a section in one form.
struct GlassStress {
  const firing::SectionStress* section = nullptr;
  const firing::FormStress* form = nullptr;
  [[nodiscard]] const physics::LayerCooling& glass() const { return form->layers.at(section->glass); }
  /// Central interval of one of the glass's figures; nullptr without bands. [Pa]
  [[nodiscard]] const physics::StressInterval* interval(double physics::LayerCooling::*figure) const;
};

/// The same of any layer, counted from the inside. [Pa]
const physics::StressInterval* interval_of(const firing::FormStress& form, std::size_t layer, double physics::LayerCooling::*figure);

/// True where the stress of the layers was asked for, be it computed or not.
bool tells_stress(const firing::Rehearsal& rehearsal);
/// The section of a piece whose glass keeps most tension in its worst form, of two alike the first; nothing where none was computed.
std::optional<GlassStress> worst_glass(const firing::PieceResult& piece);
/// The glass that the layer inside it draws at most, of all judged forms that are curved; nothing where none lies on another layer.
std::optional<GlassStress> strongest_pull(const firing::PieceResult& piece);
/// Why stresses of a piece's sections were not computed, each sentence once, in the words of the reader.
std::vector<std::string> why_no_stress(const firing::PieceResult& piece, const trade::Words& reader);
/// What a form is called, such as "closed shell". [text]
std::string form_in_words(physics::StressForm form, const Numbers& numbers);
/// A stress with one decimal under 10 MPa, tension positive: "8.1 MPa", "−22 MPa". [text]
std::string stress(double value_Pa, const Numbers& numbers);
/// The same without its unit. [text]
std::string bare_stress(double value_Pa, const Numbers& numbers);

/// Until when a picture runs that shows stress: a quarter of the firing longer, for the piece goes on cooling on the bench. [s]
double shown_until_s(double firing_ends_s);

}  // namespace heatwork::report
