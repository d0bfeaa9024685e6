#include <fmt/format.h>

#include <filesystem>
#include <optional>
#include <system_error>

#include "records/backup.h"
#include "records/copy.h"
#include "records/durable.h"
#include "records/exchange.h"
#include "records/inside.h"
#include "records/network_folder.h"
#include "records/own_folder.h"

namespace heatwork::records {

namespace {

namespace fs = std::filesystem;

/// Copies the backup's file, with the log beside it where there is one; the backup itself is never written.
std::string copied_into(const OwnFolder& folder, const std::string& backup) {
  std::string copy = folder.file("store.sqlite");
  copy_whole(backup, copy);
  if (fs::exists(backup + "-wal")) copy_whole(backup + "-wal", copy + "-wal");
  return copy;
}

/// Opens it for writing, which brings it to the current format.
Store opened(const std::string& path, const Opening& opening) {
  Opening migrating = opening;
  migrating.read_only = migrating.make = false;
  return Store::open({Engine::sqlite, path}, migrating);
}

fs::path folder_for(const Address& to, const fs::path& file) {
  if (const auto network = network_file_system(file.string())) {
    throw StoreError(StoreProblem::network_folder,
                     fmt::format("{} lies on a file system of a network ({}), where a file is not safe from two "
                                 "writers; take a disk of this machine, or PostgreSQL.",
                                 to.shown(), *network));
  }
  std::error_code error;
  if (fs::symlink_status(file, error).type() != fs::file_type::not_found) {
    throw StoreError(StoreProblem::already_there,
                     fmt::format("Something stands at {} already; a backup is restored where nothing stands.", to.shown()));
  }
  fs::create_directories(file.parent_path(), error);
  if (error) throw StoreError(StoreProblem::refused, fmt::format("The folder of {} cannot be made: {}.", to.shown(), error.message()));
  return file.parent_path();
}

Copied told(Store& store, const Watch& watch) {
  Copied copied;
  copied.export_hash = export_hash(store, watch);
  const Status status = store.status();
  copied.documents = status.versions;
  copied.entries = status.entries;
  copied.head = status.head;
  return copied;
}

/// The file is copied beside where it will stand, proven there, and gets its name as the last thing.
Copied restore_to_file(const std::string& backup, const Address& to, const Opening& opening, const Watch& watch) {
  const fs::path file = fs::absolute(to.where).lexically_normal();
  const OwnFolder folder(folder_for(to, file));
  const std::string copy = copied_into(folder, backup);
  Copied copied;
  {
    Store store = opened(copy, opening);
    prove_whole(store, "The backup " + backup, watch);
    copied = told(store, watch);
    // What is still in the log beside it goes into the file, for it is the file alone that gets the name.
    store.inside().run("pragma wal_checkpoint(truncate)");
  }
  sync_file(copy);
  give_name(copy, file.string());
  return copied;
}

Copied restore_to_server(const std::string& backup, const Address& to, const Opening& opening, const Watch& watch) {
  const OwnFolder folder(fs::temp_directory_path());
  Store from = opened(copied_into(folder, backup), opening);
  prove_whole(from, "The backup " + backup, watch);
  NewStore made(to, opening);
  const ReadingView view(from.inside());
  Copied copied = copy_and_prove(from.inside(), made, watch);
  made.put_in_place();
  return copied;
}

}  // namespace

Copied restore(const std::string& backup, const Address& to, const Opening& opening, const Watch& watch) {
  std::error_code ignored;
  if (!fs::exists(backup, ignored)) throw StoreError(StoreProblem::no_store, fmt::format("There is no backup {}.", backup));
  return to.engine == Engine::sqlite ? restore_to_file(backup, to, opening, watch) : restore_to_server(backup, to, opening, watch);
}

}  // namespace heatwork::records
