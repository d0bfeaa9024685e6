#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>

#include "records/inside.h"
#include "records/store_error.h"
#include "tests/store/forgetting_disk.h"
#include "tests/store/mixed_load.h"
#include "tests/store/test_store.h"

namespace heatwork::store_proof {
namespace {

namespace fs = std::filesystem;

/// Stores whose power is cut, again and again, each time going on with what was left.
class PowerCuts : public testing::Test {
 protected:
  void SetUp() override {
    folder_ = fs::temp_directory_path() / ("heatwork-cuts-" + std::to_string(::getpid()));
    fs::remove_all(folder_);
    fs::create_directories(folder_ / "made");
    records::Store::open(address_in(folder_ / "made"), opening_to_load());
  }
  void TearDown() override { fs::remove_all(folder_); }

  [[nodiscard]] static records::Address address_in(const fs::path& folder) {
    return {records::Engine::sqlite, (folder / "lab.sqlite").string()};
  }

  /// One load until the power goes; what it leaves stands in a folder of its own.
  void load_until_dark(const fs::path& from, const fs::path& to, bool sync) {
    disk_.watch(static_cast<std::int64_t>(random_() % 900));
    try {
      records::Store store = records::Store::open(address_in(from), opening_to_load());
      // Often enough that many cuts fall into the moments in which the log is written into the file.
      store.inside().run(random_() % 2 == 0 ? "pragma wal_autocheckpoint = 20" : "pragma wal_autocheckpoint = 150");
      if (!sync) store.inside().run("pragma synchronous = off");
      MixedLoad load(store, random_(), std::to_string(++runs_), Wrong::nothing, [&](const KeptLine& line) { kept_.push_back(line); });
      for (int i = 0; i < 150; ++i) load.step();
      disk_.cut();
    } catch (const records::StoreError&) {
      if (!disk_.dark()) throw;
    }
    disk_.cut();
    fs::create_directories(to);
    constexpr double chances[] = {0, 0.3, 0.7, 0.97, 1};
    const auto left = disk_.leave(to, chances[random_() % 5], random_);
    forgot_ += left.forgotten > 0;
  }

  /// The first cut that left anything wrong, with what.
  std::vector<std::string> cut(int cuts, bool sync) {
    fs::path from;
    for (done_ = 0; done_ < cuts; ++done_) {
      if (done_ % 10 == 0) {
        kept_.clear();
        if (!from.empty()) fs::remove_all(from);
        from = folder_ / ("begin-" + std::to_string(done_));
        fs::copy(folder_ / "made", from);
      }
      const fs::path to = folder_ / ("left-" + std::to_string(done_));
      const std::size_t before = kept_.size();
      load_until_dark(from, to, sync);
      all_kept_ += kept_.size() - before;
      fs::remove_all(from);
      from = to;
      try {
        records::Opening opening = opening_to_load();
        opening.make = false;
        records::Store store = records::Store::open(address_in(from), opening);
        if (const auto wrong = wrong_with(store, kept_); !wrong.empty()) return wrong;
      } catch (const records::StoreError& error) {
        return {error.what()};
      }
    }
    return {};
  }

  fs::path folder_;
  ForgettingDisk disk_;
  std::mt19937_64 random_{20251};
  std::vector<KeptLine> kept_;
  int done_ = 0, runs_ = 0, forgot_ = 0;
  std::size_t all_kept_ = 0;
};

TEST_F(PowerCuts, LoseNothingThatWasCalledKept) {
  const int cuts = long_run() ? 1000 : 60;
  const auto wrong = cut(cuts, true);
  EXPECT_TRUE(wrong.empty()) << "after " << done_ + 1 << " cuts: " << wrong.front();
  EXPECT_GT(forgot_, cuts / 3) << "the disk forgot too little to show anything";
  EXPECT_GT(all_kept_, static_cast<std::size_t>(cuts) * 10);
  figure_of(1, "power cuts of an SQLite store without loss", cuts, "cuts, " + std::to_string(forgot_) + " of them with sectors forgotten");
}

TEST_F(PowerCuts, AreNoticedWhereWritesAreNotSynced) {
  const auto wrong = cut(60, false);
  EXPECT_FALSE(wrong.empty()) << "60 cuts without syncs, and nothing was noticed";
}

}  // namespace
}  // namespace heatwork::store_proof
