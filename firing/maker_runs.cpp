#include "firing/maker_runs.h"

#include <algorithm>

#include "firing/inputs_hash.h"
#include "trade/writer.h"

namespace heatwork::firing {
namespace {

/// A search asks for half a dozen; with this many the oldest edits' are surely done with.
constexpr std::size_t most_knots = 32;

}  // namespace

std::vector<Knot> MakerRun::knots(Change change, double x, const std::vector<std::size_t>& chosen, const Run& run) {
  const Key key{{change, x}, chosen};
  {
    const std::lock_guard lock(guard_);
    if (const auto found = knots_.find(key); found != knots_.end()) return found->second;
  }
  std::vector<Knot> made = run();
  const std::lock_guard lock(guard_);
  if (knots_.size() >= most_knots) knots_.clear();
  knots_.emplace(key, made);
  return made;
}

std::shared_ptr<MakerRun> MakerRuns::find(const std::string& hash) {
  const std::lock_guard lock(guard_);
  const auto found = kept_.find(hash);
  if (found == kept_.end()) return nullptr;
  found->second.asked = ++clock_;
  return found->second.run;
}

void MakerRuns::keep(const std::string& hash, std::shared_ptr<MakerRun> run) {
  const std::lock_guard lock(guard_);
  kept_[hash] = {std::move(run), ++clock_};
  if (kept_.size() <= most_) return;
  kept_.erase(std::min_element(kept_.begin(), kept_.end(), [](const auto& a, const auto& b) { return a.second.asked < b.second.asked; }));
}

std::string maker_hash(const trade::ResolvedFiring& request, std::size_t piece, const PieceState* start) {
  trade::ResolvedFiring alone = request;
  alone.program = *request.instruction_program;
  alone.tray = *request.instruction_tray;
  alone.firing.program.value = alone.program.name;
  alone.firing.tray.value = alone.tray.name;
  alone.pieces = {request.pieces[piece]};
  alone.places = {trade::PlaceOnTray::middle};
  alone.firing.pieces = {request.firing.pieces[piece]};
  alone.firing.pieces.front().place.value = trade::PlaceOnTray::middle;
  alone.firing.after.clear();
  alone.earlier.clear();
  alone.lab_trays.clear();
  // The true furnace has a true display: what is known of this one's leaves the maker's firing as it is.
  alone.furnace.display_error.reset();
  alone.furnace.correction_keyed = {};
  alone.furnace_known = {};
  return inputs_hash(alone, start != nullptr ? std::vector<PieceState>{*start} : std::vector<PieceState>{}) +
         trade::blake2b_256(trade::write_noun(request.pieces[piece]));
}

}  // namespace heatwork::firing
