// The metal frame of a span in the furnace: how far its middle may sink under its own weight.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "firing/load_of_firing.h"
#include "firing/rehearsal.h"
#include "trade/piece.h"

namespace heatwork::firing {

/// Units from which a frame counts as a span. [1] source: chosen-here
inline constexpr std::size_t span_units = 3;

/// Upper bound of the sag of a piece of three units or more on a metal frame, from the temperatures its sections lived through; everything
/// that is not known is taken at its worse end. Nothing for other pieces. theory: (frame-sag.3)
std::optional<FrameSag> frame_sag(const trade::Piece& piece, const Stock& stock, std::span<const double> times_s,
                                  std::span<const SectionResult> sections);

/// From the middle of the first tooth to that of the last, teeth as wide as they come; those between two that are named count too.
/// [mm] Range: ISO 3950 numbers of one jaw, at least one. source: field-memory theory: (frame-sag.3)
double span_mm(const std::vector<int>& teeth);

}  // namespace heatwork::firing
