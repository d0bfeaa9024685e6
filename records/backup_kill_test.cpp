#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <cstdint>
#include <cstdlib>
#include <random>
#include <thread>

#include "records/backup.h"
#include "records/copy_name.h"
#include "records/sample_store_for_tests.h"

namespace heatwork::records::for_tests {
namespace {

namespace fs = std::filesystem;

class BackupKillTest : public OnEachEngine {
 protected:
  /// A process that copies and restores over and over, until it is killed.
  [[noreturn]] void work_without_end(int round) const {
    Store store = Store::open(address_, opening());
    for (int number = 0;; ++number) {
      BackUpAsked asked;
      asked.folder = (folder_ / "copies").string();
      asked.index_of = toy_index;
      asked.keep = 3;
      const int second = (round * 100 + number) % 86'400;
      char time[40];
      std::snprintf(time, sizeof time, "2026-11-25T%02d:%02d:%02dZ", second / 3600, second / 60 % 60, second % 60);
      asked.now_utc = time;
      const BackUpMade made = back_up(store, asked);
      const std::string name = "restored-" + std::to_string(round) + "-" + std::to_string(number) + ".sqlite";
      restore(made.path, {Engine::sqlite, (folder_ / name).string()}, opening());
    }
  }

  /// How long one copy and its restoring take here and now, made for nothing in a folder of their own. [us]
  [[nodiscard]] std::uint64_t one_turn_us() const {
    const fs::path aside = folder_ / "aside";
    fs::create_directory(aside);
    const auto begun = std::chrono::steady_clock::now();
    Store store = Store::open(address_, opening());
    BackUpAsked asked;
    asked.folder = aside.string();
    asked.index_of = toy_index;
    asked.now_utc = "2026-11-25T00:00:00Z";
    restore(back_up(store, asked).path, {Engine::sqlite, (aside / "turn.sqlite").string()}, opening());
    return static_cast<std::uint64_t>(
        std::chrono::duration_cast<std::chrono::microseconds>(std::chrono::steady_clock::now() - begun).count());
  }

  void kill_at_random(int round, std::uint64_t within_us, std::mt19937_64& random) const {
    const pid_t child = ::fork();
    if (child == 0) {
      try {
        work_without_end(round);
      } catch (...) {
        ::_exit(1);
      }
    }
    std::this_thread::sleep_for(std::chrono::microseconds(random() % within_us));
    ::kill(child, SIGKILL);
    int status = 0;
    ::waitpid(child, &status, 0);
    EXPECT_TRUE(WIFSIGNALED(status)) << "it was to work until it was killed";
  }

  /// Whatever has a final name is a whole store.
  int prove(const fs::path& in, const std::string& begins) const {
    int found = 0;
    for (const auto& file : fs::directory_iterator(in)) {
      const std::string name = file.path().filename().string();
      if (!name.starts_with(begins) || !name.ends_with(".sqlite")) continue;
      Opening reading = opening();
      reading.read_only = true;
      Store store = Store::open({Engine::sqlite, file.path().string()}, reading);
      EXPECT_EQ(verify(store).wrong, std::vector<std::string>()) << name;
      ++found;
    }
    return found;
  }
};
HEATWORK_ON_EACH_ENGINE(BackupKillTest);

TEST_P(BackupKillTest, killed_in_the_midst_leaves_nothing_half_written_under_a_final_name) {
  {
    Store store = fresh();
    fill_sample(store, 40);
  }
  fs::create_directory(folder_ / "copies");
  const char* long_run = std::getenv("HEATWORK_LONG");
  const int rounds = long_run && *long_run == '1' ? 200 : 20;
  std::mt19937_64 random(20251);
  const std::uint64_t within_us = 3 * one_turn_us();
  for (int round = 0; round < rounds; ++round) kill_at_random(round, within_us, random);
  const int copies = prove(folder_ / "copies", "heatwork-"), restored = prove(folder_, "restored-");
  EXPECT_GT(copies, 0);
  EXPECT_GT(restored, 0);
  // What is left over is known as such, and goes a day later.
  BackUpAsked later;
  later.folder = (folder_ / "copies").string();
  later.index_of = toy_index;
  later.now_utc = "2036-11-25T00:00:00Z";
  Store store = fresh();
  back_up(store, later);
  for (const auto& file : fs::directory_iterator(folder_ / "copies")) {
    const std::string name = file.path().filename().string();
    EXPECT_TRUE(name.ends_with(".sqlite") || name.ends_with(".sqlite.txt")) << name;
  }
}

}  // namespace
}  // namespace heatwork::records::for_tests
