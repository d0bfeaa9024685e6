// A file layer under SQLite that remembers what was not synced yet, and at a power cut forgets it: all, none, or some sectors of it.
#pragma once

#include <cstdint>
#include <filesystem>
#include <map>
#include <mutex>
#include <optional>
#include <random>
#include <string>
#include <vector>

namespace heatwork::store_proof {

/// Becomes SQLite's default file layer when made, until it goes. It writes to the machine's own files, so that whoever looks at them
/// sees them as they are while the power is on; what would be left of them after a cut it knows by itself. Syncs reach no disk.
class ForgettingDisk {
 public:
  ForgettingDisk();
  ~ForgettingDisk();
  ForgettingDisk(const ForgettingDisk&) = delete;
  ForgettingDisk& operator=(const ForgettingDisk&) = delete;

  /// From now on files are watched, and after so many writes, syncs, truncations and deletions the power is gone: everything fails.
  void watch(std::int64_t until);
  /// The power is gone now, if it is not gone already.
  void cut();
  [[nodiscard]] bool dark() const { return dark_; }

  struct Left {
    std::int64_t sectors = 0;    ///< not synced at the cut
    std::int64_t forgotten = 0;  ///< of them
  };
  /// Writes into a folder what the cut left of each file, by its name, and forgets all about the files: each sector not synced is there
  /// with this chance.
  Left leave(const std::filesystem::path& folder, double chance, std::mt19937_64& random);

  // What the file layer tells.
  struct File {
    std::string synced;                 ///< bytes that survive for sure
    bool name_synced = false;           ///< the file's name survives for sure
    bool gone = false;                  ///< deleted, and the deletion not synced
    std::optional<std::string> before;  ///< bytes of a deleted file of the same name that may be back
    struct Step {
      std::int64_t at = 0;
      std::string bytes;
      bool truncation = false;
    };
    std::vector<Step> steps;  ///< since the last sync
  };
  /// False: the power is gone.
  bool step();
  void opened(const std::string& path, bool made);
  void wrote(const std::string& path, std::int64_t at, std::string_view bytes);
  void truncated(const std::string& path, std::int64_t size);
  void synced(const std::string& path);
  void deleted(const std::string& path, bool for_sure);

 private:
  std::map<std::string, File> files_;
  std::int64_t until_ = -1;
  bool watching_ = false, dark_ = false;
};

}  // namespace heatwork::store_proof
