// The use case "rehearse this firing": a firing file and what it names in, rehearsal and verdict out.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "firing/rehearsal.h"
#include "report/number.h"
#include "report/rehearsal_json.h"
#include "trade/limits.h"
#include "verdict/finding.h"

namespace heatwork::desk {

struct Rehearsed {
  firing::Rehearsal rehearsal;
  verdict::Verdict verdict;
  trade::Limits limits;  ///< that it was judged by
};

/// Reads a firing file, finds what it names beside it and among what ships, rehearses and judges it.
/// Errors: trade::Mistake, located; std::domain_error where the furnace cannot do what is asked.
Rehearsed rehearse_file(const std::string& path);

/// Rehearses and judges what was found before. `path`: the file beside which the lab's limits may stand; empty: none.
/// `start`: states carried in, one a piece; empty: from the firing's own past. Errors: as above.
Rehearsed rehearse_found(trade::ResolvedFiring request, const std::string& path, std::vector<firing::PieceState> start);

/// The same, judged by these limits of the lab; none where the text is absent.
Rehearsed rehearse_by_limits(trade::ResolvedFiring request, const std::shared_ptr<const trade::Source>& lab_limits);

/// Pressure of the standard atmosphere, for furnaces whose barometer is not given.
quantity::Pressure ambient_of_altitude(quantity::Length altitude);

/// The versions that every result names.
report::MadeBy made_by();

/// A picture in the form that the ending of its name says: .svg, .png or .pdf.
enum class PictureForm { svg, png, pdf };
/// Errors: Failure wrong_use where the ending is another.
PictureForm picture_form(const std::string& path);

/// Draws the firing picture and writes it whole. Errors: Failure cannot_write, part_missing.
void write_picture(const std::string& path, const Rehearsed& rehearsed, report::TemperatureScale scale);

}  // namespace heatwork::desk
