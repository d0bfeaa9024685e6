// The use case "rehearse this firing": a firing file and what it names in, rehearsal and verdict out.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "firing/open_time.h"
#include "firing/rehearsal.h"
#include "report/number.h"
#include "report/rehearsal_json.h"
#include "trade/limits.h"
#include "trade/words.h"
#include "verdict/finding.h"

namespace heatwork::desk {

/// How an answer speaks: its language, and the degrees of its sentences.
struct Manner {
  trade::Language language = trade::Language::english;
  report::TemperatureScale scale = report::TemperatureScale::celsius;
};

/// What is asked of a rehearsal beside the firing. The caches may be nullptr.
struct HowRehearsed {
  Manner manner;
  bool bands = true;
  bool stress = true;                       ///< of the layers as they cool
  unsigned workers = 0;                     ///< threads; 0: as many as the machine has
  firing::StateCache* states = nullptr;     ///< after earlier firings
  firing::MakerRuns* maker_runs = nullptr;  ///< of the maker's own firings
  std::function<bool()> stop;               ///< asked on the way; true ends it with firing::Stopped
};

struct Rehearsed {
  firing::Rehearsal rehearsal;
  verdict::Verdict verdict;
  trade::Limits limits;  ///< that it was judged by
};

/// Judges a rehearsal for a reader.
verdict::Verdict judged_for(const Manner& manner, const firing::Rehearsal& rehearsal, const trade::Limits& limits);

/// Reads a firing file, finds what it names beside it and among what ships, rehearses and judges it.
/// Errors: trade::Mistake, located; std::domain_error where the furnace cannot do what is asked.
Rehearsed rehearse_file(const std::string& path, const Manner& manner = {});

/// Rehearses and judges what was found before. `path`: the file beside which the lab's limits may stand; empty: none.
/// `start`: states carried in, one a piece; empty: from the firing's own past. Errors: as above.
Rehearsed rehearse_found(trade::ResolvedFiring request, const std::string& path, std::vector<firing::PieceState> start,
                         const Manner& manner = {});

/// The same, judged by these limits of the lab; none where the text is absent.
Rehearsed rehearse_by_limits(trade::ResolvedFiring request, const std::shared_ptr<const trade::Source>& lab_limits,
                             const Manner& manner = {});

/// The same, as it is asked for. Errors: as above; firing::Stopped.
Rehearsed rehearse_as_asked(trade::ResolvedFiring request, const std::shared_ptr<const trade::Source>& lab_limits, const HowRehearsed& how);

/// When its chamber opens, by the shipped deciding inputs; absent where its furnace cannot run its program.
std::optional<firing::OpenTime> open_time_of(const trade::ResolvedFiring& request);

/// Pressure of the standard atmosphere, for furnaces whose barometer is not given.
quantity::Pressure ambient_of_altitude(quantity::Length altitude);

/// The versions that every result names.
report::MadeBy made_by();

/// A picture in the form that the ending of its name says: .svg, .png or .pdf.
enum class PictureForm { svg, png, pdf };
/// Errors: Failure wrong_use where the ending is another.
PictureForm picture_form(const std::string& path);

/// Draws the firing picture and writes it whole. Errors: Failure cannot_write, part_missing.
void write_picture(const std::string& path, const Rehearsed& rehearsed, const Manner& manner);

}  // namespace heatwork::desk
