// What is read off a rehearsal by every kind of report: names, deciding points, values between points, moments.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "firing/column.h"
#include "firing/rehearsal.h"
#include "report/number.h"

namespace heatwork::report {

using firing::value_at;

/// Time in which the pores of a piece seal: from the first fiftieth to the last. [s]
struct SealingWindow {
  double from_s = 0, to_s = 0;
  std::size_t piece = 0;
};

/// Names of the pieces in the order of the tray, the same as in findings and files; labels may be long.
std::vector<std::string> piece_names(const firing::Rehearsal& rehearsal);
/// The point of a piece that decides, nullptr where there is none.
const firing::PointResult* deciding_point(const firing::PieceResult& piece);
/// True for a point of powder or glaze, which sinters.
bool sinters(const firing::PointResult& point);
/// True for a point of a class that crystallises.
bool crystallises(const firing::PointResult& point);
/// The section that holds the deciding point, else the first; nullptr where the piece has none.
const firing::SectionResult* deciding_section(const firing::PieceResult& piece);
/// Water left in all sections of a piece, in percent of the start; empty where it was never wet. [%]
std::vector<double> water_left_percent(const firing::PieceResult& piece, std::size_t points);
/// When the pores of each piece seal; pieces without powder are left out.
std::vector<SealingWindow> sealing_windows(const firing::Rehearsal& rehearsal);
/// When the firing ends, by chamber and pieces; 0 where nothing was computed. [s]
double firing_ends_s(const firing::Rehearsal& rehearsal);
/// Index of a moment of a piece (empty: of the chamber), or nothing.
std::optional<std::size_t> find_moment(const firing::Rehearsal& rehearsal, firing::MomentKind what, const std::string& piece = {});
/// The word a moment is marked by in the picture, such as "chamber shut".
std::string mark_word(firing::MomentKind what, const Numbers& numbers);

}  // namespace heatwork::report
