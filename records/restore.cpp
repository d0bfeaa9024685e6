#include <fmt/format.h>
#include <stdlib.h>

#include <filesystem>
#include <optional>
#include <system_error>

#include "records/backup.h"
#include "records/copy.h"
#include "records/exchange.h"
#include "records/export_view.h"
#include "records/inside.h"

namespace heatwork::records {

namespace {

/// A folder of our own, gone with everything in it at the end.
class OwnFolder {
 public:
  explicit OwnFolder(const std::filesystem::path& in) : path_((in / "heatwork-restore-XXXXXX").string()) {
    if (::mkdtemp(path_.data()) == nullptr) {
      throw StoreError(StoreProblem::refused, fmt::format("No folder can be made in {}, where the backup is migrated.", in.string()));
    }
  }
  ~OwnFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  OwnFolder(const OwnFolder&) = delete;
  OwnFolder& operator=(const OwnFolder&) = delete;
  [[nodiscard]] std::string file(const char* name) const { return path_ + "/" + name; }

 private:
  std::string path_;
};

/// A backup that is open: as it is, or, where it is of an earlier format, a migrated copy of it. The backup itself is never written.
class Backup {
 public:
  Backup(const std::string& path, const Address& to, const Opening& opening) {
    Opening reading = opening;
    reading.read_only = true;
    reading.make = false;
    try {
      store_.emplace(Store::open({Engine::sqlite, path}, reading));
    } catch (const StoreError& error) {
      if (error.problem() != StoreProblem::too_old) throw;
      store_.emplace(migrated(path, to, opening));
    }
  }
  [[nodiscard]] Store& store() { return *store_; }

 private:
  Store migrated(const std::string& path, const Address& to, const Opening& opening) {
    const std::filesystem::path beside = std::filesystem::absolute(to.where).parent_path();
    folder_.emplace(to.engine == Engine::sqlite ? beside : std::filesystem::temp_directory_path());
    const std::string copy = folder_->file("store.sqlite");
    take_over(path, copy);
    // What the log beside it holds is part of the store.
    if (std::filesystem::exists(path + "-wal")) take_over(path + "-wal", copy + "-wal");
    Opening migrating = opening;
    migrating.read_only = migrating.make = false;
    return Store::open({Engine::sqlite, copy}, migrating);
  }

  static void take_over(const std::string& from, const std::string& to) {
    std::error_code error;
    if (std::filesystem::copy_file(from, to, error)) return;
    const bool full = error == std::errc::no_space_on_device || error == std::errc::file_too_large;
    throw StoreError(full ? StoreProblem::full : StoreProblem::refused,
                     fmt::format("{} cannot be copied to {}: {}.", from, to, error.message()));
  }

  std::optional<OwnFolder> folder_;  ///< outlives the store in it
  std::optional<Store> store_;
};

}  // namespace

Copied restore(const std::string& backup, const Address& to, const Opening& opening, const Watch& watch) {
  std::error_code ignored;
  if (!std::filesystem::exists(backup, ignored)) {
    throw StoreError(StoreProblem::no_store, fmt::format("There is no backup {}.", backup));
  }
  Backup from(backup, to, opening);
  prove_whole(from.store(), "The backup " + backup, watch);
  NewStore made(to, opening);
  const ReadingView view(from.store().inside());
  Copied copied = copy_and_prove(from.store().inside(), made, watch);
  made.put_in_place();
  return copied;
}

}  // namespace heatwork::records
