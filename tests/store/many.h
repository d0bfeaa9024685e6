// Years of a group of labs, seeded: cases, pieces, lots, bench steps, firings with what became of them, rehearsals, checks, deviations.
#pragma once

#include <cstdint>
#include <optional>
#include <random>
#include <string>
#include <vector>

#include "records/store.h"

namespace heatwork::store_proof {

/// Index of these documents, read off the lines a noun's file has: furnace, program, pieces, lots, when it was.
records::Index index_of_many(const records::Document& document);
records::Opening opening_of_many();

/// 50 furnaces and 10 years at 1.5 million firings; fewer firings are fewer furnaces over fewer years, as busy as those.
class ManyYears {
 public:
  ManyYears(std::int64_t firings, std::uint64_t seed);

  /// The next changes at one stroke, some 500 documents; none when the years are over.
  std::optional<records::Change> next();
  /// What one ended firing is kept as: its two versions after the planned one, its rehearsal, and its pieces' new versions.
  records::Change one_firing(int number);

  [[nodiscard]] std::int64_t firings() const { return done_; }
  [[nodiscard]] int furnaces() const { return furnaces_; }
  [[nodiscard]] std::int64_t end_ms() const;
  static constexpr std::int64_t begin_ms = 1'450'000'000'000;

 private:
  void begin(records::Change& change);
  void new_case(records::Change& change);
  void fire(records::Change& change, const std::string& code, const std::vector<std::string>& pieces, int round);
  void check_furnace(records::Change& change, int furnace);
  [[nodiscard]] std::string program_now(std::uint64_t which) const;
  [[nodiscard]] std::int64_t now_ms() const;
  std::uint64_t draw(std::uint64_t below) { return random_() % below; }

  std::int64_t wanted_, done_ = 0, cases_ = 0, lots_ = 0, checks_ = 0;
  int furnaces_ = 1;
  bool begun_ = false;
  std::mt19937_64 random_;
  std::string rehearsal_;  ///< of a real firing of two pieces
  std::vector<int> furnace_versions_;
  std::vector<int> program_versions_;
};

/// Every question a lab must have answered in one command, by its name.
struct Question {
  std::string name;
  bool bounded = true;  ///< must be answered within the promised time
};
std::vector<Question> questions();
/// Asks one of them, of something that stands; how many rows came.
std::int64_t ask(records::Store& store, const std::string& question, int furnaces, std::int64_t end_ms);

}  // namespace heatwork::store_proof
