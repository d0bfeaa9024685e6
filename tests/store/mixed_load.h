// A seeded mixture of what a lab keeps in a day, one change after another, and a check that all of it which was called kept is there.
#pragma once

#include <cstdint>
#include <functional>
#include <random>
#include <string>
#include <vector>

#include "records/store.h"

namespace heatwork::store_proof {

/// What the load calls kept, as its line says it: "kept KIND ID VERSION HASH SEQUENCE".
struct KeptLine {
  std::string kind, id;
  int version = 0;
  std::string hash;
  std::int64_t sequence = 0;

  [[nodiscard]] std::string text() const;
  /// False where the text is no such line.
  static bool read(const std::string& text, KeptLine& line);
};

/// Wrong on purpose, to show that the check finds it.
enum class Wrong {
  nothing,
  split,        ///< documents and trail in two transactions
  print_first,  ///< called kept before it is
};

/// Index of the load's documents, which are lines: "label", "state", "at", "use", "due", "with"; anything else is words.
records::Index index_of(const records::Document& document);

records::Opening opening_to_load();

class MixedLoad {
 public:
  using Say = std::function<void(const KeptLine&)>;
  /// run: told apart from all others on the same store by its names.
  MixedLoad(records::Store& store, std::uint64_t seed, std::string run, Wrong wrong, Say say);

  /// Keeps one more change and says what was kept. Errors: StoreError.
  void step();

 private:
  struct Open {
    std::string name;
    int version = 0;
    std::vector<std::string> pieces;
  };

  void keep(const records::Change& change);
  void keep_in_two(const records::Change& change);
  [[nodiscard]] std::vector<KeptLine> lines_of(const records::Change& change, std::int64_t newest) const;
  void new_case();
  void new_lot();
  void bench_step();
  void plan();
  void start();
  void end();
  void personal();
  void change_furnace();
  std::uint64_t draw(std::uint64_t below) { return random_() % below; }
  [[nodiscard]] std::string name(const std::string& kind);
  [[nodiscard]] std::string filler(std::uint64_t size);
  [[nodiscard]] int newest(const std::string& kind, const std::string& id);

  records::Store& store_;
  std::mt19937_64 random_;
  std::string run_;
  Wrong wrong_;
  Say say_;
  int number_ = 0;
  std::vector<std::string> pieces_, lots_;
  std::vector<Open> planned_, started_;
};

/// What is wrong with the store after all this was called kept, a sentence each: something missing or different, half a firing, or
/// what `verify` names.
std::vector<std::string> wrong_with(records::Store& store, const std::vector<KeptLine>& called_kept);

}  // namespace heatwork::store_proof
