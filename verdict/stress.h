// What the judge reads of the stress of one section: the form judged, the numbers of its glass, and what its pair is known to be.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "firing/stress_layers.h"
#include "verdict/bench.h"

namespace heatwork::verdict {

/// One section of a piece whose stress was computed.
struct StressedSection {
  const firing::SectionStress* stress = nullptr;
  const firing::SectionStress* maker = nullptr;  ///< of the maker's own firing; nullptr where there is none
  const firing::SectionResult* heat = nullptr;
  const trade::Section* section = nullptr;
  firing::StressLayers layers;  ///< as its materials say; empty where something is missing

  /// True where the glass is bonded to something that contracts otherwise.
  [[nodiscard]] bool paired() const { return !layers.layers.empty() && layers.partner != layers.glass; }
  /// The name of the glass, and of what it is paired with.
  [[nodiscard]] std::string glass(const Bench& bench) const;
  [[nodiscard]] std::string partner(const Bench& bench) const;
};

/// What people call a material of the firing.
std::string label_of(const Bench& bench, const std::string& material);

// What a look at pair and program shows beside the computed tension; each adds a finding only where it is not sound.
void judge_opening(Bench& bench, const PieceCase& piece, const std::vector<StressedSection>& sections);
void judge_pair(Bench& bench, const PieceCase& piece, const std::vector<StressedSection>& sections);
void judge_veneer(Bench& bench, const PieceCase& piece, const std::vector<StressedSection>& sections);
void judge_heating(Bench& bench, const PieceCase& piece, const std::vector<StressedSection>& sections);

}  // namespace heatwork::verdict
