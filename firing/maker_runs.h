// The maker's own firings, kept from rehearsal to rehearsal: an edit of this firing's program leaves them as they are.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <utility>
#include <vector>

#include "firing/maker_table.h"
#include "firing/rehearsal.h"
#include "physics/load.h"

namespace heatwork::firing {

/// One piece's maker's firing as it was computed, and what its search for shift and hold has run so far. Several threads may ask.
class MakerRun {
 public:
  MakerRun(FiringResult result, physics::LoadHistory history) : result_(std::move(result)), history_(std::move(history)) {}

  [[nodiscard]] const FiringResult& result() const { return result_; }
  [[nodiscard]] const physics::LoadHistory& history() const { return history_; }

  /// Changed in its temperature or in its hold.
  enum class Change { shift, hold };
  using Run = std::function<std::vector<Knot>()>;
  /// The knots of a change at the chosen points; `run` computes those that are not there.
  std::vector<Knot> knots(Change change, double x, const std::vector<std::size_t>& chosen, const Run& run);

 private:
  using Key = std::pair<std::pair<Change, double>, std::vector<std::size_t>>;
  FiringResult result_;
  physics::LoadHistory history_;
  std::mutex guard_;
  std::map<Key, std::vector<Knot>> knots_;
};

/// Maker's firings by the hash of all they hang on. A cache only: whatever it lacks is computed, and the same. Several threads may ask.
class MakerRuns {
 public:
  explicit MakerRuns(std::size_t most = 48) : most_(most) {}
  /// nullptr where none of that hash is kept.
  [[nodiscard]] std::shared_ptr<MakerRun> find(const std::string& hash);
  /// Where more are kept than `most`, the one that was not asked for longest goes.
  void keep(const std::string& hash, std::shared_ptr<MakerRun> run);

 private:
  struct Kept {
    std::shared_ptr<MakerRun> run;
    std::uint64_t asked = 0;
  };
  std::size_t most_;
  std::mutex guard_;
  std::uint64_t clock_ = 0;
  std::map<std::string, Kept> kept_;
};

/// Hash of all that the maker's firing of one piece hangs on, names included: results carry them.
std::string maker_hash(const trade::ResolvedFiring& request, std::size_t piece, const PieceState* start);

}  // namespace heatwork::firing
