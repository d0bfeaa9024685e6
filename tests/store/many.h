// Years of a group of labs, seeded: cases, pieces, lots, bench steps, firings with what became of them, rehearsals, checks, deviations.
#pragma once

#include <cstdint>
#include <optional>
#include <random>
#include <string>
#include <unordered_map>
#include <vector>

#include "desk/lab/asked.h"
#include "desk/lab/index_of.h"
#include "records/store.h"
#include "tests/store/kept_by_desk.h"

namespace heatwork::store_proof {

records::Opening opening_of_many(records::IndexOf index_of = desk::index_of);

/// 50 furnaces and 10 years at 1.5 million firings; fewer firings are fewer furnaces over fewer years, as busy as those.
class ManyYears {
 public:
  ManyYears(std::int64_t firings, std::uint64_t seed);

  /// The next changes at one stroke, some 500 documents; none when the years are over.
  std::optional<records::Change> next();
  /// What rehearsing a firing of three pieces and keeping it keeps.
  records::Change one_firing(int number);
  /// What a document of the changes made last is found by, known without reading it.
  [[nodiscard]] records::Index index_of(const records::Document& document) const;

  [[nodiscard]] std::int64_t firings() const { return done_; }
  [[nodiscard]] int furnaces() const { return furnaces_; }
  [[nodiscard]] std::int64_t end_ms() const;
  static constexpr std::int64_t begin_ms = 1'450'000'000'000;

 private:
  void add(records::Change& change, const OpenDocument& open, const std::string& id, int after, const char* action);
  void begin(records::Change& change);
  void new_lot(records::Change& change, bool powder);
  void new_case(records::Change& change);
  void fire(records::Change& change, std::size_t pieces, int round);
  void check_furnace(records::Change& change, std::size_t furnace);
  void change_program(records::Change& change, std::size_t program);
  void choose_furnace_and_program();
  [[nodiscard]] std::string day_after(int days) const;
  [[nodiscard]] std::int64_t now_ms() const;
  std::uint64_t draw(std::uint64_t below) { return random_() % below; }

  std::int64_t wanted_, done_ = 0, cases_ = 0, checks_ = 0;
  std::int64_t lots_[2] = {0, 0};  ///< of water, of powder
  int furnaces_ = 1;
  bool begun_ = false;
  std::mt19937_64 random_;
  const KeptByDesk& kept_by_desk_;
  Fillings with_;  ///< what the places hold just now
  std::unordered_map<std::string, records::Index> indexes_;
  std::vector<int> furnace_versions_;
  std::vector<int> program_versions_;
};

/// Every question a lab must have answered in one command, by its name.
std::vector<std::string> questions();
/// Asks one of them as desk answers it, of something that stands; how many rows it has, of which the first page is answered.
std::int64_t ask(const desk::AskedLab& lab, const std::string& question, int furnaces, std::int64_t end_ms);

}  // namespace heatwork::store_proof
