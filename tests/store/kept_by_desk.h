// Every document of a lab's days as desk writes it, with the places left open that differ from day to day.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "tests/store/open_document.h"

namespace heatwork::store_proof {

/// A firing of so many pieces, in each of its states, and the rehearsals of it, computed for real.
struct OpenFiring {
  std::vector<OpenDocument> states;      ///< planned, started, ended
  std::vector<OpenDocument> rehearsals;  ///< of furnaces and chambers that differ
};

class KeptByDesk {
 public:
  /// Made at the first call: its rehearsals take a second or two.
  static const KeptByDesk& of_this_program();

  /// Kind, name and text of what stands in a lab before its first firing; a text may be open at the name.
  [[nodiscard]] const std::vector<std::pair<std::string, OpenDocument>>& ground() const { return ground_; }
  [[nodiscard]] const OpenFiring& firing(std::size_t pieces) const { return firings_.at(pieces - 1); }
  [[nodiscard]] const OpenDocument& bench_step(std::size_t pieces, bool build_up) const {
    return bench_steps_.at(2 * (pieces - 1) + build_up);
  }
  [[nodiscard]] const OpenDocument& dental_case(std::size_t pieces, bool closed) const { return cases_.at(2 * (pieces - 1) + closed); }
  /// The pieces of a tray differ by turns; `changed`: after a correction.
  [[nodiscard]] const OpenDocument& piece(std::size_t which, bool changed) const { return pieces_.at(2 * (which % 2) + changed); }
  [[nodiscard]] const OpenDocument& lot(bool powder, bool used_up) const { return lots_.at(2 * powder + used_up); }
  [[nodiscard]] const OpenDocument& check(bool good) const { return checks_.at(good); }
  [[nodiscard]] const OpenDocument& furnace() const { return single_.at(0); }
  [[nodiscard]] const OpenDocument& program() const { return single_.at(1); }
  [[nodiscard]] const OpenDocument& deviation() const { return single_.at(2); }

 private:
  KeptByDesk();
  void add_ground();
  void add_pieces();
  void add_work(std::size_t pieces);
  void add_care();

  std::vector<std::pair<std::string, OpenDocument>> ground_;
  std::vector<OpenFiring> firings_;
  std::vector<OpenDocument> bench_steps_, cases_, pieces_, lots_, checks_, single_;
};

}  // namespace heatwork::store_proof
